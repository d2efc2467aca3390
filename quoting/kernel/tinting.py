"""A tint: dyes in parts, as dark as wanted, the same all over or fading down the lens.

How dark a tint is, is said by the light that the dye alone takes at D65, in percent, as the trade orders it.  A lens
that is drawn slowly out of the bath takes up dye in proportion to its time in it; so between the two ends of a gradient
the depth of the dye runs straight, and the light passed follows by Beer and Lambert.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.elementary import ln
from quoting.kernel.luminous import luminous
from quoting.kernel.observer import D65, VISIBLE, VISIBLE_COUNT, Y_BAR
from quoting.kernel.records import Tint
from quoting.kernel.spectrum import layer, mixed

# The darkest dye that is computed, in percent of the light taken
DARKEST = 99.9
ROUNDS = 24
NEAR_ENOUGH = 0.000000000001


def slope(densities: list[float], passed: list[float]) -> float:
    """How fast the luminous transmittance falls with depth, relative to daylight."""
    falling = 0.0
    whole = 0.0
    for i in range(VISIBLE_COUNT):
        weight = D65[i] * Y_BAR[i]
        falling += weight * densities[VISIBLE + i] * passed[VISIBLE + i]
        whole += weight
    return falling / whole


def depth_for(densities: list[float], percent: float) -> float:
    """The depth at which a dye takes so many percent of daylight; 0 where it takes none at any depth.

    Newton's method on the logarithm, which is convex in the depth: it comes from below and never goes past.
    Raises ValueError from 100 percent on; above 99.9 it is 99.9.

    >>> from quoting.kernel.spectrum import flat, mixed
    >>> round(depth_for(mixed([flat(0.5)], [1.0]), 75.0), 9)
    2.0
    """
    if percent >= 100.0:
        raise ValueError("no dye takes all of the light")
    if percent <= 0.0:
        return 0.0
    wanted = ln(1.0 - DARKEST / 100.0)
    if percent < DARKEST:
        wanted = ln(1.0 - percent / 100.0)
    depth = 0.0
    for _ in range(ROUNDS):
        passed = layer(densities, depth)
        seen = luminous(passed)
        falling = slope(densities, passed)
        if falling <= 0.0:
            return 0.0
        step = (ln(seen) - wanted) * seen / falling
        if step <= NEAR_ENOUGH * (1.0 + depth):
            break
        depth += step
    return depth


def faded(top: float, bottom: float, fade_from: float, fade_to: float, height: float) -> float:
    """Depth at a height between the two ends of a gradient: straight between them, and even beyond.

    Heights as shares of the box from its top, 0, to its lowest point, 1.

    >>> faded(4.0, 1.0, 0.25, 0.75, 0.5), faded(4.0, 1.0, 0.25, 0.75, 0.9), faded(4.0, 1.0, 0.5, 0.5, 0.5)
    (2.5, 1.0, 4.0)
    """
    if height <= fade_from:
        return top
    if height >= fade_to:
        return bottom
    return top + (bottom - top) * (height - fade_from) / (fade_to - fade_from)


def dye_layers(tint: Tint, heights: list[float]) -> list[list[float]]:
    """What the dye alone passes at each of these heights."""
    densities = mixed(tint["dyes"], tint["parts"])
    top = depth_for(densities, tint["top"])
    bottom = depth_for(densities, tint["bottom"])
    found: list[list[float]] = []
    for height in heights:
        found.append(layer(densities, faded(top, bottom, tint["fade_from"], tint["fade_to"], height)))
    return found
