"""The center thickness at which a lens is nowhere too thin: not at its edge, not at its center, not between them.

A lens without prism is thinnest at its center or at its edge.  A prism tilts one surface, and the thinnest place of a
minus lens moves from the center toward the apex: there, too, the lens must not be thinner than its least center.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math

from quoting.kernel.records import Grind, Rim
from quoting.kernel.surfaces import front_curvature
from quoting.kernel.thickness import back_surface, edges, least_at, lost_in_front, reaches, thickness_at

# The iteration for the center of a plus lens ends when the edge is met this closely, mm
CLOSE_MM = 0.000000001
MOST_ROUNDS = 40

# What the center is where no such lens can be ground: a surface would end inside the outline
NO_CENTER = -1.0


def center_for_point(lens: Grind, least_edge: float, start: float, x: float, y: float) -> float:
    """The center at which one point is ``least_edge`` thick, starting from a guess.

    Ends at the guess it has where the back no longer reaches the point: the caller looks at that again.
    """
    center = start
    radius = math.sqrt(x * x + y * y)
    for _ in range(MOST_ROUNDS):
        back = back_surface(lens, center)
        if not reaches(back[0], 0.0, radius) or not reaches(back[1], 0.0, radius):
            return center
        missing = least_edge - thickness_at(lens, center, x, y)
        center = center + missing
        if abs(missing) < CLOSE_MM / 10.0:
            return center
    return center


def thinnest_part(lens: Grind, center: float, edge: float, x: float, y: float) -> float:
    """How far along the way from the reference point to a point of the rim the lens is thinnest: 0 to 1.

    By the parabola through the thicknesses at both ends and halfway; 0 where it is thinnest at either end.
    """
    half = thickness_at(lens, center, x / 2.0, y / 2.0)
    bend = 2.0 * (center + edge - 2.0 * half)
    slope = edge - center - bend
    if bend <= 0.0 or slope >= 0.0 or 0.0 - slope >= 2.0 * bend:
        return 0.0
    return (0.0 - slope) / (2.0 * bend)


def thinnest_inside(lens: Grind, rim: Rim, thick: list[float], center: float) -> float:
    """The least thickness of the center and of every place between center and rim that is thinner than both."""
    least = center
    if lens["wedge_x"] == 0.0 and lens["wedge_y"] == 0.0:
        return least
    for i in range(len(thick)):
        x = rim["xs"][i]
        y = rim["ys"][i]
        part = thinnest_part(lens, center, thick[i], x, y)
        inside = thickness_at(lens, center, x * part, y * part)
        if inside < least:
            least = inside
    return least


def solved_center(lens: Grind, rim: Rim, least_center: float, least_edge: float) -> float:
    """The center at which no edge is thinner than ``least_edge``, nothing inside than ``least_center``; or NO_CENTER.

    A thicker center needs another back for the same back vertex power, so the two are found together: first for the
    thinnest point of the edge alone, then it is seen whether that point still is the thinnest.
    """
    reach = rim["reach"]
    if not reaches(front_curvature(lens["front"], lens["index"]), lens["conic"], reach):
        return NO_CENTER
    lost = lost_in_front(lens, rim)
    center = least_center
    for _ in range(MOST_ROUNDS):
        back = back_surface(lens, center)
        if not reaches(back[0], 0.0, reach) or not reaches(back[1], 0.0, reach):
            return NO_CENTER
        thick = edges(rim, lost, back, center)
        thinnest = least_at(thick)
        inside = least_center - thinnest_inside(lens, rim, thick, center)
        missing = least_edge - thick[thinnest]
        if inside > missing:
            center = center + inside
            if abs(inside) < CLOSE_MM:
                return center
        else:
            if abs(missing) < CLOSE_MM:
                return center
            center = center_for_point(lens, least_edge, center, rim["xs"][thinnest], rim["ys"][thinnest])
    return NO_CENTER
