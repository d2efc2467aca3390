"""How the surfaces of a lens lie and bend at a point: slopes and second derivatives of their depth.

They are the derivatives of the sags in surfaces, written out: of the conic front, of the toric back with its wedge.
Points in mm from the reference point in the nasal frame.  Source: elementary calculus on the sags of surfaces; the
tests compare them with differences of those sags.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math

from quoting.kernel.records import Grind
from quoting.kernel.surfaces import front_curvature, sag

# Where a surface is this steep (sine of its slope, 89.7 degrees), it counts as ended: nobody grinds there
NEARLY = 0.99999


def conic_bend(curvature: float, conic: float, x: float, y: float) -> list[float]:
    """[∂x, ∂y, ∂xx, ∂xy, ∂yy] of a conic's depth; slopes without unit, the rest and ``curvature`` in 1/mm.

    Raises ValueError (square root of a negative) or ZeroDivisionError where the surface does not reach.

    >>> conic_bend(0.1, -1.0, 2.0, 0.0)
    [0.2, 0.0, 0.1, 0.0, 0.1]
    """
    k = (1.0 + conic) * curvature * curvature
    root = math.sqrt(1.0 - k * (x * x + y * y))
    bend = curvature / root
    more = k * bend / (root * root)
    return [bend * x, bend * y, bend + more * x * x, more * x * y, bend + more * y * y]


def toric_bend(base: float, cross: float, x: float, y: float) -> list[float]:
    """[∂x, ∂y, ∂xx, ∂xy, ∂yy] of a torus's depth, x along its base curve; units as for a conic.

    With s the depth of the arc of curvature ``cross``, g = 1 − base·s and R = √(g² − base²·x²), the depth is
    (1 − R) / base.   Raises as for a conic where the surface does not reach.

    >>> toric_bend(0.0, 0.1, 3.0, 0.0)
    [0.0, 0.0, 0.0, 0.0, 0.1]
    """
    arc = math.sqrt(1.0 - cross * cross * y * y)
    slope = cross * y / arc
    bend = cross / (arc * arc * arc)
    g = 1.0 - base * sag(cross, 0.0, y * y)
    root = math.sqrt(g * g - base * base * x * x)
    cube = root * root * root
    across = (g * bend - base * slope * slope) / root + base * g * g * slope * slope / cube
    return [base * x / root, g * slope / root, base * g * g / cube, base * base * x * g * slope / cube, across]


def back_has(back: list[float], x: float, y: float) -> bool:
    """Whether the back (as thickness gives it) reaches this point, with slopes that are no wall.

    >>> back_has([0.01, 0.02, 1.0, 0.0], 0.0, 49.0), back_has([0.01, 0.02, 1.0, 0.0], 0.0, 50.0)
    (True, False)
    """
    along = x * back[2] + y * back[3]
    across = y * back[2] - x * back[3]
    if abs(back[1] * across) >= NEARLY:
        return False
    flat = 1.0 - back[0] * sag(back[1], 0.0, across * across)
    return flat * NEARLY > abs(back[0] * along)


def front_bend(lens: Grind, x: float, y: float) -> list[float]:
    """[∂x, ∂y, ∂xx, ∂xy, ∂yy] of the front's depth.

    >>> from quoting.kernel.thickness import grind
    >>> front_bend(grind(0.0, 0.0, 180.0, 5.0, 0.0, 1.5), 0.0, 0.0)
    [0.0, 0.0, 0.01, 0.0, 0.01]
    """
    return conic_bend(front_curvature(lens["front"], lens["index"]), lens["conic"], x, y)


def back_bend(lens: Grind, back: list[float], x: float, y: float) -> list[float]:
    """[∂x, ∂y, ∂xx, ∂xy, ∂yy] of the back's depth, its wedge in it.

    >>> from quoting.kernel.thickness import back_surface, grind
    >>> cylinder = grind(-1.0, -2.0, 90.0, 0.0, 0.0, 1.5)
    >>> [round(value, 6) + 0.0 for value in back_bend(cylinder, back_surface(cylinder, 2.0), 0.0, 10.0)]
    [0.0, 0.020004, 0.006001, 0.0, 0.002001]
    """
    c = back[2]
    s = back[3]
    own = toric_bend(back[0], back[1], x * c + y * s, y * c - x * s)
    both = c * s
    return [
        own[0] * c - own[1] * s + lens["wedge_x"],
        own[0] * s + own[1] * c + lens["wedge_y"],
        own[2] * c * c - 2.0 * own[3] * both + own[4] * s * s,
        (own[2] - own[4]) * both + own[3] * (c * c - s * s),
        own[2] * s * s + 2.0 * own[3] * both + own[4] * c * c,
    ]
