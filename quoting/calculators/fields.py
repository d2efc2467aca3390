"""Fields that several calculators have, within what any lens, frame or eye can be."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.calculators.model import Field

EYES = ("R", "L")
FAMILIES = ("round", "oval", "panto", "rectangle", "square", "pilot", "cat-eye", "trapezoid")
DESIGNS = ("single-vision", "anti-fatigue", "bifocal", "progressive", "occupational")
STANDARDS = ("ansi", "iso")


def eye() -> Field:
    return Field("eye", "eye", "word", "R", words=EYES)


def sphere(default: float = -4.0, name: str = "sphere") -> Field:
    return Field(name, name.replace("-", " "), "power", default, -30.0, 30.0)


def cylinder(default: float = -1.0, name: str = "cylinder") -> Field:
    return Field(name, name.replace("-", " "), "power", default, -15.0, 15.0)


def axis(default: float = 180.0, name: str = "axis") -> Field:
    return Field(name, name.replace("-", " "), "axis", default, 1.0, 180.0)


def index() -> Field:
    return Field("index", "index of the material", "index", 1.498, 1.4, 2.0)


def length(name: str, label: str, default: float, low: float, high: float) -> Field:
    return Field(name, label, "mm", default, low, high)


def angle(name: str, label: str, default: float, high: float) -> Field:
    return Field(name, label, "angle", default, 0.0, high)


def prism(name: str, label: str, default: float) -> Field:
    return Field(name, label, "prism", default, 0.0, 30.0)


def percent(name: str, label: str, default: float, high: float = 99.9) -> Field:
    return Field(name, label, "percent", default, 0.0, high)
