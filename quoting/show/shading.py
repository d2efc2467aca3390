"""A gradient from the top of an area to its foot, as areas of one color each: what a picture made of dots can show.

Each area begins lower than the one before it and reaches down to the foot, so that no seam is seen between two.
Only what our own drawings use is read; anything else raises ValueError.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from xml.etree import ElementTree

from quoting.show.pen import Point

Ring = list[Point]
Color = tuple[int, int, int]
Ramp = list[tuple[float, Color]]  # from 0, the top, to 1, the foot

# Steps of a gradient: a lens in the picture of a link is some 280 dots high, and three to a step are not seen
BANDS = 96
PAPER: Color = (255, 255, 255)
# From top to foot of what is filled, as SVG writes it
UPRIGHT = {"x1": "0", "y1": "0", "x2": "0", "y2": "1"}


def ramp_of(node: ElementTree.Element) -> Ramp:
    """The colors of a gradient as they look on white paper."""
    if any(node.get(name) != value for name, value in UPRIGHT.items()):
        raise ValueError("no gradient that a picture can show: it must run from top to foot")
    found: Ramp = []
    for stop in node:
        color, opacity = stop.get("stop-color", ""), float(stop.get("stop-opacity", 1))
        channels = [int(color[at : at + 2], 16) for at in (1, 3, 5)]
        red, green, blue = (round(over + (one - over) * opacity) for one, over in zip(channels, PAPER, strict=True))
        found.append((float(stop.get("offset", 0)), (red, green, blue)))
    if not found:
        raise ValueError("no gradient that a picture can show: it has no color")
    return found


def color_at(ramp: Ramp, share: float) -> Color:
    """Between two stops straight from one to the other, in sRGB as SVG has it; before and behind all as the nearest.

    >>> color_at([(0.2, (0, 0, 0)), (0.6, (100, 200, 40))], 0.3), color_at([(0.2, (0, 0, 0)), (0.6, (9, 9, 9))], 0.9)
    ((25, 50, 10), (9, 9, 9))
    """
    if share <= ramp[0][0]:
        return ramp[0][1]
    for (first, one), (last, other) in pairwise(ramp):
        if share <= last:
            part = (share - first) / (last - first) if last > first else 1.0
            red, green, blue = (round(a + (b - a) * part) for a, b in zip(one, other, strict=True))
            return red, green, blue
    return ramp[-1][1]


def bands(rings: list[Ring], ramp: Ramp) -> Iterator[tuple[list[Ring], Color]]:
    """The areas, the undermost first, each with its color."""
    heights = [v for ring in rings for _, v in ring]
    top, foot = min(heights), max(heights)
    for n in range(BANDS):
        at = top + (foot - top) * n / BANDS
        cut = [ring for ring in (below(one, at) for one in rings) if ring]
        if cut:
            yield cut, color_at(ramp, (n + 0.5) / BANDS)


def below(ring: Ring, height: float) -> Ring:
    """What of an area lies at or below a height, v down (Sutherland and Hodgman, one side).

    >>> below([(0, 0), (4, 0), (4, 2), (0, 2)], 1)
    [(4.0, 1.0), (4, 2), (0, 2), (0.0, 1.0)]
    """
    found: Ring = []
    for (u, v), (to_u, to_v) in zip(ring, [*ring[1:], ring[0]], strict=True):
        if v >= height:
            found.append((u, v))
        if (v >= height) != (to_v >= height):
            part = (height - v) / (to_v - v)
            found.append((u + (to_u - u) * part, float(height)))
    return found
