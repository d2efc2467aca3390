"""Rules of thumb for the lens as it sits before the eye: tilt, wrap, and the prism they bring.

They know a lens by its power and index alone; ``wearing`` traces the real lens, and decides.
Sources: Martin's tilt formulas and the rule for the optical center as taught in Brooks & Borish, System for Ophthalmic
Dispensing; two tilts at once as in Keating, Geometric, Physical and Visual Optics.  Angles in degrees in the nasal
frame: pantoscopic tilt brings the lower edge toward the cheek, wrap (face form) the temporal edge toward the temple.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math

from quoting.kernel.elementary import angle_deg, cos_deg, sin_deg
from quoting.kernel.power import axis_within, crossed

# 1 mm for each 2 degrees keeps the optical axis through the eye's center of rotation (27 mm · tan 2° = 0.94 mm)
DROP_PER_DEGREE_MM = 0.5


def martin(power: float, tilt: float, index: float) -> list[float]:
    """[sphere, induced cylinder] in diopters of a spherical lens tilted by so many degrees about its axis.

    Not for a tilt of 90 degrees (ZeroDivisionError).   Source: Martin, as above.

    >>> [round(value, 2) for value in martin(15.0, 10.0, 1.5)]
    [15.15, 0.47]
    """
    s = sin_deg(tilt)
    c = cos_deg(tilt)
    sphere = power * (1.0 + s * s / (2.0 * index))
    return [sphere, sphere * s * s / (c * c)]


def tilted(sphere: float, cylinder: float, axis: float, tilt: float, about: float, index: float) -> list[float]:
    """Effective [sphere, cylinder, axis] of a tilted lens: Martin on the mean power, combined with the cylinder.

    ``about`` is the axis of the induced cylinder: 180 for pantoscopic tilt, 90 for wrap.

    >>> [round(value, 2) for value in tilted(-6.0, 0.0, 180.0, 15.0, 90.0, 1.6)]
    [-6.13, -0.44, 90.0]
    """
    mean = sphere + cylinder / 2.0
    turned = martin(mean, tilt, index)
    rest = [sphere - mean, cylinder, axis]
    return crossed([turned[0], turned[1], about], rest)


def compound_tilt(tilt: float, wrap: float) -> list[float]:
    """[angle, meridian] in degrees: the one tilt that a lens has which is wrapped in a frame that is tilted.

    cos angle = cos tilt · cos wrap.  The meridian is that in which the lens is tilted; the axis of the induced cylinder
    stands across it.  The frame tilts as a whole and the lens is wrapped within it: tan meridian = sin tilt / tan wrap.
    (Texts that wrap last have tan tilt / sin wrap, about a degree more.)

    >>> [round(value, 3) for value in compound_tilt(10.0, 15.0)]
    [17.964, 32.946]
    """
    x = sin_deg(wrap)
    y = cos_deg(wrap) * sin_deg(tilt)
    angle = angle_deg(cos_deg(wrap) * cos_deg(tilt), math.sqrt(x * x + y * y))
    return [angle, angle_deg(x, y)]


def tilted_both(sphere: float, cylinder: float, axis: float, tilt: float, wrap: float, index: float) -> list[float]:
    """Effective [sphere, cylinder, axis] of a lens tilted and wrapped at once, by Martin's formulas on the one tilt.

    >>> [round(value, 2) for value in tilted_both(-6.0, 0.0, 180.0, 0.0, 15.0, 1.6)]
    [-6.13, -0.44, 90.0]
    """
    both = compound_tilt(tilt, wrap)
    return tilted(sphere, cylinder, axis, both[0], axis_within(both[1] + 90.0), index)


def center_drop(tilt: float) -> float:
    """How far below the pupil the optical center belongs, mm, by the rule 1 mm for 2 degrees of tilt.

    >>> center_drop(8.0)
    4.0
    """
    return tilt * DROP_PER_DEGREE_MM


def tilt_prism(front: float, center_mm: float, index: float, tilt: float) -> float:
    """Estimate of the prism (prism diopters) that the form of a tilted lens brings: 100 · tan θ · (t/n) · F1.

    Its base points to the edge that stands nearer to the face: down under pantoscopic tilt, out under wrap, since the
    ray leaves the back nearer to that edge than it entered the front.   Not for 90 degrees (ZeroDivisionError).
    Source: thin estimate as compared with the trace in the tests; the direction is that of the trace.

    >>> round(tilt_prism(6.0, 2.0, 1.586, 15.0), 3)
    0.203
    """
    return 100.0 * sin_deg(tilt) / cos_deg(tilt) * center_mm / 1000.0 / index * front
