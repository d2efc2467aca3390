"""From an entry of the register to an order with all its files."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Container
from dataclasses import dataclass, replace
from pathlib import Path

from quoting.catalog.shop import Catalog, Shop
from quoting.catalog.tints import Mix
from quoting.issuing import Wanted
from quoting.lab.jobs import write_job
from quoting.offers import Offers
from quoting.ordering.making import Asked, Made, made
from quoting.orders.book import FILE, OrderError
from quoting.orders.lab_job import lab_job, traces_of
from quoting.orders.model import Measured, Order, written_order
from quoting.quoted.records import Pair
from quoting.quoted.register import Entry
from quoting.renewing import wanted_again
from quoting.show.ordered import sheet_text
from quoting.show.seen import LETTERS
from quoting.show.tints import recipe
from quoting.site.order_pages import sheet_page_of, tint_page
from quoting.site.verify_page import verify_page

STANDARDS = ("ansi", "iso")
ENDING = ".dcs"


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
    mix = mix_of(given.recipe, offers.catalog)
    wishes = one.wanted.ask.wishes
    if given.recipe and not wishes.tint_depth:
        raise OrderError(f"no tint was ordered with quote {one.entry.number}")
    asked = Asked(
        one.id, one.entry.number, one.letter, one.which, one.entry.customer,
        given.standard or offers.catalog.shop.standard, mix.code if mix else given.recipe,
        recipe(offers.catalog, mix) if mix else "", given.note, given.overruled,
    )  # fmt: skip
    try:
        found = made(asked, one.wanted, one.pair, given.measured, offers)
    except ValueError as fault:
        raise OrderError(str(fault)) from fault
    other = mix is not None and (abs(mix.deepest - wishes.tint_depth) > 0.5 or mix.fades != wishes.tint_gradient)
    if mix is None or not other:
        return found
    wanted = f"{wishes.tint_depth:g} %" + (" fading" if wishes.tint_gradient else " all over")
    has = f"{mix.deepest:g} %" + (" fading" if mix.fades else " all over")
    return replace(found, refusals=(*found.refusals, f"the mix {mix.code} takes {has}, and the quote says {wanted}"))


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
    base = order.id.partition("-R")[0]
    count = next(number for number in range(1, 100) if f"{base}-R{number}" not in taken)
    return replace(order, id=f"{base}-R{count}", day=day, remake_of=order.id, remake_reason=reason, changes=())
