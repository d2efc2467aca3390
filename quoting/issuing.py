"""From what one customer is offered to a quote in the register: answered, numbered, signed, entered."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import base64
import hashlib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from pathlib import Path

from quoting.dyeing import without
from quoting.light.glass import takes
from quoting.offers import Ask, Choice, Offers
from quoting.quoted.armor import address
from quoting.quoted.keystore import signing_key
from quoting.quoted.positional import FORM, packed
from quoting.quoted.records import Quote
from quoting.quoted.register import Entry, Register
from quoting.quoted.sealing import sealed, unsigned, written
from quoting.show.issued import Asked, Issue, quote_record
from quoting.show.reasons import customer as for_customer
from quoting.show.reasons import told_once
from quoting.show.tints import why_not
from quoting.terms import Change, line_name, pricing

# How many numbers are tried for one quote; two of the same day are the same once in 32^5
TRIES = 200


class NotOfferedError(ValueError):
    """Why a pair cannot be quoted, in one sentence."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """One pair of glasses to be quoted."""

    choice: Choice
    ask: Ask
    changes: tuple[Change, ...] = ()


@dataclass(frozen=True, slots=True)
class Terms:
    """To whom a quote goes, and how long it holds."""

    customer: str
    email: str = ""
    days: int = 0  # 0: as long as the shop's quotes do
    note: str = ""


def answered(alternatives: Sequence[Sequence[Wanted]], offers: Offers) -> list[list[Asked]]:
    """The engine's answers.  Shipping is paid once: with the first pair, for the worth of all.

    Raises NotOfferedError where a pair does not fit or has no price, NoSuchLineError.
    """
    return [_together(one, offers) for one in alternatives]


def _together(pairs: Sequence[Wanted], offers: Offers) -> list[Asked]:
    first, *more = pairs
    rest = [_answer(one, offers, (), goes_with=True) for one in more]
    return [_answer(first, offers, rest, goes_with=False), *rest]


def _answer(one: Wanted, offers: Offers, others: Sequence[Asked], goes_with: bool) -> Asked:
    bills = [other.offer.bill for other in others]
    offer = offers.offer(one.choice, one.ask, pricing(one.changes, bills, goes_with))
    what = f"{one.choice.package.name} in {one.choice.frame.name}"
    if offer.fit["verdict"] == "no":
        reason = next(reason for reason in told_once(offer.fit["reasons"]) if reason["verdict"] == "no")
        raise NotOfferedError(f"{what} does not fit: {for_customer(reason, one.choice.package)}")
    if against := _against(one, offers):
        raise NotOfferedError(f"{what} cannot have this tint: {against}")
    if not offer.bill["priced"]:
        raise NotOfferedError(f"{what} has no price in this power")
    if missing := offer.not_given(one.ask):
        raise NotOfferedError(f"{what}: the discount {' and '.join(missing)} is not given")
    plain = offers.offer(one.choice, one.ask, pricing((), bills, goes_with)) if one.changes else offer
    listed = {line_name(line): line["cents"] for line in plain.bill["lines"]}
    return Asked(offer, one.ask, {change.line: (listed[change.line], change.reason) for change in one.changes})


def _against(one: Wanted, offers: Offers) -> str:
    """Why the shop cannot make this tint and mirror; "" where it can."""
    mix, tints = one.ask.mix, offers.catalog.tints
    if one.ask.mirror and one.ask.mirror not in tints.mirrors:
        return f"there is no mirror {one.ask.mirror!r} any more"
    if mix is None:
        return ""
    if gone := without(mix, offers.catalog):
        return f"there is no dye {' and '.join(gone)} any more"
    code = takes(offers.catalog, one.choice.package, mix.deepest)
    return why_not(one.choice.package, code) if code else ""


def issue(
    alternatives: Sequence[Sequence[Wanted]], terms: Terms, offers: Offers, shop: Path, site: str, instead_of: str = ""
) -> Entry:
    """Sign a quote and enter it in the shop's register; ``site`` is where its pages stand.

    That with the number ``instead_of`` is renewed by it.

    Raises NotOfferedError, NoSuchLineError, FormError, KeyringError, NotOursError, RegisterError, OSError.
    """
    key = signing_key(shop)
    record = record_of(alternatives, terms, offers)
    packed(FORM, "quote", record)
    numbers = numbers_for(record, terms.customer, offers.day)

    def link(number: str) -> str:
        return address(site, sealed({**record, "number": number}, key.id, key.sign))

    return Register(shop).issue(terms.customer, terms.email, numbers, link, instead_of)


def record_of(alternatives: Sequence[Sequence[Wanted]], terms: Terms, offers: Offers) -> Quote:
    """The quote, still without a number."""
    days = terms.days or offers.catalog.shop.quote_days
    paper = Issue("", offers.day, offers.day + timedelta(days=days), terms.note)
    return quote_record(answered(alternatives, offers), paper, offers)


def estimate_link(asked: Asked, expires: date, offers: Offers, site: str) -> str:
    """The link of an estimate that nobody signs."""
    return address(site, unsigned(quote_record([[asked]], Issue("", offers.day, expires), offers)))


def numbers_for(record: Quote, customer: str, day: date) -> Iterator[str]:
    """The numbers that a quote may have, in the order they are tried: the day and five letters of a SHA-256."""
    content = written([record, customer])
    for count in range(TRIES):
        letters = base64.b32encode(hashlib.sha256(content + str(count).encode()).digest()).decode()[:5]
        yield f"{day:%y%m%d}-{letters}"
