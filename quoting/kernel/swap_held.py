"""Grooves and holes of two frames compared, for a lens that was made for the one and shall go into the other.

Source of the limits: common practice, as no standard says how well a cord or a screw must sit.  Lengths mm; places from
the box center in the nasal frame.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math

# (practice) a cord sits in a groove that is as much wider or deeper than its own; beyond the second it is cut anew
GROOVE_MM = 0.1
FAR_GROOVE_MM = 0.3

# (practice) the sleeve of a screw gives as much; beyond the second the lens cracks or the frame stands askew
HOLE_MM = 0.1
FAR_HOLE_MM = 0.3

# Stands where one lens has more holes than the other: no hole lies as far off
NO_HOLE = 999.0


def groove_gap(width: float, depth: float, other_width: float, other_depth: float) -> float:
    """By how much two grooves differ at most, mm.

    >>> groove_gap(0.6, 0.5, 0.5, 0.5) < 0.101
    True
    """
    gap = abs(other_width - width)
    if abs(other_depth - depth) > gap:
        return abs(other_depth - depth)
    return gap


def farthest(xs: list[float], ys: list[float], other_xs: list[float], other_ys: list[float]) -> float:
    """How far the farthest of the first places lies from the nearest of the others, mm; 0 where there is none.

    >>> farthest([0.0, 5.0], [0.0, 0.0], [0.0], [1.0]) > 5.0, farthest([], [], [1.0], [1.0])
    (True, 0.0)
    """
    most = 0.0
    for i in range(len(xs)):
        least = NO_HOLE
        for k in range(len(other_xs)):
            across = other_xs[k] - xs[i]
            upright = other_ys[k] - ys[i]
            off = math.sqrt(across * across + upright * upright)
            if off < least:
                least = off
        if least > most:
            most = least
    return most


def hole_gap(xs: list[float], ys: list[float], other_xs: list[float], other_ys: list[float]) -> float:
    """How far holes lie from where the other frame wants them, mm; NO_HOLE where their number differs.

    >>> hole_gap([21.0, -21.0], [3.0, 4.0], [21.0, -21.2], [3.0, 4.0]) < 0.201, hole_gap([1.0], [1.0], [], [])
    (True, 999.0)
    >>> round(hole_gap([0.0, 0.1], [0.0, 0.0], [0.0, 10.0], [0.0, 0.0]), 6)
    9.9
    """
    if len(xs) != len(other_xs):
        return NO_HOLE
    there = farthest(xs, ys, other_xs, other_ys)
    back = farthest(other_xs, other_ys, xs, ys)
    if back > there:
        return back
    return there


def bore_gap(places: list[list[float]], others: list[list[float]]) -> float:
    """By how much the diameters of holes differ at most, each with the nearest: [xs, ys, diameters] of either, mm.

    >>> bore_gap([[21.0], [3.0], [1.4]], [[21.1, -21.0], [3.0, 3.0], [1.6, 2.0]]) < 0.201
    True
    """
    most = 0.0
    for i in range(len(places[0])):
        least = NO_HOLE
        differs = 0.0
        for k in range(len(others[0])):
            across = others[0][k] - places[0][i]
            upright = others[1][k] - places[1][i]
            off = math.sqrt(across * across + upright * upright)
            if off < least:
                least = off
                differs = abs(others[2][k] - places[2][i])
        if differs > most:
            most = differs
    return most
