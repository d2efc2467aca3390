"""The power that an eye meets along one ray: a narrow bundle from far away, astigmatic in general.

Why not by close rays: their differences lose half of the digits.  Instead the second derivatives of the phase are
carried along the ray, which is Coddington's equations for any surface and any obliqueness.  The phase has the gradient
n·d along a ray of direction d in a medium of index n, and both phases agree all over a surface; so along two ways i
and j over a surface of depth z(x, y) the second derivatives H of the phase before and H′ after differ by

    H′ij = Hij − (n′d′ − n·d)z · ∂ij z        (the z part of the change, times the bend of the surface)

From there to the next surface a wavefront of curvature Q becomes Q·(1 + τQ)⁻¹ after the way τ.
Sources: Coddington's equations as in Welford, Aberrations of Optical Systems, chapter 9; in matrices, Keating,
Geometric, Physical and Visual Optics.  Curvatures 1/mm (positive: diverging), powers D, lengths mm.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.bends import back_bend, front_bend
from quoting.kernel.power import from_vector
from quoting.kernel.ray import along, dot, unit
from quoting.kernel.records import Grind, Path
from quoting.kernel.thickness import back_surface

# A wavefront that has shrunk to this part of itself (its area) is at a focal line
FOCUSED = 0.000000001


def crosswise(direction: list[float]) -> list[list[float]]:
    """Two unit vectors at right angles to a direction and to each other: the first has no y, both near x and y.

    The direction must not be along y.

    >>> crosswise([0.0, 0.0, 1.0])
    [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0]]
    """
    across = unit([direction[2], 0.0, 0.0 - direction[0]])
    up = [
        direction[1] * across[2] - direction[2] * across[1],
        direction[2] * across[0] - direction[0] * across[2],
        direction[0] * across[1] - direction[1] * across[0],
    ]
    return [across, up]


def shadow(bend: list[float], sides: list[list[float]]) -> list[float]:
    """The ways along x and y over a surface as seen along a ray: the four products with its two crosswise vectors."""
    along_x = [1.0, 0.0, bend[0]]
    along_y = [0.0, 1.0, bend[1]]
    return [dot(along_x, sides[0]), dot(along_x, sides[1]), dot(along_y, sides[0]), dot(along_y, sides[1])]


def on_surface(wave: list[float], e: list[float]) -> list[float]:
    """A symmetric matrix [xx, xy, yy] across the ray, taken over to the surface: E·W·Eᵀ.

    >>> on_surface([1.0, 2.0, 3.0], [1.0, 0.0, 0.0, 2.0])
    [1.0, 4.0, 12.0]
    """
    ax = e[0] * wave[0] + e[1] * wave[1]
    ay = e[0] * wave[1] + e[1] * wave[2]
    bx = e[2] * wave[0] + e[3] * wave[1]
    by = e[2] * wave[1] + e[3] * wave[2]
    return [ax * e[0] + ay * e[1], ax * e[2] + ay * e[3], bx * e[2] + by * e[3]]


def across_ray(surface: list[float], e: list[float]) -> list[float]:
    """The other way around: from the surface to the ray, E⁻¹·A·E⁻ᵀ.

    >>> across_ray([1.0, 4.0, 12.0], [1.0, 0.0, 0.0, 2.0])
    [1.0, 2.0, 3.0]
    """
    whole = e[0] * e[3] - e[1] * e[2]
    return on_surface(surface, [e[3] / whole, 0.0 - e[1] / whole, 0.0 - e[2] / whole, e[0] / whole])


def bent(form: list[float], jump: float, bend: list[float]) -> list[float]:
    """Second derivatives of the phase over a surface behind it; ``jump`` is the z part of n′d′ − n·d."""
    return [form[0] - jump * bend[2], form[1] - jump * bend[3], form[2] - jump * bend[4]]


def gone_on(wave: list[float], way: float) -> list[float]:
    """Curvature of a wavefront so many mm later: Q·(1 + τQ)⁻¹; [] where a focal line lies just there.

    >>> gone_on([0.01, 0.0, -0.005], 100.0)
    [0.005, 0.0, -0.01]
    >>> gone_on([-0.01, 0.0, 0.0], 100.0)
    []
    """
    area = wave[0] * wave[2] - wave[1] * wave[1]
    whole = 1.0 + way * (wave[0] + wave[2]) + way * way * area
    if abs(whole) <= FOCUSED:
        return []
    return [(wave[0] + way * area) / whole, wave[1] / whole, (wave[2] + way * area) / whole]


def power_along(lens: Grind, center: float, path: Path, sides: list[list[float]]) -> list[float]:
    """Power matrix [xx, xy, yy] in diopters that a ray's bundle from far away has where it leaves the back.

    ``sides`` are the eye's two unit vectors across the ray behind the lens, in the lens's frame.  [] where a focal
    line lies on the back: then no power has a number.
    """
    index = lens["index"]
    inside = path["inside"]
    bend = front_bend(lens, path["front"][0], path["front"][1])
    within = crosswise(inside)
    form = bent([0.0, 0.0, 0.0], index * inside[2] - path["before"][2], bend)
    wave = across_ray(form, shadow(bend, within))
    way = along(path["back"], path["front"], -1.0)
    wave = gone_on([wave[0] / index, wave[1] / index, wave[2] / index], dot(way, inside))
    if len(wave) == 0:
        return []
    bend = back_bend(lens, back_surface(lens, center), path["back"][0], path["back"][1])
    form = on_surface([index * wave[0], index * wave[1], index * wave[2]], shadow(bend, within))
    form = bent(form, path["after"][2] - index * inside[2], bend)
    wave = across_ray(form, shadow(bend, sides))
    return [-1000.0 * wave[0], -1000.0 * wave[1], -1000.0 * wave[2]]


def as_power(matrix: list[float]) -> list[float]:
    """[sphere, cylinder, axis] in minus-cylinder notation of a power matrix [xx, xy, yy] in diopters.

    >>> as_power([-3.0, 0.0, -2.0])
    [-2.0, -1.0, 90.0]
    """
    return from_vector((matrix[0] + matrix[2]) / 2.0, (matrix[0] - matrix[2]) / 2.0, matrix[1])


def deviation(path: Path, sides: list[list[float]]) -> list[float]:
    """Prism [x, y] in prism diopters that a ray has met, base positive along the two ``sides``.

    100 · tangent of the angle between the directions before and behind the lens, in either plane; light bends to the
    base.
    """
    before = path["before"]
    forward = dot(before, path["after"])
    return [-100.0 * dot(before, sides[0]) / forward, -100.0 * dot(before, sides[1]) / forward]
