"""``margin``: what is left of each price, from costs that no other part of the program may see."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import json
import shlex
import sys
from datetime import date, datetime
from pathlib import Path

import click

from quoting.catalog.checks import on_day
from quoting.catalog.in_time import as_on
from quoting.catalog.load import load_written
from quoting.catalog.shop import Catalog
from quoting.choosing import UnknownError, pick
from quoting.cli.common import DAY, FOLDER, day_of, misuse, own_shop, tell
from quoting.cli.completing import region_ids
from quoting.keeping.raised import WordError
from quoting.private.contract import report_dict
from quoting.private.margins import Books
from quoting.private.model import Costs
from quoting.private.read import read_costs
from quoting.private.report import Report
from quoting.private.till import Till
from quoting.private.told import report_text
from quoting.private.tried import Raise, prices_raised


@click.command()
@click.argument("shop", type=FOLDER, required=False)
@click.option(
    "--raise",
    "wanted",
    nargs=2,
    metavar="WHICH CHANGE",
    help='Show what `prices raise` would do: "maker=hallstrand" +4%.',
)
@click.option(
    "--round", "rounded", nargs=2, metavar="HOW AMOUNT", help="As in `prices raise`: up-to 0.50, ending 0.90."
)
@click.option("--under", is_flag=True, help="Only what falls under the floor or is sold at a loss.")
@click.option("--offers", is_flag=True, help="Take off what everybody gets that day, as if each thing were sold alone.")
@click.option(
    "--region", default="", shell_complete=region_ids, help="Whose tax is in the prices.  [default: the list's first]"
)
@click.option("--on", type=DAY, help="The day to reckon with.  [default: today]")
@click.option("--json", "as_json", is_flag=True, help="For programs; its form is in DEVELOPERS.md.")
def margin(
    shop: Path | None, wanted: tuple[str, str] | None, rounded: tuple[str, str] | None, under: bool,
    offers: bool, region: str, on: datetime | None, as_json: bool,
) -> None:  # fmt: skip
    """What is left of each price without tax, once the wholesale costs in private/ are paid.

    Lens packages by band, frames by colorway and size, surcharges; what falls under the floor in private/, and what
    has no cost.  Nothing of private/ ever comes into a site.  As with warnings of `check`, the exit code is 0 whatever
    falls under the floor; it is 1 where files are faulty or there is no cost at all.
    """
    folder, day = own_shop(shop), day_of(on)
    if rounded and not wanted:
        misuse("--round belongs to --raise")
    written, costs = _read(folder, as_json)
    catalog = as_on(written, day)
    regions = {one.id: one for one in catalog.price_list.regions}
    try:
        place = pick("region", regions, region) if region else catalog.price_list.regions[0]
        tried = _raise(folder, catalog, day, wanted, rounded) if wanted else None
    except (UnknownError, WordError) as fault:
        misuse(fault)
    report = Report.of(Books(catalog, costs, Till.of(catalog, place, day, offers)), day, tried)
    if as_json:
        click.echo(json.dumps(report_dict(report, under), indent=2, ensure_ascii=False))
    else:
        tell(on_day(catalog, day))
        click.echo(report_text(report, under))


def _read(folder: Path, as_json: bool) -> tuple[Catalog, Costs]:
    """Catalog and costs, or all that is wrong with both and exit code 1."""
    written, findings = load_written(folder)
    costs, more = read_costs(folder, written, needed=written is not None)
    if written is None or costs is None:
        tell([*findings, *more], as_json)
        sys.exit(1)
    if not as_json:
        tell(more)
    return written, costs


def _raise(
    folder: Path, catalog: Catalog, day: date, wanted: tuple[str, str], rounded: tuple[str, str] | None
) -> Raise:
    """What a raise would make of the prices of a day.   Raises WordError."""
    which, change = wanted
    words = ["bevelbook", "prices", "raise", which, change, folder.as_posix()]
    words += ["--round", *rounded] if rounded else []
    words += ["--on", day.isoformat()] if day != date.today() else []
    return Raise(which, change, shlex.join([*words, "--write"]), prices_raised(catalog, which, change, rounded))
