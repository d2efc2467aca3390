"""The recipe nearest to a wanted color: which dyes, in which parts, how deep.

The lens must pass just as much light as is wanted; among the recipes that do, that one is taken whose color seen
through it lies nearest by CIEDE2000.  At most three dyes, in whole shares of 128: first all mixtures in quarters of
every three dyes, then, from the best of the six most promising threes, ever finer shares are moved from one dye to
another as long as that comes nearer.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.coated import transmitted
from quoting.kernel.color_difference import difference
from quoting.kernel.colors import from_lab, lab, xyz
from quoting.kernel.elementary import ln
from quoting.kernel.luminous import luminous
from quoting.kernel.records import Glass, Recipe
from quoting.kernel.spectrum import layer, mixed
from quoting.kernel.tinting import NEAR_ENOUGH, ROUNDS, slope

QUARTERS = 4
LEVELS = 6  # from quarters to shares of 128, each time half as large
MOST_DYES = 3
MOST_OFFERED = 12
PROMISING = 6
MOVES = 40


def depth_behind(glass: Glass, densities: list[float], wanted: float) -> float:
    """The depth at which the whole lens passes the wanted share of light; 0 where it passes no more without dye.

    Raises ValueError where the wanted share is not above zero.
    """
    target = ln(wanted)
    depth = 0.0
    for _ in range(ROUNDS):
        passed = transmitted(glass, layer(densities, depth))
        seen = luminous(passed)
        falling = slope(densities, passed)
        if falling <= 0.0:
            break
        step = (ln(seen) - target) * seen / falling
        if depth + step <= 0.0:
            return 0.0
        depth += step
        if abs(step) <= NEAR_ENOUGH * (1.0 + depth):
            break
    return depth


def at_lightness(color: list[float], wanted: float) -> list[float]:
    """The same chromaticity at another luminous transmittance, as L*, a*, b*; black stays black.

    >>> [round(x, 6) for x in at_lightness([100.0, 0.0, 0.0], 0.18418651851244416)]
    [50.0, 0.0, 0.0]
    """
    old = from_lab(color)
    if old[1] <= 0.0:
        return lab([0.0, 0.0, 0.0])
    factor = 100.0 * wanted / old[1]
    return lab([factor * old[0], factor * old[1], factor * old[2]])


def tried(glass: Glass, dyes: list[list[float]], parts: list[float], wanted: float, color: list[float]) -> Recipe:
    """One recipe, made just as dark as wanted, with how far its color lies from the wanted one."""
    densities = mixed(dyes, parts)
    depth = depth_behind(glass, densities, wanted)
    passed = transmitted(glass, layer(densities, depth))
    seen = lab(xyz(passed))
    kept: list[float] = []
    for part in parts:
        kept.append(part)
    return {
        "parts": kept,
        "depth": depth,
        "passed": luminous(passed),
        "lab": seen,
        "difference": difference(seen, color),
    }


def threes(count: int) -> list[list[int]]:
    """Every choice of three among so many dyes; all of them where there are no more.

    Raises ValueError beyond 12 dyes, and where there is none.

    >>> threes(2), len(threes(5))
    ([[0, 1]], 10)
    """
    if count < 1 or count > MOST_OFFERED:
        raise ValueError("a recipe is made of one to twelve dyes")
    if count == 1:
        return [[0]]
    if count == 2:
        return [[0, 1]]
    found: list[list[int]] = []
    for a in range(count):
        for b in range(a + 1, count):
            for c in range(b + 1, count):
                found.append([a, b, c])
    return found


def shared(count: int, chosen: list[int], a: float, b: float, c: float) -> list[float]:
    """Parts of all dyes, where up to three of them are chosen.

    >>> shared(4, [1, 3], 3.0, 1.0, 0.0)
    [0.0, 3.0, 0.0, 1.0]
    """
    given = [a, b, c]
    parts: list[float] = []
    for i in range(count):
        part = 0.0
        for n in range(len(chosen)):
            if chosen[n] == i:
                part = given[n]
        parts.append(part)
    return parts


def coarse(glass: Glass, dyes: list[list[float]], chosen: list[int], wanted: float, color: list[float]) -> Recipe:
    """The best of all mixtures of the chosen dyes in quarters."""
    whole = 0.0 + QUARTERS
    best = tried(glass, dyes, shared(len(dyes), chosen, whole, 0.0, 0.0), wanted, color)
    if len(chosen) < 2:
        return best
    for first in range(QUARTERS):
        for second in range(QUARTERS - first + 1):
            third = QUARTERS - first - second
            if third == 0 or len(chosen) > 2:
                parts = shared(len(dyes), chosen, 0.0 + first, 0.0 + second, 0.0 + third)
                one = tried(glass, dyes, parts, wanted, color)
                if one["difference"] < best["difference"]:
                    best = one
    return best


def moved(parts: list[float], giving: int, taking: int) -> list[float]:
    """One share goes from one dye to another."""
    found: list[float] = []
    for part in parts:
        found.append(part)
    found[giving] = found[giving] - 1.0
    found[taking] = found[taking] + 1.0
    return found


def neared(
    glass: Glass, dyes: list[list[float]], chosen: list[int], best: Recipe, wanted: float, color: list[float]
) -> Recipe:
    """The best recipe that moving one share at a time leads to."""
    for _ in range(MOVES):
        nearest = best
        for giving in chosen:
            for taking in chosen:
                if taking != giving and best["parts"][giving] >= 1.0:
                    one = tried(glass, dyes, moved(best["parts"], giving, taking), wanted, color)
                    if one["difference"] < nearest["difference"]:
                        nearest = one
        if nearest["difference"] >= best["difference"]:
            break
        best = nearest
    return best


def match(glass: Glass, dyes: list[list[float]], wanted: float, color: list[float]) -> Recipe:
    """The recipe of at most three of these dyes that is nearest to a color (L*, a*, b*) at a luminous transmittance.

    ``difference`` is what is left by CIEDE2000, and ``passed`` what the lens passes then: less than ``wanted`` only
    where it does so without any dye.   Raises ValueError where there is no dye, or more than 12, or ``wanted`` is not
    above zero.
    """
    choices = threes(len(dyes))
    begun: list[Recipe] = []
    waiting: list[bool] = []
    for chosen in choices:
        begun.append(coarse(glass, dyes, chosen, wanted, color))
        waiting.append(True)
    best = begun[0]
    for turn in range(PROMISING):
        next_one = -1
        for n in range(len(begun)):
            if waiting[n] and (next_one < 0 or begun[n]["difference"] < begun[next_one]["difference"]):
                next_one = n
        if next_one < 0:
            break
        waiting[next_one] = False
        found = begun[next_one]
        for _ in range(LEVELS - 1):
            found["parts"] = doubled(found["parts"])
            found = neared(glass, dyes, choices[next_one], found, wanted, color)
        if turn == 0 or found["difference"] < best["difference"]:
            best = found
    return best


def doubled(parts: list[float]) -> list[float]:
    """The same mixture in shares half as large."""
    found: list[float] = []
    for part in parts:
        found.append(2.0 * part)
    return found
