"""Outlines for tests: of every family, dented ones that no family makes, and traces of them by straight geometry."""

import math
import random
from itertools import pairwise

from quoting.kernel import layout, outline, thickness
from tests.kernel.jobs import FAMILIES


def sides_of(xs, ys):
    """Pairs of points that are joined."""
    corners = list(zip(xs, ys, strict=True))
    return list(pairwise([corners[-1], *corners]))


def family_outline(seeded):
    """An outline from A, B and ED of a random family."""
    a, b, family = seeded.uniform(30, 66), seeded.uniform(20, 58), seeded.choice(FAMILIES)
    low, high = outline.effective_diameter_limits(a, b, family)
    return outline.from_box(a, b, low + (high - low) * seeded.random(), family)


def dented_outline(seeded):
    """A polygon around its origin with 3 to 90 corners at uneven angles, hollow in places."""
    count = seeded.randint(3, 90)
    angles = sorted((i + seeded.uniform(-0.4, 0.4)) * math.tau / count for i in range(count))
    radii = [seeded.uniform(12, 34) for _ in angles]
    xs = [r * math.cos(angle) for r, angle in zip(radii, angles, strict=True)]
    ys = [r * math.sin(angle) for r, angle in zip(radii, angles, strict=True)]
    return [xs, ys]


def random_outlines(count, seed):
    """Half of a family, half dented; the same each time."""
    seeded = random.Random(seed)
    return [(dented_outline if i % 2 else family_outline)(seeded) for i in range(count)]


def radius_of_polygon(xs, ys, x, y, angle):
    """Where a ray from (x, y), inside, meets the polygon last: its distance."""
    across, up = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    found = []
    for (px, py), (qx, qy) in sides_of(xs, ys):
        px, py, qx, qy = px - x, py - y, qx - x, qy - y
        turn = across * (qy - py) - up * (qx - px)
        if abs(turn) < 1e-12:
            continue
        far = (px * (qy - py) - py * (qx - px)) / turn
        part = (px * up - py * across) / turn
        if far > 0 and -1e-9 <= part <= 1 + 1e-9:
            found.append(far)
    return max(found)


def trace_of(xs, ys, angles, x=0.0, y=0.0):
    """Radii of a trace of the polygon at these angles from an origin."""
    return [radius_of_polygon(xs, ys, x, y, angle) for angle in angles]


def trace_of_ellipse(a, b, angles, x=0.0, y=0.0):
    """Radii of a trace of the ellipse with axes ``a`` and ``b`` from an origin (x, y) inside it: closed form."""
    p, q = a / 2, b / 2
    radii = []
    for angle in angles:
        u, v = math.cos(math.radians(angle)), math.sin(math.radians(angle))
        square = (u / p) ** 2 + (v / q) ** 2
        half = x * u / p**2 + y * v / q**2
        rest = (x / p) ** 2 + (y / q) ** 2 - 1
        radii.append((math.sqrt(half**2 - square * rest) - half) / square)
    return radii


def blank_exact(xs, ys, x, y, allowance):
    """The blank of a lens whose reference point is there, as ``kernel.lens`` asks for it."""
    return layout.blank_exact(thickness.rim_around(xs, ys, x, y)["reach"], allowance)
