"""Spectacle powers: notations, meridians, vectors, vertex distance and prism.

Sources: power in a meridian by the sine-squared rule and the dioptric power matrix, Long, Am. J. Optom. 53 (1976) 119;
power vectors, Thibos, Wheeler & Horner, Optom. Vis. Sci. 74 (1997) 367; effectivity and Prentice's rule as in
Keating, Geometric, Physical and Visual Optics.  Axes in degrees 1-180 (TABO).
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math

from quoting.kernel.elementary import angle_deg, cos_deg, sin_deg

# (practice) lens lists and trial lenses go in steps of a quarter diopter
STEP = 0.25

# No prescription is written finer than this part of a diopter; sums of decimals are put back on it
WRITTEN_PARTS = 1000000.0


def axis_within(axis: float) -> float:
    """The same meridian as an axis above 0 and up to 180.

    >>> axis_within(0.0), axis_within(215.0)
    (180.0, 35.0)
    """
    turned = axis - 180.0 * math.floor(axis / 180.0)
    if turned == 0.0:
        return 180.0
    return turned


def as_written(power: float) -> float:
    """The decimal number that a sum of decimal numbers is, without the dust that binary arithmetic leaves.

    >>> -8.12 + 0.12, as_written(-8.12 + 0.12)
    (-7.999999999999999, -8.0)
    """
    return math.floor(power * WRITTEN_PARTS + 0.5) / WRITTEN_PARTS


def transposed(sphere: float, cylinder: float, axis: float) -> list[float]:
    """The same lens in the other cylinder notation: [sphere, cylinder, axis].

    >>> transposed(1.50, -0.50, 125.0)
    [1.0, 0.5, 35.0]
    """
    if cylinder == 0.0:
        return [sphere, cylinder, axis]
    return [as_written(sphere + cylinder), 0.0 - cylinder, axis_within(axis + 90.0)]


def minus_form(sphere: float, cylinder: float, axis: float) -> list[float]:
    """[sphere, cylinder, axis] in minus-cylinder notation; without a cylinder the axis is 180.

    >>> minus_form(1.0, 0.5, 35.0), minus_form(-2.0, 0.0, 35.0)
    ([1.5, -0.5, 125.0], [-2.0, 0.0, 180.0])
    """
    if cylinder == 0.0:
        return [sphere, 0.0, 180.0]
    if cylinder > 0.0:
        return transposed(sphere, cylinder, axis)
    return [sphere, cylinder, axis_within(axis)]


def spherical_equivalent(sphere: float, cylinder: float) -> float:
    """Mean of the two principal powers, S + C/2, in D.

    >>> spherical_equivalent(8.0, -1.0)
    7.5
    """
    return sphere + cylinder / 2.0


def strongest(sphere: float, cylinder: float) -> float:
    """The principal power farther from zero, with its sign; of two as far, the minus one.

    >>> strongest(1.0, -3.0), strongest(-3.0, 1.0), strongest(1.0, -2.0)
    (-2.0, -3.0, -1.0)
    """
    other = sphere + cylinder
    if abs(other) > abs(sphere):
        return other
    if abs(other) == abs(sphere) and other < sphere:
        return other
    return sphere


def on_step(power: float) -> float:
    """The next quarter diopter away from zero: lists that go in quarters hold -4.12 as -4.25.

    >>> on_step(-4.12), on_step(4.25), on_step(0.0)
    (-4.25, 4.25, 0.0)
    """
    steps = 0.0 - math.floor(0.0 - abs(power) / STEP + 0.000001)
    if power < 0.0:
        return 0.0 - steps * STEP
    return steps * STEP


def in_meridian(sphere: float, cylinder: float, axis: float, meridian: float) -> float:
    """Power in D along a meridian in degrees: S + C·sin²(meridian − axis).

    >>> round(in_meridian(-8.0, -2.0, 112.0, 180.0), 2), in_meridian(1.0, -2.0, 90.0, 180.0)
    (-9.72, -1.0)
    """
    s = sin_deg(meridian - axis)
    return sphere + cylinder * s * s


def vector(sphere: float, cylinder: float, axis: float) -> list[float]:
    """Power vector [M, J0, J45] in D.   Source: Thibos, Wheeler & Horner, 1997.

    >>> vector(-2.0, -1.0, 180.0)
    [-2.5, 0.5, 0.0]
    """
    half = 0.0 - cylinder / 2.0
    return [sphere + cylinder / 2.0, half * cos_deg(2.0 * axis), half * sin_deg(2.0 * axis)]


def from_vector(m: float, j0: float, j45: float) -> list[float]:
    """[sphere, cylinder, axis] in minus-cylinder notation of a power vector in D.   Source: as above.

    >>> from_vector(-2.5, 0.5, 0.0), from_vector(-2.5, -0.5, 0.0)
    ([-2.0, -1.0, 180.0], [-2.0, -1.0, 90.0])
    """
    j = math.sqrt(j0 * j0 + j45 * j45)
    if j == 0.0:
        return [m, 0.0, 180.0]
    return [m + j, 0.0 - 2.0 * j, axis_within(angle_deg(j0, j45) / 2.0)]


def crossed(a: list[float], b: list[float]) -> list[float]:
    """Sum of two sphero-cylinders [sphere, cylinder, axis] in contact, in minus-cylinder notation.

    >>> crossed([1.0, -2.0, 180.0], [0.0, 2.0, 180.0])
    [1.0, 0.0, 180.0]
    """
    p = vector(a[0], a[1], a[2])
    q = vector(b[0], b[1], b[2])
    return from_vector(p[0] + q[0], p[1] + q[1], p[2] + q[2])


def at_vertex(power: float, toward_eye_mm: float) -> float:
    """Power that does the same work after the lens moved toward the eye: F / (1 − d·F).

    ``toward_eye_mm`` is negative when it moved away.   Raises ZeroDivisionError where
    the image falls on that plane.

    >>> round(at_vertex(-10.0, 12.0), 2)
    -8.93
    """
    return power / (1.0 - toward_eye_mm / 1000.0 * power)


def at_vertex_both(sphere: float, cylinder: float, axis: float, toward_eye_mm: float) -> list[float]:
    """[sphere, cylinder, axis] at the new vertex distance, each principal meridian by itself.

    ``toward_eye_mm`` and ZeroDivisionError as above.

    >>> [round(value, 3) for value in at_vertex_both(-8.0, -2.5, 180.0, 14.0)]
    [-7.194, -1.96, 180.0]
    """
    one = at_vertex(sphere, toward_eye_mm)
    other = at_vertex(sphere + cylinder, toward_eye_mm)
    return [one, other - one, axis]


def matrix(sphere: float, cylinder: float, axis: float) -> list[float]:
    """Dioptric power matrix as [fxx, fxy, fyy] in D.   Source: Long, 1976.

    >>> matrix(-2.0, -1.0, 180.0), matrix(-2.0, -1.0, 90.0)
    ([-2.0, 0.0, -3.0], [-3.0, 0.0, -2.0])
    """
    s = sin_deg(axis)
    c = cos_deg(axis)
    return [sphere + cylinder * s * s, 0.0 - cylinder * s * c, sphere + cylinder * c * c]


def prentice(sphere: float, cylinder: float, axis: float, x_mm: float, y_mm: float) -> list[float]:
    """Prism [x, y] in prism diopters met by an eye when the optical center lies at (x, y) mm from its line of sight.

    Positive toward +x and +y: in the nasal frame base in and base up.   Source: Prentice's rule
    with the power matrix, Long, 1976.

    >>> prentice(8.5, 0.0, 180.0, 0.0, 2.0), prentice(-4.0, -2.0, 90.0, 3.0, 2.0)
    ([0.0, 1.7], [-1.8, -0.8])
    """
    f = matrix(sphere, cylinder, axis)
    return [(f[0] * x_mm + f[1] * y_mm) / 10.0, (f[1] * x_mm + f[2] * y_mm) / 10.0]


def resultant(x: float, y: float) -> list[float]:
    """[amount, base direction in degrees] of two prism components at right angles.

    >>> resultant(0.0, 1.5), resultant(-3.0, 0.0)
    ([1.5, 90.0], [3.0, 180.0])
    """
    return [math.sqrt(x * x + y * y), angle_deg(x, y)]


def components(amount: float, base: float) -> list[float]:
    """[x, y] of a prism given by amount and base direction in degrees.

    >>> components(1.5, 270.0), components(3.0, 180.0)
    ([0.0, -1.5], [-3.0, 0.0])
    """
    return [amount * cos_deg(base), amount * sin_deg(base)]
