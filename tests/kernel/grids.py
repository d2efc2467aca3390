"""Lenses over a fine grid of their whole area, with numpy, from the plain geometry and not from the kernel."""

import math
import random

import numpy as np

from quoting.kernel import outline, thickness
from quoting.kernel.center import NO_CENTER, solved_center
from tests.kernel.jobs import FAMILIES, points

GRID_MM = 0.25
PER_SIDE = 40
CONICS = (0.0, -2.5, -1.0, -0.6, 0.4)


def lens_that_can_be_ground(number):
    """(lens, rim, least center, least edge, center): any sign, toric or not, conic or not, prism or not."""
    dice = random.Random(f"lens {number}")
    while True:
        a, b = dice.uniform(38, 60), dice.uniform(24, 48)
        family = dice.choice(FAMILIES)
        low, high = outline.effective_diameter_limits(a, b, family)
        xs, ys = points(a, b, dice.uniform(low, high), family)
        cylinder = dice.choice((0, -dice.randrange(1, 16) / 4, -dice.randrange(1, 16) / 4))
        powers = dice.randrange(-32, 24) / 4, float(cylinder), float(dice.randrange(1, 181))
        plain = thickness.grind(
            *powers, dice.uniform(0.5, 8), dice.choice(CONICS), dice.choice((1.498, 1.586, 1.67, 1.74))
        )
        prism = dice.choice((0.0, 0.0, 2.0, -3.0, 5.0)), dice.choice((0.0, 0.0, 1.5, -2.0, -4.0))
        lens = thickness.with_prism(plain, *prism)
        rim = thickness.rim_around(list(xs), list(ys), dice.uniform(-5, 6), dice.uniform(-4, 6))
        least = dice.choice((0.8, 1.3, 2.0)), dice.choice((0.8, 1.0, 2.0))
        center = solved_center(lens, rim, *least)
        if center != NO_CENTER:
            return lens, rim, *least, center


def conic_depth(curvature, conic, squares):
    return curvature * squares / (1 + np.sqrt(1 - (1 + conic) * curvature**2 * squares))


def thickness_field(lens, center, x, y):
    """From the definitions: thick-lens back powers in both principal meridians, the flatter one turned into a torus."""
    scale = 1000 * (lens["index"] - 1)
    met = lens["front"] / (1 - center / 1000 / lens["index"] * lens["front"])
    a = math.radians(lens["axis"])
    along, across = x * math.cos(a) + y * math.sin(a), y * math.cos(a) - x * math.sin(a)
    backs = [
        ((met - lens["sphere"]) / scale, along),
        ((met - lens["sphere"] - lens["cylinder"]) / scale, across),
    ]
    (flat, on_flat), (steep, on_steep) = sorted(backs, key=lambda one: abs(one[0]))
    arc = conic_depth(steep, 0.0, on_steep**2)
    left = np.sqrt((1 - flat * arc) ** 2 - (flat * on_flat) ** 2)
    back = (2 * arc - flat * arc**2 + flat * on_flat**2) / (1 + left)
    front = conic_depth(lens["front"] / scale, lens["conic"], x**2 + y**2)
    return center - front + back + lens["wedge_x"] * x + lens["wedge_y"] * y


def inside_outline(rim, x, y):
    """Which points lie inside, by crossings of the horizontal."""
    inside = np.zeros(x.shape, bool)
    xs, ys = rim["xs"], rim["ys"]
    for i in range(len(xs)):
        if ys[i - 1] != ys[i]:
            at = xs[i - 1] + (xs[i] - xs[i - 1]) * (y - ys[i - 1]) / (ys[i] - ys[i - 1])
            inside ^= ((ys[i - 1] <= y) != (ys[i] <= y)) & (x < at)
    return inside


def edge_field(lens, rim, center):
    """Thicknesses along the whole outline, many on each side."""
    part = np.linspace(0, 1, PER_SIDE, endpoint=False)
    xs, ys = np.array(rim["xs"])[:, None], np.array(rim["ys"])[:, None]
    return thickness_field(
        lens, center, (np.roll(xs, 1, 0) * (1 - part) + xs * part), np.roll(ys, 1, 0) * (1 - part) + ys * part
    )


def area_field(lens, rim, center):
    """Thicknesses over the whole area, NaN outside, one row for each y."""
    x, y = np.meshgrid(
        np.arange(min(rim["xs"]) - 1, max(rim["xs"]) + 1, GRID_MM),
        np.arange(min(rim["ys"]) - 1, max(rim["ys"]) + 1, GRID_MM),
    )
    with np.errstate(invalid="ignore"):
        thick = thickness_field(lens, center, x, y)
    return np.where(inside_outline(rim, x, y), thick, np.nan)


def turns(thick):
    """Thicknesses at the places of the grid that are no thicker than their eight neighbors, all inside."""
    core = thick[1:-1, 1:-1]
    low = ~np.isnan(core)
    for across in range(3):
        for along in range(3):
            with np.errstate(invalid="ignore"):
                low &= core <= thick[along : along + core.shape[0], across : across + core.shape[1]]
    return core[low]
