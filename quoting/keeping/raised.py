"""Prices raised or lowered by one rule: which ones, by how much, and rounded to what.

>>> rule = Rule(percent("+4%"), rounding("up-to", "0.50"))
>>> rule.of(2400), rule.of(2450), Rule(percent("-2.5 %"), CENT).of(1999)
(2500, 2550, 1949)
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from quoting.catalog.shop import Catalog
from quoting.catalog.table import listing
from quoting.keeping.changing import Change
from quoting.keeping.standing import Spot
from quoting.money import cents_from_text
from quoting.written.kinds import meant_hint, nearest

PERCENT = re.compile(r"(?P<sign>[-+−])(?P<number>[0-9]{1,3}(?:[.,][0-9]{1,2})?)\s*%", re.ASCII)
ROUNDINGS = ("up-to", "nearest", "ending")


class WordError(ValueError):
    """A word of a selector or rule that means nothing, with what would have been right."""


@dataclass(frozen=True, slots=True)
class Rounding:
    """``up-to``: to the next multiple; ``nearest``: the nearest, half up; ``ending``: the next amount that ends so."""

    kind: str
    cents: int

    def of(self, exact: Fraction) -> int:
        """An exact amount in cents, rounded."""
        if self.kind == "nearest":
            return math.floor(exact / self.cents + Fraction(1, 2)) * self.cents
        if self.kind == "up-to":
            return math.ceil(exact / self.cents) * self.cents
        turn: int = max(100, 10 ** len(str(self.cents)))  # 0.90: whole units and 90 cents; 9.00: tens and 9 units
        return math.ceil((exact - self.cents) / turn) * turn + self.cents


CENT = Rounding("nearest", 1)


@dataclass(frozen=True, slots=True)
class Rule:
    """By how much, in basis points, and rounded to what."""

    basis_points: int
    rounding: Rounding

    def of(self, cents: int) -> int:
        """The new amount, never below 0."""
        return max(0, self.rounding.of(Fraction(cents * (10_000 + self.basis_points), 10_000)))


def percent(text: str) -> int:
    """Basis points of a change such as ``+4%`` or ``-2.5 %``.   Raises WordError."""
    found = PERCENT.fullmatch(text.strip())
    if found is None:
        raise WordError(f"by how much: {text!r} is no change such as +4% or -2.5%")
    points = cents_from_text(found["number"].replace(",", "."))
    if found["sign"] == "+":
        return points
    if points > 10_000:
        raise WordError(f"by how much: {text!r} would leave less than nothing")
    return -points


def rounding(kind: str, amount: str) -> Rounding:
    """A rounding by its words, the amount in the shop's currency: ``up-to 0.50``.   Raises WordError."""
    if kind not in ROUNDINGS:
        raise WordError(
            f"--round: {kind!r} is none of {', '.join(ROUNDINGS)}; {meant_hint(kind, ROUNDINGS)}".rstrip("; ")
        )
    try:
        cents = cents_from_text(amount.replace(",", "."))
    except ValueError:
        raise WordError(f"--round: {amount!r} is no amount such as 0.50 or 5") from None
    if cents <= 0:
        raise WordError(f"--round: {amount!r} must be more than 0")
    return Rounding(kind, cents)


def picked(spots: Iterable[Spot], words: str, catalog: Catalog) -> list[Spot]:
    """The prices that a selector names: ``maker=hallstrand material=r150,r160``, or ``frames maker=...``.

    All words must hold; within one, commas mean or.  ``all`` is every lens, ``frames`` alone every frame.
    Raises WordError.
    """
    first, *rest = words.split() or [""]
    kind = "frame" if first == "frames" else "lens"
    named = rest if first in ("frames", "lenses", "all") else words.split()
    if not words.strip():
        raise WordError('which prices: name them, as in "maker=hallstrand", or say all')
    other = _traits("lens" if kind == "frame" else "frame", catalog)
    tests = [_test(word, _traits(kind, catalog), other, kind) for word in named]
    return [spot for spot in spots if spot.kind == kind and all(test(spot) for test in tests)]


Trait = Mapping[str, str]  # what each package or frame id has of one kind


def _traits(kind: str, catalog: Catalog) -> dict[str, Trait]:
    """The words of a selector, and what they ask of each package or frame."""
    if kind == "frame":
        frames = catalog.frames.values()
        return {
            "maker": {one.id: one.maker for one in frames},
            "mounting": {one.id: one.mounting for one in frames},
            "frame": {one.id: one.id for one in frames},
        }
    packages = catalog.packages.values()
    return {
        "maker": {one.id: one.maker for one in packages},
        "material": {one.id: one.material.id for one in packages},
        "design": {one.id: one.design.id for one in packages},
        "kind": {one.id: one.design.kind for one in packages},
        "light": {one.id: one.light for one in packages},
        "package": {one.id: one.id for one in packages},
    }


def plain(name: str) -> str:
    """A maker's name as it is typed: lower case, hyphens between words.

    >>> plain("Pellbridge & Daughters")
    'pellbridge-daughters'
    """
    return re.sub(r"\W+", "-", name.casefold()).strip("-")


def _test(word: str, traits: dict[str, Trait], other: dict[str, Trait], kind: str) -> Callable[[Spot], bool]:
    """Whether a price is one of those that a word names; ``other`` is what the other kind has.   Raises WordError."""
    name, equals, values = word.partition("=")
    if values and (name not in traits or not _has(traits, name, values)) and _has(other, name, values):
        lens = kind == "lens"
        way = f'for their prices write "frames {word}"' if lens else "for their prices leave out `frames`"
        raise WordError(f"which prices: {word!r} names {'frames' if lens else 'lenses'}: {way}")
    if name not in traits or not equals:
        meant = nearest(name, tuple(traits))
        hint = f"there is {', '.join(f'{one}=' for one in traits)}"
        hint = f"did you mean {meant}={values or '...'}? {hint}" if meant else hint
        raise WordError(f"which prices: {word!r} is no word that can be used here: {hint}")
    trait = traits[name]
    known = {plain(value): value for value in trait.values()}
    wanted = set()
    for value in values.split(","):
        if plain(value) not in known:
            hint = meant_hint(plain(value), tuple(known)).replace("`", "") or listing(known)
            raise WordError(f"which prices: no {name} {value!r}: {hint}")
        wanted.add(known[plain(value)])
    return lambda spot: trait[spot.id] in wanted


def _has(traits: dict[str, Trait], name: str, values: str) -> bool:
    known = {plain(one) for one in traits.get(name, {}).values()}
    return all(plain(value) in known for value in values.split(","))


def raised(spots: Iterable[Spot], rule: Rule) -> list[Change]:
    """The changes; prices that rounding leaves as they are, are among them no longer."""
    return [Change(spot, new) for spot in spots if (new := rule.of(spot.cents)) != spot.cents]
