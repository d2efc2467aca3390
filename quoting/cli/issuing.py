"""``quote --for``: what is quoted to whom becomes a signed link and an entry in the register."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import json
import re
import shlex
import sys
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import click

from quoting.catalog.shop import Catalog
from quoting.choosing import UnknownError, choice_of, pick
from quoting.cli.addressee import site_of, terms_of
from quoting.cli.common import misuse, own_shop, tell
from quoting.cli.delivering import deliver, delivers, ready
from quoting.dyeing import tinted
from quoting.findings import errors, printable
from quoting.issuing import NotOfferedError, Wanted, issue
from quoting.languages import speaking
from quoting.money import cents_from_text
from quoting.offers import Ask, Choice, Offers
from quoting.prescription.model import Distances
from quoting.prescription.text import read_slip
from quoting.quoted.form import LONG_REASON
from quoting.quoted.keystore import KeyringError
from quoting.quoted.positional import FormError
from quoting.quoted.published import NotOursError
from quoting.quoted.register import Entry, RegisterError
from quoting.show.entries import entry_dict
from quoting.show.seen import LETTERS, seen
from quoting.show.seen_text import seen_text
from quoting.site.editions import tongue_of
from quoting.terms import Change, NoSuchLineError

# Longer links are cut or broken by some mail programs
LONG_LINK = 1800
CHANGE = re.compile(
    r"(?:(?P<letter>[A-D])(?P<pair>[12]?): *)?(?P<line>[A-Za-z0-9 -]+?) *= *(?P<cents>[-+0-9.,]+) +(?P<reason>\S.*)"
)
PAIR = '"FRAME PACKAGE size=.. color=.. discount=.. tint=.."'
CHANGES = "Another amount for a line: frame, lens R, lens L, shipping, or a surcharge's id."
WHERE_CHANGED = "write it such as `frame=120.00 the one from the window`, or `B2: frame=120.00 ...` for a second pair"


def issues(command: Callable[..., None]) -> Callable[..., None]:
    """The options of a quote that is issued."""
    options = [
        click.option("--for", "customer", default="", metavar="NAME", help="Issue it to NAME: signed, and registered."),
        click.option("--to", "email", default="", metavar="ADDRESS", help="The customer's mail address."),
        click.option("--days", type=click.IntRange(1, 366), help="How long its price holds.  [default: the shop's]"),
        click.option("--note", default="", help="A sentence or two of yours, in the quote and behind its link."),
        click.option("--or", "others", multiple=True, metavar=PAIR, help="Another alternative; up to three."),
        click.option("--second", default="", metavar=PAIR, help="A second pair in the same parcel."),
        click.option("--second-rx", default="", help="The second pair's prescription, where it is another one."),
        click.option("--change", "changes", multiple=True, metavar='"LINE=AMOUNT WHY"', help=CHANGES),
    ]
    command = delivers(command)
    for option in reversed(options):
        command = option(command)
    return command


def refuse_without_customer(words: dict[str, Any]) -> None:
    """Options of a quote that is issued mean nothing without a customer."""
    names = {"email": "--to", "days": "--days", "note": "--note", "others": "--or", "second": "--second"}
    names |= {"second_rx": "--second-rx", "changes": "--change", "sheet": "--sheet", "qr": "--qr", "again": "--again"}
    names |= {"qr_file": "--qr-file", "eml": "--email", "go": "--send"}
    for name, option in names.items():
        if words[name]:
            misuse(f"{option} belongs to a quote that is issued: say for whom with --for")


def issue_quote(first: Choice, ask: Ask, offers: Offers, words: dict[str, Any]) -> None:
    """Issue the quote and print it.   Exit codes 1 where something does not fit, 2 for misuse."""
    catalog = offers.catalog
    shop = own_shop(words["shop"])
    terms = terms_of(words["customer"], words["email"], words["days"], words["note"])
    site = site_of(words["site"], catalog.shop, words["language"])
    account = ready(shop, terms.email, words)
    try:
        second_ask = _second_ask(ask, offers, words)
        alternatives = _alternatives(catalog, first, ask, second_ask, words)
        entry = issue(alternatives, terms, offers, shop, site)
    except NotOfferedError as fault:
        click.echo(f"Nothing was issued. {fault}", err=True)
        sys.exit(1)
    except (UnknownError, NoSuchLineError, FormError, KeyringError, NotOursError, RegisterError) as fault:
        misuse(fault)
    if len(entry.link) > LONG_LINK:
        said = f"The link has {len(entry.link)} characters, and some mail programs break those beyond {LONG_LINK}."
        click.echo(f"{said} Leave out an alternative, or shorten the note.", err=True)
    with speaking(tongue_of(catalog.shop, words["language"])):
        tell_entry(entry, offers, words["as_json"])
        if not deliver(entry, terms.email, shop, offers, account, words):
            sys.exit(1)


def tell_entry(entry: Entry, offers: Offers, as_json: bool) -> None:
    """The quote as it was issued."""
    if as_json:
        click.echo(json.dumps(entry_dict(entry, offers.day), indent=2, ensure_ascii=False))
    else:
        click.echo(seen_text(seen(entry.quote, offers.catalog.shop), entry.customer, entry.link))


def _second_ask(ask: Ask, offers: Offers, words: dict[str, Any]) -> Ask:
    """What is asked for with the second pair: the pupils are where they were, the prescription may be another."""
    if not words["second_rx"]:
        return ask
    if not words["second"]:
        raise UnknownError("--second-rx belongs to --second")
    reading = read_slip(words["second_rx"], today=offers.day, max_age_months=offers.catalog.shop.prescription_months)
    tell(reading.findings, words["as_json"] and reading.prescription is None)
    if reading.prescription is None or errors(reading.findings):
        sys.exit(1)
    rx = reading.prescription
    return replace(ask, rx=rx if rx.pd != Distances() else replace(rx, pd=ask.rx.pd))


def _alternatives(
    catalog: Catalog, first: Choice, ask: Ask, second_ask: Ask, words: dict[str, Any]
) -> list[list[Wanted]]:
    """All pairs of all alternatives, with what is changed of each."""
    if len(words["others"]) >= len(LETTERS):
        misuse(f"--or: a quote has at most {len(LETTERS)} alternatives")
    found = [Wanted(first, ask), *(_wanted(catalog, text, first, ask) for text in words["others"])]
    pairs = [[one] for one in found]
    if words["second"]:
        second = _wanted(catalog, words["second"], first, second_ask)
        pairs = [[*one, second] for one in pairs]
    for text in words["changes"]:
        _change(pairs, text)
    return pairs


def _wanted(catalog: Catalog, text: str, first: Choice, ask: Ask) -> Wanted:
    """A pair in words; what is not said of it is as with the first one.   Raises UnknownError."""
    try:
        parts = shlex.split(text)
    except ValueError as fault:
        raise UnknownError(f"{text!r}: a quotation mark is not closed") from fault
    named = dict(part.split("=", 1) for part in parts if "=" in part)
    plain = [part for part in parts if "=" not in part]
    unknown = set(named) - {"size", "color", "discount", "tint"}
    if unknown or not 1 <= len(plain) <= 2:
        raise UnknownError(f"{text!r}: write PACKAGE, or FRAME PACKAGE, then size=.. color=.. discount=.. tint=..")
    frame = plain[0] if len(plain) == 2 else first.frame.id
    same = frame == first.frame.id
    choice = choice_of(
        catalog,
        frame,
        named.get("size", first.size.key if same else ""),
        named.get("color", first.colorway.id if same else ""),
        pick("package", catalog.packages, plain[-1]),
    )
    if "discount" in named:
        discounts = {one.id: one for one in catalog.price_list.discounts}
        ask = replace(ask, discounts=(*ask.discounts, pick("discount", discounts, named["discount"]).id))
    if "tint" in named:
        ask = tinted(ask, catalog, named["tint"])
    return Wanted(choice, ask)


def _change(pairs: list[list[Wanted]], text: str) -> None:
    """Enter a change of a line in the pair it is for.   Raises UnknownError."""
    found = CHANGE.fullmatch(text.strip())
    if found is None:
        raise UnknownError(f"--change {text!r}: {WHERE_CHANGED}")
    at, which = LETTERS.index(found["letter"] or "A"), int(found["pair"] or 1) - 1
    if at >= len(pairs) or which >= len(pairs[at]):
        raise UnknownError(f"--change {text!r}: there is no such pair in this quote")
    change = Change(found["line"], _cents(found["cents"], text), found["reason"].strip())
    if len(change.reason) > LONG_REASON or printable(change.reason) != change.reason:
        raise UnknownError(f"--change {text!r}: the reason has at most {LONG_REASON} characters on one line")
    old = pairs[at][which]
    if any(one.line == change.line for one in old.changes):
        raise UnknownError(f"--change {text!r}: this line of this pair is changed already")
    pairs[at][which] = replace(old, changes=(*old.changes, change))


def _cents(typed: str, text: str) -> int:
    """The amount of a changed line.   Raises UnknownError."""
    try:
        cents = cents_from_text(typed)
    except ValueError as fault:
        raise UnknownError(f"--change {text!r}: write the amount with a point, such as 120.00") from fault
    if cents < 0:
        raise UnknownError(f"--change {text!r}: a line costs nothing at the least, 0.00")
    return cents
