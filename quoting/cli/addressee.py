"""What is typed about the one a quote goes to: name, mail address, note, and where the link is to lead."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
from pathlib import Path

from quoting.catalog.shop import Shop
from quoting.cli.common import misuse
from quoting.findings import printable
from quoting.issuing import Terms
from quoting.posting.mailbox import NoMailboxError, mailbox
from quoting.quoted.form import LONG_NOTE
from quoting.site.editions import address_in

LONG_NAME = 120
SITE = re.compile(r"https?://[^\s/?#\\\"<>]+(?:/[^\s?#\\\"<>]*)?", re.IGNORECASE)


def terms_of(customer: str, email: str, days: int | None, note: str) -> Terms:
    """To whom a quote goes, and how long it holds.   Exit code 2 for what cannot be."""
    customer, note = customer.strip(), note.strip()
    if printable(customer) != customer or len(customer) > LONG_NAME:
        misuse(f"--for: a name has at most {LONG_NAME} characters on one line")
    if printable(note) != note:
        misuse("--note: it goes on one line, without line breaks or signs that cannot be seen")
    if len(note) > LONG_NOTE:
        misuse(f"--note: this one has {len(note)} characters; there is room for {LONG_NOTE}")
    return Terms(customer, to_whom(email), days or 0, note)


def to_whom(email: str) -> str:
    """The address, "" where none was typed.   Exit code 2 for what is none."""
    try:
        return mailbox(email) if email.strip() else ""
    except NoMailboxError as fault:
        misuse(f"--to: {fault}")


def site_of(named: str, shop: Shop, language: str | None = None) -> str:
    """Where the site in a language stands, without which nobody could open a link.   Exit code 2 where nobody says."""
    if SITE.fullmatch(named):
        return named
    if named:
        if not Path(named).is_dir():
            misuse(f"--site: {named!r} is neither an address that begins with https:// nor a folder that is there")
        return Path(named).resolve().as_uri()
    site = address_in(shop, language)
    if not site:
        misuse("where does your site stand? Write `url: https://...` in shop.yaml, or name it with --site")
    return site
