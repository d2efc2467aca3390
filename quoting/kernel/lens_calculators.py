"""The calculators of the bench, second part: the lens itself, its tolerances, its tint.

As in ``calculators``: what somebody types in, a list of numbers out, ValueError with one sentence where there is no
answer.  Powers D, prism in prism diopters, lengths mm, angles degrees, light in percent.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math

from quoting.kernel.center import surfaced_lens
from quoting.kernel.elementary import exp, ln
from quoting.kernel.outline import from_box
from quoting.kernel.power import axis_within, in_meridian, minus_form, spherical_equivalent
from quoting.kernel.surfaces import TOOL_INDEX, base_by_rule, true_power, vogel_base
from quoting.kernel.thickness import grind, rim_around
from quoting.kernel.tolerance import lens_tolerances, pair_tolerances
from quoting.kernel.worn import center_drop, compound_tilt, tilted_both

# ISO 12312-1, filter categories: above this much of the light, percent; a value on a boundary is of the darker one
CATEGORIES = [80.0, 43.0, 18.0, 8.0, 3.0]

# Optical density is a logarithm to the base of 10
LN10 = 2.302585092994046

# Wider than any blank, and a deeper dye than any bath gives
MOST_DIAMETER = 100.0
MOST_PARTS = 20.0


def thickness(
    sphere: float, cylinder: float, index: float, base: float, diameter: float, least_center: float, least_edge: float
) -> list[float]:
    """[center, thinnest edge, thickest edge] of a round uncut lens centered in its diameter, both faces exact.

    ``base`` is the front curve as it is marked at 1.530.   Raises ValueError where a surface ends inside the lens.

    >>> [round(value, 2) for value in thickness(-4.0, -1.0, 1.498, 4.0, 60.0, 2.0, 1.0)]
    [2.0, 6.02, 7.14]
    """
    if diameter < 1.0 or diameter > MOST_DIAMETER or index <= 1.0:
        raise ValueError("no lens has such a diameter or index")
    front = true_power(base, index)
    round_lens = from_box(diameter, diameter, diameter, "round")
    rim = rim_around(round_lens[0], round_lens[1], 0.0, 0.0)
    found = surfaced_lens(grind(sphere, cylinder, 180.0, front, 0.0, index), rim, least_center, least_edge)
    if found["center"] < 0.0:
        raise ValueError("with this curve and diameter a surface ends inside the lens")
    return [found["center"], found["edge_min"][0], found["edge_max"][0]]


def tilt(eye: str, sphere: float, cylinder: float, axis: float, index: float, panto: float, wrap: float) -> list[float]:
    """[sphere, cylinder, axis] that the eye meets through a tilted lens by Martin's formulas, the one tilt, the drop.

    The axis as written, in and out.   Raises ValueError for an eye not R or L.

    >>> [round(value, 2) for value in tilt("R", -6.0, 0.0, 180.0, 1.6, 0.0, 15.0)]
    [-6.13, -0.44, 90.0, 15.0, 0.0]
    """
    worn = tilted_both(sphere, cylinder, as_seen(eye, axis), panto, wrap, index)
    shown = minus_form(worn[0], worn[1], worn[2])
    return [shown[0], shown[1], as_seen(eye, shown[2]), compound_tilt(panto, wrap)[0], center_drop(panto)]


def as_seen(eye: str, axis: float) -> float:
    """An axis as written in the nasal frame, or back: mirrored for the left eye.   Raises ValueError as ``tilt``.

    >>> as_seen("R", 30.0), as_seen("L", 30.0), as_seen("L", 180.0)
    (30.0, 150.0, 180.0)
    """
    if eye == "R":
        return axis_within(axis)
    if eye == "L":
        return axis_within(180.0 - axis)
    raise ValueError("an eye is R or L")


def tolerance(standard: str, kind: str, sphere: float, cylinder: float, axis: float, add: float) -> list[float]:
    """[power, cylinder, axis, addition, vertical and horizontal prism of the pair, distance of the centers].

    For a pair of such lenses without ordered prism.   Raises ValueError for a standard not ansi or iso.

    >>> tolerance("ansi", "single-vision", -3.0, 0.0, 180.0, 0.0)
    [0.13, 0.13, 90.0, 0.12, 0.33, 0.75, 2.5]
    """
    one = lens_tolerances(standard, kind, sphere, cylinder, add)
    up = in_meridian(sphere, cylinder, axis_within(axis), 90.0)
    across = in_meridian(sphere, cylinder, axis_within(axis), 180.0)
    pair = pair_tolerances(standard, kind, up, across, [0.0, 0.0])
    return [one[0], one[1], one[2], one[3], pair[0], pair[1], pair[2]]


def base_curve(sphere: float, cylinder: float, index: float, low: float, high: float) -> list[float]:
    """[Vogel's curve, the curve to take, its power in this material, its radius]; curves as marked at 1.530.

    ``low`` and ``high``: the curves the design is made on.   Raises ValueError where they are not in that order.

    >>> [round(value, 2) for value in base_curve(-4.0, 0.0, 1.6, 0.5, 8.0)]
    [4.0, 4.0, 4.53, 132.5]
    """
    if low > high:
        raise ValueError("the flattest curve must not be above the steepest")
    mean = spherical_equivalent(sphere, cylinder)
    vogel = vogel_base(mean)
    taken = base_by_rule(mean, low, high, vogel)
    if taken <= 0.0:
        raise ValueError("a flat front has no radius")
    return [vogel, taken, true_power(taken, index), 1000.0 * (TOOL_INDEX - 1.0) / taken]


def category(percent: float) -> float:
    """Filter category 0 to 4 of this much light, percent; 5 for less than category 4 lets through.

    >>> category(80.0), category(80.1), category(18.0), category(3.0)
    (1.0, 0.0, 3.0, 5.0)
    """
    found = 0.0
    for bound in CATEGORIES:
        if percent <= bound:
            found = found + 1.0
    return found


def tint_density(absorption: float, parts: float, base_absorption: float) -> list[float]:
    """[light through, absorption, optical density, category] of a dye taken so many times as deep, on a lens.

    ``absorption``: of the dye at depth 1; ``base_absorption``: of the lens itself, both percent.  Beer and Lambert:
    the light through is that at depth 1 to the power of the depth.  Of one density for all colors: real dyes are not.
    Raises ValueError where nothing comes through, and for a depth below 0 or above 20.

    >>> [round(value, 2) for value in tint_density(50.0, 2.0, 0.0)]
    [25.0, 75.0, 0.6, 2.0]
    """
    if parts < 0.0 or parts > MOST_PARTS:
        raise ValueError("no dye is taken so deep")
    dye = 1.0 - absorption / 100.0
    lens = 1.0 - base_absorption / 100.0
    if dye <= 0.0 or lens <= 0.0:
        raise ValueError("something must come through to be measured")
    through = 100.0 * lens * exp(parts * ln(dye))
    return [through, 100.0 - through, (ln(100.0) - ln(through)) / LN10, category(through)]


def parts_for(absorption: float, target: float) -> list[float]:
    """[depth] to which a dye must be taken for a wanted absorption, both percent, by Beer and Lambert.

    Raises ValueError for a dye that takes nothing or everything, and for a target of everything.

    >>> [round(value, 2) for value in parts_for(50.0, 75.0)]
    [2.0]
    """
    if absorption <= 0.0 or absorption >= 100.0 or target >= 100.0 or target < 0.0:
        raise ValueError("a dye takes more than nothing and less than everything")
    depth = ln(1.0 - target / 100.0) / ln(1.0 - absorption / 100.0)
    return [math.floor(depth * 10000.0 + 0.5) / 10000.0]
