"""``quotes``: what was issued, and what became of it."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import json
import sys
from collections.abc import Callable
from datetime import datetime
from functools import wraps
from pathlib import Path
from typing import Any

import click

from quoting.catalog.in_language import in_language
from quoting.choosing import UnknownError
from quoting.cli.common import DAY, FOLDER, day_of, loaded, misuse, own_shop, tell
from quoting.cli.delivering import account_of, send_waiting, show_qr
from quoting.findings import printable
from quoting.languages import languages, speaking
from quoting.posting.outbox import Letter, letters
from quoting.quoted.keystore import KeyringError
from quoting.quoted.positional import day_of as day_numbered
from quoting.quoted.published import NotOursError, publish_withdrawn
from quoting.quoted.register import Entry, Register, RegisterError
from quoting.show.entries import entries_text, entry_dict
from quoting.show.seen import LETTERS, seen
from quoting.show.seen_text import seen_text
from quoting.site.editions import language_of, tongue_of

SHOP = click.option("--shop", type=FOLDER, help="The shop's folder.  [default: here]")
ON = click.option("--on", type=DAY, help="The day to reckon with.  [default: today]")
JSON = click.option("--json", "as_json", is_flag=True, help="For programs; its form is in DEVELOPERS.md.")
SPOKEN = "What to write it in.  [default: the language of its link]"
LANGUAGE = click.option("--language", type=click.Choice(languages()), help=SPOKEN)
NUMBER = click.argument("number")
# How a quote may stand, see `quoting.quoted.register.Entry.state`
STATES = click.Choice(["issued", "sent", "accepted", "withdrawn", "renewed", "expired"])


def acts(command: Callable[..., None]) -> Callable[..., None]:
    """One sentence and exit code 2 for what cannot be done with a quote."""

    @wraps(command)
    def act(**words: Any) -> None:
        try:
            command(**words)
        except (RegisterError, KeyringError, NotOursError, UnknownError) as fault:
            misuse(fault)

    return act


def register_of(shop: Path | None) -> Register:
    """The register of the shop that was named; lines of it that were cut short are told."""
    above = (click.get_current_context().parent or click.get_current_context()).params.get("shop")
    found = Register(own_shop(shop if shop is not None else above))
    tell(found.findings())
    return found


@click.group(invoke_without_command=True)
@SHOP
@click.option("--state", type=STATES, help="Only those that stand like this.")
@ON
@JSON
@click.pass_context
def quotes(context: click.Context, shop: Path | None, state: str | None, on: datetime | None, as_json: bool) -> None:
    """What quotes were issued: number, last day, state, total, customer, choice."""
    if context.invoked_subcommand is not None:
        return
    register, day = register_of(shop), day_of(on)
    catalog = loaded(register.shop, day, as_json)
    found = [one for one in register.entries().values() if state in (None, one.state(day))]
    if as_json:
        click.echo(json.dumps({"quotes": [entry_dict(one, day) for one in found]}, indent=2, ensure_ascii=False))
    else:
        click.echo(entries_text(found, catalog.shop, day))


@quotes.command("show")
@NUMBER
@SHOP
@click.option("--qr", is_flag=True, help="Its link as a QR code, too.")
@LANGUAGE
@ON
@JSON
@acts
def show(number: str, shop: Path | None, qr: bool, language: str | None, on: datetime | None, as_json: bool) -> None:
    """Quote NUMBER as it was issued, and what became of it."""
    register, day = register_of(shop), day_of(on)
    catalog, entry = loaded(register.shop, day, as_json), register.entry(number)
    if as_json:
        click.echo(json.dumps(entry_dict(entry, day), indent=2, ensure_ascii=False))
        return
    spoken = language or language_of(entry.link, catalog.shop)
    with speaking(tongue_of(catalog.shop, spoken)):
        click.echo(seen_text(seen(entry.quote, in_language(catalog, spoken).shop), entry.customer, entry.link))
    click.echo(f"\nState on {day}: {entry.state(day)}")
    for row in entry.events:
        said = {key: value for key, value in row.items() if key not in ("at", "event", "number") and value}
        more = ", ".join(f"{key} {value}" for key, value in said.items())
        click.echo(printable(f"{row['at']}  {row['event']}" + (f": {more}" if more else "")))
    if qr:
        show_qr(entry.link)


@quotes.command("accept")
@NUMBER
@click.option("--alternative", type=click.Choice(list(LETTERS)), help="Which one is taken, where there are several.")
@click.option("--late", is_flag=True, help="Though its price held only until an earlier day.")
@SHOP
@ON
@acts
def accept(number: str, alternative: str | None, late: bool, shop: Path | None, on: datetime | None) -> None:
    """The customer takes quote NUMBER."""
    register, day = register_of(shop), day_of(on)
    entry = register.entry(number)
    letters_ = LETTERS[: len(entry.quote["alternatives"])]
    if len(letters_) > 1 and alternative is None:
        misuse(f"quote {entry.number} has {len(letters_)} alternatives: say which with --alternative")
    taken = alternative or "A"
    if taken not in letters_:
        misuse(f"quote {entry.number} has no alternative {taken}")
    if entry.state(day) == "expired" and not late:
        last = day_numbered(entry.quote["expires"])
        misuse(f"the price of {entry.number} held until {last}: renew it, or take it as it is with --late")
    register.note(entry.number, "accepted", alternative=taken, on=day.isoformat())
    click.echo(f"Quote {entry.number} is accepted" + (f": alternative {taken}." if len(letters_) > 1 else "."))


@quotes.command("withdraw")
@NUMBER
@click.option("--reason", default="", help="Why, for you; it is not published.")
@SHOP
@ON
@acts
def withdraw(number: str, reason: str, shop: Path | None, on: datetime | None) -> None:
    """Call quote NUMBER back: its page then says so. Nothing of it is published but a hash of its number."""
    register, day = register_of(shop), day_of(on)
    loaded(register.shop, day)
    entry = register.entry(number)
    register.open_for(entry.number, "withdrawn")

    def publish(_entry: Entry) -> None:
        """While nobody can accept it meanwhile; a command that is cut short here is finished by the next."""
        publish_withdrawn(register.shop, entry.number, day)

    register.note(entry.number, "withdrawn", publish, reason=reason, on=day.isoformat())
    click.echo(f"Quote {entry.number} is withdrawn. Build the site again, so that its page says so.")


@quotes.command("send")
@click.argument("number", required=False)
@SHOP
@ON
@acts
def send(number: str | None, shop: Path | None, on: datetime | None) -> None:
    """Send the letters that wait in the outbox, or that of quote NUMBER. Exit code 1 where one did not go out."""
    register, day = register_of(shop), day_of(on)
    loaded(register.shop, day)
    entry = register.entry(number) if number else None
    found = [one for one in letters(register) if entry is None or one.number == entry.number]
    waiting = [one for one in found if one.state == "waiting"]
    for one in found:
        if one.state == "unsure":
            click.echo(f"Nobody can tell whether this went out: {letter_words(one)}", err=True)
    if not waiting:
        click.echo("Nothing waits in the outbox.")
    elif not send_waiting(register, account_of(register.shop), day, entry.number if entry else ""):
        sys.exit(1)


@quotes.command("letters")
@SHOP
@acts
def list_letters(shop: Path | None) -> None:
    """The letters of the outbox, and what became of each."""
    found = letters(register_of(shop))
    click.echo("\n".join(letter_words(one) for one in found) if found else "The outbox is empty.")


def letter_words(one: Letter) -> str:
    """A letter of the outbox on one line."""
    words = f": {one.words}" if one.words and one.state != "sent" else ""
    return f"{one.number}  {one.state}  {one.to}  {one.at}{words}"
