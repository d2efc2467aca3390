"""Drawn dyes, lenses and tints, each by its own seed."""

import math
import random

NANOMETERS = [280 + 5 * n for n in range(101)]
HEIGHTS = [0.0, 0.35, 0.5, 1.0]


def curve(seeded):
    """A smooth transmittance: a bell, an edge, or a walk."""
    kind, low = seeded.random(), seeded.uniform(0.0, 0.4)
    high, center, wide = seeded.uniform(low, 1.0), seeded.uniform(380, 680), seeded.uniform(20, 200)
    if kind < 0.4:
        return [low + (high - low) * math.exp(-4 * math.log(2) * ((nm - center) / wide) ** 2) for nm in NANOMETERS]
    if kind < 0.8:
        return [low + (high - low) / (1 + math.exp((center - nm) / wide * 4)) for nm in NANOMETERS]
    found = [seeded.random()]
    for _ in NANOMETERS[1:]:
        found.append(min(1.0, max(0.0, found[-1] + seeded.uniform(-0.06, 0.06))))
    return found


def glass(seeded):
    """A lens, uncoated, coated or mirrored."""
    surface = seeded.uniform(0.035, 0.075)
    coated = [surface * one for one in curve(seeded)]
    return {
        "internal": curve(seeded) if seeded.random() < 0.3 else [0.995] * 101,
        "front": [0.6 * one for one in curve(seeded)] if seeded.random() < 0.3 else [surface] * 101,
        "back": coated if seeded.random() < 0.5 else [surface] * 101,
    }


def tint(seeded):
    """Two or three dyes in whole parts, the same all over or fading."""
    count = seeded.choice((2, 3))
    ends = sorted((seeded.random(), seeded.random()))
    top = seeded.choice((0.0, 15.0, 50.0, 80.0, round(seeded.uniform(0, 97), 1)))
    return {
        "dyes": [curve(seeded) for _ in range(count)],
        "parts": [float(seeded.randint(0, 6)) for _ in range(count)],
        "top": top,
        "bottom": top if seeded.random() < 0.4 else round(seeded.uniform(0, 97), 1),
        "fade_from": ends[0],
        "fade_to": ends[1],
    }


def chunk(number, count):
    """What a page asks about so many tints."""
    found = []
    for n in range(count):
        seeded = random.Random(f"tint {number} {n}")
        found.append([glass(seeded), tint(seeded), HEIGHTS, 8.0, 75.0])
    return found
