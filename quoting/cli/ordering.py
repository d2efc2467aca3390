"""``order``: from an accepted quote to what lab and bench need, and what becomes of it."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import json
import sys
from collections.abc import Callable
from dataclasses import asdict
from datetime import datetime
from functools import wraps
from pathlib import Path
from typing import Any

import click

from quoting.cli.common import day_of, loaded, misuse
from quoting.cli.measuring import measured_of, which_pair
from quoting.cli.quotes import JSON, ON, SHOP, acts, register_of
from quoting.findings import printable
from quoting.offers import Offers
from quoting.ordering.preparing import STANDARDS, Given, begun, order_files, pairs_of, prepared, renumbered
from quoting.orders.book import STATES, STEPS, Book, OrderError
from quoting.orders.model import Order
from quoting.show.ordered import sheet_text

ORDER = click.argument("wanted", metavar="ORDER")


def orders_act(command: Callable[..., None]) -> Callable[..., None]:
    """One sentence and exit code 2 for what cannot be done with an order."""

    @wraps(command)
    def act(**words: Any) -> None:
        try:
            command(**words)
        except OrderError as fault:
            misuse(fault)

    return acts(act)


@click.group(invoke_without_command=True)
@SHOP
@click.option("--state", type=click.Choice(STATES), help="Only those in this state.")
@JSON
@click.pass_context
def order(context: click.Context, shop: Path | None, state: str | None, as_json: bool) -> None:
    """Orders from accepted quotes: number, state, since when, customer. They lie in private/orders."""
    if context.invoked_subcommand is not None:
        return
    found = [one for one in Book(register_of(shop)).orders().values() if state in (None, one.state)]
    if as_json:
        listed = [asdict(one) for one in found]
        click.echo(json.dumps({"orders": listed}, indent=2, ensure_ascii=False))
    elif not found:
        click.echo(f"No order is {state}." if state else "There is no order: see `bevelbook order from --help`.")
    for one in () if as_json else found:
        click.echo(printable(f"{one.id:<16} {one.state:<9} {one.rows[-1]['at'][:10]}  {one.customer}"))


@order.command("from")
@click.argument("number_", metavar="QUOTE")
@click.option("--pair", "which", type=click.IntRange(1, 2), help="Which pair of it, where it has two.")
@click.option("--pd", default="", help="Measured monocular PDs, right/left: 31.5/32; of a job for one eye 31.5.")
@click.option("--height", default="", help="Measured pupil heights above the lowest point of the lens: 21/20.5.")
@click.option("--vertex", default="", help="Measured, mm from the back of the lens to the cornea.  [default: usual]")
@click.option("--tilt", default="", help="Measured pantoscopic tilt, degrees.  [default: the frame's]")
@click.option("--wrap", default="", help="Measured face-form angle, degrees.  [default: the frame's]")
@click.option("--by", default="", metavar="NAME", help="Who measured.")
@click.option("--standard", type=click.Choice(STANDARDS), help="To verify it by.  [default: the shop's]")
@click.option(
    "--tint-recipe", "recipe", default="", help="Of an ordered tint: a mix of the tint book, or the dyer's code."
)
@click.option("--note", default="", help="A sentence for lab and bench.")
@click.option("--overrule", default="", metavar="WHY", help="Make it though it does not fit; the reason is kept.")
@SHOP
@ON
@JSON
@orders_act
def order_from(
    number_: str, which: int | None, shop: Path | None, on: datetime | None, as_json: bool, **words: Any
) -> None:
    """Order what was accepted of QUOTE, with what was measured in place of what was estimated.

    Asks for what is not said. Shows what changes against the quote; what no longer fits is refused (exit code 1),
    unless it is overruled with a reason.
    """
    register, day = register_of(shop), day_of(on)
    catalog, entry = loaded(register.shop, day, as_json), register.entry(number_)
    offers, book = Offers(catalog, day), Book(register)
    ready = begun(entry, which or which_pair(entry), offers)
    if ready.id in book.orders():
        raise OrderError(f"order {ready.id} was made already")
    measured = measured_of(ready, words)
    given = Given(
        measured, words["standard"] or "", words["recipe"].strip(), words["note"].strip(), words["overrule"].strip()
    )
    found = prepared(ready, given, offers)
    for one in found.order.changes:
        click.echo(f"{one.what}: {one.quoted} → {one.ordered}", err=True)
    if found.refusals and not given.overruled:
        for text in found.refusals:
            click.echo(f"No longer fits: {text}", err=True)
        click.echo("Nothing was ordered. Quote anew, or say why it is made all the same with --overrule.", err=True)
        sys.exit(1)
    placed = book.make(found.order, order_files(found.order, catalog.shop, register.shop))
    _tell(book, found.order, catalog.shop, as_json)
    click.echo(f"Order {placed.id} is a draft in {book.place(placed.id)}.", err=True)
    other = 3 - ready.which
    if pairs_of(entry) > 1 and f"{entry.number}-{other}" not in book.orders():
        said = f"Its other pair is not ordered yet: bevelbook order from {entry.number} --pair {other}"
        click.echo(said, err=True)


def _tell(book: Book, one: Order, shop: Any, as_json: bool) -> None:
    if as_json:
        placed = book.placed(one.id)
        folder = {"state": placed.state, "folder": book.place(one.id).as_posix(), "rows": list(placed.rows)}
        click.echo(json.dumps(asdict(one) | folder, indent=2, ensure_ascii=False))
    else:
        click.echo(printable_text(sheet_text(one, shop)))


def printable_text(text: str) -> str:
    """Lines of text without what a terminal would obey."""
    return "\n".join(printable(line) for line in text.split("\n"))


@order.command("show")
@ORDER
@SHOP
@ON
@JSON
@orders_act
def order_show(wanted: str, shop: Path | None, on: datetime | None, as_json: bool) -> None:
    """ORDER as it was made, and what became of it."""
    register = register_of(shop)
    catalog, book = loaded(register.shop, day_of(on), as_json), Book(register)
    placed = book.placed(wanted)
    _tell(book, book.read(placed.id), catalog.shop, as_json)
    for row in () if as_json else placed.rows:
        said = {
            key: value for key, value in row.items() if key not in ("at", "event", "number", "order", "state") and value
        }
        more = ", ".join(f"{key} {value}" for key, value in said.items())
        click.echo(printable(f"{row['at']}  {row['state']}" + (f": {more}" if more else "")))


@order.command("mark")
@ORDER
@click.argument("state", type=click.Choice([one for one in STEPS if one not in ("verified", "remade")]))
@click.option("--note", default="", help="Such as the lab's number or the parcel's.")
@SHOP
@orders_act
def order_mark(wanted: str, state: str, note: str, shop: Path | None) -> None:
    """ORDER was sent, received, mounted or shipped; `verify` and `remake` enter the other states themselves."""
    placed = Book(register_of(shop)).move(wanted, state, note=note)
    click.echo(f"Order {placed.id} is {placed.state}.")


@click.command()
@ORDER
@click.option("--reason", required=True, help="Why it is made anew; the lab reads it.")
@SHOP
@ON
@orders_act
def remake(wanted: str, reason: str, shop: Path | None, on: datetime | None) -> None:
    """Order ORDER once more, under a number of its own; the old one is then over."""
    register, day = register_of(shop), day_of(on)
    catalog, book = loaded(register.shop, day), Book(register)
    old = book.placed(wanted)
    if not reason.strip() or printable(reason) != reason:
        misuse("--reason: write a sentence on one line")
    new = renumbered(book.read(old.id), set(book.orders()), day.isoformat(), reason.strip())
    made = book.remake(old.id, new, order_files(new, catalog.shop, register.shop), reason.strip())
    click.echo(f"Order {made.id} is a draft in {book.place(made.id)}; {old.id} is remade.")
