"""What is wrong with a trace: reasons, each with what is needed and what is given.  Ask before an outline is made.

An outline can be made of a trace without faults.  Codes, with what stands as needed and given:
trace-too-few (radii), trace-angle-count (angles), trace-not-a-length (how many numbers, which of them from 1; radii
first), trace-radius (above what, the first that is not), trace-angles-order (above what, the first that is not),
trace-angles-turn (the end of the turn, the angle or stretch beyond it), trace-gap (below how many degrees, the
greatest gap), trace-too-rough (above what, the least radius between those given), trace-box-a and trace-box-b (the
stated one, the trace's).  Lengths mm, angles degrees.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math

from quoting.kernel.boxing import dimensions
from quoting.kernel.outline import QUARTER_POINTS
from quoting.kernel.periodic import curve_through, radius_at, steps_between
from quoting.kernel.records import Reason
from quoting.kernel.rules import grid, say
from quoting.kernel.touching import LOOK_DEG
from quoting.kernel.trace import resampled

# A polygon has three corners
LEAST_RADII = 3

# ISO 12870, tolerances of marked dimensions (from memory): boxed lens size within 0.5 mm
BOX_TOLERANCE_MM = 0.5

# Two numbers on the grid of 0.01 mm differ by a multiple of it, but for the last bits of a float
DUST_MM = 0.005

# No number in a trace is as great, mm or degrees
ABSURD = 1000.0

# From a point inside, no two neighbors of a trace are as far apart, degrees
HALF_TURN = 180.0


def first_absurd(values: list[float]) -> int:
    """Which of the values, from 1, is no number or too great for a trace; 0 where none is.

    >>> first_absurd([25.0, 2.0e9, 25.0]), first_absurd([25.0])
    (2, 0)
    """
    for i in range(len(values)):
        if not (values[i] > -ABSURD and values[i] < ABSURD):
            return i + 1
    return 0


def count_faults(radii: list[float], angles: list[float], reasons: list[Reason]) -> None:
    """Whether there are enough radii, an angle for each, and numbers only.

    >>> reasons = []
    >>> count_faults([25.0, 25.0], [0.0], reasons)
    >>> [one["code"] for one in reasons]
    ['trace-too-few', 'trace-angle-count']
    """
    count = len(radii)
    if count < LEAST_RADII:
        say(reasons, "trace-too-few", "no", "B", LEAST_RADII, count)
    if len(angles) != count:
        say(reasons, "trace-angle-count", "no", "B", count, len(angles))
    place = first_absurd(radii)
    if place == 0:
        place = first_absurd(angles)
        if place > 0:
            place += count
    if place > 0:
        say(reasons, "trace-not-a-length", "no", "B", count + len(angles), place)


def radius_fault(radii: list[float], reasons: list[Reason]) -> None:
    """Whether each radius is above zero, mm.

    >>> reasons = []
    >>> radius_fault([25.0, 0.0, -3.0], reasons)
    >>> [(one["code"], one["given"]) for one in reasons]
    [('trace-radius', 0.0)]
    """
    for radius in radii:
        if radius <= 0.0:
            say(reasons, "trace-radius", "no", "B", 0.0, radius)
            return


def angle_faults(angles: list[float], reasons: list[Reason]) -> None:
    """Whether the angles rise, within one turn, and leave no gap that the origin would lie outside of.

    >>> reasons = []
    >>> angle_faults([0.0, 10.0, 20.0], reasons)
    >>> [(one["code"], one["needed"], one["given"]) for one in reasons]
    [('trace-gap', 180.0, 340.0)]
    """
    last = angles[len(angles) - 1]
    for i in range(1, len(angles)):
        if angles[i] <= angles[i - 1]:
            say(reasons, "trace-angles-order", "no", "B", angles[i - 1], angles[i])
            return
    if angles[0] < 0.0:
        say(reasons, "trace-angles-turn", "no", "B", 0.0, angles[0])
    if last > 360.0:
        say(reasons, "trace-angles-turn", "no", "B", 360.0, last)
    if last - angles[0] >= 360.0:
        say(reasons, "trace-angles-turn", "no", "B", 360.0, last - angles[0])
        return
    gap = 0.0
    for step in steps_between(angles):
        if step > gap:
            gap = step
    if gap >= HALF_TURN:
        say(reasons, "trace-gap", "no", "B", HALF_TURN, gap)


def least_radius(curve: list[list[float]]) -> float:
    """The least radius of a curve at fine steps around, mm; below zero where it runs through its origin.

    >>> round(least_radius(curve_through([0.0, 90.0, 180.0, 270.0], [25.0, 20.0, 25.0, 20.0])), 6)
    20.0
    """
    least = curve[1][0]
    for i in range(math.floor(360.0 / LOOK_DEG)):
        radius = radius_at(curve, LOOK_DEG * i)
        if radius < least:
            least = radius
    return least


def box_faults(width: float, height: float, a: float, b: float, reasons: list[Reason]) -> None:
    """Whether the box of a trace is the stated one within BOX_TOLERANCE_MM.

    >>> reasons = []
    >>> box_faults(52.5, 38.51, 52.0, 38.0, reasons)
    >>> [(one["code"], one["needed"], one["given"]) for one in reasons]
    [('trace-box-b', 38.0, 38.51)]
    """
    if abs(grid(width) - grid(a)) > BOX_TOLERANCE_MM + DUST_MM:
        say(reasons, "trace-box-a", "no", "B", a, width)
    if abs(grid(height) - grid(b)) > BOX_TOLERANCE_MM + DUST_MM:
        say(reasons, "trace-box-b", "no", "B", b, height)


def trace_faults(radii: list[float], angles: list[float], a: float, b: float) -> list[Reason]:
    """All that is wrong with a trace of a lens whose stated box is A by B, mm; empty where an outline can be made.

    What is measured on the curve is told only where there is a curve.  NaN is told too: but no comparison with it
    is ever true, and where the kernel runs in a page it is an error, so whoever reads a trace keeps it out there.

    >>> [fault["code"] for fault in trace_faults([25.0, -1.0, 25.0], [0.0, 90.0, 80.0], 50.0, 50.0)]
    ['trace-radius', 'trace-angles-order']
    """
    reasons: list[Reason] = []
    count_faults(radii, angles, reasons)
    if len(reasons) > 0:
        return reasons
    radius_fault(radii, reasons)
    angle_faults(angles, reasons)
    if len(reasons) > 0:
        return reasons
    curve = curve_through(angles, radii)
    least = least_radius(curve)
    if least <= 0.0:
        say(reasons, "trace-too-rough", "no", "B", 0.0, least)
        return reasons
    outline = resampled(curve, 4 * QUARTER_POINTS)
    sides = dimensions(outline[0], outline[1])
    box_faults(sides[0], sides[1], a, b, reasons)
    return reasons


def trace_fault(radii: list[float], angles: list[float], a: float, b: float) -> str:
    """Code of the first fault; "" where there is none.

    >>> trace_fault([25.0, 25.0, 25.0, 25.0], [0.0, 90.0, 180.0, 270.0], 50.0, 50.0)
    ''
    """
    reasons = trace_faults(radii, angles, a, b)
    if len(reasons) == 0:
        return ""
    return reasons[0]["code"]
