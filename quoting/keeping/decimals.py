"""Amounts and powers in a price list as it comes: whichever of point and comma a column uses, with or without currency.

One cell such as ``1.234`` may be a thousand or a little over one; the other cells of its column tell.

>>> separator(["24,00", "1.234,50", "9"]), separator(["24.00", "1,234"]), separator(["1.234"]), separator(["24", "9"])
(',', '.', '?', '')
>>> cents("1.234,50", ","), cents("24", ","), cents("1'234.5", "."), cents("24,-", ",")
(123450, 2400, 123450, 2400)
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

from quoting.written.figures import PLANO, QUARTER

# Blanks and apostrophes group thousands in some countries; no country parts hundredths by them (CLDR number symbols)
GROUPING = re.compile(r"(?<=[0-9])['’\s](?=[0-9]{3}(?![0-9]))")
PRICE = re.compile(
    r"(?P<before>[^0-9+\-−–]*?)\s*(?P<number>[+]?[0-9][0-9.,'’\s]*?)(?P<whole>[.,]\s?[-–—]{1,2})?\s*(?P<after>[^0-9]*)"
)
POWER = re.compile(r"[+-]?[0-9]{1,2}(?:[.,][0-9]{1,3})?", re.ASCII)
NAMES = {",": "comma", ".": "point"}


@dataclass(frozen=True, slots=True)
class Written:
    """A cell taken apart: the figures, and what stands around them."""

    number: str
    around: tuple[str, ...]  # currency and the like


def apart(text: str) -> Written | None:
    """Figures and what stands around them; None where no amount stands there.

    >>> apart("€ 1.234,50"), apart("on request")
    (Written(number='1.234,50', around=('€',)), None)
    """
    found = PRICE.fullmatch(text.strip())
    if found is None:
        return None
    around = tuple(part for part in (found["before"].strip(), found["after"].strip()) if part)
    return Written(GROUPING.sub("", found["number"].strip()).lstrip("+"), around)


def separator(numbers: Iterable[str]) -> str:
    """The sign before the hundredths: ``,`` or ``.``; ``?`` where nobody can tell, nothing where none is needed.

    Raises ValueError where both are found.
    """
    votes = {vote for number in numbers if (vote := _vote(number))}
    sure = votes - {"?"}
    if len(sure) > 1:
        raise ValueError("both a point and a comma stand before hundredths")
    return sure.pop() if sure else "?" if votes else ""


def _vote(number: str) -> str:
    """What one number tells of its column."""
    signs = [one for one in number if one in NAMES]
    if not signs:
        return ""
    if len(set(signs)) == 2:
        return signs[-1]
    if len(signs) > 1:
        return "." if signs[0] == "," else ","
    before, _, after = re.sub(r"[^0-9.,]", "", number).partition(signs[0])
    return "?" if len(after) == 3 and len(before) <= 3 and before.strip("0") else signs[0]


def cents(number: str, sign: str) -> int:
    """An amount in cents, once the sign before its hundredths is known.   Raises ValueError."""
    found = apart(number)
    group = "." if sign == "," else ","
    whole = rf"[0-9]{{1,9}}|[0-9]{{1,3}}(?:{re.escape(group)}[0-9]{{3}})+"
    pattern = rf"(?P<whole>{whole})(?:{re.escape(sign or '.')}(?P<part>[0-9]{{1,2}})0*)?"
    match = re.fullmatch(pattern, found.number, re.ASCII) if found is not None else None
    if match is None:
        raise ValueError(f"not an amount: {number!r}")
    return int(match["whole"].replace(group, "")) * 100 + int((match["part"] or "0").ljust(2, "0"))


def whole_cents(number: Decimal) -> tuple[int, bool]:
    """A number of a workbook in cents, half a cent up, and whether that changed it by more than its own dust.

    >>> whole_cents(Decimal("24.499999999999996")), whole_cents(Decimal("24.125"))
    ((2450, False), (2413, True))
    """
    rounded = (number * 100).quantize(Decimal(1), ROUND_HALF_UP)
    return int(rounded), abs(number * 100 - rounded) > Decimal("0.0001")


def power(text: str) -> float:
    """A power on quarter diopters, with point or comma.   Raises ValueError.

    >>> power("−6,25"), power("+4"), power("plan")
    (-6.25, 4.0, 0.0)
    """
    plain = text.strip().replace("−", "-").replace("–", "-").removesuffix("D").removesuffix("dpt").strip()
    if plain.lower() in PLANO:
        return 0.0
    if POWER.fullmatch(plain) is None or (value := float(plain.replace(",", "."))) % QUARTER:
        raise ValueError(f"not a power on quarter diopters: {text!r}")
    return value + 0.0
