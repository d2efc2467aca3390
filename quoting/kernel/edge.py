"""Where the edge of a lens is thinnest and where it is thickest, also between the points of its outline.

A minus lens is thinner in the middle of a side than at its ends, by some 0.1 mm on the longest.
Spots are [thickness, x, y], mm, from the reference point in the nasal frame.  A ``sign`` of 1 asks for the thinnest,
-1 for the thickest.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.records import Grind, Rim
from quoting.kernel.surfaces import front_curvature
from quoting.kernel.thickness import LONGEST_MM, greatest_at, least_at, thickness_behind

# The part of a side to either hand at which a second parabola is laid through its thinnest place
BESIDE = 0.03125


def more_extreme(one: list[float], other: list[float], sign: float) -> list[float]:
    """The thinner (sign 1) or thicker (sign -1) of two spots; the first where they are equal.

    >>> more_extreme([2.0, 0.0, 0.0], [1.0, 5.0, 0.0], 1.0), more_extreme([2.0, 0.0, 0.0], [1.0, 5.0, 0.0], -1.0)
    ([1.0, 5.0, 0.0], [2.0, 0.0, 0.0])
    """
    if (other[0] - one[0]) * sign < 0.0:
        return other
    return one


def turn_of_parabola(first: float, half: float, last: float) -> float:
    """Where along the way 0..1 a parabola through first, half and last value is least; 0 where at either end.

    >>> turn_of_parabola(1.0, 0.0, 1.0), turn_of_parabola(0.0, 1.0, 4.0)
    (0.5, 0.0)
    """
    bend = 2.0 * (first + last - 2.0 * half)
    slope = last - first - bend
    if bend <= 0.0 or slope >= 0.0 or 0.0 - slope >= 2.0 * bend:
        return 0.0
    return (0.0 - slope) / (2.0 * bend)


def along_side(lens: Grind, back: list[float], center: float, side: list[float], part: float) -> list[float]:
    """The spot at this part of a side, which is [x, y, dx, dy]."""
    x = side[0] + side[2] * part
    y = side[1] + side[3] * part
    return [thickness_behind(lens, back, center, x, y), x, y]


def turn_on_side(
    lens: Grind, back: list[float], center: float, side: list[float], ends: list[float], sign: float
) -> list[float]:
    """The most extreme spot of a side [x, y, dx, dy] that is ``ends`` thick at its ends, by two parabolas in turn.

    >>> from quoting.kernel.thickness import back_surface, grind
    >>> lens = grind(-5.0, 0.0, 180.0, 0.0, 0.0, 1.5)
    >>> side = [-8.0, 60.0, 16.0, 0.0]
    >>> [round(value, 6) for value in turn_on_side(lens, back_surface(lens, 1.0), 1.0, side, [22.0, 22.0], 1.0)]
    [21.0, 0.0, 60.0]
    """
    half = along_side(lens, back, center, side, 0.5)[0]
    part = turn_of_parabola(ends[0] * sign, half * sign, ends[1] * sign)
    found = along_side(lens, back, center, side, part)
    if part <= BESIDE or part >= 1.0 - BESIDE:
        return found
    before = along_side(lens, back, center, side, part - BESIDE)[0]
    after = along_side(lens, back, center, side, part + BESIDE)[0]
    within = turn_of_parabola(before * sign, found[0] * sign, after * sign)
    return along_side(lens, back, center, side, part + BESIDE * (2.0 * within - 1.0))


def most_bend(lens: Grind, back: list[float], sign: float) -> float:
    """What the thickness can bend at most along a side, 1/mm: twice as much as at the center, for sags bend outward.

    Not above 0 where no side can be more extreme between its ends, since one surface is more curved all over.

    >>> from quoting.kernel.thickness import back_surface, grind
    >>> lens = grind(-3.0, 0.0, 180.0, 5.0, 0.0, 1.5)
    >>> [round(most_bend(lens, [0.016, 0.018, 1.0, 0.0], sign), 9) for sign in (1.0, -1.0)]
    [0.016, -0.012]
    """
    front = front_curvature(lens["front"], lens["index"])
    bent = back[0]
    if (back[1] - back[0]) * sign > 0.0:
        bent = back[1]
    if lens["conic"] != 0.0:
        return 2.0 * (abs(bent) + abs(front))
    return 2.0 * (bent - front) * sign


def extreme_on_rim(
    lens: Grind, back: list[float], center: float, rim: Rim, thick: list[float], sign: float
) -> list[float]:
    """The most extreme spot of the outline, also between its points; there must be any.

    ``thick`` are the thicknesses at the points; no side is longer than LONGEST_MM, as rim_around gives it.  A parabola
    that bends by b over a side of length l goes at most b·l²/8 beyond its ends.
    """
    xs = rim["xs"]
    ys = rim["ys"]
    first = least_at(thick)
    if sign < 0.0:
        first = greatest_at(thick)
    found = [thick[first], xs[first], ys[first]]
    eighth = most_bend(lens, back, sign) / 8.0
    if eighth <= 0.0:
        return found
    near = eighth * LONGEST_MM * LONGEST_MM
    last = len(thick) - 1
    before = (thick[last] - thick[first]) * sign
    for i in range(len(thick)):
        here = (thick[i] - thick[first]) * sign
        if here < near or before < near:
            dx = xs[i] - xs[last]
            dy = ys[i] - ys[last]
            beyond = eighth * (dx * dx + dy * dy)
            if here < beyond or before < beyond:
                side = [xs[last], ys[last], dx, dy]
                spot = turn_on_side(lens, back, center, side, [thick[last], thick[i]], sign)
                found = more_extreme(found, spot, sign)
        before = here
        last = i
    return found
