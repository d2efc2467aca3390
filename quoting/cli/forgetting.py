"""``forget``: a customer is taken out of everything that the shop keeps."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from pathlib import Path

import click

from quoting.cli.common import misuse
from quoting.cli.quotes import SHOP, acts, register_of
from quoting.findings import printable
from quoting.ordering.forgetting import addresses, forget, known


@click.command("forget")
@click.argument("customer")
@click.option("--email", default="", metavar="ADDRESS", help="Only who has this address: there may be two of one name.")
@click.option("--yes", is_flag=True, help="Remove it; without this it is only shown.")
@SHOP
@acts
def forget_customer(customer: str, email: str, yes: bool, shop: Path | None) -> None:
    """Remove CUSTOMER, by name or mail address, from orders, letters and the register of quotes; say what was removed.

    Local law may ask you to keep bills and records for some years: remove only what may go. Files that you wrote
    elsewhere (--sheet, --email, backups) are not known here.
    """
    register = register_of(shop)
    found = known(register, customer, email)
    if not found.quotes:
        misuse(f"the register knows nobody called {customer!r}" + (f" with the address {email!r}" if email else ""))
    several = addresses(found)
    if len(several) > 1 and not email:
        misuse(f"{len(several)} addresses belong to this name, {', '.join(several)}: say whose with --email")
    if yes:
        forget(register, found)
    lines = [
        f"quote {entry.number} of {entry.at[:10]}, and {len(entry.events)} later entries" for entry in found.quotes
    ]
    lines += [f"order {name}, its folder" for name in found.orders]
    lines += [f"what a command left in {path.name}" for path in found.folders if path.name not in found.orders]
    lines += [f"letter {path.name.lstrip('.')}" for path in found.letters]
    click.echo("Removed:" if yes else "There is:")
    for line in lines:
        click.echo(printable(f"  {line}"))
    if yes:
        click.echo("Links of these quotes that are in other hands still open; no name is in them.")
        click.echo("Not known here: files written elsewhere (--sheet, --email, of verify.html), mail sent, backups.")
    else:
        click.echo("Nothing was removed; say --yes.")
