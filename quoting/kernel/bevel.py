"""How long a bevel is: the outline lifted onto the sphere that the front of the frame follows.

The length on the sphere is ∮ √(dx² + dy² + dz²) with z the sag at (x, y).  A straight side of the outline lies in a
plane parallel to the sphere's axis; that plane cuts the sphere in a circle of radius √(R² − d²), where d is its
distance from the axis.  So each lifted side is an arc of that circle and its length 2ρ·asin(chord / 2ρ) is exact.
Source: plane section of a sphere and arc of a chord (any handbook of geometry); that the sphere's axis passes through
the box center is (practice).  Curves are marked at index 1.530, as tools and frames are.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math

from quoting.kernel.elementary import PI, angle_deg
from quoting.kernel.outline import farthest, perimeter
from quoting.kernel.surfaces import TOOL_INDEX, front_curvature, sag


def curve_reaches(xs: list[float], ys: list[float], curve: float) -> bool:
    """Whether the sphere of this curve (D, index 1.530) goes as far out as the outline does.

    >>> curve_reaches([25.0, 0.0, -25.0], [0.0, 25.0, 0.0], 8.0), curve_reaches([25.0], [0.0], 22.0)
    (True, False)
    """
    return abs(front_curvature(curve, TOOL_INDEX)) * farthest(xs, ys, 0.0, 0.0) <= 1.0


def arc_of(chord: float, radius: float) -> float:
    """Length of the arc over a chord of a circle, mm; the shorter one.

    >>> round(arc_of(50.0, 25.0), 9)
    78.53981634
    """
    half = chord / 2.0
    rest = radius * radius - half * half
    if rest < 0.0:
        rest = 0.0
    return 2.0 * radius * angle_deg(math.sqrt(rest), half) * PI / 180.0


def lifted_side(x: float, y: float, to_x: float, to_y: float, curvature: float) -> float:
    """Length on the sphere of the side from (x, y) to (to_x, to_y), mm; curvature in 1/mm, not 0.

    >>> round(lifted_side(-50.0, 0.0, 50.0, 0.0, 0.02), 6)  # half of a great circle of 50 mm
    157.079633
    """
    dx = to_x - x
    dy = to_y - y
    flat = dx * dx + dy * dy
    if flat == 0.0:
        return 0.0
    rise = sag(curvature, 0.0, to_x * to_x + to_y * to_y) - sag(curvature, 0.0, x * x + y * y)
    apart = (x * to_y - y * to_x) * (x * to_y - y * to_x) / flat
    return arc_of(math.sqrt(flat + rise * rise), math.sqrt(1.0 / (curvature * curvature) - apart))


def bevel_length(xs: list[float], ys: list[float], curve: float) -> float:
    """Length of the outline on the sphere of this curve (D, index 1.530) about the box center, mm.

    On a flat front it is the perimeter.  Raises ValueError (square root of a negative) where the sphere ends inside
    the outline: ask ``curve_reaches`` first.

    >>> bevel_length([3.0, 3.0, -3.0, -3.0], [-4.0, 4.0, 4.0, -4.0], 0.0)
    28.0
    """
    if curve == 0.0:
        return perimeter(xs, ys)
    curvature = front_curvature(curve, TOOL_INDEX)
    length = 0.0
    last = len(xs) - 1
    for i in range(len(xs)):
        length += lifted_side(xs[last], ys[last], xs[i], ys[i], curvature)
        last = i
    return length
