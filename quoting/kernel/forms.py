"""The same power in other forms: crossed cylinders, toric surfaces, the power matrix, sums, another vertex distance.

A lens in one piece is a list [sphere, cylinder, axis]; powers in D, axes in degrees 1-180 (TABO).  Surface powers are
those of the thin lens: front and back together are the prescription; ``surfaces`` has the exact ones.
Sources: forms of a prescription, Bennett & Rabbetts, Clinical Visual Optics (from memory); the power matrix and
(I − d·F)⁻¹·F, Long, Am. J. Optom. 53 (1976) 119 and Keating, Geometric, Physical and Visual Optics (from memory).
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math

from quoting.kernel.elementary import angle_deg, sin_deg
from quoting.kernel.power import as_written, axis_within, crossed, from_vector, matrix, minus_form, transposed


def crossed_form(sphere: float, cylinder: float, axis: float) -> list[float]:
    """Two plano-cylinders at right angles that make the lens: [power, axis, power, axis] in D and degrees.

    The first acts along the axis of the lens, so its own axis lies across.

    >>> crossed_form(1.0, -2.0, 90.0)
    [1.0, 180.0, -1.0, 90.0]
    """
    return [sphere, axis_within(axis + 90.0), as_written(sphere + cylinder), axis_within(axis)]


def from_crossed_form(one: float, one_axis: float, other: float, other_axis: float) -> list[float]:
    """[sphere, cylinder, axis], minus cylinder, of two plano-cylinders (D, degrees) in contact, at any angle.

    >>> from_crossed_form(1.0, 180.0, -1.0, 90.0)
    [1.0, -2.0, 90.0]
    """
    return crossed([0.0, one, one_axis], [0.0, other, other_axis])


def toric(sphere: float, cylinder: float, axis: float, base: float) -> list[float]:
    """Surfaces, in D, of a lens made on a toric base curve: [sphere curve, base, base axis, cross curve, cross axis].

    The base curve is the flatter of the toric's two, so the cylinder is first given the sign of the base: plus on a
    front, minus on a back.  A base of 0 is that of a plano-cylinder with its minus cylinder on the back.

    >>> toric(3.0, -1.0, 180.0, 6.0)
    [-4.0, 6.0, 180.0, 7.0, 90.0]
    """
    form = minus_form(sphere, cylinder, axis)
    if base > 0.0:
        form = transposed(form[0], form[1], form[2])
    cross = as_written(base + form[1])
    return [as_written(form[0] - base), base, axis_within(form[2] + 90.0), cross, form[2]]


def toric_behind(sphere: float, cylinder: float, axis: float, sphere_curve: float) -> list[float]:
    """The same surfaces, in D, where the sphere curve is given and the toric is sought.

    Raises ValueError where the sphere curve lies between the principal powers: one curve of the toric would be plus
    and one minus, and neither is its base.

    >>> toric_behind(3.0, -1.0, 180.0, -4.0), toric_behind(3.0, -1.0, 180.0, 8.0)
    ([-4.0, 6.0, 180.0, 7.0, 90.0], [8.0, -5.0, 90.0, -6.0, 180.0])
    """
    form = minus_form(sphere, cylinder, axis)
    if sphere_curve < form[0]:
        form = transposed(form[0], form[1], form[2])
        if sphere_curve > form[0]:
            raise ValueError("the sphere curve lies between the principal powers: the toric has no base curve")
    base = as_written(form[0] - sphere_curve)
    return [sphere_curve, base, axis_within(form[2] + 90.0), as_written(base + form[1]), form[2]]


def from_toric(sphere_curve: float, base: float, cross: float, cross_axis: float) -> list[float]:
    """[sphere, cylinder, axis], minus cylinder, of a sphere curve and a toric surface with its cross axis.

    Curves in D; the base curve's axis lies across the cross curve's.

    >>> from_toric(-4.0, 6.0, 7.0, 90.0)
    [3.0, -1.0, 180.0]
    """
    return minus_form(as_written(sphere_curve + base), as_written(cross - base), cross_axis)


def from_matrix(fxx: float, fxy: float, fyy: float) -> list[float]:
    """[sphere, cylinder, axis], minus cylinder, of a dioptric power matrix in D.   Source: Long, 1976.

    >>> from_matrix(-2.0, 0.0, -3.0)
    [-2.0, -1.0, 180.0]
    """
    return from_vector((fxx + fyy) / 2.0, (fxx - fyy) / 2.0, fxy)


def sum_of(forms: list[list[float]]) -> list[float]:
    """[sphere, cylinder, axis], minus cylinder, of any number of thin lenses in contact; of none, no power.

    Matrices add.   Source: Long, 1976.

    >>> sum_of([[1.0, -2.0, 180.0], [0.0, 2.0, 180.0], [-3.0, -0.5, 90.0]])
    [-2.0, -0.5, 90.0]
    """
    fxx = 0.0
    fxy = 0.0
    fyy = 0.0
    for form in forms:
        f = matrix(form[0], form[1], form[2])
        fxx += f[0]
        fxy += f[1]
        fyy += f[2]
    return from_matrix(fxx, fxy, fyy)


def at_vertex_whole(sphere: float, cylinder: float, axis: float, toward_eye_mm: float) -> list[float]:
    """[sphere, cylinder, axis], minus cylinder, after the lens moved toward the eye, by its matrix: (I − d·F)⁻¹·F.

    The same as each principal meridian by itself.  ``toward_eye_mm`` is negative when the lens moved away.
    Raises ZeroDivisionError where a focal line falls on that plane.

    >>> [round(value, 3) for value in at_vertex_whole(-8.0, -2.5, 180.0, 14.0)]
    [-7.194, -1.96, 180.0]
    """
    d = toward_eye_mm / 1000.0
    f = matrix(sphere, cylinder, axis)
    both = d * (f[0] * f[2] - f[1] * f[1])
    left_over = (1.0 - d * f[0]) * (1.0 - d * f[2]) - d * f[1] * d * f[1]
    return from_matrix((f[0] - both) / left_over, f[1] / left_over, (f[2] - both) / left_over)


def left_by_axis_error(cylinder: float, off_deg: float) -> float:
    """Cylinder in D, without sign, that is left where the axis is off by so many degrees: |2·C·sin(off)|.

    Its sphere is half of it, with the other sign.   Source: Torgersen, white paper on ANSI Z80.1-2005 (2006).

    >>> round(left_by_axis_error(-2.0, 5.0), 4)
    0.3486
    """
    return abs(2.0 * cylinder * sin_deg(off_deg))


def axis_error_leaving(cylinder: float, left_over: float) -> float:
    """How many degrees, 0 to 90, the axis may be off until this cylinder (D, either sign) is left over.

    Raises ValueError where no axis leaves so much: it is never more than twice the cylinder.   Source: as above.

    >>> round(axis_error_leaving(0.25, 0.12), 1), round(axis_error_leaving(-0.50, 0.12), 1)
    (13.9, 6.9)
    """
    most = abs(2.0 * cylinder)
    some = abs(left_over)
    if some > most:
        raise ValueError("an axis error leaves at most twice the cylinder")
    return angle_deg(math.sqrt(most * most - some * some), some)
