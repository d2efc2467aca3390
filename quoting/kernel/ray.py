"""One ray through a real lens, by Snell's law in three dimensions.

The lens stands in its own frame: front vertex at the origin, x toward the nose, y up, z along its axis toward the eye.
The front is a conic of revolution, the back a torus with the wedge of a prescribed prism, as in thickness.  All
directions are unit vectors that go toward the eye, however a ray is followed.  Lengths mm.
Sources: Snell's law as a vector, and the ray to a conic of revolution, as in Welford, Aberrations of Optical Systems,
chapter 4; the torus by Newton's method on its sag.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math

from quoting.kernel.bends import back_bend, back_has, front_bend
from quoting.kernel.records import Grind, Path
from quoting.kernel.surfaces import front_curvature
from quoting.kernel.thickness import back_sag, back_surface

# Newton's method on the back ends when the ray is this close to it, mm
CLOSE_MM = 0.0000000000001
MOST_ROUNDS = 20

# A ray is followed as long as it is not within 0.06 degrees of running along a surface or sideways: no eye looks so
GRAZING = 0.001


def dot(a: list[float], b: list[float]) -> float:
    """Scalar product of two vectors.

    >>> dot([1.0, 2.0, 3.0], [4.0, 5.0, 6.0])
    32.0
    """
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def along(point: list[float], direction: list[float], distance: float) -> list[float]:
    """The point so far (mm) along a direction.

    >>> along([1.0, 0.0, 0.0], [0.0, 0.0, 1.0], 2.0)
    [1.0, 0.0, 2.0]
    """
    return [
        point[0] + distance * direction[0],
        point[1] + distance * direction[1],
        point[2] + distance * direction[2],
    ]


def unit(a: list[float]) -> list[float]:
    """The vector of length 1 in the same direction; the vector must not be 0.

    >>> unit([0.0, 3.0, 4.0])
    [0.0, 0.6, 0.8]
    """
    length = math.sqrt(dot(a, a))
    return [a[0] / length, a[1] / length, a[2] / length]


def refracted(direction: list[float], slopes: list[float], index: float, other: float) -> list[float]:
    """Direction in the medium of index ``other`` of a ray that has ``direction`` in that of ``index``.

    ``slopes`` are those of the surface along x and y.  Which medium comes first does not matter, since light takes the
    same way back.  [] where there is no such ray: it is reflected inside, or runs along the surface or sideways.

    >>> refracted([0.6, 0.0, 0.8], [0.0, 0.0], 1.0, 1.5)
    [0.39999999999999997, 0.0, 0.9165151389911681]
    >>> refracted([0.8, 0.0, 0.6], [0.0, 0.0], 1.5, 1.0)
    []
    """
    normal = unit([0.0 - slopes[0], 0.0 - slopes[1], 1.0])
    cosine = dot(direction, normal)
    ratio = index / other
    left = 1.0 - ratio * ratio * (1.0 - cosine * cosine)
    if cosine <= GRAZING or left <= GRAZING * GRAZING:
        return []
    bend = math.sqrt(left) - ratio * cosine
    bent = along([ratio * direction[0], ratio * direction[1], ratio * direction[2]], normal, bend)
    if bent[2] <= GRAZING:
        return []
    return bent


def conic_hit(point: list[float], direction: list[float], curvature: float, conic: float) -> list[float]:
    """Where the line through a point meets a conic of revolution with its vertex at the origin; [] where it does not.

    ``curvature`` in 1/mm; the nearer to the vertex of the two places, on the half of the surface that has the vertex.

    >>> [round(value, 9) for value in conic_hit([3.0, 0.0, -10.0], [0.0, 0.0, 1.0], 0.2, 0.0)]
    [3.0, 0.0, 1.0]
    >>> conic_hit([6.0, 0.0, -10.0], [0.0, 0.0, 1.0], 0.2, 0.0)
    []
    """
    if direction[2] <= GRAZING:
        return []
    k = 1.0 + conic
    start = along(point, direction, 0.0 - point[2] / direction[2])
    x = start[0]
    y = start[1]
    whole = curvature * (direction[0] * direction[0] + direction[1] * direction[1] + k * direction[2] * direction[2])
    half = direction[2] - curvature * (x * direction[0] + y * direction[1])
    rest = curvature * (x * x + y * y)
    left = half * half - whole * rest
    if half <= 0.0 or left <= 0.0:
        return []
    met = along(start, direction, rest / (half + math.sqrt(left)))
    if 1.0 - k * curvature * met[2] <= GRAZING:
        return []
    return met


def back_hit(lens: Grind, center: float, point: list[float], direction: list[float]) -> list[float]:
    """Where the line through a point meets the back of the lens; [] where it does not.

    >>> from quoting.kernel.thickness import grind
    >>> plano = grind(0.0, 0.0, 180.0, 0.0, 0.0, 1.5)
    >>> back_hit(plano, 2.0, [1.0, 3.0, 0.0], [0.0, 0.6, 0.8])
    [1.0, 4.5, 2.0]
    """
    back = back_surface(lens, center)
    met = along(point, direction, (center - point[2]) / direction[2])
    for _ in range(MOST_ROUNDS):
        if not back_has(back, met[0], met[1]):
            return []
        bend = back_bend(lens, back, met[0], met[1])
        wedge = lens["wedge_x"] * met[0] + lens["wedge_y"] * met[1]
        missing = center + back_sag(back, met[0], met[1]) + wedge - met[2]
        speed = direction[2] - bend[0] * direction[0] - bend[1] * direction[1]
        if speed <= 0.0:
            return []
        met = along(met, direction, missing / speed)
        if abs(missing) < CLOSE_MM:
            return met
    return []


def no_path() -> Path:
    """What stands where there is no such ray."""
    return {"hit": False, "before": [], "front": [], "inside": [], "back": [], "after": []}


def path_from_object(lens: Grind, center: float, point: list[float], direction: list[float]) -> Path:
    """The way of a ray from in front of the lens: through ``point`` (mm), with ``direction``.

    >>> from quoting.kernel.thickness import grind
    >>> path = path_from_object(grind(0.0, 0.0, 180.0, 0.0, 0.0, 1.5), 2.0, [0.0, 0.0, 0.0], [0.6, 0.0, 0.8])
    >>> [round(value, 6) for value in path["back"]], [round(value, 6) for value in path["after"]]
    ([0.872872, 0.0, 2.0], [0.6, 0.0, 0.8])
    """
    index = lens["index"]
    front = conic_hit(point, direction, front_curvature(lens["front"], index), lens["conic"])
    if len(front) == 0:
        return no_path()
    inside = refracted(direction, front_bend(lens, front[0], front[1]), 1.0, index)
    if len(inside) == 0:
        return no_path()
    back = back_hit(lens, center, front, inside)
    if len(back) == 0:
        return no_path()
    after = refracted(inside, back_bend(lens, back_surface(lens, center), back[0], back[1]), index, 1.0)
    if len(after) == 0:
        return no_path()
    return {"hit": True, "before": direction, "front": front, "inside": inside, "back": back, "after": after}


def path_to_eye(lens: Grind, center: float, x: float, y: float, direction: list[float]) -> Path:
    """The way of the ray that leaves the back at (x, y) mm from the reference point with ``direction``, found backward.

    >>> from quoting.kernel.thickness import grind
    >>> path = path_to_eye(grind(0.0, 0.0, 180.0, 0.0, 0.0, 1.5), 2.0, 0.0, 0.0, [0.6, 0.0, 0.8])
    >>> [round(value, 6) for value in path["front"]], [round(value, 6) for value in path["before"]]
    ([-0.872872, 0.0, 0.0], [0.6, 0.0, 0.8])
    """
    index = lens["index"]
    back = back_surface(lens, center)
    if not back_has(back, x, y):
        return no_path()
    left_at = [x, y, center + back_sag(back, x, y) + lens["wedge_x"] * x + lens["wedge_y"] * y]
    inside = refracted(direction, back_bend(lens, back, x, y), 1.0, index)
    if len(inside) == 0:
        return no_path()
    front = conic_hit(left_at, inside, front_curvature(lens["front"], index), lens["conic"])
    if len(front) == 0 or front[2] >= left_at[2]:
        return no_path()
    before = refracted(inside, front_bend(lens, front[0], front[1]), index, 1.0)
    if len(before) == 0:
        return no_path()
    return {"hit": True, "before": before, "front": front, "inside": inside, "back": left_at, "after": direction}
