"""Column maps: which column of a maker's list is which.  One YAML file a maker in ``imports/`` of the shop.

A column is named by its heading, or as ``column C`` where there is none.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from quoting.catalog.model import Package
from quoting.catalog.shop import Catalog
from quoting.catalog.table import listing
from quoting.findings import Finding, Mark
from quoting.keeping.cells import Row, Sheet, letters
from quoting.nodes import Record, read
from quoting.written.kinds import meant_hint

FOLDER = "imports"
LETTERED = re.compile(r"column ([A-Z]{1,2})")
DECIMALS = {"comma": ",", "point": "."}
FIGURES = re.compile(r"[0-9]")
FIRST_ROWS = 60  # headings stand among these
WORDS = {"per": "unit of the prices", "tab": "tab of the workbook", "decimal": "sign before the hundredths"}


@dataclass(frozen=True, slots=True)
class ColumnMap:
    """Where in a list codes, prices and powers stand, and which code means which packages."""

    maker: str  # "": lines name it themselves
    columns: dict[str, str]  # code, price, and where there are such: from, to, kind, colorway
    per_pair: bool
    all_powers: bool  # without columns of powers: a price is for all powers of its package
    decimal: str  # the sign before hundredths; "": the column tells
    delimiter: str
    encoding: str
    tab: str
    codes: dict[str, tuple[str, ...]]
    mark: Mark


# What `prices export` writes
OWN = {"kind": "kind", "code": "id", "colorway": "colorway", "from": "from", "to": "to", "price": "price"}


def own_map(sheet: Sheet) -> ColumnMap | None:
    """The map of our own lists, if this is one; programs may have changed its decimal signs."""
    if not sheet.rows or not {"kind", "maker", *OWN.values()} <= {cell.text for cell in sheet.rows[0].cells}:
        return None
    return ColumnMap("", OWN, False, False, "", "", "", "", {}, Mark(sheet.shown, 1, 1))


def read_map(path: Path, catalog: Catalog | None) -> tuple[ColumnMap | None, list[Finding]]:
    """One column map, or what is wrong with it; without a catalog any maker and package may be there."""
    root = read(path, path.as_posix(), WORDS)
    packages = catalog.packages if catalog is not None else {}
    makers = tuple(dict.fromkeys(package.maker for package in packages.values()))
    maker = root.choice("maker", makers) if makers else root.text("maker", most=80)
    columns = root.record("columns", "`columns`", example="{code: Article, price: Price}")
    made = ColumnMap(
        maker=maker,
        columns=_columns(columns),
        all_powers=root.flag("all_powers", default=False),
        per_pair=root.choice("per", ("lens", "pair")) == "pair",
        decimal=DECIMALS.get(root.choice("decimal", tuple(DECIMALS)) if root.has("decimal") else "", ""),
        delimiter=root.form("delimiter", ".", "one sign", '";"') if root.has("delimiter") else "",
        encoding=root.text("encoding", default=""),
        tab=root.text("tab", default=""),
        codes=_codes(root, maker, packages),
        mark=root.mark("columns"),
    )
    columns.close()
    return root.made(made), root.findings


def _columns(columns: Record) -> dict[str, str]:
    found = {name: columns.text(name, most=200, example="Article") for name in ("code", "price")}
    if columns.has("from") or columns.has("to"):
        found |= {name: columns.text(name, most=200, example="Sph from") for name in ("from", "to")}
    return found


def _codes(root: Record, maker: str, packages: Mapping[str, Package]) -> dict[str, tuple[str, ...]]:
    """The maker's codes and the packages they mean; those that the catalog does not have, or of others, are told."""
    own = {key: one for key, one in packages.items() if one.maker == maker} or packages
    if not root.has("codes"):
        return {}
    part = root.record("codes", "`codes`", example="{A-100: plain-150}")
    codes: dict[str, tuple[str, ...]] = {}
    for code in part.names():
        ids = part.texts(code) if part.is_list(code) else (part.word(code, example="plain-150"),)
        for one in ids:
            if packages and part.sound(code) and one not in own:
                whose = f"`{one}` is a package of {packages[one].maker}, not of {maker}" if one in packages else ""
                hint = meant_hint(one, tuple(own)) or listing(own)
                part.fault(code, "unknown-id", whose or f"there is no package `{one}`", hint)
        codes[code] = ids
    part.close()
    return codes


