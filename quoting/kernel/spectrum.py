"""Spectra: a number from 0 to 1 for each 5 nm from 280 to 780 nm, transmitted or reflected.

What lies one behind the other multiplies, wavelength by wavelength.  A dye taken up k times as deeply passes the k-th
power of what it passes once (Beer and Lambert); so depth 0 is nothing at all, and depths add up.
Source: Beer-Lambert law, ISO 13666, internal transmittance; CIE 015, 5 nm.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.elementary import exp, ln
from quoting.kernel.observer import COUNT, FIRST_NM, STEP_NM

# What passes less than a millionth counts as a millionth, so that its density is a number
LEAST = 0.000001
# From this natural density on nothing passes; the kernel's exponential reaches no further
OPAQUE = 700.0


def flat(value: float) -> list[float]:
    """The spectrum that is the same everywhere: a neutral filter, a white or gray ground."""
    made: list[float] = []
    for _ in range(COUNT):
        made.append(value)
    return made


def product(spectra: list[list[float]]) -> list[float]:
    """What passes all of them, one behind the other; of none, all of the light.   Raises IndexError where one is short.

    >>> product([flat(0.5), flat(0.5)])[0]
    0.25
    """
    made = flat(1.0)
    for spectrum in spectra:
        for i in range(COUNT):
            made[i] = made[i] * spectrum[i]
    return made


def density(passed: float) -> float:
    """Natural density of what passes; 0 where all does.

    >>> density(1.0), round(density(0.5), 6)
    (0.0, 0.693147)
    """
    if passed >= 1.0:
        return 0.0
    if passed < LEAST:
        return 0.0 - ln(LEAST)
    return 0.0 - ln(passed)


def mixed(dyes: list[list[float]], parts: list[float]) -> list[float]:
    """Density of a mixture at depth 1, of so many parts of each dye; all zero where there are no parts.

    Each dye is given by what it passes at depth 1.  Only the proportion of parts counts: 2 to 1 is 4 to 2.

    >>> round(mixed([flat(0.5), flat(1.0)], [1.0, 3.0])[0], 6)
    0.173287
    """
    whole = 0.0
    for part in parts:
        whole += part
    made = flat(0.0)
    if whole <= 0.0:
        return made
    for n in range(len(dyes)):
        if parts[n] > 0.0:
            share = parts[n] / whole
            for i in range(COUNT):
                made[i] = made[i] + share * density(dyes[n][i])
    return made


def layer(densities: list[float], depth: float) -> list[float]:
    """What a layer of these densities passes at a depth; at depth 0 exactly all.

    >>> layer(flat(0.7), 0.0)[0], round(layer(mixed([flat(0.5)], [1.0]), 2.0)[0], 12)
    (1.0, 0.25)
    """
    made: list[float] = []
    for i in range(COUNT):
        taken = depth * densities[i]
        if taken > OPAQUE:
            made.append(0.0)
        else:
            made.append(exp(0.0 - taken))
    return made


def resampled(first: float, step: float, values: list[float]) -> list[float]:
    """Values measured at even steps of wavelength, read on a straight line between two of them.

    ``first`` and ``step`` in nm.  Beyond its ends a measured curve goes on as it ends.   Raises ValueError where there
    is no value or the step is not above zero.

    >>> made = resampled(280.0, 10.0, [0.0, 1.0, 0.0])
    >>> made[0], made[1], made[2], made[100]
    (0.0, 0.5, 1.0, 0.0)
    """
    if len(values) == 0 or step <= 0.0:
        raise ValueError("a curve needs values, and steps above zero")
    made: list[float] = []
    k = 0
    for i in range(COUNT):
        nm = FIRST_NM + i * STEP_NM
        for n in range(k + 1, len(values)):
            if first + n * step <= nm:
                k = n
        at = (nm - first - k * step) / step
        if at <= 0.0 or k + 1 >= len(values):
            made.append(values[k])
        else:
            made.append(values[k] + at * (values[k + 1] - values[k]))
    return made
