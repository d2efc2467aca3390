"""A closed curve through given radii: the periodic cubic spline of the radius over the angle.

Between two radii the radius is a cubic of the angle; slope and bend run on without a step, also where the turn closes.
Source: de Boor, A Practical Guide to Splines, ch. IV (cubic spline interpolation, periodic ends); the closed system is
solved after Sherman and Morrison as in Press et al., Numerical Recipes, 2.7 (cyclic tridiagonal systems).

A curve is three lists of the same length: angles in degrees, rising from 0 on and less than a turn apart; radii in mm;
bends, which are the second derivatives there, in mm per square degree.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math

from quoting.kernel.elementary import cos_deg, sin_deg


def steps_between(angles: list[float]) -> list[float]:
    """Degrees from each angle to the next, the last one across the end of the turn.

    >>> steps_between([0.0, 90.0, 200.0])
    [90.0, 110.0, 160.0]
    """
    last = len(angles) - 1
    steps: list[float] = []
    for i in range(last):
        steps.append(angles[i + 1] - angles[i])
    steps.append(angles[0] + 360.0 - angles[last])
    return steps


def tridiagonal(side: list[float], middle: list[float], right: list[float]) -> list[float]:
    """Solution of a symmetric system: ``side[i]`` joins the unknowns i and i + 1.

    >>> tridiagonal([1.0, 0.0], [2.0, 2.0], [4.0, 5.0])
    [1.0, 2.0]
    """
    count = len(middle)
    pivots = [middle[0]]
    found = [right[0]]
    for i in range(1, count):
        share = side[i - 1] / pivots[i - 1]
        pivots.append(middle[i] - share * side[i - 1])
        found.append(right[i] - share * found[i - 1])
    found[count - 1] = found[count - 1] / pivots[count - 1]
    for k in range(count - 1):
        i = count - 2 - k
        found[i] = (found[i] - side[i] * found[i + 1]) / pivots[i]
    return found


def bends_of(angles: list[float], radii: list[float]) -> list[float]:
    """Second derivatives of the spline at its angles, mm per square degree; three radii at least.

    >>> bends_of([0.0, 100.0, 200.0], [25.0, 25.0, 25.0])
    [0.0, 0.0, 0.0]
    """
    count = len(angles)
    steps = steps_between(angles)
    side: list[float] = []
    middle: list[float] = []
    right: list[float] = []
    corner: list[float] = []
    before = count - 1
    for i in range(count):
        after = i + 1
        if after == count:
            after = 0
        side.append(steps[i] / 6.0)
        middle.append((steps[before] + steps[i]) / 3.0)
        right.append((radii[after] - radii[i]) / steps[i] - (radii[i] - radii[before]) / steps[before])
        corner.append(0.0)
        before = i
    closing = side[count - 1]
    shift = 0.0 - middle[0]
    middle[0] = middle[0] - shift
    middle[count - 1] = middle[count - 1] - closing * closing / shift
    corner[0] = shift
    corner[count - 1] = closing
    open_ended = tridiagonal(side, middle, right)
    closer = tridiagonal(side, middle, corner)
    part = (open_ended[0] + closing * open_ended[count - 1] / shift) / (
        1.0 + closer[0] + closing * closer[count - 1] / shift
    )
    bends: list[float] = []
    for i in range(count):
        bends.append(open_ended[i] - part * closer[i])
    return bends


def curve_through(angles: list[float], radii: list[float]) -> list[list[float]]:
    """The curve: [angles, radii, bends].

    >>> curve_through([0.0, 100.0, 200.0], [25.0, 25.0, 25.0])
    [[0.0, 100.0, 200.0], [25.0, 25.0, 25.0], [0.0, 0.0, 0.0]]
    """
    return [angles, radii, bends_of(angles, radii)]


def interval(angles: list[float], angle: float) -> int:
    """Index of the last of the angles that is not above ``angle``, by halving; 0 where all are above it.

    >>> interval([0.0, 90.0, 200.0], 90.0), interval([0.0, 90.0, 200.0], 89.0)
    (1, 0)
    """
    low = 0
    high = len(angles)
    for _ in range(len(angles)):
        if high - low <= 1:
            break
        middle = (low + high) // 2
        if angles[middle] <= angle:
            low = middle
        else:
            high = middle
    return low


def radius_at(curve: list[list[float]], angle: float) -> float:
    """Radius in mm at any angle in degrees.

    >>> radius_at(curve_through([0.0, 90.0, 180.0, 270.0], [25.0, 20.0, 25.0, 20.0]), 45.0)
    22.5
    """
    angles = curve[0]
    within = angle - 360.0 * math.floor((angle - angles[0]) / 360.0)
    i = interval(angles, within)
    after = i + 1
    end = angles[0] + 360.0
    if after == len(angles):
        after = 0
    else:
        end = angles[after]
    step = end - angles[i]
    near = (end - within) / step
    far = (within - angles[i]) / step
    bent = (near * near - 1.0) * near * curve[2][i] + (far * far - 1.0) * far * curve[2][after]
    return near * curve[1][i] + far * curve[1][after] + bent * step * step / 6.0


def point_at(curve: list[list[float]], angle: float) -> list[float]:
    """[x, y] at any angle in degrees, mm.

    >>> point_at(curve_through([0.0, 90.0, 180.0, 270.0], [25.0, 20.0, 25.0, 20.0]), 450.0)
    [0.0, 20.0]
    """
    radius = radius_at(curve, angle)
    return [radius * cos_deg(angle), radius * sin_deg(angle)]
