"""A value that lies outside of what it can mean becomes a reason with the limit and the value.

The limits are wider than anything that is worn or sold; they only keep the arithmetic in its domain, and say so when a
decimal point is missing.  No number (NaN) and what is beyond all bounds are told as ``BEYOND``.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.records import Reason
from quoting.kernel.rules import grid

# What stands as the fault of a lens that was not worked out because of an impossible number
IMPOSSIBLE = "impossible"

# What is told of a number that is none, or that is farther from zero
BEYOND = 999999.99

# Strongest power, D; (practice) nobody is prescribed more
MOST_POWER = 40.0
LEAST_MM = 0.01
MOST_MM = 200.0
LEAST_POINTS = 3.0

# A and B are printed in whole or half mm; an outline may differ from its box by so much
BOX_MM = 0.5

# Between air and more than any lens material; steeper and thicker than anything that is ground: with these a lens
# never focuses inside its own glass
LEAST_INDEX = 1.01
MOST_INDEX = 2.5
MOST_BASE = 30.0
MOST_CENTER_MM = 25.0

# So that products of amounts stay whole numbers in every language
MOST_CENTS = 10000000
WHOLE_SHARE = 10000


def told(value: float) -> float:
    """A number as a reason tells it."""
    if value >= 0.0 - BEYOND and value <= BEYOND:
        return grid(value)
    if value < 0.0:
        return 0.0 - BEYOND
    return BEYOND


def hold(reasons: list[Reason], code: str, eye: str, value: float, low: float, high: float) -> None:
    """A reason where a value is not from ``low`` to ``high``, or is no number."""
    if value >= low and value <= high:
        return
    needed = high
    if value < low:
        needed = low
    reasons.append({"code": code, "verdict": "no", "eye": eye, "needed": told(needed), "given": told(value)})
