"""What a customer wishes beyond a lens package, and what the glasses are for."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Wishes:
    tint_depth: float = 0.0  # percent of the light that a tint takes at its darkest; 0: no tint
    tint_gradient: bool = False  # darkest at the top and fading, instead of one depth all over
    mirror: bool = False
    blue_filter: bool = False
    slab_off: bool = False  # ground so that vertical prism at the reading level is evened out
    rush: bool = False
    sport: bool = False
    one_eyed: bool = False  # only one eye sees: it must be protected
    driving: bool = False  # by day
    night_driving: bool = False  # at night or twilight


NOTHING = Wishes()
