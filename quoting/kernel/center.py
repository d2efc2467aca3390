"""The center thickness at which a lens is nowhere too thin: not at its edge, not at its center, not between them.

The edge must not be thinner than its least thickness anywhere on the outline; the center, and every place between that
a prism or a conic front makes thinner than the center, not thinner than the least center.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math

from quoting.kernel.edge import extreme_on_rim
from quoting.kernel.extremes import between
from quoting.kernel.records import Grind, Rim, Settled
from quoting.kernel.surfaces import front_curvature
from quoting.kernel.thickness import back_surface, both_reach, edges, lost_in_front, reaches, thickness_behind

# The iteration for the center of a plus lens ends when the edge is met this closely, mm
CLOSE_MM = 0.000000001
MOST_ROUNDS = 40

# What the center is where no such lens can be ground: a surface would end inside the outline
NO_CENTER = -1.0


def center_for_point(lens: Grind, least_edge: float, start: float, x: float, y: float) -> float:
    """The center, mm, at which one point is ``least_edge`` thick, starting from a guess.

    Ends at the guess it has where a surface no longer reaches the point: the caller looks at that again.

    >>> from quoting.kernel.thickness import grind
    >>> center = center_for_point(grind(4.0, 0.0, 180.0, 8.0, 0.0, 1.498), 1.0, 1.0, 32.5, 0.0)
    >>> round(center, 5)  # Meister's formula t = e + s1 - s2, computed
    5.56578
    """
    center = start
    radius = math.sqrt(x * x + y * y)
    for _ in range(MOST_ROUNDS):
        back = back_surface(lens, center)
        if not both_reach(lens, back, radius):
            return center
        missing = least_edge - thickness_behind(lens, back, center, x, y)
        center = center + missing
        if abs(missing) < CLOSE_MM / 10.0:
            return center
    return center


def not_settled() -> Settled:
    """What stands for a lens that cannot be ground.

    >>> not_settled()
    {'center': -1.0, 'edge_min': [0.0, 0.0, 0.0], 'edge_max': [0.0, 0.0, 0.0]}
    """
    return {"center": NO_CENTER, "edge_min": [0.0, 0.0, 0.0], "edge_max": [0.0, 0.0, 0.0]}


def finished_lens(lens: Grind, rim: Rim, center: float) -> Settled:
    """A lens that comes with its center; not settled where a surface ends inside the rim."""
    back = back_surface(lens, center)
    if not both_reach(lens, back, rim["reach"]):
        return not_settled()
    thick = edges(rim, lost_in_front(lens, rim), back, center)
    return {
        "center": center,
        "edge_min": extreme_on_rim(lens, back, center, rim, thick, 1.0),
        "edge_max": extreme_on_rim(lens, back, center, rim, thick, -1.0),
    }


def next_center(lens: Grind, rim: Rim, back: list[float], center: float, least: float, spare: float) -> float:
    """A better center, mm, than this; the same where the lens is as thin as it may be.

    ``least`` is the least center, ``spare`` what the thinnest edge is thicker than it must be.
    """
    wanted = least - between(lens, back, center, rim, 1.0)[0]
    if wanted < 0.0 - spare:
        wanted = 0.0 - spare
    if abs(wanted) < CLOSE_MM:
        return center
    return center + wanted


def surfaced_lens(lens: Grind, rim: Rim, least_center: float, least_edge: float) -> Settled:
    """The thinnest lens with no edge thinner than ``least_edge``, nothing inside than ``least_center``.

    A thicker center needs another back for the same back vertex power, so the two are found together: first for the
    thinnest point of the edge alone, then it is seen whether that point still is the thinnest.  Not settled where a
    surface ends inside the rim.  The rim has at least one point, the index is above 1, every number is finite.
    """
    if not reaches(front_curvature(lens["front"], lens["index"]), lens["conic"], rim["reach"]):
        return not_settled()
    lost = lost_in_front(lens, rim)
    center = least_center
    for _ in range(MOST_ROUNDS):
        back = back_surface(lens, center)
        if not both_reach(lens, back, rim["reach"]):
            return not_settled()
        thick = edges(rim, lost, back, center)
        edge = extreme_on_rim(lens, back, center, rim, thick, 1.0)
        if edge[0] < least_edge - CLOSE_MM:
            center = center_for_point(lens, least_edge, center, edge[1], edge[2])
            continue
        better = next_center(lens, rim, back, center, least_center, edge[0] - least_edge)
        if better == center:
            most = extreme_on_rim(lens, back, center, rim, thick, -1.0)
            return {"center": center, "edge_min": edge, "edge_max": most}
        center = better
    return not_settled()


def solved_center(lens: Grind, rim: Rim, least_center: float, least_edge: float) -> float:
    """Center thickness, mm, of the surfaced lens; NO_CENTER where it cannot be ground."""
    return surfaced_lens(lens, rim, least_center, least_edge)["center"]
