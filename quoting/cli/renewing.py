"""``quotes renew``: an issued quote once more, at the prices of another day."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import sys
from datetime import datetime
from pathlib import Path
from typing import Any

import click

from quoting.choosing import in_words
from quoting.cli.addressee import site_of, terms_of
from quoting.cli.common import day_of, loaded, misuse
from quoting.cli.delivering import deliver, delivers, ready
from quoting.cli.issuing import tell_entry
from quoting.cli.quotes import JSON, LANGUAGE, NUMBER, ON, SHOP, acts, register_of
from quoting.issuing import NotOfferedError, issue
from quoting.languages import speaking
from quoting.money import written
from quoting.offers import Offers
from quoting.quoted.positional import FormError, day_number
from quoting.quoted.positional import day_of as day_numbered
from quoting.renewing import changed_lines, wanted_again
from quoting.site.editions import language_of, tongue_of
from quoting.terms import NoSuchLineError


@click.command("renew")
@NUMBER
@click.option("--days", type=click.IntRange(1, 366), help="How long its price holds.  [default: the shop's]")
@click.option("--note", help='Another note; "" for none.  [default: the old one\'s]')
@click.option("--plain", is_flag=True, help="At the price list's amounts: without what was changed for the customer.")
@click.option("--site", default="", help="Where the site stands, for the link.  [default: the shop's url]")
@click.option("--to", "email", default="", metavar="ADDRESS", help="The customer's address, where it is another one.")
@LANGUAGE
@SHOP
@ON
@JSON
@delivers
@acts
def renew(
    number: str, days: int | None, note: str | None, plain: bool, site: str, email: str, language: str | None,
    shop: Path | None, on: datetime | None, as_json: bool, **words: Any,
) -> None:  # fmt: skip
    """Issue quote NUMBER once more at the day's prices; in the register the old one is then over.

    What was changed for the customer stays changed, and is told.
    """
    register, day = register_of(shop), day_of(on)
    catalog, old = loaded(register.shop, day, as_json), register.entry(number)
    register.open_for(old.number, "renewed")
    spoken = language or language_of(old.link, catalog.shop)
    terms = terms_of(old.customer, email or old.email, days, old.quote["note"] if note is None else note)
    where = site_of(site, catalog.shop, spoken)
    account = ready(register.shop, terms.email, words)
    offers = in_words(Offers(catalog, day), spoken)
    try:
        new = issue(wanted_again(old.quote, offers.catalog, plain), terms, offers, register.shop, where, old.number)
    except NotOfferedError as fault:
        click.echo(f"Nothing was issued. {fault}", err=True)
        sys.exit(1)
    except (NoSuchLineError, FormError) as fault:
        misuse(f"{fault}; with --plain it is renewed without what was changed for the customer")
    for line in changed_lines(old.quote):
        told = "Not carried over" if plain else "Still changed"
        click.echo(f"{told}: {line['key']} at {written(line['cents'])}, {line['reason']}.", err=True)
    if day_number(day) <= old.quote["expires"]:
        until = day_numbered(old.quote["expires"])
        said = f"The link of {old.number} goes on to hold its price until {until}; `bevelbook quotes withdraw"
        click.echo(f"{said} {old.number}` calls it back.", err=True)
    with speaking(tongue_of(catalog.shop, spoken)):
        tell_entry(new, offers, as_json)
        if not deliver(new, terms.email, register.shop, offers, account, words):
            sys.exit(1)
