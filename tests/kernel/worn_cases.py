"""Random lenses for the tests of rays: any form that is ground, and some beyond it."""

import random

from quoting.kernel import thickness


def lens(rng, toric=True, conic=True, prism=True):
    """A Grind and its center thickness, mm."""
    sphere = round(rng.uniform(-10, 8), 2)
    cylinder = round(rng.uniform(-5, 3), 2) if toric else 0.0
    front = round(max(0.5, min(11.0, sphere / 2 + rng.uniform(2, 7))), 2)
    k = rng.choice((0.0, -0.5, -1.0, 0.4, -2.5)) if conic else 0.0
    made = thickness.grind(sphere, cylinder, rng.uniform(0.01, 180.0), front, k, round(rng.uniform(1.48, 1.76), 3))
    if prism:
        made = thickness.with_prism(made, rng.uniform(-4, 4), rng.uniform(-4, 4))
    return made, round(rng.uniform(0.8, 2.5) + max(0.0, sphere) * 0.6, 2)


def lenses(count, seed, **what):
    rng = random.Random(seed)
    return [(*lens(rng, **what), rng) for _ in range(count)]
