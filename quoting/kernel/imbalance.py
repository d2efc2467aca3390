"""Prism where the eyes read, how far it pulls them apart vertically, and the slab-off that evens it out.

An eye is its lens [sphere, cylinder, axis] in the nasal frame, powers in D, and its prism [in, up] in prism diopters.
Source: Prentice's rule at the reading point, as in Keating, Geometric, Physical and Visual Optics; slab-off as in
Brooks & Borish, System for Ophthalmic Dispensing (from memory).
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math

from quoting.kernel.power import as_written, prentice
from quoting.kernel.prism import along, of_the_pair

# (practice) a slab-off is ground from 1.5 prism diopters of vertical imbalance on, in steps of a half
SLAB_OFF_FROM = 1.5
SLAB_OFF_STEP = 0.5


def near_prism(sphere: float, cylinder: float, axis: float, inset_mm: float, drop_mm: float) -> list[float]:
    """Prism [in, up] met by an eye that reads so far inside and below the optical center.

    Powers in D, the axis in the nasal frame; ``inset_mm`` toward the nose, ``drop_mm`` downward.

    >>> near_prism(4.0, 0.0, 180.0, 2.5, 10.0), near_prism(-4.0, 0.0, 180.0, 2.5, 10.0)
    ([-1.0, 4.0], [1.0, -4.0])
    """
    return prentice(sphere, cylinder, axis, 0.0 - inset_mm, drop_mm)


def pair_at_near(right: list[float], left: list[float], inset_mm: list[float], drop_mm: float) -> list[float]:
    """[in, up before the right eye] in prism diopters that two lenses add where the eyes read.

    Lenses [sphere, cylinder, axis], each in its own nasal frame; ``inset_mm`` is [right, left].

    >>> pair_at_near([4.0, 0.0, 180.0], [2.0, 0.0, 180.0], [2.5, 2.5], 10.0)
    [-1.5, 2.0]
    """
    one = near_prism(right[0], right[1], right[2], inset_mm[0], drop_mm)
    other = near_prism(left[0], left[1], left[2], inset_mm[1], drop_mm)
    return of_the_pair(one, other)


def imbalance_along(
    right: list[float], left: list[float], inset_mm: list[float], drop_mm: float, meridian: float
) -> float:
    """What pulls the eyes apart along a meridian where they read, in prism diopters.

    The meridian in degrees as seen facing the wearer: 90 is vertical, and positive there is base up before the right
    eye; 180 is horizontal, and positive there is base out.

    >>> imbalance_along([4.0, 0.0, 180.0], [2.0, 0.0, 180.0], [0.0, 0.0], 10.0, 90.0)
    2.0
    """
    apart = pair_at_near(right, left, inset_mm, drop_mm)
    return along(apart[0], apart[1], meridian)


def slab_off_amount(imbalance: float) -> float:
    """Slab-off in prism diopters for a vertical imbalance of either sign, to the nearest half; 0 below 1.5 (practice).

    Halfway between two steps it is the larger.

    >>> slab_off_amount(1.49), slab_off_amount(-1.5), slab_off_amount(2.25)
    (0.0, 1.5, 2.5)
    """
    apart = as_written(abs(imbalance))
    if apart < SLAB_OFF_FROM:
        return 0.0
    return math.floor(apart / SLAB_OFF_STEP + 0.5) * SLAB_OFF_STEP


def slab_off_eye(imbalance: float) -> str:
    """The eye whose lens takes the slab-off: "R", "L", or empty where none is ground.

    ``imbalance`` is vertical, in prism diopters, positive for base up before the right eye.  A slab-off takes base
    down away at the reading level, so it goes on the lens that has more of it: the one with more minus, or less plus,
    in its vertical meridian.

    >>> slab_off_eye(2.0), slab_off_eye(-2.0), slab_off_eye(1.0)
    ('L', 'R', '')
    """
    if slab_off_amount(imbalance) == 0.0:
        return ""
    if imbalance > 0.0:
        return "L"
    return "R"


def left_after_slab_off(imbalance: float) -> float:
    """Vertical imbalance that stays, in prism diopters, with the sign it had where less than all was taken away.

    >>> left_after_slab_off(2.2), left_after_slab_off(-2.2), left_after_slab_off(1.0)
    (0.2, -0.2, 1.0)
    """
    if imbalance < 0.0:
        return as_written(imbalance + slab_off_amount(imbalance))
    return as_written(imbalance - slab_off_amount(imbalance))