def plain(heading: str) -> str:
    """A heading without what makes no difference: blanks at its ends and in a row, upper and lower case."""
    return " ".join(heading.split()).casefold()


def places(sheet: Sheet, columns: dict[str, str]) -> tuple[dict[str, int], tuple[Row, ...]] | None:
    """The column of each field, counted from 0, and the rows below the headings; None where no row has them all."""
    lettered = {name: _number(found[1]) for name, text in columns.items() if (found := LETTERED.fullmatch(text))}
    headed = {name: plain(text) for name, text in columns.items() if name not in lettered}
    if not headed:
        return lettered, sheet.rows
    for at, row in enumerate(sheet.rows[:FIRST_ROWS]):
        texts = [plain(cell.text) for cell in row.cells]
        if all(heading in texts for heading in headed.values()):
            return lettered | {name: texts.index(text) for name, text in headed.items()}, sheet.rows[at + 1 :]
    return None


def likely_headings(sheet: Sheet) -> int:
    """The place of the first row with the most texts that hold no figure; 0 in a sheet without rows."""
    rows = sheet.rows[:FIRST_ROWS]
    counts = [sum(bool(cell.text) and not FIGURES.search(cell.text) for cell in row.cells) for row in rows]
    return counts.index(max(counts)) if counts else 0


def heading_faults(sheet: Sheet, used: ColumnMap) -> list[Finding]:
    """Headings of a map that the file does not have, and those it has twice."""
    rows = [{plain(cell.text): cell.text for cell in row.cells if cell.text} for row in sheet.rows[:FIRST_ROWS]]
    wanted = [text for text in used.columns.values() if not LETTERED.fullmatch(text)]
    counts = [sum(plain(text) in row for text in wanted) for row in rows]
    at = counts.index(max(counts)) if any(counts) else likely_headings(sheet)
    known = rows[at] if rows else {}
    missing = [text for text in wanted if plain(text) not in known]
    findings = [_missing(sheet, used, missing, list(known.values()))] if missing else []
    texts = [plain(cell.text) for cell in sheet.rows[at].cells] if rows else []
    for text in wanted:
        if texts.count(plain(text)) > 1:
            columns = " or ".join(f"column {letters(at)}" for at, one in enumerate(texts) if one == plain(text))
            said = f"{texts.count(plain(text))} columns of {sheet.shown} are headed `{text}`"
            findings.append(Finding(used.mark, "heading-twice", said, f"name it by its letters: {columns}"))
    return findings


def _missing(sheet: Sheet, used: ColumnMap, missing: Sequence[str], known: Sequence[str]) -> Finding:
    names = ", ".join(f"`{text}`" for text in missing)
    hint = (meant_hint(missing[0], known) if len(missing) == 1 else "") or f"its headings: {listing(known)}"
    return Finding(used.mark, "no-such-heading", f"no column of {sheet.shown} is headed {names}", hint)


def chosen(shown: str, tried: Sequence[tuple[Path, ColumnMap, Sheet]]) -> tuple[ColumnMap | None, list[Finding]]:
    """The one map that fits a file, which each has read in its own way; else why there is none."""
    fits = [(path, one) for path, one, sheet in tried if not sheet.findings and places(sheet, one.columns) is not None]
    if len(fits) == 1:
        return fits[0][1], []
    mark = Mark(shown, 1, 1)
    if fits:
        names = ", ".join(path.as_posix() for path, _ in fits)
        said = f"{len(fits)} column maps fit this file: {names}"
        return None, [Finding(mark, "which-map", said, "name one with --map")]
    faults = [fault for _, one, sheet in tried for fault in heading_faults(sheet, one)]
    said = "no column map of the shop fits this file, so nobody knows which column is which"
    return None, [Finding(mark, "no-map", said, "--write-map writes one that is proposed, for you to read"), *faults]


def _number(name: str) -> int:
    """A column by its letters, counted from 0."""
    number = 0
    for letter in name:
        number = number * 26 + ord(letter) - ord("A") + 1
    return number - 1
