"""Whether a lens cut for one frame goes into another: two outlines laid over each other, and what holds them.

The outlines are moved over each other (not turned: the axis of a cut lens stands) until the largest radial gap is as
small as it gets.  Source of the limits: common practice, as no standard says how well a cut lens must sit.  Outlines
in the nasal frame, mm; gaps are positive where the rim is wider than the lens.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math

from quoting.kernel.elementary import angle_deg, cos_deg, sin_deg
from quoting.kernel.outline import perimeter
from quoting.kernel.rules import grid

# (practice) a bevel gives as much before a lens rattles or springs the rim; a circumference twice its half a millimeter
GAP_MM = 0.3
CIRCUMFERENCE_MM = 0.5

# (practice) beyond this nobody files a lens to fit, nor wraps it
FAR_GAP_MM = 1.5
FAR_CIRCUMFERENCE_MM = 3.0

# (practice) a lens goes into a rim whose curve is within a diopter of its own; beyond two it springs out
CURVE_D = 1.0
FAR_CURVE_D = 2.0

# Directions in which gaps are measured, and how finely the shift is sought, mm
WAYS = 120
FIRST_STEP_MM = 0.4
LAST_STEP_MM = 0.01
MOST_ROUNDS = 200

# A corner that a ray goes through lies on one of its two sides at least, but for the last bits of a float: that much of
# its length, a side goes on beyond its end
HAIR = 0.000000001

# The eight ways in which the shift is sought
SIDEWAYS = [1.0, 1.0, 0.0, -1.0, -1.0, -1.0, 0.0, 1.0]
UPWARD = [0.0, 1.0, 1.0, 1.0, 0.0, -1.0, -1.0, -1.0]


def radii_from(xs: list[float], ys: list[float], x: float, y: float) -> list[float]:
    """Distance of an outline from a point inside in WAYS directions, counter-clockwise from 0 degrees, mm.

    The outline runs counter-clockwise around the point; a direction that meets none of its sides has 0.

    >>> found = radii_from([10.0, -10.0, -10.0, 10.0], [10.0, 10.0, -10.0, -10.0], 0.0, 0.0)
    >>> round(found[0], 6), round(found[15], 6)
    (10.0, 14.142136)
    """
    found: list[float] = []
    for _ in range(WAYS):
        found.append(0.0)
    last = len(xs) - 1
    for i in range(len(xs)):
        ax = xs[last] - x
        ay = ys[last] - y
        bx = xs[i] - x
        by = ys[i] - y
        last = i
        start = angle_deg(ax, ay)
        turn = angle_deg(bx, by) - start
        if turn < -180.0:
            turn += 360.0
        first = math.floor(start / 360.0 * WAYS)
        for k in range(first, first + math.floor(abs(turn) / 360.0 * WAYS) + 3):
            way = k - WAYS * (k // WAYS)
            c = cos_deg(360.0 * way / WAYS)
            s = sin_deg(360.0 * way / WAYS)
            along = (bx - ax) * s - (by - ay) * c
            if along == 0.0:
                continue
            part = (ay * c - ax * s) / along
            if part < 0.0 or part > 1.0 + HAIR:
                continue
            radius = (ax + part * (bx - ax)) * c + (ay + part * (by - ay)) * s
            if radius > found[way]:
                found[way] = radius
    return found


def greatest(lens: list[float], rim: list[float]) -> float:
    """The largest gap between two outlines, whichever is the wider, mm; both as radii from one point.

    >>> greatest([20.0, 21.0], [20.5, 20.8])
    0.5
    """
    most = 0.0
    for i in range(len(lens)):
        if abs(rim[i] - lens[i]) > most:
            most = abs(rim[i] - lens[i])
    return most


def aligned(xs: list[float], ys: list[float], rim_xs: list[float], rim_ys: list[float]) -> list[float]:
    """[largest gap, shift in, shift up] with the lens moved so that its largest gap is least, mm.

    >>> square = [10.0, -10.0, -10.0, 10.0]
    >>> up = [10.0, 10.0, -10.0, -10.0]
    >>> [round(value, 2) for value in aligned(square, up, [11.0, -9.0, -9.0, 11.0], up)]
    [0.0, 1.0, 0.0]
    """
    rim = radii_from(rim_xs, rim_ys, 0.0, 0.0)
    x = 0.0
    y = 0.0
    least = greatest(radii_from(xs, ys, 0.0, 0.0), rim)
    step = FIRST_STEP_MM
    for _ in range(MOST_ROUNDS):
        if step < LAST_STEP_MM:
            continue
        best = least
        best_x = x
        best_y = y
        for way in range(8):
            to_x = x + step * SIDEWAYS[way]
            to_y = y + step * UPWARD[way]
            gap = greatest(radii_from(xs, ys, 0.0 - to_x, 0.0 - to_y), rim)
            if gap < best:
                best = gap
                best_x = to_x
                best_y = to_y
        if best < least:
            least = best
            x = best_x
            y = best_y
        else:
            step = step / 2.0
    return [least, x, y]


def judged(value: float, good: float, bad: float) -> str:
    """What one number says: "yes" up to ``good``, "maybe" up to ``bad``, else "no".

    >>> judged(0.3, 0.3, 1.5), judged(0.31, 0.3, 1.5), judged(1.6, 0.3, 1.5)
    ('yes', 'maybe', 'no')
    """
    if grid(value) <= good:
        return "yes"
    if grid(value) <= bad:
        return "maybe"
    return "no"


def held_alike(mounting: str, other: str) -> str:
    """Whether two mountings hold a lens in the same way: a bevel, a groove, or holes.

    Holes are drilled for one frame: "no" for others and "maybe" for another drilled one.

    >>> held_alike("full-rim-metal", "full-rim-plastic"), held_alike("drilled", "drilled"), held_alike("drilled", "x")
    ('yes', 'maybe', 'no')
    """
    if mounting == "drilled" or other == "drilled":
        if mounting == other:
            return "maybe"
        return "no"
    if mounting == "semi-rimless" or other == "semi-rimless":
        if mounting == other:
            return "yes"
        return "no"
    return "yes"


def worse(one: str, other: str) -> str:
    """The worse of two verdicts.

    >>> worse("yes", "maybe"), worse("no", "yes"), worse("yes", "yes")
    ('maybe', 'no', 'yes')
    """
    if one == "no" or other == "no":
        return "no"
    if one == "maybe" or other == "maybe":
        return "maybe"
    return "yes"


def circumference_gap(xs: list[float], ys: list[float], rim_xs: list[float], rim_ys: list[float]) -> float:
    """How much longer the rim's outline is than the lens's, mm.

    >>> up = [1.0, 1.0, -1.0, -1.0]
    >>> circumference_gap([1.0, -1.0, -1.0, 1.0], up, [2.0, -1.0, -1.0, 2.0], up)
    2.0
    """
    return perimeter(rim_xs, rim_ys) - perimeter(xs, ys)


def verdict(gap: float, longer: float, curve: float, traced: bool, held: str) -> str:
    """Whether a lens goes: by gap, circumference and difference of curve; "yes" only where both outlines are traced.

    >>> verdict(0.2, -0.4, 0.5, True, "yes"), verdict(0.2, -0.4, 0.5, False, "yes"), verdict(2.0, 0.0, 0.0, True, "yes")
    ('yes', 'maybe', 'no')
    """
    found = worse(judged(gap, GAP_MM, FAR_GAP_MM), judged(abs(longer), CIRCUMFERENCE_MM, FAR_CIRCUMFERENCE_MM))
    found = worse(worse(found, judged(abs(curve), CURVE_D, FAR_CURVE_D)), held)
    if found == "yes" and not traced:
        return "maybe"
    return found
