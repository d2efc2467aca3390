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

# How finely a curve is looked over for its farthest points, degrees; then the place is narrowed down around the best
LOOK_DEG = 0.5
NARROWINGS = 40

# Points of an outline nearer to each other than this are one point: at most 0.005 mm of ED on the largest lenses
SAME_DEG = 0.005


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


def looked_over(curve: list[list[float]]) -> list[list[float]]:
    """[xs, ys] of the curve at fine steps once around, mm."""
    count = math.floor(360.0 / LOOK_DEG)
    xs: list[float] = []
    ys: list[float] = []
    for i in range(count):
        place = point_at(curve, LOOK_DEG * i)
        xs.append(place[0])
        ys.append(place[1])
    return [xs, ys]


def score(x: float, y: float, aim: list[float]) -> float:
    """What is made greatest: ``aim[0]`` · (x² + y²) + ``aim[1]`` · x + ``aim[2]`` · y.

    [0, 1, 0] aims at the greatest x; [1, −2u, −2v] at the point farthest from (u, v).

    >>> score(3.0, 4.0, [1.0, -2.0, 0.0])
    19.0
    """
    return aim[0] * (x * x + y * y) + aim[1] * x + aim[2] * y


def score_at(curve: list[list[float]], angle: float, aim: list[float]) -> float:
    """The score of the point of the curve at an angle."""
    place = point_at(curve, angle)
    return score(place[0], place[1], aim)


def narrowed(curve: list[list[float]], low: float, high: float, aim: list[float]) -> float:
    """The angle between ``low`` and ``high`` with the greatest score, if there is one hill only; by thirds."""
    for _ in range(NARROWINGS):
        one = low + (high - low) / 3.0
        other = high - (high - low) / 3.0
        if score_at(curve, one, aim) < score_at(curve, other, aim):
            low = one
        else:
            high = other
    return (low + high) / 2.0


def best_between(
    curve: list[list[float]], looked: list[list[float]], start: float, end: float, aim: list[float]
) -> float:
    """The angle from ``start`` up to ``end`` with the greatest score; a turn or less apart, degrees."""
    best = start
    most = score_at(curve, start, aim)
    count = len(looked[0])
    first = math.floor(start / LOOK_DEG) + 1
    for k in range(count):
        angle = LOOK_DEG * (first + k)
        if angle >= end:
            break
        i = first + k - count * math.floor((first + k) / count)
        found = score(looked[0][i], looked[1][i], aim)
        if found > most:
            most = found
            best = angle
    low = best - LOOK_DEG
    high = best + LOOK_DEG
    if low < start:
        low = start
    if high > end:
        high = end
    angle = narrowed(curve, low, high, aim)
    if score_at(curve, angle, aim) > most:
        return angle
    return best


def touching(curve: list[list[float]], looked: list[list[float]]) -> list[float]:
    """Angles where the curve touches its box: nasal, top, temporal, bottom; rising, the first in 0 up to 360."""
    aims = [[0.0, 1.0, 0.0], [0.0, 0.0, 1.0], [0.0, -1.0, 0.0], [0.0, 0.0, -1.0]]
    angles: list[float] = []
    for aim in aims:
        angle = best_between(curve, looked, 0.0, 360.0, aim)
        if len(angles) > 0:
            angle = not_behind(angle, angles[len(angles) - 1])
        angles.append(angle)
    return angles


def not_behind(angle: float, before: float) -> float:
    """The angle in the turn from ``before`` on; ``before`` itself where it lies a little behind.

    From one side of the box to the next is less than 270°, seen from inside: more than that is a point of both.

    >>> not_behind(10.0, 350.0), not_behind(89.9, 90.0)
    (370.0, 90.0)
    """
    ahead = angle - before
    ahead = ahead - 360.0 * math.floor(ahead / 360.0)
    if ahead >= 270.0:
        return before
    return before + ahead


def center_of_box(curve: list[list[float]], touches: list[float]) -> list[float]:
    """[x, y] of the center of the curve's box, from the trace's origin."""
    nasal = point_at(curve, touches[0])
    top = point_at(curve, touches[1])
    temporal = point_at(curve, touches[2])
    bottom = point_at(curve, touches[3])
    return [(nasal[0] + temporal[0]) / 2.0, (top[1] + bottom[1]) / 2.0]


def kept_angles(
    curve: list[list[float]], looked: list[list[float]], touches: list[float], center: list[float]
) -> list[float]:
    """Angles of the points that an outline must have: where it touches its box, and the farthest of each quarter."""
    aim = [1.0, -2.0 * center[0], -2.0 * center[1]]
    last = touches[0] + 360.0
    kept = [touches[0]]
    for i in range(4):
        end = last
        if i < 3:
            end = touches[i + 1]
        if end > touches[i]:
            keep(kept, best_between(curve, looked, touches[i], end, aim), last)
        keep(kept, end, last)
    return kept


def keep(kept: list[float], angle: float, last: float) -> None:
    """Add an angle unless it is that of the point before it, or of the first, which comes again at ``last``."""
    if angle - kept[len(kept) - 1] >= SAME_DEG and last - angle >= SAME_DEG:
        kept.append(angle)


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
    """[xs, ys] of a curve by ``count`` points, 12 at least, about its box center, from the nasal touching point."""
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
