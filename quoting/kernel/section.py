"""Sections of a lens for drawings to scale: along any meridian, through any point.

Depths in mm from the front vertex toward the eye, places in the nasal frame.  A meridian of the left lens as it is
written, seen from the front, is 180 degrees less it here.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.elementary import cos_deg, sin_deg
from quoting.kernel.records import Grind, Rim
from quoting.kernel.surfaces import front_curvature, sag
from quoting.kernel.thickness import back_sag, back_surface

SECTION_POINTS = 25


def crossing_line(rim: Rim, x: float, y: float, c: float, s: float) -> list[float]:
    """[least, greatest] way, mm, from (x, y) to the rim in the direction of cosine ``c`` and sine ``s``.

    Both are 0 where the line misses the rim; the first is never above 0, the second never below.

    >>> square = {"xs": [3.0, -1.0, -1.0, 3.0], "ys": [1.0, 1.0, -1.0, -1.0], "reach": 3.2}
    >>> crossing_line(square, 0.0, 0.0, 1.0, 0.0), crossing_line(square, 2.0, 0.5, 0.0, 1.0)
    ([-1.0, 3.0], [-1.5, 0.5])
    """
    xs = rim["xs"]
    ys = rim["ys"]
    low = 0.0
    high = 0.0
    last = len(xs) - 1
    for i in range(len(xs)):
        before = (ys[last] - y) * c - (xs[last] - x) * s
        here = (ys[i] - y) * c - (xs[i] - x) * s
        if (before > 0.0) != (here > 0.0):
            start = (xs[last] - x) * c + (ys[last] - y) * s
            end = (xs[i] - x) * c + (ys[i] - y) * s
            way = start + (end - start) * (0.0 - before) / (here - before)
            if way < low:
                low = way
            if way > high:
                high = way
        last = i
    return [low, high]


def crossing(rim: Rim) -> list[float]:
    """[least x, greatest x] of the rim on the horizontal through the reference point; both 0 where it misses."""
    return crossing_line(rim, 0.0, 0.0, 1.0, 0.0)


def profile(lens: Grind, rim: Rim, center: float, x: float, y: float, meridian: float) -> list[list[float]]:
    """[ways, front depths, back depths], mm, along a meridian, degrees, through the point (x, y) from rim to rim.

    Ways count from (x, y).  Raises ValueError (square root of a negative) where a surface ends inside the rim.

    >>> flat = {"sphere": 0.0, "cylinder": 0.0, "axis": 180.0, "front": 0.0, "conic": 0.0, "index": 1.5,
    ...         "wedge_x": 0.0, "wedge_y": 0.1}
    >>> square = {"xs": [9.0, -9.0, -9.0, 9.0], "ys": [9.0, 9.0, -9.0, -9.0], "reach": 12.8}
    >>> ways, fronts, backs = profile(flat, square, 2.0, 5.0, 3.0, 90.0)
    >>> ways[0], ways[24], fronts[24], backs[0], backs[24]
    (-12.0, 6.0, 0.0, 1.1, 2.9)
    """
    c = cos_deg(meridian)
    s = sin_deg(meridian)
    ends = crossing_line(rim, x, y, c, s)
    curvature = front_curvature(lens["front"], lens["index"])
    back = back_surface(lens, center)
    ways: list[float] = []
    fronts: list[float] = []
    backs: list[float] = []
    for i in range(SECTION_POINTS):
        way = ends[0] + (ends[1] - ends[0]) * i / (SECTION_POINTS - 1)
        right = x + way * c
        up = y + way * s
        ways.append(way)
        fronts.append(sag(curvature, lens["conic"], right * right + up * up))
        backs.append(center + back_sag(back, right, up) + lens["wedge_x"] * right + lens["wedge_y"] * up)
    return [ways, fronts, backs]


def section(lens: Grind, rim: Rim, center: float) -> list[list[float]]:
    """Horizontal section through the reference point: [xs, front depths, back depths], from temporal to nasal.

    Raises as ``profile``.
    """
    return profile(lens, rim, center, 0.0, 0.0, 0.0)
