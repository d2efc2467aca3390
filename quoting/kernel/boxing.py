"""What is measured on an outline: box, effective diameter, what lies inside, and how far the edge is.

Boxing system: ISO 8624.  An outline is a closed polygon, counter-clockwise, in the nasal frame (x toward the nose,
y up), mm; its box center is where x and y are 0 unless said otherwise.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math

from quoting.kernel.elementary import angle_deg
from quoting.kernel.outline import box, farthest


def about_box_center(xs: list[float], ys: list[float]) -> list[list[float]]:
    """[xs, ys] of the same outline, counted from the center of its box.

    >>> about_box_center([2.0, 0.0, 0.0], [0.0, 4.0, 0.0])
    [[1.0, -1.0, -1.0], [-2.0, 2.0, -2.0]]
    """
    sides = box(xs, ys)
    x = (sides[0] + sides[1]) / 2.0
    y = (sides[2] + sides[3]) / 2.0
    moved_xs: list[float] = []
    moved_ys: list[float] = []
    for i in range(len(xs)):
        moved_xs.append(xs[i] - x)
        moved_ys.append(ys[i] - y)
    return [moved_xs, moved_ys]


def dimensions(xs: list[float], ys: list[float]) -> list[float]:
    """[A, B, ED] of an outline wherever it lies, mm; ED is twice the longest distance from the box center (ISO 8624).

    >>> dimensions([8.0, 8.0, 2.0, 2.0], [-4.0, 4.0, 4.0, -4.0])
    [6.0, 8.0, 10.0]
    """
    sides = box(xs, ys)
    reach = farthest(xs, ys, (sides[0] + sides[1]) / 2.0, (sides[2] + sides[3]) / 2.0)
    return [sides[1] - sides[0], sides[3] - sides[2], 2.0 * reach]


def mirrored(xs: list[float], ys: list[float]) -> list[list[float]]:
    """[xs, ys] of the outline of the other eye as the same observer sees it; again counter-clockwise.

    >>> mirrored([1.0, 0.0, -2.0], [0.0, 3.0, -1.0])
    [[-1.0, 2.0, 0.0], [0.0, -1.0, 3.0]]
    """
    count = len(xs)
    other_xs = [0.0 - xs[0]]
    other_ys = [ys[0]]
    for k in range(1, count):
        other_xs.append(0.0 - xs[count - k])
        other_ys.append(ys[count - k])
    return [other_xs, other_ys]


def longest_direction(xs: list[float], ys: list[float]) -> float:
    """Direction of the longest radius from the box center, degrees from the nasal side over the top.

    The first one where several are equally long.

    >>> longest_direction([3.0, 0.0, -4.0], [0.0, 4.5, -2.0])
    90.0
    """
    most = 0.0
    x = 0.0
    y = 0.0
    for i in range(len(xs)):
        square = xs[i] * xs[i] + ys[i] * ys[i]
        if square > most:
            most = square
            x = xs[i]
            y = ys[i]
    return angle_deg(x, y)


def within(value: float, low: float, high: float) -> float:
    """The value, or the end of the stretch that it is beyond.

    >>> within(5.0, 1.0, 3.0), within(0.0, 1.0, 3.0), within(2.0, 1.0, 3.0)
    (3.0, 1.0, 2.0)
    """
    if value < low:
        return low
    if value > high:
        return high
    return value


def inside_across(xs: list[float], ys: list[float], y: float, x_from: float, x_to: float) -> float:
    """How much of the level stretch at ``y`` from ``x_from`` to ``x_to`` lies inside the outline, mm.

    Where the outline goes up the inside ends, where it goes down the inside begins (even-odd rule without sorting).

    >>> inside_across([4.0, 0.0, -4.0, 0.0], [0.0, 4.0, 0.0, -4.0], 2.0, -1.0, 9.0)
    3.0
    """
    inside = 0.0
    last = len(xs) - 1
    for i in range(len(xs)):
        below = ys[last] <= y
        if below != (ys[i] <= y):
            crossing = xs[last] + (xs[i] - xs[last]) * (y - ys[last]) / (ys[i] - ys[last])
            end = within(crossing, x_from, x_to)
            if below:
                inside += end
            else:
                inside -= end
        last = i
    return inside


def inside_upward(xs: list[float], ys: list[float], x: float, y_from: float, y_to: float) -> float:
    """How much of the plumb stretch at ``x`` from ``y_from`` up to ``y_to`` lies inside the outline, mm.

    >>> inside_upward([4.0, 0.0, -4.0, 0.0], [0.0, 4.0, 0.0, -4.0], 1.0, 0.0, 9.0)
    3.0
    """
    return 0.0 - inside_across(ys, xs, x, y_from, y_to)


def is_inside(xs: list[float], ys: list[float], x: float, y: float) -> bool:
    """Whether a point lies inside the outline: a level ray from it crosses the outline an odd number of times.

    >>> is_inside([4.0, 0.0, -4.0, 0.0], [0.0, 4.0, 0.0, -4.0], 1.0, 2.0)
    True
    """
    odd = False
    last = len(xs) - 1
    for i in range(len(xs)):
        if (ys[last] <= y) != (ys[i] <= y):
            crossing = xs[last] + (xs[i] - xs[last]) * (y - ys[last]) / (ys[i] - ys[last])
            if crossing > x:
                odd = not odd
        last = i
    return odd


def nearest(xs: list[float], ys: list[float], x: float, y: float) -> float:
    """Shortest distance from (x, y) to the outline, mm, also between its points.

    >>> nearest([3.0, 3.0, -3.0, -3.0], [-4.0, 4.0, 4.0, -4.0], 1.0, 0.0)
    2.0
    """
    least = farthest(xs, ys, x, y)
    least = least * least
    last = len(xs) - 1
    for i in range(len(xs)):
        dx = xs[i] - xs[last]
        dy = ys[i] - ys[last]
        long = dx * dx + dy * dy
        along = 0.0
        if long > 0.0:
            along = within(((x - xs[last]) * dx + (y - ys[last]) * dy) / long, 0.0, 1.0)
        off_x = xs[last] + along * dx - x
        off_y = ys[last] + along * dy - y
        square = off_x * off_x + off_y * off_y
        if square < least:
            least = square
        last = i
    return math.sqrt(least)
