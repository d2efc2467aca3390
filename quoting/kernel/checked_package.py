"""Is this a lens package at all?  Its material, its design, its ranges and charts, held to what they can mean."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.bounds import (
    BEYOND,
    LEAST_INDEX,
    LEAST_MM,
    MOST_BASE,
    MOST_CENTER_MM,
    MOST_CENTS,
    MOST_INDEX,
    MOST_MM,
    MOST_POWER,
    hold,
)
from quoting.kernel.records import Package, Reason, Step
from quoting.kernel.rules import say


def known_words(pack: Package, reasons: list[Reason]) -> None:
    """Kind and light are words that the rules know."""
    kind = pack["kind"]
    light = pack["light"]
    if kind != "single-vision" and kind != "anti-fatigue" and kind != "progressive" and kind != "bifocal":
        say(reasons, "unknown-word", "no", "B", 1.0, 0.0)
    if light != "clear" and light != "photochromic" and light != "polarized":
        say(reasons, "unknown-word", "no", "B", 1.0, 0.0)


def material_faults(pack: Package, reasons: list[Reason]) -> None:
    """The material and the design of a package."""
    hold(reasons, "impossible-material", "B", pack["index"], LEAST_INDEX, MOST_INDEX)
    hold(reasons, "impossible-material", "B", pack["density"], LEAST_MM, 20.0)
    hold(reasons, "impossible-material", "B", pack["tint_depth"], 0.0, 100.0)
    hold(reasons, "impossible-material", "B", pack["transmittance"], 0.0, 100.0)
    hold(reasons, "impossible-material", "B", pack["darkened"], 0.0, 100.0)
    hold(reasons, "impossible-material", "B", pack["min_center"], LEAST_MM, MOST_CENTER_MM)
    hold(reasons, "impossible-design", "B", pack["min_height"], 0.0, MOST_MM)
    hold(reasons, "impossible-design", "B", pack["min_above"], 0.0, MOST_MM)
    hold(reasons, "impossible-design", "B", pack["boost"], 0.0, 10.0)
    hold(reasons, "impossible-design", "B", pack["conic"], 0.0 - 20.0, 20.0)
    hold(reasons, "impossible-design", "B", pack["base_from"], 0.0, MOST_BASE)
    hold(reasons, "impossible-design", "B", pack["base_to"], pack["base_from"], MOST_BASE)
    hold(reasons, "impossible-design", "B", pack["prism"], 0.0, MOST_POWER)


def chart_faults(chart: list[Step], least: float, most: float, reasons: list[Reason]) -> None:
    """A chart of base curves or center thicknesses."""
    for step in chart:
        hold(reasons, "impossible-chart", "B", step["low"], 0.0 - MOST_POWER, MOST_POWER)
        hold(reasons, "impossible-chart", "B", step["high"], step["low"], MOST_POWER)
        hold(reasons, "impossible-chart", "B", step["value"], least, most)


def range_faults(pack: Package, reasons: list[Reason]) -> None:
    """The powers that a package is made in, and its charts and prices over them."""
    code = "impossible-ranges"
    hold(reasons, code, "B", len(pack["ranges"]), 1.0, BEYOND)
    for part in pack["ranges"]:
        hold(reasons, code, "B", part["low"], 0.0 - MOST_POWER, MOST_POWER)
        hold(reasons, code, "B", part["high"], part["low"], MOST_POWER)
        hold(reasons, code, "B", part["cylinder"], 0.0, MOST_POWER)
        hold(reasons, code, "B", part["add_from"], 0.0, 10.0)
        hold(reasons, code, "B", part["add_to"], part["add_from"], 10.0)
        hold(reasons, code, "B", part["diameter"], LEAST_MM, MOST_MM)
        hold(reasons, code, "B", part["near_from"], 0.0 - MOST_POWER, MOST_POWER)
        hold(reasons, code, "B", part["near_to"], part["near_from"], MOST_POWER)
    chart_faults(pack["curves"], 0.0, MOST_BASE, reasons)
    chart_faults(pack["centers"], LEAST_MM, MOST_CENTER_MM, reasons)
    for band in pack["prices"]:
        hold(reasons, "impossible-chart", "B", band["low"], 0.0 - MOST_POWER, MOST_POWER)
        hold(reasons, "impossible-chart", "B", band["high"], band["low"], MOST_POWER)
        hold(reasons, "impossible-money", "B", band["cents"], 0, MOST_CENTS)
