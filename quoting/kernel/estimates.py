"""Rules of thumb about thickness and prism, beside the exact figures: what a bench sheet or a textbook reckons with.

Nothing in an offer is decided by them.  Sources: Jalie, Ophthalmic Lenses and Dispensing; Meister, Methods for
Estimating Lens Thickness (1997).
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math

from quoting.kernel.elementary import cos_deg, sin_deg


def approximate_sag(power: float, index: float, distance: float) -> float:
    """Sag, mm, as y²F / (2000 (n − 1)): the paraboloid, always less deep than the sphere (``sag`` in surfaces).

    It falls short of the sphere's by (y/r)²/4 of that and some more: by 2.0 % at y/r = 0.28, by 6.7 % at 0.5.

    >>> round(approximate_sag(6.0, 1.53, 25.0), 3)  # the sphere's own: 3.612
    3.538
    """
    return distance * distance * power / (2000.0 * (index - 1.0))


def approximate_thickness(least: float, power: float, diameter: float, index: float) -> float:
    """Greatest thickness, mm, of an uncut round lens from its least: least + (D/2)²|F| / (2000 (n − 1)).

    >>> approximate_thickness(2.0, -6.0, 50.0, 1.5)
    5.75
    """
    return least + approximate_sag(abs(power), index, diameter / 2.0)


def prism_thickness(prism: float, distance: float, index: float) -> float:
    """How much thicker, mm, a thin prism is toward its base over this distance, mm: P·d / (100 (n − 1)).

    >>> prism_thickness(3.0, 50.0, 1.5)
    3.0
    """
    return prism * distance / (100.0 * (index - 1.0))


def prism_by_apex(apex_deg: float, index: float) -> float:
    """Prism diopters of a thin prism by its apex angle: 100 (n − 1) tan A.   Raises ZeroDivisionError at 90 degrees.

    >>> round(prism_by_apex(3.4362, 1.5), 4)
    3.0023
    """
    return 100.0 * (index - 1.0) * sin_deg(apex_deg) / cos_deg(apex_deg)


def deviates(apex_deg: float, index: float) -> bool:
    """Whether light that meets the first face at a right angle leaves the second: else it is reflected inside.

    >>> deviates(30.0, 1.5), deviates(45.0, 1.5)
    (True, False)
    """
    return abs(index * sin_deg(apex_deg)) < 1.0


def prism_exact(apex_deg: float, index: float) -> float:
    """Prism diopters of a prism whose first face light meets at a right angle, by Snell's law at the second.

    100 tan(r − A) with sin r = n sin A.   Raises ValueError or ZeroDivisionError where ``deviates`` is false.

    >>> round(prism_exact(3.4362, 1.5), 5)
    3.00632
    """
    sine = index * sin_deg(apex_deg)
    cosine = math.sqrt(1.0 - sine * sine)
    across = sine * cos_deg(apex_deg) - cosine * sin_deg(apex_deg)
    return 100.0 * across / (cosine * cos_deg(apex_deg) + sine * sin_deg(apex_deg))


def curve_variation_factor(index: float, crown_index: float) -> float:
    """How curved, and so about how thick, a surface of this index is beside one of crown glass: (nc − 1) / (n − 1).

    >>> round(curve_variation_factor(1.7, 1.523), 2)
    0.75
    """
    return (crown_index - 1.0) / (index - 1.0)


def bending(front: float, back: float) -> float:
    """Coddington's shape factor of a lens from its two curvatures (any unit): (c1 + c2) / (c1 − c2).

    0: both sides alike; 1: flat back; beyond: a meniscus.  Raises ValueError for a lens without power.

    >>> bending(0.01, -0.01), bending(0.01, 0.0), bending(0.01, 0.005)
    (0.0, 1.0, 3.0)
    """
    if front == back:
        raise ValueError("a lens without power has no shape factor")
    return (front + back) / (front - back)
