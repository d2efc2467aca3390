"""What a reason code says: one plain sentence for the customer, one exact sentence for the optician.

``{needed}`` and ``{given}`` are the two numbers the rule compared, ``{way}`` says for curves which way they differ.
A reason that concerns one eye only begins with that eye.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.catalog.model import Package
from quoting.kernel.records import Reason
from quoting.languages import _, decimals, marked
from quoting.show.amounts import mm, power
from quoting.show.words_impossible import IMPOSSIBLE_WORDS
from quoting.show.words_lens import BIFOCAL, LENS_WORDS, Words
from quoting.show.words_wearer import WEARER_WORDS

__all__ = [
    "BIFOCAL",
    "SIDES",
    "WORDS",
    "customer",
    "customer_of",
    "exact",
    "number",
    "told_once",
    "with_numbers",
    "words",
]

SIDES = marked({"R": "right eye", "L": "left eye", "B": ""})
WAYS = marked({"flatter": "flatter", "steeper": "steeper"})

WORDS: dict[str, Words] = {**LENS_WORDS, **WEARER_WORDS, **IMPOSSIBLE_WORDS}


def number(value: float, unit: str) -> str:
    """One of a rule's two numbers as its unit is written."""
    if unit == "D":
        return power(value)
    if unit == "mm":
        return mm(value, 1)
    return decimals(f"{value:.2f}".rstrip("0").rstrip("."))


def words(reason: Reason, package: Package) -> Words:
    """The sentences of a reason for this kind of lens."""
    special = BIFOCAL if package.design.kind == "bifocal" else {}
    return special.get(reason["code"]) or WORDS[reason["code"]]


def with_numbers(text: str, reason: Reason, unit: str) -> str:
    """A sentence with the two numbers of its reason."""
    way = _(WAYS["flatter" if reason["given"] < reason["needed"] else "steeper"])
    return text.format(needed=number(reason["needed"], unit), given=number(reason["given"], unit), way=way)


def _filled(text: str, reason: Reason, unit: str) -> str:
    filled = with_numbers(text, reason, unit)
    side = _(SIDES[reason["eye"]])
    return f"{side.capitalize()}: {filled[0].lower()}{filled[1:]}" if side else filled


def customer(reason: Reason, package: Package) -> str:
    """What the customer reads."""
    found = words(reason, package)
    return _filled(_(found.customer), reason, found.unit)


def exact(reason: Reason, package: Package) -> str:
    """What the optician reads."""
    found = words(reason, package)
    return _filled(_(found.exact), reason, found.unit)


def customer_of(reason: Reason, kind: str) -> str:
    """The same where only the kind of the lens is known; the code itself where nobody knows it any more."""
    found = (BIFOCAL if kind == "bifocal" else {}).get(reason["code"]) or WORDS.get(reason["code"])
    return _filled(_(found.customer), reason, found.unit) if found else reason["code"]


def told_once(reasons: list[Reason]) -> list[Reason]:
    """Reasons that both eyes share in the same numbers become one for both; the worst come first."""
    seen: dict[tuple[str, str, float, float], Reason] = {}
    for reason in reasons:
        key = (reason["code"], reason["verdict"], reason["needed"], reason["given"])
        if key in seen:
            seen[key] = {**seen[key], "eye": "B"}
        else:
            seen[key] = reason
    return sorted(seen.values(), key=lambda reason: reason["verdict"] != "no")
