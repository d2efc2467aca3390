"""Cells of a workbook that are merged downward: what stands in the first counts for each row beside it.

Source: ECMA-376, part 1, `mergeCell` of SpreadsheetML (from memory): ``ref`` is a range such as A6:A7; the value
stands in its first cell.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Sequence

from quoting.keeping.cells import Cell, Row
from quoting.keeping.sheet_bounds import MOST_COLUMNS, MOST_PADDED

MERGED = re.compile(rb"""<(?:\w+:)?mergeCell\s[^>]*?ref=["']([A-Z]{1,3})([0-9]{1,7}):([A-Z]{1,3})([0-9]{1,7})["']""")
Range = tuple[int, int, int]  # column from 0, first and last row from 1


def merged_down(raw: bytes, part: str) -> list[Range]:
    """The ranges of one tab, by the name of its part in the package, that go down: their first column."""
    with zipfile.ZipFile(io.BytesIO(raw)) as packed:
        held = packed.read(part.lstrip("/"))
    found = [(_column(one[1].decode()), int(one[2]), int(one[4])) for one in MERGED.finditer(held)]
    return [one for one in found if one[0] < MOST_COLUMNS and one[1] < one[2]]


def filled_down(rows: Sequence[Row], ranges: Sequence[Range]) -> tuple[list[Row], int]:
    """The rows with the first cell of each range in all of its rows that hold anything, and how many were filled."""
    at = {row.number: index for index, row in enumerate(rows)}
    result, count, left = list(rows), 0, MOST_PADDED
    for column, first, last in ranges:
        start = at.get(first, len(rows))
        cell = rows[start].cell(column) if start < len(rows) else Cell("")
        for index in range(start + 1, len(rows)) if cell.text or cell.unfinished else ():
            left -= 1
            if rows[index].number > last or left < 0:
                break
            if not result[index].cell(column).text:
                result[index] = _with(result[index], column, cell)
                count += 1
    return result, count


def _with(row: Row, column: int, cell: Cell) -> Row:
    cells = [*row.cells, *[Cell("")] * (column + 1 - len(row.cells))]
    cells[column] = cell
    return Row(row.number, row.line, tuple(cells))


def _column(name: str) -> int:
    """A column by its letters, counted from 0."""
    number = 0
    for letter in name:
        number = number * 26 + ord(letter) - ord("A") + 1
    return number - 1
