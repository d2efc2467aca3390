"""From an entry of the register to an order with all its files."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
from collections.abc import Container
from dataclasses import dataclass, replace
from pathlib import Path

from quoting.catalog.shop import Catalog, Shop
from quoting.catalog.tints import Mix
from quoting.issuing import Wanted
from quoting.lab.jobs import write_job
from quoting.offers import Offers
from quoting.ordering.dyed import book_tint, changed_book, quoted_tint
from quoting.ordering.making import Asked, Made, made
from quoting.orders.book import FILE, OrderError
from quoting.orders.lab_job import lab_job, traces_of
from quoting.orders.model import Measured, Order, Tint, written_order
from quoting.quoted.records import Pair
from quoting.quoted.register import Entry
from quoting.renewing import wanted_again
from quoting.show.ordered import sheet_text
from quoting.show.seen import LETTERS
from quoting.site.order_pages import sheet_page_of, tint_page
from quoting.site.verify_page import verify_page

STANDARDS = ("ansi", "iso")
ENDING = ".dcs"
# Percent of light by which a mix of the book may differ from the depth that was quoted; our own choice
DEPTH_APART = 0.5
# How the number of a remake ends; quotes may have an R in theirs
REMADE = re.compile(r"-R[0-9]+$", re.ASCII)


@dataclass(frozen=True, slots=True)
class Begun:
    """One pair of an accepted quote, and what stands in until it is measured."""

    id: str
    entry: Entry
    letter: str
    which: int
    wanted: Wanted
    pair: Pair
    defaults: dict[str, float]


@dataclass(frozen=True, slots=True)
class Given:
    """What is said with an order."""

    measured: Measured
    standard: str
    recipe: str
    note: str
    overruled: str


def pairs_of(entry: Entry) -> int:
    """How many pairs were accepted; 1 where nothing was yet."""
    taken = entry.last("accepted")
    letter = str(taken.get("alternative", "A")) if taken else "A"
    return len(entry.quote["alternatives"][LETTERS.index(letter)])


def begun(entry: Entry, which: int, offers: Offers) -> Begun:
    """The pair that was accepted.   Raises OrderError, UnknownError where the shop has something of it no more."""
    taken = entry.last("accepted")
    if taken is None:
        raise OrderError(f"quote {entry.number} is not accepted: bevelbook quotes accept {entry.number}")
    letter = str(taken.get("alternative", "A"))
    at = LETTERS.index(letter)
    pairs = entry.quote["alternatives"][at]
    if which > len(pairs):
        raise OrderError(f"quote {entry.number} has one pair, no second")
    wanted = wanted_again(entry.quote, offers.catalog, plain=True)[at][which - 1]
    frame = wanted.choice.frame
    usual = {"vertex": offers.catalog.shop.defaults.vertex, "tilt": frame.tilt, "wrap": frame.wrap}
    number = f"{entry.number}-{which}"
    return Begun(number, entry, letter, which, wanted, pairs[which - 1], usual)


def prepared(one: Begun, given: Given, offers: Offers) -> Made:
    """The order, worked out anew.   Raises OrderError where a lens cannot be made at all."""
    quote, wishes, catalog = one.entry.quote, one.wanted.ask.wishes, offers.catalog
    mix = mix_of(given.recipe, catalog)
    if given.recipe and not wishes.tint_depth:
        raise OrderError(f"no tint was ordered with quote {one.entry.number}")
    tint = quoted_tint(quote, one.pair, "" if mix else given.recipe)
    if tint is None and mix is not None:
        tint = book_tint(mix, catalog, wishes.tint_depth, wishes.tint_gradient)
    asked = Asked(
        one.id, one.entry.number, one.letter, one.which, one.entry.customer, given.standard or catalog.shop.standard,
        tint or Tint(wishes.tint_depth, wishes.tint_gradient, given.recipe), given.note, given.overruled,
    )  # fmt: skip
    try:
        found = made(asked, one.wanted, one.pair, given.measured, offers)
    except ValueError as fault:
        raise OrderError(str(fault)) from fault
    changed = (*found.order.changes, *changed_book(quote, one.pair, catalog))
    against = _against(mix, one.wanted) if mix is not None else []
    return Made(replace(found.order, changes=changed), (*found.refusals, *against))


def _against(mix: Mix, wanted: Wanted) -> list[str]:
    """That another mix was quoted, or another depth."""
    wishes, quoted = wanted.ask.wishes, wanted.ask.mix
    if quoted is not None:
        return [] if mix.code == quoted.code else [f"the mix {mix.code} is another one than was quoted"]
    if abs(mix.deepest - wishes.tint_depth) <= DEPTH_APART and mix.fades == wishes.tint_gradient:
        return []
    said = f"{wishes.tint_depth:g} %" + (" fading" if wishes.tint_gradient else " all over")
    has = f"{mix.deepest:g} %" + (" fading" if mix.fades else " all over")
    return [f"the mix {mix.code} takes {has}, and the quote says {said}"]


def mix_of(wanted: str, catalog: Catalog) -> Mix | None:
    """The mix of the tint book with that code or id; None for a code that only the dyer knows."""
    folded = " ".join(wanted.split()).casefold()
    named = (one for one in catalog.tints.mixes.values() if folded in (one.id.casefold(), one.code.casefold()))
    return next(named, None) if folded else None


def trace_file(order: Order) -> str:
    """The file of the trace of the ordered size."""
    return f"{order.frame.id}-{order.frame.a:g}-{order.frame.dbl:g}".replace(".", "_") + ENDING


def order_files(order: Order, shop: Shop, folder: Path) -> dict[str, bytes]:
    """All files with which an order begins, by name."""
    traces = traces_of(folder, trace_file(order)) if order.frame.traced else ()
    files = {
        FILE: written_order(order),
        "sheet.html": sheet_page_of(order, shop, traces[0].outline() if traces else None).encode("utf-8"),
        "sheet.txt": sheet_text(order, shop).encode("utf-8"),
        f"lab{ENDING}": write_job(lab_job(order, traces)),
        "verify.html": verify_page(order, shop).encode("utf-8"),
    }
    if order.tint is not None:
        files["tint.html"] = tint_page(order, shop).encode("utf-8")
    return files


def renumbered(order: Order, taken: Container[str], day: str, reason: str) -> Order:
    """The same order under the next number of a remake."""
    base = REMADE.sub("", order.id)
    count = next(number for number in range(1, 100) if f"{base}-R{number}" not in taken)
    return replace(order, id=f"{base}-R{count}", day=day, remake_of=order.id, remake_reason=reason, changes=())
