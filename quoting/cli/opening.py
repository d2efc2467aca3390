"""``quotes open``: a link that somebody sent, looked at as the page does."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import sys
from datetime import datetime
from pathlib import Path

import click

from quoting.cli.common import DAY, FOLDER, day_of, loaded, own_shop
from quoting.languages import speaking, tongue
from quoting.quoted.sealing import opened
from quoting.quoted.trust import PLAIN, standing, unvouched
from quoting.show.seen import seen
from quoting.show.seen_text import seen_text

GOOD = {"held", "estimate", "expired"}


@click.command("open")
@click.argument("link")
@click.option("--shop", type=FOLDER, help="The shop's folder.  [default: here]")
@click.option("--on", type=DAY, help="The day to reckon with.  [default: today]")
def open_link(link: str, shop: Path | None, on: datetime | None) -> None:
    """What the quote behind LINK says, and whether it counts. Give - to read a whole mail from standard input.

    Exit code 1 where it does not count: altered, withdrawn, damaged.
    """
    above = (click.get_current_context().parent or click.get_current_context()).params.get("shop")
    day = day_of(on)
    catalog = loaded(own_shop(shop if shop is not None else above), day)
    found = opened(sys.stdin.read() if link == "-" else link)
    stands = found.fault or standing(found, catalog.keys, catalog.withdrawn, day)
    click.echo(PLAIN[stands])
    if found.quote is not None and stands in GOOD | {"withdrawn"}:
        quote = unvouched(found.quote) if stands == "estimate" else found.quote
        with speaking(tongue(catalog.shop.locale)):
            click.echo(f"\n{seen_text(seen(quote, catalog.shop))}")
    sys.exit(0 if stands in GOOD else 1)
