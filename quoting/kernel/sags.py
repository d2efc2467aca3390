"""Depths of surfaces at many points in one call: what the inner loops of thickness and volume stand on.

The formulas are those of ``sag`` and ``toric_sag`` in surfaces, with what is the same for all points computed once.
Curvatures in 1/mm, lengths in mm.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math

# Two-point Gauss rule for the integral of s·f(s) over 0..1, in s² (Abramowitz & Stegun 25.4.30): exact up to s⁶.
# The points are 0.4597 and 0.8881 of the way out; here stand their squares.
INNER_SQUARED = 0.21132486540518713
OUTER_SQUARED = 0.7886751345948129
INNER = 0.45970084338098305
OUTER = 0.8880738339771153


def sags(curvature: float, conic: float, xs: list[float], ys: list[float]) -> list[float]:
    """Depth, mm, of a conic surface at each of many points.

    Raises ValueError (square root of a negative) for a point beyond the hemisphere.

    >>> sags(0.01, 0.0, [0.0, 0.0], [80.0, -80.0])
    [40.0, 40.0]
    """
    inverse = (1.0 + conic) * curvature * curvature
    depths: list[float] = []
    for i in range(len(xs)):
        square = xs[i] * xs[i] + ys[i] * ys[i]
        depths.append(curvature * square / (1.0 + math.sqrt(1.0 - inverse * square)))
    return depths


def back_sags(back: list[float], xs: list[float], ys: list[float]) -> list[float]:
    """Depth, mm, of a back surface (as thickness gives it) at each of many points.

    Raises ValueError (square root of a negative) for a point that the surface does not reach.

    >>> back_sags([0.0, 0.01, 1.0, 0.0], [30.0, 0.0], [0.0, 80.0])
    [0.0, 40.0]
    """
    base = back[0]
    cross = back[1]
    if base == cross:
        return sags(base, 0.0, xs, ys)
    c = back[2]
    s = back[3]
    cross_squared = cross * cross
    base_squared = base * base
    depths: list[float] = []
    for i in range(len(xs)):
        along = xs[i] * c + ys[i] * s
        across = ys[i] * c - xs[i] * s
        square = across * across
        arc = cross * square / (1.0 + math.sqrt(1.0 - cross_squared * square))
        flat = 1.0 - base * arc
        square = along * along
        root = math.sqrt(flat * flat - base_squared * square)
        depths.append((2.0 * arc - base * arc * arc + base * square) / (1.0 + root))
    return depths


def conic_fan(curvature: float, conic: float, areas: list[float], squares: list[float]) -> float:
    """Twice the volume, mm³, between a conic surface and its vertex plane over a fan of triangles.

    ``squares`` are the mean squared distances of the triangles' sides on the outline.
    Raises ValueError (square root of a negative) where a triangle lies beyond the hemisphere.

    >>> round(conic_fan(0.02, -1.0, [100.0], [400.0]), 9)  # a paraboloid: 100 · 0.02 · 400 / 2
    400.0
    """
    near = (1.0 + conic) * curvature * curvature * INNER_SQUARED
    far = (1.0 + conic) * curvature * curvature * OUTER_SQUARED
    total = 0.0
    for i in range(len(areas)):
        square = squares[i]
        inner = INNER_SQUARED / (1.0 + math.sqrt(1.0 - near * square))
        total += areas[i] * square * (inner + OUTER_SQUARED / (1.0 + math.sqrt(1.0 - far * square)))
    return curvature * total


def toric_fan(
    base: float, cross: float, part: float, areas: list[float], along: list[float], across: list[float]
) -> float:
    """Sum over a fan of triangles of area times depth of a torus, mm³, at this ``part`` of the way out.

    ``along`` and ``across`` are the mean squares of the triangles' sides on the outline, by the base curve.
    A surface of twice the curvature is half as deep at half the distance: so the curvatures are scaled, not the points.
    Raises ValueError (square root of a negative) where the surface does not reach.

    >>> round(toric_fan(0.0, 0.01, 0.5, [2.0], [900.0], [14400.0]), 9)  # 2 mm² of a 20 mm deep arc
    40.0
    """
    bent = base * part
    bent_squared = bent * bent
    turned = cross * part
    turned_squared = turned * turned
    total = 0.0
    for i in range(len(areas)):
        square = across[i]
        arc = turned * square / (1.0 + math.sqrt(1.0 - turned_squared * square))
        flat = 1.0 - bent * arc
        square = along[i]
        root = math.sqrt(flat * flat - bent_squared * square)
        total += areas[i] * (2.0 * arc - bent * arc * arc + bent * square) / (1.0 + root)
    return total * part
