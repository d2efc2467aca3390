"""How an issued quote gets to its customer: on paper, as a code, as a letter."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import shutil
import ssl
import sys
from collections.abc import Callable
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

import click

from quoting.cli.common import misuse, tell
from quoting.offers import Offers
from quoting.posting.account import Account, NoAccountError, read_account
from quoting.posting.mailbox import NoMailboxError, mailbox
from quoting.posting.outbox import BusyError, SentError, put_out, send
from quoting.quoted.register import Entry, Register
from quoting.show.qr import qr_columns, qr_svg, qr_text
from quoting.show.seen import seen
from quoting.site.letter import letter
from quoting.site.sheet_page import sheet_page

FILE = click.Path(dir_okay=False, path_type=Path)
TOLD = {
    "sent": "sent to {to}",
    "waiting": "NOT sent: {words}. It waits in the outbox: `bevelbook quotes send` tries again",
    "refused": "REFUSED for {to}: {words}",
    "dropped": "NOT sent to {to}: {words}",
    "unsure": "Nobody can tell whether it went out: {words}. Ask {to}, or send it once more with --again",
}


def delivers(command: Callable[..., None]) -> Callable[..., None]:
    """The options that say how a quote gets to its customer."""
    options = [
        click.option("--sheet", type=FILE, help="Write a page to print (HTML)."),
        click.option("--qr", is_flag=True, help="Show the link as a QR code."),
        click.option("--qr-file", type=FILE, help="Write the QR code (SVG)."),
        click.option("--email", "eml", type=FILE, help="Write the letter to the customer (.eml), to send it yourself."),
        click.option("--send", "go", is_flag=True, help="Send the letter, with the account in private/mail.yaml."),
        click.option("--again", is_flag=True, help="Send it though it went out before."),
    ]
    for option in reversed(options):
        command = option(command)
    return command


def ready(shop: Path, email: str, words: dict[str, Any]) -> Account | None:
    """The account to send with, before anything is issued.   Exit codes 1 for its faults, 2 for misuse."""
    if (words["eml"] or words["go"]) and not email:
        misuse("--email and --send need the customer's address: --to ADDRESS")
    return account_of(shop) if words["go"] else None


def account_of(shop: Path) -> Account:
    """The account.   Exit codes 1 for its faults, 2 where there is none."""
    try:
        account, findings = read_account(shop)
    except NoAccountError as fault:
        misuse(fault)
    tell(findings)
    if account is None:
        sys.exit(1)
    try:
        account.context()
    except (OSError, ssl.SSLError) as fault:
        misuse(f"{account.trusted}: this is no certificate: {fault}")
    return account


def deliver(entry: Entry, to: str, shop: Path, offers: Offers, account: Account | None, words: dict[str, Any]) -> bool:
    """All that was asked for; whether it was done.   Exit code 2 for a letter that went out before."""
    of = offers.catalog.shop
    one = seen(entry.quote, of, offers.catalog)
    if words["sheet"] is not None:
        words["sheet"].write_text(sheet_page(one, entry.customer, entry.link), encoding="utf-8")
        click.echo(f"A page to print: {words['sheet']}", err=True)
    if words["qr_file"] is not None:
        words["qr_file"].write_text(qr_svg(entry.link, f"{of.name}: {entry.number}") + "\n", encoding="utf-8")
        click.echo(f"The QR code: {words['qr_file']}", err=True)
    if words["qr"]:
        show_qr(entry.link)
    if not (words["eml"] or words["go"]):
        return True
    sender = _own_address((account.sender if account is not None else "") or of.email)
    raw = letter(entry, to, sender, one, datetime.now(UTC)).as_bytes()
    if words["eml"] is not None:
        words["eml"].write_bytes(raw)
        click.echo(f"The letter: {words['eml']}", err=True)
    if account is None:
        return True
    register = Register(shop)
    try:
        put_out(register, entry, to, raw, words["again"])
    except SentError as fault:
        misuse(fault)
    return send_waiting(register, account, offers.day, entry.number)


def _own_address(written: str) -> str:
    """The shop's address as servers take it.   Exit code 2 where they would not."""
    try:
        return mailbox(written)
    except NoMailboxError as fault:
        misuse(f"the shop's own address: {fault}; another one may stand as `from` in private/mail.yaml")


def send_waiting(register: Register, account: Account, day: date, only: str = "") -> bool:
    """Send what waits, and tell what became of each; whether all of it went out."""
    try:
        done = send(register, account, day, only)
    except BusyError as fault:
        misuse(fault)
    for one, outcome in done:
        words = outcome.words.rstrip(".")
        click.echo(f"{one.number}: {TOLD[outcome.state].format(to=one.to, words=words)}.", err=True)
    return all(outcome.state == "sent" for _one, outcome in done)


def show_qr(link: str) -> None:
    """The code, where the terminal is wide enough for it."""
    wide = qr_columns(link)
    if shutil.get_terminal_size().columns < wide:
        said = f"The QR code is {wide} columns wide: make the terminal wider, or write it with --qr-file."
        click.echo(said, err=True)
    else:
        click.echo(qr_text(link))
