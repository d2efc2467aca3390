"""Surfaces of a spectacle lens: curves, sags, and the back that gives the power.

Sources: Jalie, Ophthalmic Lenses and Dispensing (sagitta, back vertex power, toric surfaces); Vogel's rule as
taught in Brooks & Borish, System for Ophthalmic Dispensing.  Curvatures in 1/mm, positive when the surface is
convex toward the front; powers in diopters; lengths in mm.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math

# index for which surfacing tools and lens measures are marked (practice)
TOOL_INDEX = 1.53

# (practice) semi-finished blanks come in half-diopter curves
BASE_STEP = 0.5

# (practice) a lab goes up to about a diopter from the best form to meet the curve of the frame
BASE_LEEWAY = 1.0


def true_power(nominal: float, index: float) -> float:
    """Surface power in a material of this index of a curve marked at the tool index.

    >>> round(true_power(6.0, 1.498), 6)
    5.637736
    """
    return nominal * (index - 1.0) / (TOOL_INDEX - 1.0)


def front_curvature(power: float, index: float) -> float:
    """Curvature in 1/mm of a front surface of this power; the index is above 1.

    >>> front_curvature(5.0, 1.5)
    0.01
    """
    return power / (1000.0 * (index - 1.0))


def back_curvature(power: float, index: float) -> float:
    """Curvature in 1/mm of a back surface of this power: a minus back is hollow toward the eye and counts positive.

    >>> back_curvature(-5.0, 1.5)
    0.01
    """
    return 0.0 - power / (1000.0 * (index - 1.0))


def sag(curvature: float, conic: float, distance_squared: float) -> float:
    """Depth, mm, of a conic surface (conic 0: a sphere) at a squared distance, mm², from its vertex.

    Any conic: below -1 a hyperboloid and -1 a paraboloid, which have no end; above -1 an ellipsoid.
    Raises ValueError (square root of a negative) beyond the hemisphere: ask ``reaches`` in thickness before.

    >>> sag(0.02, 0.0, 1600.0), sag(0.02, -1.0, 1600.0)
    (20.0, 16.0)
    """
    root = math.sqrt(1.0 - (1.0 + conic) * curvature * curvature * distance_squared)
    return curvature * distance_squared / (1.0 + root)


def toric_sag(base: float, cross: float, along_base: float, along_cross: float) -> float:
    """Depth, mm, of a torus whose arc of curvature ``cross`` turns about an axis with curvature ``base``.

    Exact, and a sphere where both are equal, a cylinder where one is zero.
    Raises ValueError (square root of a negative) where the torus does not reach: ask ``reaches`` in thickness before.

    >>> toric_sag(0.02, 0.02, 0.0, 40.0), toric_sag(0.0, 0.02, 7.0, 40.0)
    (20.0, 20.0)
    """
    s = sag(cross, 0.0, along_cross * along_cross)
    flat = 1.0 - base * s
    root = math.sqrt(flat * flat - base * base * along_base * along_base)
    return (2.0 * s - base * s * s + base * along_base * along_base) / (1.0 + root)


def shape_factor(front: float, center_mm: float, index: float) -> float:
    """1 / (1 − (t/n)·F1): how much thickness and front curve alone magnify.   Raises ZeroDivisionError at F1 = n/t.

    >>> round(shape_factor(8.0, 4.0, 1.498), 6)
    1.021828
    """
    return 1.0 / (1.0 - center_mm / 1000.0 / index * front)


def back_power(vertex_power: float, front: float, center_mm: float, index: float) -> float:
    """Back surface power, D, that gives this back vertex power behind this front.

    >>> round(back_power(7.52, 10.25, 4.0, 1.586), 2)
    -3.0
    """
    return vertex_power - front * shape_factor(front, center_mm, index)


def back_vertex_power(front: float, back: float, center_mm: float, index: float) -> float:
    """Back vertex power of a thick lens.

    >>> round(back_vertex_power(10.25, -3.0, 4.0, 1.586), 2)
    7.52
    """
    return front * shape_factor(front, center_mm, index) + back


def front_vertex_power(front: float, back: float, center_mm: float, index: float) -> float:
    """Front vertex power, D: the same lens met from behind.

    >>> round(front_vertex_power(3.0, -8.5, 2.2, 1.498), 2)
    -5.4
    """
    return back_vertex_power(back, front, center_mm, index)


def equivalent_power(front: float, back: float, center_mm: float, index: float) -> float:
    """Equivalent power, D, of a thick lens, from its principal plane: F1 + F2 − (t/n)·F1·F2 (Gullstrand).

    >>> round(equivalent_power(8.75, -4.75, 4.1, 1.586), 4)
    4.1074
    """
    return front + back - center_mm / 1000.0 / index * front * back


def vogel_base(equivalent: float) -> float:
    """Nominal base curve, D, by Vogel's rule from the spherical equivalent: plus SE + 6, minus SE/2 + 6.

    >>> vogel_base(2.0), vogel_base(-4.0)
    (8.0, 4.0)
    """
    if equivalent >= 0.0:
        return equivalent + 6.0
    return equivalent / 2.0 + 6.0


def held(value: float, low: float, high: float) -> float:
    """The value, or the nearer limit.

    >>> held(5.0, 6.0, 8.0), held(7.0, 6.0, 8.0), held(9.0, 6.0, 8.0)
    (6.0, 7.0, 8.0)
    """
    if value < low:
        return low
    if value > high:
        return high
    return value


def base_by_rule(equivalent: float, low: float, high: float, frame_curve: float) -> float:
    """Vogel's rule, by up to the leeway toward the frame's curve, on a step that the design is made on.

    >>> base_by_rule(-4.0, 0.5, 8.0, 4.0), base_by_rule(-4.0, 0.5, 8.0, 6.0), base_by_rule(-8.0, 0.5, 8.0, 4.5)
    (4.0, 5.0, 3.0)
    """
    best = vogel_base(equivalent)
    wanted = held(frame_curve, best - BASE_LEEWAY, best + BASE_LEEWAY)
    return held(math.floor(wanted / BASE_STEP + 0.5) * BASE_STEP, low, high)
