"""What the commands share: telling findings, loading the shop, and the words of an error."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import json
import sys
from collections.abc import Iterable, Sequence
from datetime import date, datetime
from pathlib import Path
from typing import NoReturn

import click

from quoting.catalog.checks import on_day
from quoting.catalog.load import load
from quoting.catalog.shop import Catalog
from quoting.findings import Finding, errors, in_order
from quoting.keeping.whole import JOURNAL, recover
from quoting.places import shared
from quoting.written.salvage import LINES

DAY = click.DateTime(formats=["%Y-%m-%d"])
FOLDER = click.Path(file_okay=False, path_type=Path)
JOBS = click.option(
    "--jobs", type=click.IntRange(1), help="Processes that work out lens boards.  [default: as many as pay]"
)


def tell(findings: Iterable[Finding], as_json: bool = False) -> None:
    """All findings in order: on standard output as JSON for programs, else on standard error for people."""
    ordered = in_order(findings)
    if as_json:
        click.echo(json.dumps({"findings": [finding.as_dict() for finding in ordered]}, indent=2, ensure_ascii=False))
        return
    for finding in ordered:
        click.echo(f"{finding}\n", err=True)


def to_mend(findings: Sequence[Finding]) -> str:
    """How much there is to mend, and that more may be where nobody could look yet."""
    hidden = {(one.mark.file, one.unchecked) for one in findings if one.unchecked}
    entries = sum(1 for _, where in hidden if where.startswith(LINES))
    parts = [(len(hidden) - entries, "file", "files"), (entries, "entry", "entries")]
    said = " and ".join(f"{count} {one if count == 1 else more}" for count, one, more in parts if count)
    more = f", and there may be more in {said} that cannot be read yet" if said else ""
    return f"{len(errors(findings))} to mend{more}."


def tell_editor(findings: Iterable[Finding]) -> None:
    """All findings in order on standard output, a line each; nothing else stands there."""
    for finding in in_order(findings):
        click.echo(finding.for_editor())


def misuse(message: object) -> NoReturn:
    """One sentence and exit code 2."""
    raise click.UsageError(str(message))


def own_shop(given: Path | None) -> Path:
    """The shop that was named, or the one here.   Exit code 2 where there is none."""
    if given is None and not Path("shop.yaml").exists() and not (Path() / JOURNAL).exists():
        misuse("there is no shop.yaml here: name the shop's folder")
    folder = given if given is not None else Path()
    try:
        done = recover(folder)
    except ValueError as fault:
        misuse(fault)
    if done:
        click.echo(f"A command was cut short while it wrote to {folder}: what it had begun is {done}.", err=True)
    return folder


def any_shop(given: Path | None) -> Path:
    """The shop that was named, or the one here, or, said aloud, the demo shop."""
    if given is not None or Path("shop.yaml").exists():
        return own_shop(given)
    click.echo("There is no shop.yaml here: using the demo shop.", err=True)
    return shared("demo_catalog")


def loaded(folder: Path, day: date, as_json: bool = False) -> Catalog:
    """The catalog, or all its findings and exit code 1; a price list that does not hold on the day is told."""
    catalog, findings = load(folder, day)
    if catalog is None or errors(findings):
        tell(findings, as_json)
        sys.exit(1)
    tell(on_day(catalog, day))
    return catalog


def day_of(on: datetime | None) -> date:
    """The day that was named, or today.   Exit code 2 outside the centuries in which a shop can be open."""
    if on is not None and not 2000 <= on.year <= 2199:
        misuse(f"{on:%Y-%m-%d} is not a day of this or the next century")
    return on.date() if on else date.today()
