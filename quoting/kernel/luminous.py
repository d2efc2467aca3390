"""How much light a filter passes, as eyes weigh it, and where it passes too little of one color.

Luminous transmittance: what passes of daylight D65, weighed by V(λ), 380 to 780 nm in steps of 5 nm
(ISO 13666 and ISO 12312-1).  Ultraviolet light by bands, UV-A 315 to 380 and UV-B 280 to 315 nm (ISO 12312-1), weighed
by the sun's spectrum and its effect.
Nothing here says whether signal lights are told apart: that quotient (Q) needs the signal spectra of the standard,
which are not held here, so it is not computed and never claimed.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.observer import D65, HAZARD, SUN_UV, VISIBLE, VISIBLE_COUNT, Y_BAR
from quoting.kernel.rules import grid
from quoting.kernel.treatments import filter_category

# Where 475 and 650 nm stand in a spectrum: the range in which a filter for driving keeps a share of every wavelength
DRIVING_FIRST = 39
DRIVING_LAST = 74
# That share of the luminous transmittance; ISO 12312-1, as the College of Optometrists quotes it
DRIVING_SHARE = 0.2
# Where 315 nm stands: UV-B ends and UV-A begins there
UV_EDGE = 7

# The most ultraviolet light by category, as shares of the luminous transmittance; category 4 may instead pass
# 1 percent.  ISO 12312-1, table of ultraviolet requirements; from memory
UVA_SHARE = [1.0, 1.0, 0.5, 0.5, 0.25]
UVB_SHARE = 0.05
UV_DARKEST = 0.01


def luminous(spectrum: list[float]) -> float:
    """Luminous transmittance (or reflectance) at D65, from 0 to 1.   Raises IndexError where the spectrum is short.

    >>> from quoting.kernel.spectrum import flat
    >>> luminous(flat(1.0)), round(luminous(flat(0.15)), 12)
    (1.0, 0.15)
    """
    seen = 0.0
    whole = 0.0
    for i in range(VISIBLE_COUNT):
        weight = D65[i] * Y_BAR[i]
        seen += weight * spectrum[VISIBLE + i]
        whole += weight
    return seen / whole


def percent_of(share: float) -> float:
    """A share in percent, on the grid of 0.01 on which the rules compare it."""
    return grid(100.0 * share)


def least_share(spectrum: list[float]) -> float:
    """The least that any wavelength from 475 to 650 nm passes, as a share of the luminous transmittance.

    A filter for driving keeps at least 0.2; a neutral one has 1.  0 where nothing passes at all.
    Source: ISO 12312-1, requirements for road use.
    """
    least = spectrum[DRIVING_FIRST]
    for i in range(DRIVING_FIRST, DRIVING_LAST + 1):
        if spectrum[i] < least:
            least = spectrum[i]
    whole = luminous(spectrum)
    if whole <= 0.0:
        return 0.0
    return least / whole


def mean(spectrum: list[float], first: int, last: int) -> float:
    """The plain mean between two places of a spectrum, both included."""
    whole = 0.0
    for i in range(first, last + 1):
        whole += spectrum[i]
    return whole / (last - first + 1)


def band(spectrum: list[float], first: int, last: int) -> float:
    """What passes of ultraviolet light between two places of the spectrum, weighed by sun and effect, from 0 to 1."""
    seen = 0.0
    whole = 0.0
    for i in range(first, last + 1):
        weight = SUN_UV[i] * HAZARD[i]
        seen += weight * spectrum[i]
        whole += weight
    return seen / whole


def uva(spectrum: list[float]) -> float:
    """Solar UV-A transmittance, 315 to 380 nm, from 0 to 1.   Source: ISO 12312-1; the weights from memory."""
    return band(spectrum, UV_EDGE, VISIBLE)


def uvb(spectrum: list[float]) -> float:
    """Solar UV-B transmittance, 280 to 315 nm, from 0 to 1.   Source: ISO 12312-1; the weights from memory."""
    return band(spectrum, 0, UV_EDGE)


def uv_kept(spectrum: list[float]) -> bool:
    """Whether the ultraviolet light stays within what the standard leaves a filter of this category.

    Source: ISO 12312-1, table of ultraviolet requirements; from memory.

    >>> from quoting.kernel.spectrum import flat
    >>> uv_kept(flat(0.5)), uv_kept(flat(0.0))
    (False, True)
    """
    seen = luminous(spectrum)
    category = filter_category(percent_of(seen))
    if category >= 4:
        most_a = UVA_SHARE[4] * seen
        if most_a < UV_DARKEST:
            most_a = UV_DARKEST
        return uva(spectrum) <= most_a and uvb(spectrum) <= UV_DARKEST
    return uva(spectrum) <= UVA_SHARE[category] * seen and uvb(spectrum) <= UVB_SHARE * seen
