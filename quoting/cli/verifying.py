"""``verify``: what came back from the lab, held against its order."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import json
import sys
from collections.abc import Callable
from datetime import datetime
from functools import partial
from pathlib import Path
from typing import Any

import click

from quoting.catalog.shop import Shop
from quoting.cli.common import day_of, loaded, misuse
from quoting.cli.ordering import ORDER, orders_act
from quoting.cli.prompting import answer, in_terminal
from quoting.cli.quotes import JSON, ON, SHOP, register_of
from quoting.findings import Finding, Mark, printable
from quoting.kernel.records import Check, Readings
from quoting.offers import Offers
from quoting.ordering.preparing import STANDARDS
from quoting.ordering.worn import met_through
from quoting.orders.book import Book, OrderError, Placed, may_verify
from quoting.orders.model import Order
from quoting.orders.readings import ReadingError, read_saved, readings, share_through
from quoting.orders.verifying import Read, Verification, after, verified, written_verification
from quoting.show.ordered import as_power
from quoting.show.verified import remake_note, verification_text

SHAPE = '"-2.27 -0.74 x 12 add=+2.00 pd=31.5 height=21 center=2.0 base=4.0 in=0 up=0"'
WORDS = {"R": "right", "L": "left"}
CARD = "record.txt"


@click.command()
@ORDER
@click.option("--right", default="", metavar="READ", help=f"What was read of the right lens: {SHAPE}.")
@click.option("--left", default="", metavar="READ", help="The same of the left one.")
@click.option("--tint", default="", help="Light that comes through at the darkest place, percent.")
@click.option(
    "--ground-right", default="", metavar="POWER", help="The power the lab says it ground, where compensated."
)
@click.option("--ground-left", default="", metavar="POWER", help="The same of the left lens.")
@click.option("--from", "saved", type=click.Path(dir_okay=False, path_type=Path), help="What verify.html saved.")
@click.option("--by", default="", metavar="NAME", help="Who read it.")
@click.option("--standard", type=click.Choice(STANDARDS), help="To hold it by.  [default: the order's]")
@click.option(
    "--again",
    "reason",
    default="",
    metavar="WHY",
    help="Once more though it passed: such as, those were another pair's.",
)
@SHOP
@ON
@JSON
@orders_act
def verify(wanted: str, shop: Path | None, on: datetime | None, as_json: bool, **words: Any) -> None:
    """Hold what lensmeter, ruler and caliper read against ORDER.  Exit code 1 where a value is out of its tolerance.

    Asks for what is not said; the page verify.html in the order's folder does the same on a tablet, without a network.
    Powers may be in either cylinder notation. What is not read is not held, and is named; a pair passes once
    power, addition and ordered prism of each lens were read, of multifocals distance and height too. A pass that was
    wrong is never taken out: --again holds the pair anew, with nothing of before, and the reason is kept beside it.
    """
    register, day = register_of(shop), day_of(on)
    catalog, book = loaded(register.shop, day, as_json), Book(register)
    placed, reason = book.placed(wanted), words["reason"].strip()
    if printable(reason) != reason:
        misuse("--again: write a sentence on one line")
    may_verify(placed, reason)
    order = book.read(placed.id)
    try:
        read, by, standard = _read(order, words)
    except ReadingError as fault:
        misuse(fault)
    earlier = [] if reason else _earlier(book, placed)
    found = after(earlier, verified(order, read, day.isoformat(), by, standard))
    if not found.checks:
        misuse("nothing was read: say --right and --left, or --from what verify.html saved")
    _enter(book, placed, order, found, catalog.shop, reason)
    _tell(order, found, Offers(catalog, day), as_json)
    sys.exit(0 if found.result == "pass" else 1)


def _enter(book: Book, placed: Placed, order: Order, found: Verification, shop: Shop, reason: str) -> None:
    """Put a verification down with its note for the lab, and say where.   Raises OrderError, OSError."""
    name = f"verified-{sum('result' in row for row in placed.rows) + 1}"
    files = {f"{name}.json": written_verification(found)}
    if found.result == "fail":
        files[f"{name}-note.txt"] = remake_note(order, found, shop).encode("utf-8")
    more = {"result": found.result, "file": f"{name}.json", "by": found.by} | ({"reason": reason} if reason else {})
    book.judge(placed, "verified" if found.result == "pass" else "received", files, **more)
    if found.result == "fail":
        click.echo(f"The note for the lab: {book.place(placed.id) / f'{name}-note.txt'}", err=True)
    if reason and (book.place(placed.id) / CARD).exists():
        click.echo(f"The record card in its folder is of before; anew: bevelbook order card {placed.id}", err=True)


def _earlier(book: Book, placed: Placed) -> list[list[Check]]:
    """The checks of the verifications before this one, in their order, from the last that began anew.

    Raises OrderError.
    """
    found: list[list[Check]] = []
    for row in placed.rows:
        if "result" in row:
            if "reason" in row:
                found = []
            path = book.place(placed.id) / str(row["file"])
            try:
                found.append(list(json.loads(path.read_bytes())["checks"]))
            except (OSError, ValueError, KeyError, TypeError) as fault:
                raise OrderError(f"an earlier verification of {placed.id} cannot be read: {path}") from fault
    return found


def _read(order: Order, words: dict[str, Any]) -> tuple[Read, str, str]:
    """What was read, by whom, by which standard.   Raises ReadingError."""
    by, standard = words["by"].strip(), words["standard"] or ""
    if printable(by) != by:
        misuse("--by: write a name on one line")
    if words["saved"] is not None:
        if not words["saved"].is_file():
            misuse(f"there is no file {words['saved']}")
        saved = read_saved(words["saved"].read_bytes(), order.id)
        read = Read(saved.found, saved.transmittance, saved.compensated | _ground(words))
        return read, by or saved.by, standard or saved.standard
    if in_terminal() and not words["right"] and not words["left"]:
        words, by = _asked(order, words), by or answer("Who read it, empty to leave it open", _long, empty=True)
    found = {name: readings(words[word], name) for name, word in WORDS.items() if words[word]}
    for name in set(found) - {name for name, _ in order.sides()}:
        raise ReadingError(f"the order has no {WORDS[name]} lens")
    tint = words["tint"]
    return Read(found, share_through(tint) if tint else None, _ground(words)), by, standard


def _asked(order: Order, words: dict[str, Any]) -> dict[str, Any]:
    """The words with what somebody answers who is there: each lens, and the light that comes through a tint."""
    told = dict(words)
    for name, _ in order.sides():
        question = f"{WORDS[name].capitalize()} lens, such as {SHAPE}"
        told[WORDS[name]] = answer(question, partial(_refused, partial(readings, eye=name)), empty=True)
    if order.tint is not None and not told["tint"]:
        question = "Light through at the darkest place, percent"
        told["tint"] = answer(question, partial(_refused, share_through), empty=True)
    return told


def _ground(words: dict[str, Any]) -> dict[str, Readings]:
    given = {"R": words["ground_right"], "L": words["ground_left"]}
    return {name: readings(text, name) for name, text in given.items() if text}


def _long(text: str) -> Finding | None:
    return Finding(Mark("answer", 1, 1), "too-long", "a name has at most 80 characters") if len(text) > 80 else None


def _refused(read: Callable[[str], object], text: str) -> Finding | None:
    try:
        read(text)
    except ReadingError as fault:
        return Finding(Mark("answer", 1, 1), "not-a-number", str(fault))
    return None


def _tell(order: Order, found: Verification, offers: Offers, as_json: bool) -> None:
    worn = met_through(order, found, offers)
    if as_json:
        said = json.loads(written_verification(found))
        said["worn"] = [{"eye": one.eye, "met": one.met, "prescribed": one.prescribed, "off": one.off} for one in worn]
        click.echo(json.dumps({"order": order.id} | said, indent=2, ensure_ascii=False))
        return
    click.echo(verification_text(order, found))
    for one in worn:
        words = f"prescribed {as_power(one.prescribed)}, off by {as_power(one.off)}"
        click.echo(f"As worn, {one.eye}: the eye meets {as_power(one.met)}; {words}.")
