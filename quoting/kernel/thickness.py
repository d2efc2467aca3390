"""Thickness of one lens, evaluated all around its outline.

Thickness at a point is the distance between the surfaces along the lens's axis: center − front sag + back sag, and
the wedge of a prescribed prism.  Exact sags; the back is a torus; the back vertex power is that of the thick lens.
Sources: Jalie, Ophthalmic Lenses and Dispensing (sagitta, edge thickness, prism wedge P·d / (100 (n − 1))).
Points are given from the reference point in the nasal frame, mm.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math

from quoting.kernel.elementary import angle_deg, cos_deg, sin_deg
from quoting.kernel.records import Grind, Rim
from quoting.kernel.sags import back_sags, sags
from quoting.kernel.surfaces import back_curvature, back_power, front_curvature, sag, toric_sag

# Longer sides of an outline are divided, mm: nearly square ones have sides of up to 30 mm between two of their points,
# over which no rule for a volume and no parabola for a thickness is good
LONGEST_MM = 8.0


def grind(sphere: float, cylinder: float, axis: float, front: float, conic: float, index: float) -> Grind:
    """The surfaces of a lens without prescribed prism; ``front`` is the true power of the front."""
    return {
        "sphere": sphere,
        "cylinder": cylinder,
        "axis": axis,
        "front": front,
        "conic": conic,
        "index": index,
        "wedge_x": 0.0,
        "wedge_y": 0.0,
    }


def with_prism(lens: Grind, prism_x: float, prism_y: float) -> Grind:
    """The same lens with a prism whose base points along x and y: P / (100 (n − 1)) mm of thickness a mm."""
    whole = 100.0 * (lens["index"] - 1.0)
    made = grind(lens["sphere"], lens["cylinder"], lens["axis"], lens["front"], lens["conic"], lens["index"])
    made["wedge_x"] = prism_x / whole
    made["wedge_y"] = prism_y / whole
    return made


def divide(xs: list[float], ys: list[float], start: list[float], dx: float, dy: float) -> None:
    """Append to a rim the points that divide a side from ``start`` by (dx, dy) into equal parts of at most LONGEST_MM.

    >>> xs: list[float] = []
    >>> ys: list[float] = []
    >>> divide(xs, ys, [1.0, 2.0], 0.0, 12.0)
    >>> xs, ys
    ([1.0], [8.0])
    """
    count = math.floor(math.sqrt(dx * dx + dy * dy) / LONGEST_MM)
    for i in range(count):
        part = (i + 1.0) / (count + 1.0)
        xs.append(start[0] + dx * part)
        ys.append(start[1] + dy * part)


def rim_around(xs: list[float], ys: list[float], x: float, y: float) -> Rim:
    """The outline, in mm, seen from a reference point at (x, y); its long sides are divided.

    >>> rim_around([4.0, 0.0], [0.0, 5.0], 1.0, 1.0)
    {'xs': [3.0, -1.0], 'ys': [-1.0, 4.0], 'reach': 4.123105625617661}
    """
    around_xs: list[float] = []
    around_ys: list[float] = []
    most = 0.0
    last = len(xs) - 1
    for i in range(len(xs)):
        right = xs[i] - x
        up = ys[i] - y
        dx = xs[i] - xs[last]
        dy = ys[i] - ys[last]
        if dx * dx + dy * dy > LONGEST_MM * LONGEST_MM:
            divide(around_xs, around_ys, [xs[last] - x, ys[last] - y], dx, dy)
        square = right * right + up * up
        if square > most:
            most = square
        around_xs.append(right)
        around_ys.append(up)
        last = i
    return {"xs": around_xs, "ys": around_ys, "reach": math.sqrt(most)}


def back_surface(lens: Grind, center: float) -> list[float]:
    """The toric back: [flatter curvature, steeper curvature, cosine and sine of the flatter's direction]."""
    front = lens["front"]
    index = lens["index"]
    along = back_curvature(back_power(lens["sphere"], front, center, index), index)
    across = back_curvature(back_power(lens["sphere"] + lens["cylinder"], front, center, index), index)
    c = cos_deg(lens["axis"])
    s = sin_deg(lens["axis"])
    if abs(along) <= abs(across):
        return [along, across, c, s]
    return [across, along, 0.0 - s, c]


def back_sag(back: list[float], x: float, y: float) -> float:
    """Depth of the back surface at a point; a back without cylinder is a sphere and need not be turned."""
    if back[0] == back[1]:
        return sag(back[0], 0.0, x * x + y * y)
    return toric_sag(back[0], back[1], x * back[2] + y * back[3], y * back[2] - x * back[3])


def reaches(curvature: float, conic: float, radius: float) -> bool:
    """Whether a surface still exists at this distance from its vertex."""
    return (1.0 + conic) * curvature * curvature * radius * radius < 1.0


def both_reach(lens: Grind, back: list[float], radius: float) -> bool:
    """Whether front and back still exist at this distance, mm, from their vertices."""
    if not reaches(front_curvature(lens["front"], lens["index"]), lens["conic"], radius):
        return False
    return reaches(back[0], 0.0, radius) and reaches(back[1], 0.0, radius)


def lost_in_front(lens: Grind, rim: Rim) -> list[float]:
    """What front sag and prism wedge take from (or, negative, add to) the center at each point of the rim, mm.

    Raises ValueError (square root of a negative) where the front ends inside the rim: ask ``reaches`` before.
    """
    lost = sags(front_curvature(lens["front"], lens["index"]), lens["conic"], rim["xs"], rim["ys"])
    wedge_x = lens["wedge_x"]
    wedge_y = lens["wedge_y"]
    if wedge_x != 0.0 or wedge_y != 0.0:
        for i in range(len(lost)):
            lost[i] = lost[i] - wedge_x * rim["xs"][i] - wedge_y * rim["ys"][i]
    return lost


def edges(rim: Rim, lost: list[float], back: list[float], center: float) -> list[float]:
    """Thickness, mm, at each point of the rim; ``lost`` is what lost_in_front gives.

    Raises ValueError (square root of a negative) where the back ends inside the rim: ask ``reaches`` before.
    """
    thick = back_sags(back, rim["xs"], rim["ys"])
    for i in range(len(thick)):
        thick[i] = center - lost[i] + thick[i]
    return thick


def thickness_behind(lens: Grind, back: list[float], center: float, x: float, y: float) -> float:
    """Thickness, mm, at one point of a lens whose back is known.

    Raises ValueError (square root of a negative) where a surface does not reach the point: ask ``both_reach`` before.
    """
    front = sag(front_curvature(lens["front"], lens["index"]), lens["conic"], x * x + y * y)
    return center - front + back_sag(back, x, y) + lens["wedge_x"] * x + lens["wedge_y"] * y


def thickness_at(lens: Grind, center: float, x: float, y: float) -> float:
    """Thickness, mm, at one point.   Raises as ``thickness_behind``.

    >>> round(thickness_at(grind(-4.0, -2.0, 180.0, 4.0, 0.0, 1.5), 2.0, 0.0, 25.0), 6)
    6.189816
    """
    return thickness_behind(lens, back_surface(lens, center), center, x, y)


def least_at(values: list[float]) -> int:
    """Index of the smallest value, the first of equals."""
    found = 0
    for i in range(len(values)):
        if values[i] < values[found]:
            found = i
    return found


def greatest_at(values: list[float]) -> int:
    """Index of the greatest value, the first of equals."""
    found = 0
    for i in range(len(values)):
        if values[i] > values[found]:
            found = i
    return found


def place(x: float, y: float) -> str:
    """Where on the outline a point lies, in eight words, seen from the reference point."""
    sector = math.floor(angle_deg(x, y) / 45.0 + 0.5)
    if sector == 1:
        return "upper nasal"
    if sector == 2:
        return "top"
    if sector == 3:
        return "upper temporal"
    if sector == 4:
        return "temporal"
    if sector == 5:
        return "lower temporal"
    if sector == 6:
        return "bottom"
    if sector == 7:
        return "lower nasal"
    return "nasal"
