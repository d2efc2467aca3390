"""How far two colors lie apart as eyes see it: CIEDE2000.

Source: ISO/CIE 11664-6; Sharma, Wu and Dalal, *Color Research and Application* 30 (2005) 21, whose order of steps this
follows.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math

from quoting.kernel.elementary import angle_deg, cos_deg, exp, sin_deg

# 25 to the seventh power
SEVENTH = 6103515625.0
# Hues opposite to each other but for the last bits of a float count as opposite
HAIR = 0.000000001


def of_chroma(chroma: float) -> float:
    """sqrt(C⁷ / (C⁷ + 25⁷))."""
    seventh = chroma * chroma * chroma * chroma * chroma * chroma * chroma
    return math.sqrt(seventh / (seventh + SEVENTH))


def middle_hue(one: float, other: float) -> float:
    """The hue halfway between two, in degrees, the shorter way around."""
    if abs(one - other) <= 180.0 + HAIR:
        return (one + other) / 2.0
    if one + other < 360.0:
        return (one + other + 360.0) / 2.0
    return (one + other - 360.0) / 2.0


def hue_step(one: float, other: float) -> float:
    """From one hue to the other in degrees, the shorter way around."""
    step = other - one
    if step > 180.0 + HAIR:
        return step - 360.0
    if step < 0.0 - 180.0 - HAIR:
        return step + 360.0
    return step


def difference(one: list[float], other: list[float]) -> float:
    """CIEDE2000 of two colors given as L*, a*, b*; around 1 is what a trained eye just sees, side by side.

    >>> round(difference([50.0, 2.6772, -79.7751], [50.0, 0.0, -82.7485]), 4)
    2.0425
    """
    chroma = (math.sqrt(one[1] * one[1] + one[2] * one[2]) + math.sqrt(other[1] * other[1] + other[2] * other[2])) / 2.0
    wider = 1.5 - 0.5 * of_chroma(chroma)
    a1 = wider * one[1]
    a2 = wider * other[1]
    c1 = math.sqrt(a1 * a1 + one[2] * one[2])
    c2 = math.sqrt(a2 * a2 + other[2] * other[2])
    h1 = angle_deg(a1, one[2])
    h2 = angle_deg(a2, other[2])
    step = 0.0
    mean_h = h1 + h2
    if c1 * c2 != 0.0:
        step = hue_step(h1, h2)
        mean_h = middle_hue(h1, h2)
    mean_c = (c1 + c2) / 2.0
    off = (one[0] + other[0]) / 2.0 - 50.0
    hues = 1.0 - 0.17 * cos_deg(mean_h - 30.0) + 0.24 * cos_deg(2.0 * mean_h)
    hues = hues + 0.32 * cos_deg(3.0 * mean_h + 6.0) - 0.2 * cos_deg(4.0 * mean_h - 63.0)
    around = (mean_h - 275.0) / 25.0
    turned = 0.0 - 2.0 * of_chroma(mean_c) * sin_deg(60.0 * exp(0.0 - around * around))
    lightness = (other[0] - one[0]) / (1.0 + 0.015 * off * off / math.sqrt(20.0 + off * off))
    chromas = (c2 - c1) / (1.0 + 0.045 * mean_c)
    turns = 2.0 * math.sqrt(c1 * c2) * sin_deg(step / 2.0) / (1.0 + 0.015 * mean_c * hues)
    square = lightness * lightness + chromas * chromas + turns * turns + turned * chromas * turns
    if square <= 0.0:
        return 0.0
    return math.sqrt(square)
