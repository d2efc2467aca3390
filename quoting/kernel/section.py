"""The section of a lens through its reference point, for drawings to scale.

Depths in mm from the front vertex toward the eye; x in the nasal frame, from temporal to nasal.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.records import Grind, Rim
from quoting.kernel.surfaces import front_curvature, sag
from quoting.kernel.thickness import back_sag, back_surface

SECTION_POINTS = 25


def crossing(rim: Rim) -> list[float]:
    """[least x, greatest x] of the rim on the horizontal through the reference point; both 0 where it misses."""
    xs = rim["xs"]
    ys = rim["ys"]
    low = 0.0
    high = 0.0
    last = len(xs) - 1
    for i in range(len(xs)):
        if (ys[last] > 0.0 and ys[i] <= 0.0) or (ys[last] <= 0.0 and ys[i] > 0.0):
            x = xs[last] + (xs[i] - xs[last]) * (0.0 - ys[last]) / (ys[i] - ys[last])
            if x < low:
                low = x
            if x > high:
                high = x
        last = i
    return [low, high]


def section(lens: Grind, rim: Rim, center: float) -> list[list[float]]:
    """Horizontal section through the reference point: [xs, front depths, back depths], from temporal to nasal."""
    ends = crossing(rim)
    curvature = front_curvature(lens["front"], lens["index"])
    back = back_surface(lens, center)
    xs: list[float] = []
    fronts: list[float] = []
    backs: list[float] = []
    for i in range(SECTION_POINTS):
        x = ends[0] + (ends[1] - ends[0]) * i / (SECTION_POINTS - 1)
        xs.append(x)
        fronts.append(sag(curvature, lens["conic"], x * x))
        backs.append(center + back_sag(back, x, 0.0) + lens["wedge_x"] * x)
    return [xs, fronts, backs]
