"""Where a lens is thinnest and where it is thickest: at its center, at a place between, or on its rim.

A spherical or toric lens without prism has its extremes at the center and on the rim.  A prism tilts one surface: the
thinnest place of a minus lens moves toward the apex, the thickest of a plus lens toward the base.  A conic front can
make a ring where the thickness turns.  Spots are [thickness, x, y], mm, from the reference point in the nasal frame.
The functions take a ``sign``: 1 asks for the thinnest, -1 for the thickest.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math

from quoting.kernel.edge import extreme_on_rim, more_extreme
from quoting.kernel.records import Grind, Rim
from quoting.kernel.surfaces import front_curvature
from quoting.kernel.thickness import back_surface, both_reach, edges, lost_in_front, thickness_behind

# The scan for a place between: so many ways from the reference point to the rim, looked at in these parts
WAYS = 24
PARTS = [0.25, 0.5, 0.75]

# The search from there: half width of the nine places it looks at, when it ends, the farthest step, all mm
REACH_MM = 0.5
CLOSE_MM = 0.001
FAR_MM = 6.0
MOST_ROUNDS = 12

# Less than this, conic times 1/mm⁴, and no conic front turns the thickness anywhere on a lens
TURNS_NOT = 0.000000000000000000000000000001


def is_inside(rim: Rim, x: float, y: float) -> bool:
    """Whether a point lies inside the outline: a way to the right crosses it an odd number of times.

    >>> square = {"xs": [1.0, -1.0, -1.0, 1.0], "ys": [1.0, 1.0, -1.0, -1.0], "reach": 1.5}
    >>> is_inside(square, 0.5, -0.5), is_inside(square, 1.5, 0.0)
    (True, False)
    """
    xs = rim["xs"]
    ys = rim["ys"]
    odd = False
    last = len(xs) - 1
    for i in range(len(xs)):
        if (ys[i] > y) != (ys[last] > y):
            at = xs[i] + (xs[last] - xs[i]) * (y - ys[i]) / (ys[last] - ys[i])
            if x < at:
                odd = not odd
        last = i
    return odd


def ring(lens: Grind, back: list[float], center: float, rim: Rim, sign: float) -> list[float]:
    """The most extreme spot of a lens without prism inside its rim: its center, or one where a conic front turns it.

    Both slopes are equal there: with curvatures f and b, b / √(1 − b²s) = f / √(1 − (1 + k) f²s) at s = distance²,
    in the principal meridian whose back lies nearer to the front (for the thickest: farther from it).
    """
    front = front_curvature(lens["front"], lens["index"])
    best = [center, 0.0, 0.0]
    bent = back[0]
    x = back[2]
    y = back[3]
    if (back[1] - back[0]) * sign < 0.0:
        bent = back[1]
        x = 0.0 - back[3]
        y = back[2]
    whole = lens["conic"] * front * front * bent * bent
    if abs(whole) < TURNS_NOT or front * bent <= 0.0:
        return best
    square = (bent * bent - front * front) / whole
    if square <= 0.0 or square >= rim["reach"] * rim["reach"]:
        return best
    for away in [math.sqrt(square), 0.0 - math.sqrt(square)]:
        thick = thickness_behind(lens, back, center, x * away, y * away)
        if (thick - best[0]) * sign < 0.0 and is_inside(rim, x * away, y * away):
            best = [thick, x * away, y * away]
    return best


def scanned(lens: Grind, back: list[float], center: float, rim: Rim, sign: float) -> list[float]:
    """The most extreme spot of a coarse scan inside the rim, or the center."""
    best = [center, 0.0, 0.0]
    step = len(rim["xs"]) // WAYS + 1
    for i in range(0, len(rim["xs"]), step):
        for part in PARTS:
            x = rim["xs"][i] * part
            y = rim["ys"][i] * part
            thick = thickness_behind(lens, back, center, x, y)
            if (thick - best[0]) * sign < 0.0 and is_inside(rim, x, y):
                best = [thick, x, y]
    return best


def step_toward(lens: Grind, back: list[float], center: float, x: float, y: float, sign: float) -> list[float]:
    """[dx, dy] to where the thickness turns, by a paraboloid through nine places; [] where it has no such turn."""
    h = REACH_MM
    here = thickness_behind(lens, back, center, x, y)
    right = thickness_behind(lens, back, center, x + h, y)
    left = thickness_behind(lens, back, center, x - h, y)
    above = thickness_behind(lens, back, center, x, y + h)
    below = thickness_behind(lens, back, center, x, y - h)
    twist = thickness_behind(lens, back, center, x + h, y + h) - thickness_behind(lens, back, center, x + h, y - h)
    twist += thickness_behind(lens, back, center, x - h, y - h) - thickness_behind(lens, back, center, x - h, y + h)
    bend_x = (right + left - 2.0 * here) / (h * h)
    bend_y = (above + below - 2.0 * here) / (h * h)
    twist = twist / (4.0 * h * h)
    slope_x = (right - left) / (2.0 * h)
    slope_y = (above - below) / (2.0 * h)
    whole = bend_x * bend_y - twist * twist
    if whole <= 0.0 or bend_x * sign <= 0.0:
        return []
    return [(twist * slope_y - bend_y * slope_x) / whole, (twist * slope_x - bend_x * slope_y) / whole]


def searched(lens: Grind, back: list[float], center: float, rim: Rim, sign: float) -> list[float]:
    """The most extreme spot inside the rim where the thickness turns, or the center where none is more extreme.

    From the best spot of a coarse scan; a spot from which the thickness goes on toward the rim is none.
    """
    middle = [center, 0.0, 0.0]
    start = scanned(lens, back, center, rim, sign)
    x = start[1]
    y = start[2]
    for _ in range(MOST_ROUNDS):
        if not both_reach(lens, back, math.sqrt(x * x + y * y) + 2.0 * REACH_MM):
            return middle
        step = step_toward(lens, back, center, x, y, sign)
        if len(step) == 0:
            return middle
        size = math.sqrt(step[0] * step[0] + step[1] * step[1])
        if size > FAR_MM:
            step = [step[0] * FAR_MM / size, step[1] * FAR_MM / size]
        x = x + step[0]
        y = y + step[1]
        if size < CLOSE_MM:
            break
    if not is_inside(rim, x, y):
        return middle
    thick = thickness_behind(lens, back, center, x, y)
    return more_extreme(middle, [thick, x, y], sign)


def between(lens: Grind, back: list[float], center: float, rim: Rim, sign: float) -> list[float]:
    """The thinnest (sign 1) or thickest (sign -1) spot of center and all that lies between it and the rim.

    Front and back must exist all over the rim: ask ``both_reach`` before.

    >>> from quoting.kernel.thickness import back_surface, grind, with_prism
    >>> square = {"xs": [25.0, -25.0, -25.0, 25.0], "ys": [25.0, 25.0, -25.0, -25.0], "reach": 35.4}
    >>> lens = with_prism(grind(-3.0, 0.0, 180.0, 0.0, 0.0, 1.5), 3.0, 0.0)
    >>> [round(value, 2) for value in between(lens, back_surface(lens, 2.0), 2.0, square, 1.0)]
    [1.7, -9.98, 0.0]
    """
    if lens["wedge_x"] == 0.0 and lens["wedge_y"] == 0.0:
        return ring(lens, back, center, rim, sign)
    return searched(lens, back, center, rim, sign)


def extreme(lens: Grind, rim: Rim, center: float, sign: float) -> list[float]:
    """The thinnest (sign 1) or thickest (sign -1) spot of a whole lens of this center.

    Raises ValueError (square root of a negative) where a surface ends inside the rim: ask ``both_reach`` before.

    >>> from quoting.kernel.thickness import grind
    >>> square = {"xs": [20.0, -20.0, -20.0, 20.0], "ys": [20.0, 20.0, -20.0, -20.0], "reach": 28.3}
    >>> plus = grind(3.0, 0.0, 180.0, 6.0, 0.0, 1.5)
    >>> [[round(value, 2) for value in extreme(plus, square, 4.0, sign)] for sign in (1.0, -1.0)]
    [[1.55, 20.0, 20.0], [4.0, 0.0, 0.0]]
    """
    back = back_surface(lens, center)
    thick = edges(rim, lost_in_front(lens, rim), back, center)
    edge = extreme_on_rim(lens, back, center, rim, thick, sign)
    return more_extreme(edge, between(lens, back, center, rim, sign), sign)
