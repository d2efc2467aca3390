"""Volume of a lens over its outline: a fan of triangles from the reference point, each by a two-point rule.

Both surfaces are even in x and y, so a triangle's two points take the mean squares over its side of the outline; the
wedge of a prism is odd and taken at the triangle's centroid.  Source: Abramowitz & Stegun 25.4.30 (the rule).
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.records import Grind, Rim, Sides
from quoting.kernel.sags import INNER, OUTER, conic_fan, toric_fan
from quoting.kernel.surfaces import front_curvature
from quoting.kernel.thickness import back_surface


def areas_of(rim: Rim) -> list[float]:
    """Areas of the triangles between reference point and sides, mm²; negative where the rim turns back.

    >>> areas_of({"xs": [3.0, 0.0, -3.0, 0.0], "ys": [0.0, 3.0, 0.0, -3.0], "reach": 3.0})
    [4.5, 4.5, 4.5, 4.5]
    """
    xs = rim["xs"]
    ys = rim["ys"]
    areas: list[float] = []
    last = len(xs) - 1
    for i in range(len(xs)):
        areas.append((xs[last] * ys[i] - xs[i] * ys[last]) / 2.0)
        last = i
    return areas


def mean_squares(rim: Rim, c: float, s: float) -> list[float]:
    """Mean square of each side's distances in the direction of cosine ``c`` and sine ``s``, mm².

    >>> mean_squares({"xs": [3.0, 0.0, -3.0, 0.0], "ys": [0.0, 3.0, 0.0, -3.0], "reach": 3.0}, 1.0, 0.0)
    [3.0, 3.0, 3.0, 3.0]
    """
    xs = rim["xs"]
    ys = rim["ys"]
    means: list[float] = []
    last = len(xs) - 1
    before = xs[last] * c + ys[last] * s
    for i in range(len(xs)):
        here = xs[i] * c + ys[i] * s
        means.append((before * before + before * here + here * here) / 3.0)
        before = here
    return means


def sums(one: list[float], other: list[float]) -> list[float]:
    """Each of one list and its fellow of the other, added.

    >>> sums([1.0, 2.0], [0.5, -2.0])
    [1.5, 0.0]
    """
    added: list[float] = []
    for i in range(len(one)):
        added.append(one[i] + other[i])
    return added


def sides_of(rim: Rim) -> Sides:
    """What every volume over a rim is reckoned with, whatever its surfaces.

    >>> sides_of({"xs": [3.0, 0.0, -3.0, 0.0], "ys": [0.0, 3.0, 0.0, -3.0], "reach": 3.0})["squares"]
    [6.0, 6.0, 6.0, 6.0]
    """
    return {"areas": areas_of(rim), "squares": sums(mean_squares(rim, 1.0, 0.0), mean_squares(rim, 0.0, 1.0))}


def wedge_volume(lens: Grind, rim: Rim, areas: list[float]) -> float:
    """Volume, mm³, that the wedge of a prism adds: at each triangle's centroid."""
    if lens["wedge_x"] == 0.0 and lens["wedge_y"] == 0.0:
        return 0.0
    xs = rim["xs"]
    ys = rim["ys"]
    last = len(xs) - 1
    total = 0.0
    for i in range(len(xs)):
        total += areas[i] * (lens["wedge_x"] * (xs[last] + xs[i]) + lens["wedge_y"] * (ys[last] + ys[i])) / 3.0
        last = i
    return total


def volume(lens: Grind, rim: Rim, sides: Sides, center: float) -> float:
    """Volume, mm³, of a lens of this center thickness over its outline; ``sides`` are those of the rim.

    Within 4 parts in 100,000 of the exact one for a lens of 60 mm diameter and 5 D; within a thousandth as long as no
    radius is shorter than 1.2 times the farthest point of the rim (tests).   Raises ValueError (square root of a
    negative) where a surface ends inside the rim: ask ``ends_inside`` before.

    >>> from quoting.kernel.thickness import grind
    >>> slab = grind(0.0, 0.0, 180.0, 0.0, 0.0, 1.5)
    >>> square = {"xs": [10.0, -10.0, -10.0, 10.0], "ys": [10.0, 10.0, -10.0, -10.0], "reach": 14.2}
    >>> volume(slab, square, sides_of(square), 2.0)
    800.0
    """
    back = back_surface(lens, center)
    areas = sides["areas"]
    depths = conic_fan(front_curvature(lens["front"], lens["index"]), lens["conic"], areas, sides["squares"])
    if back[0] == back[1]:
        depths -= conic_fan(back[0], 0.0, areas, sides["squares"])
    else:
        along = mean_squares(rim, back[2], back[3])
        across = mean_squares(rim, 0.0 - back[3], back[2])
        depths -= toric_fan(back[0], back[1], INNER, areas, along, across)
        depths -= toric_fan(back[0], back[1], OUTER, areas, along, across)
    area = 0.0
    for one in areas:
        area += one
    return area * center + wedge_volume(lens, rim, areas) - depths / 2.0
