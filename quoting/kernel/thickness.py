"""Thickness, weight and section of one lens, evaluated all around its outline.

Thickness at a point is the distance between the surfaces along the lens's axis: center − front sag + back sag, and
the wedge of a prescribed prism.  Exact sags; the back is a torus; the back vertex power is that of the thick lens.
Sources: Jalie, Ophthalmic Lenses and Dispensing (sagitta, edge thickness, prism wedge P·d / (100 (n − 1))).
Points are given from the reference point in the nasal frame, mm.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math

from quoting.kernel.elementary import angle_deg, cos_deg, sin_deg
from quoting.kernel.outline import farthest
from quoting.kernel.records import Grind, Rim
from quoting.kernel.surfaces import back_curvature, back_power, front_curvature, sag, toric_sag

# Two-point Gauss rule for the integral of s·f(s) over 0..1, in s² (Abramowitz & Stegun 25.4.30): exact up to s⁶
INNER = 0.45970084338098305
OUTER = 0.8880738339771153


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


def rim_around(xs: list[float], ys: list[float], x: float, y: float) -> Rim:
    """The outline seen from a reference point at (x, y)."""
    moved_xs: list[float] = []
    moved_ys: list[float] = []
    for i in range(len(xs)):
        moved_xs.append(xs[i] - x)
        moved_ys.append(ys[i] - y)
    return {"xs": moved_xs, "ys": moved_ys, "reach": farthest(xs, ys, x, y)}


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


def lost_in_front(lens: Grind, rim: Rim) -> list[float]:
    """What front sag and prism wedge take from (or, negative, add to) the center at each point of the rim."""
    curvature = front_curvature(lens["front"], lens["index"])
    lost: list[float] = []
    for i in range(len(rim["xs"])):
        x = rim["xs"][i]
        y = rim["ys"][i]
        depth = sag(curvature, lens["conic"], x * x + y * y)
        lost.append(depth - lens["wedge_x"] * x - lens["wedge_y"] * y)
    return lost


def edges(rim: Rim, lost: list[float], back: list[float], center: float) -> list[float]:
    """Thickness at each point of the rim."""
    thick: list[float] = []
    xs = rim["xs"]
    ys = rim["ys"]
    for i in range(len(xs)):
        thick.append(center - lost[i] + back_sag(back, xs[i], ys[i]))
    return thick


def thickness_at(lens: Grind, center: float, x: float, y: float) -> float:
    """Thickness at one point."""
    front = sag(front_curvature(lens["front"], lens["index"]), lens["conic"], x * x + y * y)
    return center - front + back_sag(back_surface(lens, center), x, y) + lens["wedge_x"] * x + lens["wedge_y"] * y


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


def sag_between(lens: Grind, back: list[float], along: float, across: float) -> float:
    """Front sag less back sag at squared distances along and across the flatter meridian of the back."""
    depth = sag(front_curvature(lens["front"], lens["index"]), lens["conic"], along + across)
    if back[0] == back[1]:
        return depth - sag(back[0], 0.0, along + across)
    return depth - toric_sag(back[0], back[1], math.sqrt(along), math.sqrt(across))


def volume(lens: Grind, rim: Rim, center: float) -> float:
    """Volume over the outline in mm³: a fan of triangles from the reference point, each by the two-point rule.

    Both surfaces are even in x and y, so a triangle's two points take the mean squares over its side of the outline;
    the wedge is odd and taken at the triangle's centroid.
    """
    total = 0.0
    xs = rim["xs"]
    ys = rim["ys"]
    back = back_surface(lens, center)
    last = len(xs) - 1
    for i in range(len(xs)):
        twice_area = xs[last] * ys[i] - xs[i] * ys[last]
        mx = (xs[last] + xs[i]) / 2.0
        my = (ys[last] + ys[i]) / 2.0
        along = mx * back[2] + my * back[3]
        across = my * back[2] - mx * back[3]
        side_along = (xs[i] - xs[last]) * back[2] + (ys[i] - ys[last]) * back[3]
        side_across = (ys[i] - ys[last]) * back[2] - (xs[i] - xs[last]) * back[3]
        along = along * along + side_along * side_along / 12.0
        across = across * across + side_across * side_across / 12.0
        depth = sag_between(lens, back, along * INNER * INNER, across * INNER * INNER)
        depth += sag_between(lens, back, along * OUTER * OUTER, across * OUTER * OUTER)
        wedge = (lens["wedge_x"] * mx + lens["wedge_y"] * my) * 2.0 / 3.0
        total += twice_area / 2.0 * (center + wedge - depth / 2.0)
        last = i
    return total
