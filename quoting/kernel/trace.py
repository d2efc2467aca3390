"""The outline of a lens from a trace: radii all around, as a tracer measures them in the rim.

A trace is seen from the front, angles counter-clockwise from the observer's right, at the nasal side of a right eye;
its origin lies anywhere inside.  Between the radii runs the curve of quoting.kernel.periodic.  The outline keeps what
the curve touches its box with, and the farthest point of each quarter: so A, B and ED of the curve come out whatever
the number of points; the other points are spread evenly over the angles between those.

A smooth curve overshoots a tip without any rounding: by 0.07 mm on a square of 48 mm traced at every degree.  Rims
have none so sharp, and a tracer's feeler would round it.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math

from quoting.kernel.outline import QUARTER_POINTS
from quoting.kernel.periodic import curve_through, point_at
from quoting.kernel.touching import center_of_box, kept_angles, looked_over, touching


def equal_angles(count: int) -> list[float]:
    """Angles of a trace whose radii are equally far apart, from 0 on, degrees.

    >>> equal_angles(4)
    [0.0, 90.0, 180.0, 270.0]
    """
    angles: list[float] = []
    for i in range(count):
        angles.append(360.0 * i / count)
    return angles


def mirrored_trace(radii: list[float], angles: list[float]) -> list[list[float]]:
    """[radii, angles] of the other eye's trace: each angle becomes 180° less itself, and they rise again from 0 on.

    >>> mirrored_trace([25.0, 20.0, 24.0], [10.0, 90.0, 200.0])
    [[20.0, 25.0, 24.0], [90.0, 170.0, 340.0]]
    """
    count = len(radii)
    other_radii: list[float] = []
    other_angles: list[float] = []
    for k in range(count):
        i = count - 1 - k
        if angles[i] <= 180.0:
            other_radii.append(radii[i])
            other_angles.append(180.0 - angles[i])
    for k in range(count):
        i = count - 1 - k
        if angles[i] > 180.0:
            other_radii.append(radii[i])
            other_angles.append(540.0 - angles[i])
    return [other_radii, other_angles]


def spread(kept: list[float], count: int) -> list[float]:
    """``count`` angles once around, the kept ones among them; as even as they allow.

    >>> spread([0.0, 100.0], 4)
    [0.0, 50.0, 100.0, 230.0]
    """
    free = count - len(kept)
    places: list[int] = []
    for i in range(len(kept)):
        places.append(math.floor((kept[i] - kept[0]) / 360.0 * free + 0.5) + i)
    angles: list[float] = []
    for i in range(len(kept)):
        end = kept[0] + 360.0
        points = count - places[i]
        if i + 1 < len(kept):
            end = kept[i + 1]
            points = places[i + 1] - places[i]
        for k in range(points):
            angles.append(kept[i] + (end - kept[i]) * k / points)
    return angles


def resampled(curve: list[list[float]], count: int) -> list[list[float]]:
    """[xs, ys] of a curve by ``count`` points, 12 at least, about its box center, from the nasal touching point.

    >>> xs, ys = resampled(curve_through([0.0, 120.0, 240.0], [25.0, 25.0, 25.0]), 12)
    >>> len(xs), round(max(ys), 6)
    (12, 25.0)
    """
    looked = looked_over(curve)
    touches = touching(curve, looked)
    center = center_of_box(curve, touches)
    xs: list[float] = []
    ys: list[float] = []
    for angle in spread(kept_angles(curve, looked, touches, center), count):
        place = point_at(curve, angle)
        xs.append(place[0] - center[0])
        ys.append(place[1] - center[1])
    return [xs, ys]


def from_trace(radii: list[float], angles: list[float], side: str) -> list[list[float]]:
    """[xs, ys] in the nasal frame of the trace of a right ("R") or left ("L") lens, mm, about its box center.

    "B" is a right lens's trace that holds for both.  As many points as an outline from A, B and ED.  Ask
    ``trace_faults`` first.  Raises ValueError for another side.

    >>> xs, ys = from_trace([25.0, 25.0, 25.0, 25.0], equal_angles(4), "R")
    >>> len(xs), max(xs), min(ys)
    (120, 25.0, -25.0)
    """
    if side == "L":
        other = mirrored_trace(radii, angles)
        return resampled(curve_through(other[1], other[0]), 4 * QUARTER_POINTS)
    if side == "R" or side == "B":
        return resampled(curve_through(angles, radii), 4 * QUARTER_POINTS)
    raise ValueError("a trace is of the right lens, of the left one, or of both")
