"""``order card`` and ``order publish``: what goes with a pair to its wearer, and what of it may be public."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import json
import re
from datetime import datetime
from pathlib import Path
from typing import Any

import click

from quoting.catalog.shop import Shop
from quoting.cli.common import day_of, loaded, misuse
from quoting.cli.ordering import ORDER, orders_act, printable_text
from quoting.cli.quotes import JSON, ON, SHOP, register_of
from quoting.languages import languages, speaking
from quoting.ordering.published import combination
from quoting.orders.book import Book, OrderError, Placed
from quoting.orders.fhir import vision_prescription
from quoting.orders.model import Order
from quoting.show.record_card import Measured, card_dict, card_text, packing_text, parcel_text
from quoting.site.editions import tongue_of
from quoting.site.order_pages import card_page

NAME = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*", re.ASCII)
DONE = ("verified", "mounted", "shipped")


@click.command("card")
@ORDER
@click.option("--language", type=click.Choice(languages()), help="To write it in.  [default: the shop's language]")
@click.option("--unverified", is_flag=True, help="Though the pair was not verified.")
@SHOP
@ON
@JSON
@orders_act
def order_card(
    wanted: str, unverified: bool, language: str | None, shop: Path | None, on: datetime | None, as_json: bool
) -> None:
    """The record card of ORDER for its wearer, packing list and parcel letter, into the order's folder.

    As a page to print, as text, as plain JSON, and as an HL7 FHIR VisionPrescription.
    """
    register = register_of(shop)
    catalog, book = loaded(register.shop, day_of(on), as_json), Book(register)
    placed = book.placed(wanted)
    if placed.state not in DONE and not unverified:
        raise OrderError(f"order {placed.id} is {placed.state}, not verified: verify it, or say --unverified")
    order = book.read(placed.id)
    checked = _verified(book, placed)
    with speaking(tongue_of(catalog.shop, language)):
        files = _files(order, checked, catalog.shop)
    book.add(placed.id, {name: text.encode("utf-8") for name, text in files.items()})
    click.echo(files["record.json"].rstrip() if as_json else printable_text(files["record.txt"]))
    click.echo(f"Written to {book.place(placed.id)}: {', '.join(files)}", err=True)


def _files(order: Order, checked: dict[str, Any], shop: Shop) -> dict[str, str]:
    """Everything that goes with a pair, by the names of its files."""
    measured = Measured(
        checked.get("checks", []), checked.get("standard", order.standard), checked.get("day", ""),
        checked.get("found", {}),
    )  # fmt: skip
    fhir = vision_prescription(order, shop.name)
    return {
        "record.html": card_page(order, measured, shop),
        "record.txt": card_text(order, measured, shop),
        "record.json": json.dumps(card_dict(order, measured, shop), indent=2, ensure_ascii=False) + "\n",
        "record-fhir.json": json.dumps(fhir, indent=2, ensure_ascii=False) + "\n",
        "packing.txt": packing_text(order, shop),
        "parcel.txt": parcel_text(order, shop),
    }


def _verified(book: Book, placed: Placed) -> dict[str, Any]:
    """The last verification, where it passed; nothing where there is none."""
    row = placed.verified
    if row is None or row["result"] != "pass":
        return {}
    path = book.place(placed.id) / str(row["file"])
    try:
        found: dict[str, Any] = json.loads(path.read_bytes())
    except (OSError, ValueError) as fault:
        raise OrderError(f"the verification of {placed.id} cannot be read: {path}") from fault
    return found


@click.command("publish")
@ORDER
@click.option("--name", required=True, help="The article's name in its address, such as amber-for-the-water.")
@SHOP
@ON
@orders_act
def order_publish(wanted: str, name: str, shop: Path | None, on: datetime | None) -> None:
    """A combination for the site from ORDER, with nothing of its wearer in it: an example's powers, no PD, no name.

    It is a draft in content/combinations for you to write on; `build` shows it.
    """
    register, day = register_of(shop), day_of(on)
    catalog, book = loaded(register.shop, day), Book(register)
    order = book.read(book.placed(wanted).id)
    if not NAME.fullmatch(name):
        misuse("--name: lower-case letters a-z, digits and single hyphens")
    frame = catalog.frames.get(order.frame.id)
    color = next((one.id for one in frame.colorways if one.name == order.frame.color), None) if frame else None
    if color is None or order.lens.id not in catalog.packages:
        raise OrderError(f"the shop has the frame, color or lens of {order.id} no more")
    path = register.shop / "content" / "combinations" / f"{name}.md"
    if path.exists():
        misuse(f"{path} is there already: give another --name")
    path.parent.mkdir(parents=True, exist_ok=True)
    tint = order.tint.id if order.tint is not None and order.tint.id in catalog.tints.mixes else ""
    side = path.with_name(f".{path.name}.new")
    side.write_text(combination(order, name, color, day, tint), encoding="utf-8")
    side.replace(path)
    click.echo(f"Written: {path}. Write on it, then `bevelbook check` and `build`.")
