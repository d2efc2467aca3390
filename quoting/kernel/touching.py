"""Where a closed curve touches its box, and where it is farthest from the box center: found, not sampled.

The curve is looked over at fine steps; around the best of them the place is narrowed down.  Angles in degrees about
the origin of the curve (see quoting.kernel.periodic), which lies inside; box and center after ISO 8624; mm.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math

from quoting.kernel.periodic import point_at

# How finely a curve is looked over for its farthest points, degrees; then the place is narrowed down around the best
LOOK_DEG = 0.5
NARROWINGS = 40

# Points of an outline nearer to each other than this are one point: less than 0.007 mm of ED on the largest lenses
SAME_DEG = 0.005


def looked_over(curve: list[list[float]]) -> list[list[float]]:
    """[xs, ys] of the curve at steps of LOOK_DEG once around, mm.

    >>> from quoting.kernel.periodic import curve_through
    >>> xs, ys = looked_over(curve_through([0.0, 120.0, 240.0], [25.0, 25.0, 25.0]))
    >>> len(xs), xs[360], ys[180]
    (720, -25.0, 25.0)
    """
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
    """The score of the point of the curve at an angle in degrees.

    >>> from quoting.kernel.periodic import curve_through
    >>> score_at(curve_through([0.0, 120.0, 240.0], [25.0, 25.0, 25.0]), 90.0, [0.0, 0.0, 1.0])
    25.0
    """
    place = point_at(curve, angle)
    return score(place[0], place[1], aim)


def narrowed(curve: list[list[float]], low: float, high: float, aim: list[float]) -> float:
    """The angle between ``low`` and ``high`` with the greatest score, if there is one hill only; by thirds, degrees.

    >>> from quoting.kernel.periodic import curve_through
    >>> round(narrowed(curve_through([0.0, 120.0, 240.0], [25.0, 25.0, 25.0]), 80.0, 95.0, [0.0, 0.0, 1.0]), 4)
    90.0
    """
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
    """The angle from ``start`` up to ``end`` with the greatest score; a turn or less apart, degrees.

    >>> from quoting.kernel.periodic import curve_through
    >>> round_one = curve_through([0.0, 120.0, 240.0], [25.0, 25.0, 25.0])
    >>> round(best_between(round_one, looked_over(round_one), 10.0, 200.0, [0.0, 0.0, 1.0]), 4)
    90.0
    """
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
    """Angles where the curve touches its box: nasal, top, temporal, bottom; rising, the first in 0 up to 360.

    >>> from quoting.kernel.periodic import curve_through
    >>> round_one = curve_through([0.0, 120.0, 240.0], [25.0, 25.0, 25.0])
    >>> [round(angle, 4) for angle in touching(round_one, looked_over(round_one))]
    [0.0, 90.0, 180.0, 270.0]
    """
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
    """[x, y] of the center of the curve's box (ISO 8624), from the trace's origin, mm.

    >>> center_of_box([[0.0, 90.0, 180.0], [26.0, 21.0, 24.0], [0.0, 0.0, 0.0]], [0.0, 90.0, 180.0, 0.0])
    [1.0, 10.5]
    """
    nasal = point_at(curve, touches[0])
    top = point_at(curve, touches[1])
    temporal = point_at(curve, touches[2])
    bottom = point_at(curve, touches[3])
    return [(nasal[0] + temporal[0]) / 2.0, (top[1] + bottom[1]) / 2.0]


def kept_angles(
    curve: list[list[float]], looked: list[list[float]], touches: list[float], center: list[float]
) -> list[float]:
    """Angles of the points that an outline must have: where it touches its box, and the farthest of each quarter.

    >>> from quoting.kernel.periodic import curve_through
    >>> corners = curve_through([45.0, 135.0, 225.0, 315.0], [29.0, 28.0, 29.0, 28.0])
    >>> kept = kept_angles(corners, looked_over(corners), [10.0, 80.0, 190.0, 260.0], [0.0, 0.0])
    >>> [round(angle, 3) for angle in kept]
    [10.0, 45.0, 80.0, 190.0, 225.0, 260.0]
    """
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
    """Add an angle unless it is that of the point before it, or of the first, which comes again at ``last``.

    >>> kept = [10.0]
    >>> keep(kept, 90.0, 370.0)
    >>> keep(kept, 90.001, 370.0)
    >>> kept
    [10.0, 90.0]
    """
    if angle - kept[len(kept) - 1] >= SAME_DEG and last - angle >= SAME_DEG:
        kept.append(angle)
