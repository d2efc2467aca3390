"""Is this what a job can be priced by?  Amounts and shares, held to what they can mean."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.bounds import MOST_CENTS, MOST_MM, WHOLE_SHARE, hold
from quoting.kernel.records import Money, Reason
from quoting.kernel.rules import say


def known_when(when: str) -> bool:
    """Whether a surcharge is for something known."""
    if when == "prism" or when == "cylinder" or when == "blank" or when == "wrap" or when == "mounting":
        return True
    return when == "power" or when == "tint" or when == "mirror" or when == "slab-off" or when == "rush"


def money_faults(money: Money) -> list[Reason]:
    """What a job is priced by: amounts from nothing to a hundred thousand, shares up to the whole."""
    reasons: list[Reason] = []
    code = "impossible-money"
    region = money["region"]
    hold(reasons, code, "B", money["frame_cents"], 0, MOST_CENTS)
    extra = 0
    for surcharge in money["surcharges"]:
        found = len(reasons)
        hold(reasons, code, "B", surcharge["cents"], 0, MOST_CENTS)
        if len(reasons) == found:
            extra += surcharge["cents"]
        hold(reasons, code, "B", surcharge["over"], 0.0, MOST_MM)
        if not known_when(surcharge["when"]):
            say(reasons, "unknown-word", "no", "B", 1.0, 0.0)
    hold(reasons, code, "B", extra, 0, MOST_CENTS)
    for discount in money["discounts"]:
        hold(reasons, code, "B", discount["basis_points"], 0, WHOLE_SHARE)
        hold(reasons, code, "B", discount["cents"], 0, MOST_CENTS)
        if discount["on"] != "frame" and discount["on"] != "lenses" and discount["on"] != "goods":
            say(reasons, "unknown-word", "no", "B", 1.0, 0.0)
    hold(reasons, code, "B", region["shipping_cents"], 0, MOST_CENTS)
    hold(reasons, code, "B", region["free_from_cents"], 0, MOST_CENTS)
    hold(reasons, code, "B", region["tax_frame"], 0, WHOLE_SHARE)
    hold(reasons, code, "B", region["tax_lenses"], 0, WHOLE_SHARE)
    hold(reasons, code, "B", region["tax_shipping"], 0, WHOLE_SHARE)
    return reasons
