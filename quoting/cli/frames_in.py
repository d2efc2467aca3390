"""``frame import``: frames from a table, shown first, written when asked."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import json
import shlex
import sys
from collections.abc import Iterator, Sequence
from pathlib import Path

import click

from quoting.catalog.load import load_written
from quoting.choosing import similar
from quoting.cli.adding import save
from quoting.cli.common import FOLDER, misuse, own_shop, tell
from quoting.findings import errors, printable
from quoting.keeping.adding import FRAMES, Addition, added
from quoting.keeping.entries import Entry
from quoting.keeping.frames_csv import ALL, Taken, taken
from quoting.keeping.frames_lacking import OPEN, options
from quoting.keeping.questions import ordered
from quoting.keeping.sheet import read_sheet

DECIMALS = {"comma": ",", "point": "."}


@click.command("import")
@click.argument("file", type=click.Path(dir_okay=False, path_type=Path))
@click.argument("shop", type=FOLDER, required=False)
@click.option("--column", multiple=True, metavar="FIELD=HEADING", help="Which column holds a field.")
@click.option("--set", "fixed", multiple=True, metavar="FIELD=VALUE", help="A value for all rows that have none.")
@click.option("--tab", default="", help="The tab of a workbook.")
@click.option("--delimiter", default="", help="What parts the columns of a text.  [default: found by counting]")
@click.option("--encoding", default="", help="How a text is encoded.  [default: UTF-8, else Windows-1252]")
@click.option("--decimal", type=click.Choice(list(DECIMALS)), help="What parts hundredths in prices.  [default: found]")
@click.option("--write/--dry-run", default=False, help="Write it, or only show it.  [default: --dry-run]")
@click.option("--json", "as_json", is_flag=True, help="For programs; its form is in DEVELOPERS.md.")
def import_frames(
    file: Path, shop: Path | None, column: Sequence[str], fixed: Sequence[str], tab: str, delimiter: str,
    encoding: str, decimal: str | None, write: bool, as_json: bool,
) -> None:  # fmt: skip
    """Take in frames from FILE, as CSV or XLSX with a row for each size and colorway.

    Columns are found by their headings; rows of one maker and model become one frame.  Frames that the shop has
    already are left out.
    """
    folder = own_shop(shop)
    if not file.is_file():
        misuse(f"there is no file {file}")
    if len(delimiter) > 1:
        misuse("--delimiter takes one sign")
    catalog, findings = load_written(folder)
    if catalog is None:
        tell(findings, as_json)
        sys.exit(1)
    sheet = read_sheet(file, tab, delimiter, encoding)
    found = taken(sheet, catalog, _pairs("column", column), _pairs("set", fixed), DECIMALS.get(decimal or "", ""))
    addition = Addition({}, {}, [])
    if found.frames and not errors(found.findings):
        addition = added(folder, catalog, FRAMES, [(maker, ordered(entry)) for maker, entry in found.frames])
    found.findings += addition.findings
    good = not errors(found.findings)
    if good and write and addition.contents:
        save(folder, addition)
    files = [path.as_posix() for path in addition.contents] if good else []
    _show(found, files, write, as_json)
    if found.missing and not as_json:
        words = ["bevelbook", "frame", "import", str(file), *([str(shop)] if shop else [])]
        words += _typed(column=column, set=fixed, tab=tab, delimiter=delimiter, encoding=encoding, decimal=decimal)
        words += options(found.missing, catalog, _pairs("set", fixed).get("maker", ""))
        click.echo(f"To go on, put your own in place of each {OPEN} and run:", err=True)
        click.echo(printable(f"  {shlex.join(words)}"), err=True)
    sys.exit(0 if good else 1)


def _typed(**given: str | Sequence[str] | None) -> Iterator[str]:
    """Options as they were given."""
    for name, value in given.items():
        for one in [value] if isinstance(value, str) else value or []:
            yield from (f"--{name}", one) if one else ()


def _pairs(option: str, words: Sequence[str]) -> dict[str, str]:
    """``FIELD=VALUE`` of an option.   Exit code 2 for a field that is none."""
    pairs = {}
    for word in words:
        name, sign, value = (part.strip() for part in word.partition("="))
        if not sign or not value or not value.isprintable():
            misuse(f"--{option}: write FIELD=..., not {word!r}")
        if name not in ALL:
            misuse(f"--{option}: no field {name!r}: {similar(name, ALL)}")
        pairs[name] = value
    return pairs


def _show(found: Taken, files: Sequence[str], write: bool, as_json: bool) -> None:
    good = not errors(found.findings)
    if as_json:
        about = {
            "columns": found.columns,
            "unused": found.unused,
            "decided": found.said,
            "frames": [str(entry.get("id", "")) for _, entry in found.frames],
            "findings": [one.as_dict() for one in found.findings],
            "files": files,
            "written": bool(good and write and files),
        }
        click.echo(json.dumps(about, indent=2, ensure_ascii=False))
        return
    if found.columns:
        click.echo("Columns:")
        for name, heading in found.columns.items():
            click.echo(printable(f"  {heading} → {name}"))
        if found.unused:
            click.echo(printable(f"  not used: {', '.join(found.unused)}"))
    for words in found.said:
        click.echo(printable(f"  {words}"))
    for maker, entry in found.frames:
        click.echo(printable(_line(maker, entry)))
    tell(found.findings)
    click.echo(_last_words(good, write, files), err=not good)


def _line(maker: str, entry: Entry) -> str:
    sizes, colors = entry.get("sizes", []), entry.get("colorways", [])
    assert isinstance(sizes, list)
    assert isinstance(colors, list)
    boxes = ", ".join(f"{one.get('a', '?')}□{one.get('dbl', '?')}" for one in sizes)
    priced = ", ".join(f"{one.get('name', '?')} {one.get('price', '?')}" for one in colors)
    return f"{entry.get('id', '?')}: {maker} {entry.get('name', '?')}; {boxes}; {priced}"


def _last_words(good: bool, write: bool, files: Sequence[str]) -> str:
    if not good:
        return "Nothing was written."
    if not files:
        return "Nothing to write."
    return f"{'Written' if write else 'Nothing was written yet; --write writes'}: {', '.join(files)}"
