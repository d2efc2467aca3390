"""Curves as they are marked, measured and chosen: tool index, lens clock, radius, index of an unknown lens.

Surface power F = 1000 (n − 1) / r with r in mm.  Tools are marked for an index of 1.530, lens clocks for one that
stands on their dial, often 1.53 (crown glass: 1.523).  Sources: Jalie, Ophthalmic Lenses and Dispensing; Brooks &
Borish, System for Ophthalmic Dispensing.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.surfaces import TOOL_INDEX


def radius(power: float, index: float) -> float:
    """Radius, mm, of a surface of this power, D; negative for a minus surface.

    Raises ValueError for a flat surface, which has none.

    >>> radius(5.0, 1.5), radius(-8.0, 1.5)
    (100.0, -62.5)
    """
    if power == 0.0:
        raise ValueError("a flat surface has no radius")
    return 1000.0 * (index - 1.0) / power


def power_of_radius(radius_mm: float, index: float) -> float:
    """Power, D, of a surface of this radius.   Raises ValueError for a radius of 0.

    >>> power_of_radius(62.5, 1.5)
    8.0
    """
    if radius_mm == 0.0:
        raise ValueError("no surface has a radius of 0")
    return 1000.0 * (index - 1.0) / radius_mm


def power_at_index(power: float, marked_index: float, index: float) -> float:
    """Power, D, in a material of ``index`` of a curve marked ``power`` for ``marked_index`` (above 1).

    >>> round(power_at_index(-3.0, 1.523, 1.7), 2)
    -4.02
    """
    return power * (index - 1.0) / (marked_index - 1.0)


def nominal_curve(power: float, index: float) -> float:
    """What a surface of this true power, D, is marked at the tool index of 1.530: the inverse of ``true_power``.

    >>> round(nominal_curve(5.637736, 1.498), 4)
    6.0
    """
    return power_at_index(power, index, TOOL_INDEX)


def clock_reading(power: float, index: float, clock_index: float) -> float:
    """What a lens clock shows, D, on a surface of this true power.

    >>> round(clock_reading(-4.0153, 1.7, 1.523), 2)
    -3.0
    """
    return power_at_index(power, index, clock_index)


def index_by_clock(readings: float, clock_index: float, power: float) -> float:
    """Index of a thin lens whose two clock readings, D, add up so and whose power was measured.

    Raises ValueError where the readings add up to 0: such a lens tells nothing about its index.

    >>> round(index_by_clock(3.5, 1.523, 6.0), 4)
    1.8966
    """
    if readings == 0.0:
        raise ValueError("readings that add up to 0 tell no index")
    return 1.0 + (clock_index - 1.0) * power / readings
