"""A price list as it comes, in rows of cells: workbooks here (the only file that knows openpyxl), else `sheet_text`.

Nothing is guessed in silence: ``said`` tells what was decided, and what cannot be decided is a finding.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import io
import warnings
import zipfile
import zlib
from collections.abc import Iterable, Iterator, Sequence
from datetime import date, datetime
from decimal import Decimal
from pathlib import Path
from typing import Any
from xml.etree.ElementTree import ParseError

from openpyxl import Workbook, load_workbook
from openpyxl.utils.exceptions import InvalidFileException

from quoting.findings import Finding, Mark
from quoting.keeping.cells import Cell, Row, Sheet
from quoting.keeping.merged import filled_down, merged_down
from quoting.keeping.sheet_bounds import (
    MOST_BYTES,
    MOST_COLUMNS,
    MOST_NUMBERED,
    MOST_PADDED,
    MOST_ROWS,
    TooLargeError,
    seen_through,
)
from quoting.keeping.sheet_text import read_csv

BEYOND = 1e15  # spreadsheets keep 15 figures (ECMA-376): what is larger is shown and read as text
UNREADABLE = (
    *(zipfile.BadZipFile, InvalidFileException, ParseError, EOFError, NotImplementedError, zlib.error),
    *(KeyError, IndexError, ValueError, TypeError, AttributeError, OverflowError),
)


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
        rows, finding, name, part = _rows(raw, shown, tab)
        merged = merged_down(raw, part) if part else []
    except (TooLargeError, MemoryError) as fault:
        said = str(fault) or "this workbook needs more memory than there is"
        return refused(shown, "sheet-unreadable", said, "take out what is no price list, and save it again")
    except UNREADABLE:
        said = "this is no workbook that can be read"
        return refused(shown, "sheet-unreadable", said, "open it where it was made and save it as .xlsx again")
    if finding is not None:
        return Sheet(shown, (), (), (finding,))
    rows, filled = filled_down(rows, merged)
    noted = (f"merged cells count for each row beside them, {filled} in all",) if filled else ()
    return Sheet(shown, tuple(rows), (f"tab {name}", *noted))


def _rows(raw: bytes, shown: str, tab: str) -> tuple[list[Row], Finding | None, str, str]:
    """The rows of the tab that is meant, what speaks against it, name and part.   Raises UNREADABLE, TooLargeError."""
    has_formulas = seen_through(raw)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # it warns of pictures, rules and colors that it does not read
        results = load_workbook(io.BytesIO(raw), read_only=True, data_only=True, keep_links=False)
        name, finding = _tab(shown, [one.title for one in results.worksheets], tab)
        if finding is not None:
            return [], finding, name, ""
        part = str(getattr(results[name], "_worksheet_path", ""))  # openpyxl tells it in no other way
        values = _values(results[name])
        if not has_formulas:
            return [row for number, one in values if (row := _row(number, one, one)).filled], None, name, part
        formulas = load_workbook(io.BytesIO(raw), read_only=True, data_only=False, keep_links=False)
        pairs = zip(values, _values(formulas[name]), strict=True)
        rows = [_row(number, one, written) for (number, one), (_, written) in pairs]
        return [row for row in rows if row.filled], None, name, part


def _tab(shown: str, names: Sequence[str], tab: str) -> tuple[str, Finding | None]:
    mark, listed = Mark(shown, 1, 1), ", ".join(names)
    if tab and tab not in names:
        said = f"there is no tab `{tab}` in this workbook"
        return "", Finding(mark, "sheet-tab", said, f"there is {listed}: correct `tab` in the column map")
    if not tab and len(names) != 1:
        said = f"this workbook has {len(names)} tabs, and nobody says which holds the prices"
        return "", Finding(mark, "sheet-tab", said, f"write `tab` in the column map, or name it with --tab: {listed}")
    return tab or names[0], None


def _values(sheet: Any) -> Iterator[tuple[int, tuple[Any, ...]]]:
    """The rows of a tab that hold anything, or might, with their numbers.   Raises TooLargeError."""
    sheet.reset_dimensions()  # some programs write wrong ones, and rows would be lost
    rows, padded = 0, 0
    for number, values in enumerate(sheet.iter_rows(values_only=True), 1):
        padded += len(values)
        if number > MOST_NUMBERED or padded > MOST_PADDED:
            raise TooLargeError("this tab reaches farther down or to the right than a list does")
        if values:
            rows += any(one is not None for one in values)
            if rows > MOST_ROWS or any(one is not None for one in values[MOST_COLUMNS:]):
                raise TooLargeError(f"this tab has more than {MOST_ROWS:,} rows or {MOST_COLUMNS:,} columns")
            yield number, values[:MOST_COLUMNS]


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
    if isinstance(value, int | float) and abs(value) < BEYOND:
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
