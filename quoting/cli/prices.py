"""``prices import``, ``prices export`` and ``prices raise``: prices come in, go out, and rise."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import json
import sys
from collections.abc import Callable, Mapping, Sequence
from datetime import date, datetime
from pathlib import Path
from typing import Any

import click

from quoting.catalog.load import load_written
from quoting.cli.common import DAY, FOLDER, day_of, misuse, own_shop, tell
from quoting.cli.price_maps import map_for, sheet_of
from quoting.cli.price_maps import write_map as write_proposed
from quoting.findings import Finding, errors
from quoting.keeping.changing import Change, Watch, checked, in_place
from quoting.keeping.exported import as_csv, as_workbook
from quoting.keeping.imported import imported
from quoting.keeping.listed import VERSION, into_list
from quoting.keeping.raised import CENT, Rule, WordError, percent, picked, raised, rounding
from quoting.keeping.standing import Standing, standing
from quoting.keeping.whole import StaleError, write_all
from quoting.show.pricing import Preview, preview_dict, preview_text

PERCENT = click.FloatRange(min=0)


@click.group()
def prices() -> None:
    """Take in a maker's price list, give one out, or raise prices.

    What would change is shown first; nothing is written without --write.
    """


def changes_prices(command: Callable[..., None]) -> Callable[..., None]:
    """The options that ``import`` and ``raise`` share."""
    options = [
        click.option("--write/--dry-run", default=False, help="Write it, or only show it.  [default: --dry-run]"),
        click.option("--into", metavar="VERSION", default="", help="Write into the price list of this version."),
        click.option("--effective", type=DAY, help="The day from which a new list (--into) holds."),
        click.option("--on", type=DAY, help="The day whose prices are changed.  [default: today]"),
        click.option("--outlier", type=PERCENT, default=20.0, show_default=True, help="Flag changes of more percent."),
        click.option(
            "--from-median", type=PERCENT, default=10.0, show_default=True,
            help="Flag changes that are more points away from the median change.",
        ),
        click.option("--json", "as_json", is_flag=True, help="For programs; its form is in DEVELOPERS.md."),
    ]  # fmt: skip
    for option in reversed(options):
        command = option(command)
    return command


def standing_of(folder: Path, day: date | None, into: str, effective: date | None, as_json: bool) -> Standing:
    """The prices that are to be changed.   Exit code 1 for a shop with faults, 2 for misuse."""
    catalog, findings = load_written(folder)
    if catalog is None:
        tell(findings, as_json)
        sys.exit(1)
    there = {one.version: one.effective for one in catalog.price_lists}.get(into)
    if effective is not None and not into:
        misuse("--effective belongs to --into VERSION")
    if into and day is not None:
        misuse("--on and --into do not go together: the prices of the list's own day are changed")
    if into and there is None and effective is None:
        misuse(f"there is no price list {into} yet: say from which day it holds, with --effective")
    if there is not None and effective not in (None, there):
        misuse(f"the price list {into} holds from {there} on, not from {effective}")
    if into and there is None and not VERSION.fullmatch(into):
        misuse(f"--into: {into!r} cannot name a file: take letters, digits, points and hyphens, such as 2027-01")
    return standing(folder, catalog, there or effective or day or date.today())


def end(now: Standing, preview: Preview, findings: Sequence[Finding], into: str, write: bool, as_json: bool) -> None:
    """Show what would change, check what would come of it, and write it if that was asked for and is sound."""
    found = list(findings)
    contents: dict[Path, bytes] = {}
    if not errors(found) and preview.changes:
        contents, more = into_list(now, into, preview.changes) if into else in_place(now, preview.changes)
        found += more
        found += [] if errors(found) else checked(now, contents, preview.changes, now.day)
    good = not errors(found)
    if good and write and contents:
        written(now, contents)
    files = [path.as_posix() for path in contents] if good else []
    if as_json:
        about = {
            "findings": [one.as_dict() for one in found],
            "files": files,
            "written": bool(good and write and files),
        }
        click.echo(json.dumps({**preview_dict(preview), **about}, indent=2, ensure_ascii=False))
    else:
        if preview.changes or not errors(found):
            click.echo(preview_text(preview))
        tell(found)
        click.echo(last_words(good, write, files), err=not good)
    sys.exit(0 if good else 1)


def written(now: Standing, contents: Mapping[Path, bytes]) -> None:
    """Write all files or none.   Exit code 1 where somebody changed one meanwhile."""
    try:
        write_all(now.folder, contents, {path: now.files.get(path) for path in contents})
    except StaleError as fault:
        click.echo(f"{fault.filename}: {fault.strerror}.", err=True)
        sys.exit(1)


def last_words(good: bool, write: bool, files: Sequence[str]) -> str:
    """What was done, or what to do."""
    if not good:
        return "Nothing was written."
    if not files:
        return "Nothing to write."
    return f"{'Written' if write else 'Nothing was written yet; --write writes'}: {', '.join(files)}"


@prices.command("import")
@click.argument("file", type=click.Path(dir_okay=False, path_type=Path))
@click.argument("shop", type=FOLDER, required=False)
@click.option("--map", "map_file", type=click.Path(dir_okay=False, path_type=Path), help="The column map to use.")
@click.option("--write-map", is_flag=True, help="Write the column map that is proposed for this file.")
@click.option("--maker", default="", help="Whose list it is, for --write-map.")
@click.option("--tab", default="", help="The tab of a workbook.")
@click.option("--delimiter", default="", help="What parts the columns of a text.  [default: found by counting]")
@click.option("--encoding", default="", help="How a text is encoded.  [default: UTF-8, else Windows-1252]")
@changes_prices
def import_(
    file: Path, shop: Path | None, map_file: Path | None, write_map: bool, maker: str,
    tab: str, delimiter: str, encoding: str, write: bool, as_json: bool, **words: Any,
) -> None:  # fmt: skip
    """Take in a maker's price list from FILE, as CSV or XLSX.

    Which column is which stands in a column map, imports/MAKER.yaml in the shop; where none fits, one is proposed.
    """
    now = _now(own_shop(shop), words, as_json)
    if not file.is_file():
        misuse(f"there is no file {file}")
    if len(delimiter) > 1:
        misuse("--delimiter takes one sign")
    settings = {"tab": tab, "delimiter": delimiter, "encoding": encoding}
    if write_map:
        write_proposed(now, file, maker, settings)
    used = map_for(now, file, map_file, settings, as_json)
    found = imported(now, sheet_of(file, settings, used), used)
    watch = Watch(words["outlier"], words["from_median"])
    preview = Preview(now, found.changes, found.unchanged, watch, found.said, found.unknown, found.missing)
    end(now, preview, found.findings, words["into"], write, as_json)


@prices.command("raise", context_settings={"ignore_unknown_options": True})
@click.argument("which")
@click.argument("change")
@click.argument("shop", type=FOLDER, required=False)
@click.option("--round", "rounded", nargs=2, metavar="HOW AMOUNT", help="up-to 0.50, nearest 1, or ending 0.90.")
@changes_prices
def raise_(
    which: str, change: str, shop: Path | None, rounded: tuple[str, str] | None,
    write: bool, as_json: bool, **words: Any,
) -> None:  # fmt: skip
    """Raise (or lower) the prices WHICH by CHANGE, such as "maker=hallstrand material=r150" +4%.

    WHICH: all, or words with maker= material= design= kind= light= package=; for frames: frames, with maker= mounting=
    frame=.  All words must hold; commas mean or.  New prices are rounded to the cent, or as --round says, whose amount
    is in the shop's currency: up-to 0.50 (the next multiple), nearest 1, ending 0.90 (the next price that ends so).
    """
    now = _now(own_shop(shop), words, as_json)
    try:
        rule = Rule(percent(change), rounding(*rounded) if rounded else CENT)
        spots = picked(now.spots, which, now.catalog)
    except WordError as fault:
        misuse(fault)
    changes: list[Change] = raised(spots, rule)
    watch = Watch(words["outlier"], words["from_median"])
    end(now, Preview(now, changes, len(spots) - len(changes), watch), [], words["into"], write, as_json)


@prices.command("export")
@click.argument("shop", type=FOLDER, required=False)
@click.option(
    "--to", "output", required=True, type=click.Path(dir_okay=False, path_type=Path), help="A file .csv or .xlsx."
)
@click.option("--frames", is_flag=True, help="Frame prices as well.")
@click.option("--on", type=DAY, help="The day whose prices are written.  [default: today]")
def export(shop: Path | None, output: Path, frames: bool, on: datetime | None) -> None:
    """Write all lens prices of a day into a table; import takes it in again, changed or not."""
    now = standing_of(own_shop(shop), day_of(on), "", None, False)
    forms = {".csv": as_csv, ".xlsx": as_workbook}
    if output.suffix.lower() not in forms:
        misuse(f"--to: {output} must end in .csv or .xlsx")
    if output.exists():
        misuse(f"--to: {output} is there already: name another file, or delete it")
    spots = [spot for spot in now.spots if frames or spot.kind == "lens"]
    output.write_bytes(forms[output.suffix.lower()](spots))
    click.echo(f"{len(spots)} prices of {now.day} in {output}")


def _now(folder: Path, words: Mapping[str, Any], as_json: bool) -> Standing:
    """What stands on the day that the options name."""
    on, effective = words["on"], words["effective"]
    return standing_of(
        folder, day_of(on) if on else None, words["into"], day_of(effective) if effective else None, as_json
    )
