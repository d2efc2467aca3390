"""The lens as it sits before the eye: tilt, wrap, magnification.

Sources: Martin's tilt formulas as taught in Brooks & Borish, System for Ophthalmic Dispensing; spectacle
magnification as in Keating, Geometric, Physical and Visual Optics.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.elementary import cos_deg, sin_deg
from quoting.kernel.power import crossed
from quoting.kernel.surfaces import shape_factor

# 1 mm for each 2 degrees keeps the optical axis through the eye's center of rotation (27 mm · tan 2° = 0.94 mm)
DROP_PER_DEGREE_MM = 0.5


def martin(power: float, tilt: float, index: float) -> list[float]:
    """[sphere, induced cylinder] of a spherical lens tilted by so many degrees about its axis."""
    s = sin_deg(tilt)
    c = cos_deg(tilt)
    sphere = power * (1.0 + s * s / (2.0 * index))
    return [sphere, sphere * s * s / (c * c)]


def tilted(sphere: float, cylinder: float, axis: float, tilt: float, about: float, index: float) -> list[float]:
    """Effective [sphere, cylinder, axis] of a tilted lens: Martin on the mean power, combined with the cylinder.

    ``about`` is the axis of the induced cylinder: 180 for pantoscopic tilt, 90 for wrap.
    """
    mean = sphere + cylinder / 2.0
    turned = martin(mean, tilt, index)
    rest = [sphere - mean, cylinder, axis]
    return crossed([turned[0], turned[1], about], rest)


def center_drop(tilt: float) -> float:
    """How far below the pupil the optical center belongs, mm.

    >>> center_drop(8.0)
    4.0
    """
    return tilt * DROP_PER_DEGREE_MM


def magnification(front: float, center_mm: float, index: float, vertex_power: float, pupil_mm: float) -> float:
    """Spectacle magnification; ``pupil_mm`` from the back vertex to the entrance pupil."""
    return shape_factor(front, center_mm, index) / (1.0 - pupil_mm / 1000.0 * vertex_power)
