"""Which column map reads a price list; where none does, the one that is proposed."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import sys
from collections.abc import Mapping
from functools import lru_cache
from pathlib import Path
from typing import NoReturn

import click

from quoting.choosing import similar
from quoting.cli.common import misuse, tell
from quoting.findings import errors
from quoting.keeping.cells import Sheet
from quoting.keeping.columns import FOLDER, ColumnMap, chosen, own_map, read_map
from quoting.keeping.entries import slug
from quoting.keeping.maps import maps_read
from quoting.keeping.proposing import makers_in, proposed
from quoting.keeping.raised import plain
from quoting.keeping.sheet import read_sheet
from quoting.keeping.standing import Standing
from quoting.keeping.whole import write_all


def sheet_of(file: Path, settings: Mapping[str, str], used: ColumnMap | None) -> Sheet:
    """The file, read as the options say, else as the map says, else as it is found to be."""
    own = {"tab": used.tab, "delimiter": used.delimiter, "encoding": used.encoding} if used is not None else {}
    meant = {name: value or own.get(name, "") for name, value in settings.items()}
    return _read(file, file.stat().st_mtime_ns if file.exists() else 0, tuple(sorted(meant.items())))


@lru_cache(maxsize=4)  # each map of the shop may want to see it
def _read(file: Path, _: int, settings: tuple[tuple[str, str], ...]) -> Sheet:
    return read_sheet(file, **dict(settings))


def map_for(now: Standing, file: Path, map_file: Path | None, settings: Mapping[str, str], as_json: bool) -> ColumnMap:
    """The map for a file.   Exit code 1 where there is none, with all that is wrong and, for people, one proposed."""
    if map_file is not None:
        used, findings = read_map(map_file, now.catalog)
        if used is None:
            tell(findings, as_json)
            sys.exit(1)
        return used
    sheet = sheet_of(file, settings, None)
    if (own := own_map(sheet)) is not None:
        return own
    maps, faults = maps_read(now.folder, now.catalog)
    tried = [(path, one, sheet_of(file, settings, one)) for path, one in maps]
    used, why = chosen(sheet.shown, tried)
    if used is not None:
        tell(faults)  # of other maps
        return used
    if errors(faults):  # a map that cannot be read may be the one
        tell(faults, as_json)
        sys.exit(1)
    tell([*(sheet.findings or why), *faults], as_json)
    makers = makers_in(sheet, now.catalog)
    if makers and not errors(sheet.findings) and not as_json:
        click.echo(
            f"A column map that could be written:\n\n{proposed(sheet, now.catalog, makers[0], settings)}", err=True
        )
    sys.exit(1)


def write_map(now: Standing, file: Path, maker: str, settings: Mapping[str, str]) -> NoReturn:
    """Write the map that is proposed for a file.   Exit code 1 for a file that cannot be read, 2 for misuse."""
    sheet = sheet_of(file, settings, None)
    if errors(sheet.findings):
        tell(sheet.findings)
        sys.exit(1)
    makers = {plain(package.maker): package.maker for package in now.catalog.packages.values()}
    found = makers_in(sheet, now.catalog)
    if not maker and not found:
        misuse(f"nothing in {file} tells whose list it is: name the maker with --maker; there is {', '.join(makers)}")
    if maker and plain(maker) not in makers:
        misuse(f"--maker: there is no maker {maker!r}: {similar(plain(maker), makers)}")
    named = makers[plain(maker)] if maker else found[0]
    path = now.folder / FOLDER / f"{slug(named) or plain(named)}.yaml"
    if path.exists():
        misuse(f"{path} is there already: correct it, or delete it first")
    content = proposed(sheet, now.catalog, named, settings).encode("utf-8")
    write_all(now.folder, {path: content}, {path: None})
    click.echo(f"{content.decode('utf-8')}\nWritten: {path}. Read it, correct it, then import again.")
    sys.exit(0)
