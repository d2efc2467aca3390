"""A price list as it comes, in rows of cells: workbooks here (the only file that knows openpyxl), else `sheet_text`.

Nothing is guessed in silence: ``said`` tells what was decided, and what cannot be decided is a finding.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import io
import warnings
import zipfile
from collections.abc import Iterable, Sequence
from datetime import date, datetime
from decimal import Decimal
from itertools import islice
from pathlib import Path
from typing import Any
from xml.etree.ElementTree import ParseError

from openpyxl import Workbook, load_workbook
from openpyxl.utils.exceptions import InvalidFileException

from quoting.findings import Finding, Mark
from quoting.keeping.cells import Cell, Row, Sheet
from quoting.keeping.sheet_text import read_csv

MOST_BYTES = 20_000_000
MOST_UNPACKED = 300_000_000  # what a workbook may unpack to
MOST_ROWS, MOST_COLUMNS = 100_000, 1_000
UNREADABLE = (zipfile.BadZipFile, InvalidFileException, ParseError, KeyError, ValueError, TypeError, EOFError)


def read_sheet(path: Path, tab: str = "", delimiter: str = "", encoding: str = "") -> Sheet:
    """The rows of a file that ends in .xlsx, or of any other as delimited text; empty settings are decided."""
    shown = path.as_posix()
    try:
        raw = path.read_bytes()
    except OSError as error:
        return refused(shown, "sheet-unreadable", f"this file cannot be read: {error.strerror}", "correct the name")
    if len(raw) > MOST_BYTES:
        said = f"this file has {len(raw):,} bytes; {MOST_BYTES:,} are the most"
        return refused(shown, "sheet-unreadable", said, "take out what is no price list")
    if path.suffix.lower() in (".xlsx", ".xlsm"):
        return read_workbook(raw, shown, tab)
    if raw.startswith((b"PK\x03\x04", b"\xd0\xcf\x11\xe0")):
        said = "this is a workbook under another ending"
        return refused(shown, "sheet-unreadable", said, "save it as .xlsx or as .csv")
    return read_csv(raw, shown, delimiter, encoding)


def refused(shown: str, code: str, message: str, hint: str) -> Sheet:
    """A sheet without rows, and why."""
    return Sheet(shown, (), (), (Finding(Mark(shown, 1, 1), code, message, hint),))


def read_workbook(raw: bytes, shown: str, tab: str) -> Sheet:
    """The rows of one tab of a workbook, formulas as the results that were saved with them."""
    try:
        with zipfile.ZipFile(io.BytesIO(raw)) as packed:
            if sum(part.file_size for part in packed.infolist()) > MOST_UNPACKED:
                return refused(
                    shown, "sheet-unreadable", "this workbook is too large", "take out what is no price list"
                )
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # it warns of pictures, rules and colors that it does not read
            results = load_workbook(io.BytesIO(raw), read_only=True, data_only=True, keep_links=False)
            formulas = load_workbook(io.BytesIO(raw), read_only=True, data_only=False, keep_links=False)
            name, finding = _tab(shown, [one.title for one in results.worksheets], tab)
            if finding is not None:
                return Sheet(shown, (), (), (finding,))
            pairs = zip(_values(results[name]), _values(formulas[name]), strict=True)
            rows = [_row(number, values, written) for number, (values, written) in enumerate(pairs, 1)]
    except UNREADABLE:
        said = f"this is no workbook that can be read, or has more than {MOST_ROWS:,} rows"
        return refused(shown, "sheet-unreadable", said, "open it where it was made and save it as .xlsx again")
    return Sheet(shown, tuple(row for row in rows if row.filled), (f"tab {name}",))


def _tab(shown: str, names: Sequence[str], tab: str) -> tuple[str, Finding | None]:
    mark, listed = Mark(shown, 1, 1), ", ".join(names)
    if tab and tab not in names:
        said = f"there is no tab `{tab}` in this workbook"
        return "", Finding(mark, "sheet-tab", said, f"there is {listed}: correct `tab` in the column map")
    if not tab and len(names) != 1:
        said = f"this workbook has {len(names)} tabs, and nobody says which holds the prices"
        return "", Finding(mark, "sheet-tab", said, f"write `tab` in the column map, or name it with --tab: {listed}")
    return tab or names[0], None


def _values(sheet: Any) -> list[tuple[Any, ...]]:
    """All rows of a tab.   Raises ValueError for more than we take."""
    sheet.reset_dimensions()  # some programs write wrong ones, and rows would be lost
    rows = list(islice(sheet.iter_rows(values_only=True), MOST_ROWS + 1))
    if len(rows) > MOST_ROWS or any(len(row) > MOST_COLUMNS for row in rows):
        raise ValueError("too many rows or columns")
    return rows


def _row(number: int, values: Sequence[Any], written: Sequence[Any]) -> Row:
    """A row up to its last cell that holds anything."""
    cells = [_cell(value, text) for value, text in zip(values, written, strict=True)]
    filled = [at for at, cell in enumerate(cells) if cell.text or cell.unfinished]
    return Row(number, "", tuple(cells[: filled[-1] + 1] if filled else ()))


def _cell(value: Any, written: Any) -> Cell:
    if value is None:
        return Cell("", None, isinstance(written, str) and written.startswith("="))
    if isinstance(value, bool):
        return Cell("yes" if value else "no")
    if isinstance(value, int | float):
        number = Decimal(repr(value))
        return Cell(f"{number.normalize():f}", number)
    if isinstance(value, datetime | date):
        return Cell(value.isoformat()[:10])
    return Cell(" ".join(str(value).split()))


def workbook(rows: Iterable[Sequence[str | Decimal]], tab: str) -> bytes:
    """A workbook of one tab: the first row stands still, numbers are numbers with two decimals."""
    book = Workbook(write_only=True)
    sheet = book.create_sheet(tab)
    sheet.freeze_panes = "A2"
    for row in rows:
        sheet.append([float(one) if isinstance(one, Decimal) else one for one in row])
    held = io.BytesIO()
    book.save(held)
    return held.getvalue()
