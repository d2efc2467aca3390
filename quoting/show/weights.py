"""What a pair of lenses weighs."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.offers import Offer


def pair_weight(offer: Offer) -> float | None:
    """Weight of all lenses of an offer in g; None where one of them cannot be made."""
    return None if any(lens["fault"] for lens in offer.lenses()) else offer.weight


def weight_text(offer: Offer) -> list[str]:
    """One line about it, with the frame where its weight is known; none where a lens cannot be made."""
    lenses, frame = pair_weight(offer), offer.choice.size.weight
    if lenses is None:
        return []
    return [f"lenses together {lenses:.1f} g" + (f", {lenses + frame:.1f} g with the frame" if frame else "")]
