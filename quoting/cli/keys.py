"""``keys``: the keys that a shop signs its quotes with."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import json
from datetime import datetime
from pathlib import Path

import click

from quoting.cli.common import DAY, FOLDER, day_of, loaded, misuse, own_shop
from quoting.quoted.keystore import KeyringError, file_of, new_key, retire_key, state_of
from quoting.quoted.published import NotOursError

SHOP = click.argument("shop", type=FOLDER, required=False)
ON = click.option("--on", type=DAY, help="The day to reckon with.  [default: today]")


@click.group()
def keys() -> None:
    """Make and keep the keys that your quotes are signed with.

    The private key stays on this machine, in private/keys. The public one goes into quotes.yaml and with the site
    to everybody, so that the page can tell a quote of yours from one that somebody changed.
    """


@keys.command("new")
@SHOP
@ON
def new(shop: Path | None, on: datetime | None) -> None:
    """Make a pair of keys; from now on quotes are signed with it."""
    folder, day = own_shop(shop), day_of(on)
    loaded(folder, day)
    try:
        key = new_key(folder, day)
    except NotOursError as fault:
        misuse(fault)
    click.echo(f"Key {key} is made. Its private part is {file_of(folder, key)}: keep a copy where nobody else gets it.")
    click.echo("Build the site again, so that what you sign with it can be checked there.")


@keys.command("list")
@SHOP
@click.option("--json", "as_json", is_flag=True, help="For programs.")
@ON
def list_keys(shop: Path | None, as_json: bool, on: datetime | None) -> None:
    """All keys, the newest first, and what each is good for."""
    folder = own_shop(shop)
    catalog = loaded(folder, day_of(on), as_json)
    rows = [
        {
            "id": key.id,
            "since": key.since.isoformat(),
            "retired": key.retired.isoformat() if key.retired else None,
            "recalled": key.recalled,
            "private": file_of(folder, key.id).exists(),
            "state": state_of(folder, key),
        }
        for key in catalog.keys
    ]
    if as_json:
        click.echo(json.dumps({"keys": rows}, indent=2, ensure_ascii=False))
    elif not rows:
        click.echo("There is no key yet: make one with `bevelbook keys new`.")
    else:
        click.echo("\n".join(f"{row['id']}  since {row['since']}  {row['state']}" for row in rows))


@keys.command("retire")
@click.argument("key")
@SHOP
@click.option("--recall", is_flag=True, help="It came into other hands: nothing it ever signed counts any more.")
@ON
def retire(key: str, shop: Path | None, recall: bool, on: datetime | None) -> None:
    """Take KEY out of use. What it signed until today stays good, unless it is called back with --recall."""
    folder, day = own_shop(shop), day_of(on)
    loaded(folder, day)
    try:
        retire_key(folder, key, day, recall)
    except (KeyringError, NotOursError) as fault:
        misuse(fault)
    much = "Nothing it signed counts any more" if recall else f"What it signed until {day} stays good"
    click.echo(f"Key {key} is out of use. {much}, as soon as the site is built again.")
    click.echo("Its private part is not deleted: do that yourself when you need it no more.")
