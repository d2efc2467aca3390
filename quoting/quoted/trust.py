"""What a shop may be held to of what a link says: whether its signature is good, and whether it still counts."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from datetime import date
from typing import Literal, cast

from quoting.catalog.shop import QuoteKey
from quoting.quoted.positional import day_number
from quoting.quoted.records import Quote
from quoting.quoted.sealing import Opened
from quoting.quoted.signing import good

Standing = Literal[
    "held",  # signed by this shop, and the price stands
    "expired",  # signed, and its day is over
    "withdrawn",  # signed, and called back
    "estimate",  # nobody vouches for it
    "altered",
    "unknown-key",
    "recalled-key",  # the key came into other hands: nothing it signs counts
    "late-key",  # signed with a key that was out of use on that day
]
PLAIN: dict[str, str] = {
    "held": "The shop has signed this quote. Its price holds.",
    "expired": "The shop has signed this quote, and its last day is over.",
    "withdrawn": "The shop has withdrawn this quote.",
    "estimate": "This is an estimate: the shop has not signed it.",
    "altered": "Something in this quote was changed after the shop signed it: it does not count.",
    "unknown-key": "This quote is signed with a key that is not this shop's: it does not count.",
    "recalled-key": "This quote is signed with a key that the shop has called back: please ask the shop.",
    "late-key": "This quote is signed with a key that was out of use on its day: it does not count.",
    "nothing": "There is no quote behind this link.",
    "no-quote": "This is not the link of a quote.",
    "newer": "This quote was made by a newer version than this page knows: please ask the shop.",
    "damaged": "This link was cut short or changed on its way: please ask for it again.",
}


def unvouched(quote: Quote) -> Quote:
    """A quote that nobody signed, without what only a shop says: number, note, and what it changed for the customer.

    Whoever made the link may have written it, so that it looks like a shop's.
    """
    alternatives = [
        [{**pair, "lines": [{**line, "listed": None, "reason": ""} for line in pair["lines"]]} for pair in pairs]
        for pairs in quote["alternatives"]
    ]
    return cast(Quote, {**quote, "number": "", "note": "", "alternatives": alternatives})


def number_hash(number: str) -> str:
    """What is published of a withdrawn quote: the SHA-256 of its number."""
    return hashlib.sha256(number.encode()).hexdigest()


def standing(opened: Opened, keys: Iterable[QuoteKey], withdrawn: Iterable[str], day: date) -> Standing:
    """How an opened quote stands on a day; it must not have a fault."""
    if opened.quote is None:
        raise ValueError("what could not be opened has no standing")
    if not opened.key:
        return "estimate"
    known = {key.id: key for key in keys}
    key = known.get(opened.key)
    if key is None:
        return "unknown-key"
    if not good(key.public, opened.signature, opened.message):
        return "altered"
    if key.recalled:
        return "recalled-key"
    if key.retired is not None and opened.quote["issued"] > day_number(key.retired):
        return "late-key"
    if number_hash(opened.quote["number"]) in withdrawn:
        return "withdrawn"
    return "held" if day_number(day) <= opened.quote["expires"] else "expired"
