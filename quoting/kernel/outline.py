"""The outline of a lens from the numbers printed on a frame, or from a trace.

A, B and ED after ISO 8624.  Without a trace the outline is made of four superellipse quarters that meet smoothly
where the box touches the lens; each family leans them differently, and one exponent is chosen so that the longest
radius is ED/2.  So A, B and ED always come out; what lies between them is an estimate and is said to be one.
Superellipse: Gridgeman, Math. Gaz. 54 (1970) 31.  Points in the nasal frame, counter-clockwise, mm.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math

from quoting.kernel.elementary import cos_deg, exp, ln, sin_deg

QUARTER_POINTS = 30

# 1 is a lozenge; at 64 the corner is within 1.1 % of the box's own
LEAST_EXPONENT = 1.0
GREATEST_EXPONENT = 64.0

# The families: where the box touches (top and bottom as part of A/2 toward the nose, nasal and temporal side as part
# of B/2 upward), then how full the quarters are (upper nasal, upper temporal, lower temporal, lower nasal).  Our own.
ROUND = [0.0, 0.0, 0.0, 0.0, 1.0, 1.0, 1.0, 1.0]
OVAL = [0.0, 0.0, 0.04, 0.04, 1.0, 1.0, 1.0, 1.0]
PANTO = [0.0, 0.0, 0.15, 0.18, 1.1, 1.2, 0.9, 0.85]
RECTANGLE = [0.0, 0.0, 0.08, 0.08, 1.0, 1.1, 1.0, 0.8]
SQUARE = [0.0, 0.0, 0.1, 0.12, 1.0, 1.05, 0.95, 0.8]
PILOT = [0.05, -0.2, 0.3, 0.22, 0.9, 1.1, 0.85, 0.6]
CAT_EYE = [-0.2, 0.05, 0.12, 0.3, 0.7, 1.5, 0.7, 0.8]
TRAPEZOID = [0.0, 0.0, 0.22, 0.26, 1.1, 1.2, 0.8, 0.7]


def lean(family: str) -> list[float]:
    """The eight numbers of a family, parts of A/2 and B/2.   Raises ValueError for a family that is not known.

    >>> lean("oval")
    [0.0, 0.0, 0.04, 0.04, 1.0, 1.0, 1.0, 1.0]
    """
    if family == "round":
        return ROUND
    if family == "oval":
        return OVAL
    if family == "panto":
        return PANTO
    if family == "rectangle":
        return RECTANGLE
    if family == "square":
        return SQUARE
    if family == "pilot":
        return PILOT
    if family == "cat-eye":
        return CAT_EYE
    if family == "trapezoid":
        return TRAPEZOID
    raise ValueError("no such family of outlines")


def log_cosines() -> list[float]:
    """Logarithms of the cosines that divide a quarter, without its two ends.

    >>> len(log_cosines()), round(log_cosines()[19], 9)  # cos 60° is a half
    (29, -0.693147181)
    """
    logs: list[float] = []
    for i in range(QUARTER_POINTS - 1):
        logs.append(ln(cos_deg(90.0 * (i + 1) / QUARTER_POINTS)))
    return logs


def quarter(full: float, exponent: float, logs: list[float]) -> list[list[float]]:
    """A unit quarter from (1, 0) toward (0, 1), without its end: [xs, ys].

    >>> xs, ys = quarter(1.0, 2.0, log_cosines())  # exponent 2: a circle
    >>> round(xs[20], 9), round(ys[10], 9)
    (0.5, 0.5)
    """
    power = 2.0 / (1.0 + (exponent - 1.0) * full)
    count = len(logs)
    xs = [1.0]
    ys = [0.0]
    for i in range(count):
        xs.append(exp(power * logs[i]))
        ys.append(exp(power * logs[count - 1 - i]))
    return [xs, ys]


def synthesized(a: float, b: float, family: str, exponent: float) -> list[list[float]]:
    """[xs, ys] of the closed outline of a family in its box at one exponent, from the nasal touching point, mm.

    >>> xs, ys = synthesized(50.0, 40.0, "round", 2.0)
    >>> len(xs), xs[0], ys[30], xs[60], ys[90]
    (120, 25.0, 20.0, -25.0, -20.0)
    """
    f = lean(family)
    logs = log_cosines()
    top = f[0] * a / 2.0
    bottom = f[1] * a / 2.0
    nasal = f[2] * b / 2.0
    temporal = f[3] * b / 2.0
    xs: list[float] = []
    ys: list[float] = []
    upper_nasal = quarter(f[4], exponent, logs)
    upper_temporal = quarter(f[5], exponent, logs)
    lower_temporal = quarter(f[6], exponent, logs)
    lower_nasal = quarter(f[7], exponent, logs)
    for i in range(QUARTER_POINTS):
        xs.append(top + (a / 2.0 - top) * upper_nasal[0][i])
        ys.append(nasal + (b / 2.0 - nasal) * upper_nasal[1][i])
    for i in range(QUARTER_POINTS):
        xs.append(top - (a / 2.0 + top) * upper_temporal[1][i])
        ys.append(temporal + (b / 2.0 - temporal) * upper_temporal[0][i])
    for i in range(QUARTER_POINTS):
        xs.append(bottom - (a / 2.0 + bottom) * lower_temporal[0][i])
        ys.append(temporal - (b / 2.0 + temporal) * lower_temporal[1][i])
    for i in range(QUARTER_POINTS):
        xs.append(bottom + (a / 2.0 - bottom) * lower_nasal[1][i])
        ys.append(nasal - (b / 2.0 + nasal) * lower_nasal[0][i])
    return [xs, ys]


def farthest(xs: list[float], ys: list[float], x: float, y: float) -> float:
    """Longest distance from (x, y) to a point of the outline, mm.

    >>> farthest([3.0, 0.0, -3.0], [4.0, 1.0, -4.0], -3.0, -4.0)
    10.0
    """
    most = 0.0
    for i in range(len(xs)):
        dx = xs[i] - x
        dy = ys[i] - y
        square = dx * dx + dy * dy
        if square > most:
            most = square
    return math.sqrt(most)


def effective_diameter_limits(a: float, b: float, family: str) -> list[float]:
    """[least, greatest] ED that an outline of this family can have in this box, mm.

    >>> [round(one, 2) for one in effective_diameter_limits(40.0, 30.0, "round")]  # from the width to the diagonal
    [40.0, 49.49]
    """
    thin = synthesized(a, b, family, LEAST_EXPONENT)
    full = synthesized(a, b, family, GREATEST_EXPONENT)
    return [2.0 * farthest(thin[0], thin[1], 0.0, 0.0), 2.0 * farthest(full[0], full[1], 0.0, 0.0)]


def exponent_for(a: float, b: float, ed: float, family: str) -> float:
    """The fullest exponent whose longest radius is not above ED/2, by halving; ED within its limits.

    >>> round(exponent_for(40.0, 40.0, 40.0, "round"), 3)  # a circle
    2.0
    """
    low = 1.0 / GREATEST_EXPONENT
    high = 1.0 / LEAST_EXPONENT
    for _ in range(26):
        middle = (low + high) / 2.0
        points = synthesized(a, b, family, 1.0 / middle)
        if 2.0 * farthest(points[0], points[1], 0.0, 0.0) > ed + 0.0000001:
            low = middle
        else:
            high = middle
    return 1.0 / high


def from_box(a: float, b: float, ed: float, family: str) -> list[list[float]]:
    """[xs, ys] of the outline with this A, B and ED, mm; ED within ``effective_diameter_limits``.

    >>> xs, ys = from_box(50.0, 40.0, 54.0, "panto")
    >>> round(2.0 * farthest(xs, ys, 0.0, 0.0), 3), box(xs, ys)
    (54.0, [-25.0, 25.0, -20.0, 20.0])
    """
    return synthesized(a, b, family, exponent_for(a, b, ed, family))


def from_radii(radii: list[float]) -> list[list[float]]:
    """[xs, ys] of radii in mm at equal angles, counter-clockwise from the nasal side, with corners at the radii only.

    For a smooth outline about its box center see quoting.kernel.trace.

    >>> from_radii([25.0, 20.0, 24.0, 19.0])
    [[25.0, 0.0, -24.0, 0.0], [0.0, 20.0, 0.0, -19.0]]
    """
    xs: list[float] = []
    ys: list[float] = []
    count = len(radii)
    for i in range(count):
        angle = 360.0 * i / count
        xs.append(radii[i] * cos_deg(angle))
        ys.append(radii[i] * sin_deg(angle))
    return [xs, ys]


def box(xs: list[float], ys: list[float]) -> list[float]:
    """[least x, greatest x, least y, greatest y], mm: the box of ISO 8624.

    >>> box([3.0, 0.0, -2.0], [1.0, 4.0, -5.0])
    [-2.0, 3.0, -5.0, 4.0]
    """
    left = xs[0]
    right = xs[0]
    low = ys[0]
    high = ys[0]
    for i in range(len(xs)):
        if xs[i] < left:
            left = xs[i]
        if xs[i] > right:
            right = xs[i]
        if ys[i] < low:
            low = ys[i]
        if ys[i] > high:
            high = ys[i]
    return [left, right, low, high]


def area(xs: list[float], ys: list[float]) -> float:
    """Area of the outline, mm²: the surveyor's formula (any handbook of geometry); positive counter-clockwise.

    >>> area([3.0, 3.0, -3.0, -3.0], [-4.0, 4.0, 4.0, -4.0])
    48.0
    """
    twice = 0.0
    last = len(xs) - 1
    for i in range(len(xs)):
        twice += xs[last] * ys[i] - xs[i] * ys[last]
        last = i
    return twice / 2.0


def perimeter(xs: list[float], ys: list[float]) -> float:
    """Length of the outline, mm.

    >>> perimeter([3.0, 3.0, -3.0, -3.0], [-4.0, 4.0, 4.0, -4.0])
    28.0
    """
    length = 0.0
    last = len(xs) - 1
    for i in range(len(xs)):
        dx = xs[i] - xs[last]
        dy = ys[i] - ys[last]
        length += math.sqrt(dx * dx + dy * dy)
        last = i
    return length
