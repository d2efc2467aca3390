"""``explain``: what a reason means, where its limit comes from, and an example."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import json

import click

from quoting.choosing import UnknownError, pick
from quoting.cli.common import misuse
from quoting.show.manual import MEANT, list_text, page_dict, page_text


def codes(_context: click.Context, _: click.Parameter, typed: str) -> list[str]:
    """What the shell completes."""
    return [one for one in MEANT if one.startswith(typed)]


@click.command()
@click.argument("code", required=False, shell_complete=codes)
@click.option("--json", "as_json", is_flag=True, help="For programs.")
def explain(code: str | None, as_json: bool) -> None:
    """What a reason of CODE means, by which rule it is given, and what to do; without CODE, all of them.

    The codes stand in `fit --json` and `quote --json`; those of traces are told by `check` and `trace` in words.
    """
    if code is not None:
        try:
            pick("reason", MEANT, code)
        except UnknownError as unknown:
            misuse(unknown)
        click.echo(json.dumps(page_dict(code), indent=2, ensure_ascii=False) if as_json else page_text(code))
    elif as_json:
        listed = [{"code": one, "meaning": meaning} for one, meaning in MEANT.items()]
        click.echo(json.dumps({"reasons": listed}, indent=2, ensure_ascii=False))
    else:
        click.echo(list_text())
