"""Everything that is told of a tinted lens at one place of it: figures, driving, and how it looks.

Source of the rules: ISO 12312-1 (categories, road use, ultraviolet bands).  A shop's own limits for driving are given.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.coated import looked_at, reflected, transmitted
from quoting.kernel.colors import lab, srgb, xyz
from quoting.kernel.luminous import DRIVING_SHARE, least_share, luminous, mean, percent_of, uv_kept, uva, uvb
from quoting.kernel.observer import COUNT, FIRST_NM, STEP_NM
from quoting.kernel.records import Filter, Glass, Tint
from quoting.kernel.spectrum import flat
from quoting.kernel.tinting import dye_layers
from quoting.kernel.treatments import filter_category

# A ground between light and dark skin, for pictures alone: 0.2 below 420 nm, rising to 0.5 from 700 nm on; our own
SKIN_LEAST = 0.2
SKIN_MOST = 0.5
SKIN_FROM_NM = 420.0
SKIN_TO_NM = 700.0

# Where blue, green and red lie in a spectrum, both ends included: 450 to 490, 515 to 560, 610 to 660 nm; our own choice
BLUE = [34, 42]
GREEN = [47, 56]
RED = [66, 76]


def skin() -> list[float]:
    """The drawn ground that stands for skin."""
    made: list[float] = []
    for i in range(COUNT):
        share = (FIRST_NM + i * STEP_NM - SKIN_FROM_NM) / (SKIN_TO_NM - SKIN_FROM_NM)
        if share < 0.0:
            share = 0.0
        if share > 1.0:
            share = 1.0
        made.append(SKIN_LEAST + (SKIN_MOST - SKIN_LEAST) * share)
    return made


def no_tint() -> Tint:
    """No dye at all."""
    return {"dyes": [], "parts": [], "top": 0.0, "bottom": 0.0, "fade_from": 0.0, "fade_to": 1.0}


def filter_of(glass: Glass, layer: list[float], driving_least: float, night_least: float) -> Filter:
    """Figures of a lens with this layer of dye; the limits for driving in percent of light.

    Behind a filter of at most ``driving_least`` percent nobody drives, nor behind one that passes too little of a
    color; by night and at twilight it must pass at least ``night_least``.
    """
    passed = transmitted(glass, layer)
    percent = percent_of(luminous(passed))
    share = least_share(passed)
    day = percent > driving_least and percent_of(share) >= 100.0 * DRIVING_SHARE
    color = xyz(passed)
    return {
        "percent": percent,
        "category": filter_category(percent),
        "uva": percent_of(uva(passed)),
        "uvb": percent_of(uvb(passed)),
        "uv_kept": uv_kept(passed),
        "least_share": share,
        "reflected": percent_of(luminous(reflected(glass, layer))),
        "blue": percent_of(mean(passed, BLUE[0], BLUE[1])),
        "green": percent_of(mean(passed, GREEN[0], GREEN[1])),
        "red": percent_of(mean(passed, RED[0], RED[1])),
        "day": day,
        "night": day and percent >= night_least,
        "xyz": color,
        "lab": lab(color),
        "through": srgb(color),
        "on_white": srgb(xyz(looked_at(glass, layer, flat(1.0)))),
        "on_skin": srgb(xyz(looked_at(glass, layer, skin()))),
    }


def filters(glass: Glass, tint: Tint, heights: list[float], driving_least: float, night_least: float) -> list[Filter]:
    """Figures at each of these heights, shares of the box from its top to its lowest point."""
    found: list[Filter] = []
    for layer in dye_layers(tint, heights):
        found.append(filter_of(glass, layer, driving_least, night_least))
    return found
