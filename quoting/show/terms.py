"""The trade's words for what shop files and the engine choose among by a name of their own.

Terms: ISO 13666 for kinds of lenses, ISO 8624 and ISO 7998 for frames (from memory).
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.languages import _, in_context, marked

# The kinds in the order in which customers ask for them
KINDS = marked({
    "single-vision": "Single vision",
    "anti-fatigue": "Anti-fatigue",
    "progressive": "Progressive",
    "bifocal": "Bifocal",
})  # fmt: skip
MOUNTINGS = marked({
    "full-rim-plastic": "full-rim plastic",
    "full-rim-metal": "full-rim metal",
    "semi-rimless": "semi-rimless",
    "drilled": "drilled rimless",
})  # fmt: skip
FAMILIES = marked({
    "round": "round",
    "oval": "oval",
    "panto": "panto",
    "rectangle": "rectangle",
    "square": "square",
    "pilot": "pilot",
    "cat-eye": "cat-eye",
    "trapezoid": "trapezoid",
})  # fmt: skip
LIGHTS = marked({
    "clear": in_context("a lens", "clear"),
    "photochromic": in_context("a lens", "photochromic"),
    "polarized": in_context("a lens", "polarized"),
})  # fmt: skip
STOCKS = marked({
    "in-stock": "In stock",
    "to-order": "To order",
    "sold-out": "Sold out",
})  # fmt: skip
# Where on an outline the engine found an edge, see `quoting.kernel.thickness.place`
PLACES = marked({
    "upper nasal": "upper nasal",
    "top": in_context("of a lens", "top"),
    "upper temporal": "upper temporal",
    "temporal": "temporal",
    "lower temporal": "lower temporal",
    "bottom": in_context("of a lens", "bottom"),
    "lower nasal": "lower nasal",
    "nasal": "nasal",
})  # fmt: skip
VERDICTS = marked({
    "fits": "fits",
    "caution": "fits, with a caution",
    "no": "does not fit",
})  # fmt: skip
FOLDERS = marked({
    "combinations": "Combinations",
    "guides": "Guides",
})  # fmt: skip


def kind(name: str) -> str:
    """What a lens is for."""
    return _(KINDS[name])


def mounting(name: str) -> str:
    """How a frame holds its lenses."""
    return _(MOUNTINGS[name])


def family(name: str) -> str:
    """The shape of a frame."""
    return _(FAMILIES[name])


def light(name: str) -> str:
    """What a lens does with light."""
    return _(LIGHTS[name])


def stock(name: str) -> str:
    """Whether a colorway is at hand."""
    return _(STOCKS[name])


def place(name: str) -> str:
    """A place on the edge of a lens."""
    return _(PLACES[name])


def verdict(name: str) -> str:
    """Whether a lens fits."""
    return _(VERDICTS[name])


def part(name: str) -> str:
    """A part of the site that holds prose."""
    return _(FOLDERS[name])
