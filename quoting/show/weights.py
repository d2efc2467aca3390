"""What a pair of lenses weighs."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.languages import _
from quoting.offers import Offer
from quoting.show.amounts import mm


def pair_weight(offer: Offer) -> float | None:
    """Weight of all lenses of an offer in g; None where one of them cannot be made."""
    return None if any(lens["fault"] for lens in offer.lenses()) else offer.weight


def weight_text(offer: Offer) -> list[str]:
    """One line about it, with the frame where its weight is known; none where a lens cannot be made."""
    lenses, frame = pair_weight(offer), offer.choice.size.weight
    if lenses is None:
        return []
    if not frame:
        return [_("lenses together {lenses} g").format(lenses=mm(lenses))]
    both = _("lenses together {lenses} g, {whole} g with the frame")
    return [both.format(lenses=mm(lenses), whole=mm(lenses + frame))]
