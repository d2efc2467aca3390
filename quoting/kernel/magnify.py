"""How much larger an eye sees through its lens, and how unlike the two eyes' images are.

Source: spectacle magnification as shape factor times power factor, Keating, Geometric, Physical and Visual Optics; by
meridians with the power matrix of Long, Am. J. Optom. 53 (1976) 119.  Powers D, lengths mm.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math

from quoting.kernel.power import matrix
from quoting.kernel.surfaces import shape_factor

# (practice) the eye's entrance pupil lies about 3 mm behind the cornea
PUPIL_BEHIND_CORNEA_MM = 3.0


def power_factor(vertex_power: float, pupil_mm: float) -> float:
    """1 / (1 − h·F): what the power alone magnifies; ``pupil_mm`` from the back vertex to the entrance pupil.

    Raises ZeroDivisionError where the image falls into the pupil.

    >>> round(power_factor(5.0, 14.0), 6)
    1.075269
    """
    return 1.0 / (1.0 - pupil_mm / 1000.0 * vertex_power)


def magnification(front: float, center_mm: float, index: float, vertex_power: float, pupil_mm: float) -> float:
    """Spectacle magnification, shape factor times power factor; raises as they do.

    >>> round(magnification(8.0, 4.0, 1.498, 5.0, 14.0), 5)
    1.09874
    """
    return shape_factor(front, center_mm, index) * power_factor(vertex_power, pupil_mm)


def magnified(shape: float, sphere: float, cylinder: float, axis: float, pupil_mm: float) -> list[float]:
    """Magnification matrix [xx, xy, yy]: the shape factor times (1 − h·F)⁻¹ with the power matrix F.

    Raises ZeroDivisionError where a focal line falls into the pupil.

    >>> [round(value, 4) for value in magnified(1.02, 5.0, -5.0, 180.0, 14.0)]
    [1.0968, 0.0, 1.02]
    """
    f = matrix(sphere, cylinder, axis)
    h = pupil_mm / 1000.0
    xx = 1.0 - h * f[0]
    xy = 0.0 - h * f[1]
    yy = 1.0 - h * f[2]
    whole = xx * yy - xy * xy
    return [shape * yy / whole, 0.0 - shape * xy / whole, shape * xx / whole]


def image_difference(right: float, left: float) -> float:
    """How much larger the right eye's image is than the left eye's, in percent; both are magnifications above 0.

    >>> round(image_difference(1.05, 1.0), 6), round(image_difference(0.95, 1.0), 6)
    (5.0, -5.0)
    """
    return 100.0 * (right / left - 1.0)


def greatest_difference(right: list[float], left: list[float]) -> float:
    """The greatest difference of image size between the eyes in any meridian, in percent with its sign (right − left).

    Takes the magnification matrix of each eye in its own nasal frame, and mirrors the left.  In percent of the mean
    magnification of the left eye; of two as great the one with the plus sign.

    >>> round(greatest_difference([1.06, 0.0, 1.02], [1.0, 0.0, 1.0]), 6)
    6.0
    """
    xx = right[0] - left[0]
    xy = right[1] + left[1]
    yy = right[2] - left[2]
    mean = (xx + yy) / 2.0
    half = math.sqrt((xx - yy) * (xx - yy) / 4.0 + xy * xy)
    most = mean + half
    if mean < 0.0:
        most = mean - half
    return 200.0 * most / (left[0] + left[2])
