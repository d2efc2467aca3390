"""Where the lens sits in the frame: centers, decentration, blank, segment.

Boxing system: ISO 8624.  Minimum blank and segment inset as in Brooks & Borish, System for Ophthalmic Dispensing.
Near PD: Gerstman's formula.  Lengths in mm.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math

# (practice) the fitting cross of a progressive stands this far above its prism reference point
CROSS_ABOVE_REFERENCE_MM = 4.0

# (practice) a bifocal line at the lower lid lies about this far below the pupil's center
LID_BELOW_PUPIL_MM = 5.0

# eye's center of rotation behind the lens, for near PD
STOP_MM = 27.0


def decentration_in(a: float, dbl: float, monocular_pd: float) -> float:
    """Toward the nose from the box center to the pupil; negative: outward.

    >>> decentration_in(50.0, 20.0, 34.0)
    1.0
    """
    return (a + dbl) / 2.0 - monocular_pd


def decentration_up(b: float, height: float) -> float:
    """From the box center up to a point ``height`` above the lowest point of the box.

    >>> decentration_up(50.0, 22.0)
    -3.0
    """
    return height - b / 2.0


def blank_by_rule(ed: float, dec_in: float, dec_up: float, allowance: float) -> float:
    """Rule of thumb: ED + 2 · decentration + allowance.  Never below the exact one.

    >>> blank_by_rule(56.0, 5.0, 0.0, 1.0)
    67.0
    """
    return ed + 2.0 * math.sqrt(dec_in * dec_in + dec_up * dec_up) + allowance


def blank_exact(reach: float, allowance: float) -> float:
    """Twice the longest distance from the blank's center to the outline, and the allowance.

    >>> blank_exact(10.0, 2.0)
    22.0
    """
    return 2.0 * reach + allowance


def near_pd(distance_pd: float, working_mm: float, power: float) -> float:
    """Binocular PD at a working distance, measured from the lens, looking through horizontal power ``power``.

    >>> round(near_pd(63.0, 400.0, 0.0), 1)
    59.0
    """
    return distance_pd - distance_pd / (1.0 + working_mm * (1.0 / STOP_MM - power / 1000.0))


def near_inset(monocular_pd: float, working_mm: float, power: float) -> float:
    """How far one eye turns inward at the lens for reading, mm: Gerstman's formula on one eye's own PD.

    ``working_mm`` from the lens, ``power`` that of the lens in the horizontal meridian, D.

    >>> round(near_inset(31.5, 400.0, 0.0), 2)
    1.99
    """
    return monocular_pd - near_pd(monocular_pd, working_mm, power)


def segment_inset(distance_pd: float, near: float) -> float:
    """Each segment inward of its distance center: half of distance PD less near PD, both binocular, mm.

    >>> segment_inset(68.0, 64.0)
    2.0
    """
    return (distance_pd - near) / 2.0


def total_inset(a: float, dbl: float, near: float) -> float:
    """Each segment inward of the box center: half of frame PD (A + DBL) less binocular near PD, mm.

    >>> total_inset(52.0, 18.0, 60.0)
    5.0
    """
    return (a + dbl - near) / 2.0


def segment_drop(reference: float, segment: float) -> float:
    """How far a segment's top lies below the distance reference point; both heights from the bottom of the box, mm.

    >>> segment_drop(20.0, 17.0)
    3.0
    """
    return reference - segment


def segment_height(pupil_height: float) -> float:
    """Where the top of a bifocal segment goes while nobody measured the lid.

    >>> segment_height(24.0)
    19.0
    """
    return pupil_height - LID_BELOW_PUPIL_MM


def reference_height(kind: str, pupil_height: float, drop: float) -> float:
    """Height of the point where the lens has its prescribed power and prism.

    A progressive's cross stands at the pupil; other lenses have their optical center below it, by what the tilt asks.

    >>> reference_height("progressive", 24.0, 3.0), reference_height("bifocal", 24.0, 3.0)
    (20.0, 21.0)
    """
    if kind == "progressive":
        return pupil_height - CROSS_ABOVE_REFERENCE_MM
    return pupil_height - drop


def fitting_height(kind: str, pupil_height: float) -> float:
    """The height that the design's minimum is about: the cross at the pupil, or the top of the segment.

    >>> fitting_height("progressive", 24.0), fitting_height("bifocal", 24.0)
    (24.0, 19.0)
    """
    if kind == "bifocal":
        return segment_height(pupil_height)
    return pupil_height
