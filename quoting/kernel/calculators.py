"""The calculators of the bench, first part: powers, prism, and where things lie.

Each takes what somebody types and gives a list of numbers, in the order that the table of calculators names them.  They
put together what other modules compute, and say in one sentence (ValueError) where there is no answer.  Powers D, prism
in prism diopters, lengths mm, angles degrees; axes and bases as written, seen facing the wearer.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math

from quoting.kernel.layout import (
    STOP_MM,
    blank_by_rule,
    blank_exact,
    decentration_in,
    decentration_up,
    near_inset,
    near_pd,
)
from quoting.kernel.outline import effective_diameter_limits, farthest, from_box
from quoting.kernel.power import (
    at_vertex_both,
    axis_within,
    components,
    crossed,
    minus_form,
    prentice,
    resultant,
    spherical_equivalent,
    transposed,
)
from quoting.kernel.prism import seen


def rounded(value: float, places: int) -> float:
    """The value with so many decimals, six at most, halves away from zero and no signed zero: as it is shown.

    >>> rounded(0.125, 2), rounded(-0.125, 2), rounded(-0.004, 2), rounded(2.675, 2)
    (0.13, -0.13, 0.0, 2.68)
    """
    scale = 1.0
    for i in range(6):
        if i < places:
            scale = scale * 10.0
    whole = math.floor(abs(value) * scale + 0.5 + 0.000000001)
    if whole == 0:
        return 0.0
    if value < 0.0:
        return 0.0 - whole / scale
    return whole / scale


def transposition(sphere: float, cylinder: float, axis: float) -> list[float]:
    """[sphere, cylinder, axis] in the other notation, and the mean power.

    >>> transposition(-2.25, -0.75, 10.0)
    [-3.0, 0.75, 100.0, -2.625]
    """
    other = transposed(sphere, cylinder, axis)
    return [other[0], other[1], axis_within(other[2]), spherical_equivalent(sphere, cylinder)]


def crossing(
    sphere: float, cylinder: float, axis: float, other_sphere: float, other_cylinder: float, other_axis: float
) -> list[float]:
    """[sphere, cylinder, axis] of two lenses held together, in minus-cylinder notation.

    >>> [round(value, 2) for value in crossing(1.0, 2.0, 90.0, 0.0, -1.0, 180.0)]
    [3.0, -3.0, 180.0]
    """
    both = crossed([sphere, cylinder, axis], [other_sphere, other_cylinder, other_axis])
    return minus_form(both[0], both[1], both[2])


def vertex(sphere: float, cylinder: float, axis: float, from_mm: float, to_mm: float) -> list[float]:
    """[sphere, cylinder, axis] that does the same at another vertex distance.

    Raises ValueError where the image falls on the new plane.

    >>> [round(value, 2) for value in vertex(-10.0, 0.0, 180.0, 12.0, 0.0)]
    [-8.93, 0.0, 180.0]
    """
    moved = (from_mm - to_mm) / 1000.0
    if moved * sphere >= 1.0 or moved * (sphere + cylinder) >= 1.0:
        raise ValueError("at that distance the image falls on the new plane or before it")
    return at_vertex_both(sphere, cylinder, axis_within(axis), from_mm - to_mm)


def prentice_rule(eye: str, sphere: float, cylinder: float, axis: float, in_mm: float, up_mm: float) -> list[float]:
    """[in, up, amount, base] of the prism where the optical center lies so far in and up from the line of sight.

    Base in and up are positive; the base in degrees from 0 up to 360.   Raises ValueError for an eye not R or L.

    >>> prentice_rule("R", -4.0, -2.0, 90.0, 3.0, 2.0)[:2], prentice_rule("L", 2.0, 0.0, 180.0, 5.0, 0.0)
    ([-1.8, -0.8], [1.0, 0.0, 1.0, 180.0])
    """
    across = seen(eye, in_mm)
    found = prentice(sphere, cylinder, axis, across, up_mm)
    whole = resultant(found[0], found[1])
    return [seen(eye, found[0]), found[1], whole[0], whole[1]]


def prism_combine(amount: float, base: float, other_amount: float, other_base: float) -> list[float]:
    """[amount, base, across, up] of two prisms together; across is positive to the observer's right.

    >>> [round(value, 2) for value in prism_combine(3.0, 0.0, 4.0, 90.0)]
    [5.0, 53.13, 3.0, 4.0]
    """
    one = components(amount, base)
    other = components(other_amount, other_base)
    whole = resultant(one[0] + other[0], one[1] + other[1])
    return [whole[0], whole[1], one[0] + other[0], one[1] + other[1]]


def prism_resolve(eye: str, amount: float, base: float) -> list[float]:
    """[in, up] of a prism by amount and base; base in and up are positive.

    Raises ValueError for an eye not R or L.

    >>> prism_resolve("R", 2.0, 180.0), prism_resolve("L", 2.0, 180.0)
    ([-2.0, 0.0], [2.0, 0.0])
    """
    part = components(amount, base)
    return [seen(eye, part[0]), part[1]]


def near_distance(pd: float, working_mm: float, power: float) -> list[float]:
    """[near PD, inset of each lens] for a distance from the lens, through this power in the horizontal meridian.

    Raises ValueError where so strong a plus lens shows no point at that distance.

    >>> [round(value, 2) for value in near_distance(63.0, 400.0, 0.0)]
    [59.02, 1.99]
    """
    if working_mm * (1.0 / STOP_MM - power / 1000.0) <= 0.0:
        raise ValueError("through so strong a lens nothing is seen at that distance")
    return [near_pd(pd, working_mm, power), near_inset(pd / 2.0, working_mm, power)]


def blank(
    a: float, b: float, dbl: float, ed: float, family: str, pd: float, height: float, allowance: float
) -> list[float]:
    """[decentration in, up, blank by the outline, blank by the rule of thumb] for one eye's own PD and height.

    The outline is that of a shape family, estimated from A, B and ED.   Raises ValueError where no outline has that ED.

    >>> [round(value, 2) for value in blank(52.0, 38.0, 18.0, 55.0, "panto", 31.5, 20.0, 2.0)]
    [3.5, 1.0, 62.74, 64.28]
    """
    limits = effective_diameter_limits(a, b, family)
    if ed < limits[0] or ed > limits[1]:
        raise ValueError("no lens of that shape, width and height has that effective diameter")
    inward = decentration_in(a, dbl, pd)
    upward = decentration_up(b, height)
    outline = from_box(a, b, ed, family)
    return [
        inward,
        upward,
        blank_exact(farthest(outline[0], outline[1], inward, upward), allowance),
        blank_by_rule(ed, inward, upward, allowance),
    ]
