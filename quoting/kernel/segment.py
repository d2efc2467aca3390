"""Where a bifocal's segment and a progressive's marks lie on the outline, and how much of them the edge leaves.

A segment is a circle of its width whose top is cut off level so that its depth remains: a flat top.  Depth equal to
width is a round segment.  Segment width and depth, fitting cross, distance and near reference points: ISO 13666.
That the circle has the segment's width holds for flat tops and rounds as they are sold (practice); curved tops differ.
Points from the box center in the nasal frame, mm.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math

from quoting.kernel.boxing import inside_across, inside_upward, is_inside, nearest
from quoting.kernel.elementary import angle_deg, cos_deg, sin_deg
from quoting.kernel.layout import CROSS_ABOVE_REFERENCE_MM


def segment_fault(width: float, depth: float) -> str:
    """Why no segment has this width and depth; "" where one can.

    Below half of the width the circle would never be as wide as stated; above the width there is no more circle.

    >>> segment_fault(28.0, 19.0), segment_fault(28.0, 13.0), segment_fault(0.0, 0.0)
    ('', 'segment-depth', 'segment-width')
    """
    if width <= 0.0:
        return "segment-width"
    if depth < width / 2.0 or depth > width:
        return "segment-depth"
    return ""


def widest_below_top(width: float, depth: float) -> float:
    """How far under its top a segment is widest, mm.

    >>> widest_below_top(28.0, 19.0)
    5.0
    """
    return depth - width / 2.0


def segment_width_at(width: float, depth: float, below: float) -> float:
    """Width of a segment ``below`` mm under its top; 0 above and under it.

    >>> segment_width_at(26.0, 18.0, 0.0), segment_width_at(26.0, 18.0, 5.0), segment_width_at(26.0, 18.0, 18.5)
    (24.0, 26.0, 0.0)
    """
    if below < 0.0 or below > depth:
        return 0.0
    up = widest_below_top(width, depth) - below
    square = width * width / 4.0 - up * up
    if square <= 0.0:
        return 0.0
    return 2.0 * math.sqrt(square)


def segment_outline(width: float, depth: float, x: float, top: float, count: int) -> list[list[float]]:
    """[xs, ys] of a segment whose top has its middle at (x, top): points along its arc, counter-clockwise.

    ``count`` points from the temporal end of the top under the segment to its nasal end; a level line closes it.

    >>> xs, ys = segment_outline(26.0, 18.0, 2.0, -3.0, 7)
    >>> [round(xs[i], 9) for i in (0, 3, 6)], [round(ys[i], 9) for i in (0, 3, 6)]
    ([-10.0, 2.0, 14.0], [-3.0, -21.0, -3.0])
    """
    radius = width / 2.0
    up = widest_below_top(width, depth)
    end = angle_deg(up, segment_width_at(width, depth, 0.0) / 2.0)
    xs: list[float] = []
    ys: list[float] = []
    for i in range(count):
        angle = 90.0 + end + (360.0 - 2.0 * end) * i / (count - 1)
        xs.append(x + radius * cos_deg(angle))
        ys.append(top - up + radius * sin_deg(angle))
    return [xs, ys]


def segment_inside(xs: list[float], ys: list[float], x: float, top: float, width: float, depth: float) -> list[float]:
    """How much of a segment lies inside the outline: [of its top, of its widest line, of its depth], mm.

    Whole are ``segment_width_at(width, depth, 0)``, ``width`` and ``depth``; a round segment's top is a point, 0 wide.

    >>> segment_inside([25.0, 25.0, -25.0, -25.0], [-20.0, 20.0, 20.0, -20.0], 15.0, -6.0, 26.0, 18.0)
    [22.0, 23.0, 14.0]
    """
    half = segment_width_at(width, depth, 0.0) / 2.0
    widest = top - widest_below_top(width, depth)
    return [
        inside_across(xs, ys, top, x - half, x + half),
        inside_across(xs, ys, widest, x - width / 2.0, x + width / 2.0),
        inside_upward(xs, ys, x, top - depth, top),
    ]


def progressive_marks(
    cross_x: float, cross_y: float, distance_up: float, near_down: float, inset: float
) -> list[float]:
    """[x, y] each of fitting cross, prism reference point, distance reference point, near reference point, in a row.

    ``distance_up`` and ``near_down`` from the cross and ``inset`` toward the nose are the design's; the prism
    reference point lies CROSS_ABOVE_REFERENCE_MM under the cross.

    >>> progressive_marks(3.0, 4.0, 4.0, 14.0, 2.5)
    [3.0, 4.0, 3.0, 0.0, 3.0, 8.0, 5.5, -10.0]
    """
    return [
        cross_x,
        cross_y,
        cross_x,
        cross_y - CROSS_ABOVE_REFERENCE_MM,
        cross_x,
        cross_y + distance_up,
        cross_x + inset,
        cross_y - near_down,
    ]


def circle_spare(xs: list[float], ys: list[float], x: float, y: float, diameter: float) -> float:
    """What lies between a circle around (x, y) and the edge, mm; below zero the edge cuts the circle, by that much.

    >>> circle_spare([25.0, 25.0, -25.0, -25.0], [-20.0, 20.0, 20.0, -20.0], 20.0, 0.0, 8.0)
    1.0
    """
    off = nearest(xs, ys, x, y)
    if not is_inside(xs, ys, x, y):
        off = 0.0 - off
    return off - diameter / 2.0
