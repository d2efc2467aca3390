"""Rows of cells as a spreadsheet or a delimited text has them."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from quoting.findings import Finding, Mark


@dataclass(frozen=True, slots=True)
class Cell:
    """What a cell shows; ``number`` where the file itself says that it is one."""

    text: str
    number: Decimal | None = None
    unfinished: bool = False  # a formula whose result was not saved


@dataclass(frozen=True, slots=True)
class Row:
    """One row with its number in the file, from 1; ``line`` is the text of it where the file is one."""

    number: int
    line: str
    cells: tuple[Cell, ...]

    @property
    def filled(self) -> bool:
        """Whether anything stands in it."""
        return any(cell.text or cell.unfinished for cell in self.cells)

    def cell(self, place: int) -> Cell:
        """The cell of a column, counted from 0; empty where the row ends sooner."""
        return self.cells[place] if place < len(self.cells) else Cell("")

    def place(self, column: int) -> str:
        """The cell's name: ``C5``."""
        return f"{letters(column)}{self.number}"

    def mark(self, file: str, column: int) -> Mark:
        """Where a cell stands: in a text at its letters, in a workbook at row and column."""
        if not self.line:
            return Mark(file, self.number, column + 1)
        start = 0
        for before in self.cells[:column]:
            start = max(start, self.line.find(before.text, start) + len(before.text))
        text = self.cell(column).text
        found = self.line.find(text, start)
        return Mark(file, self.number, max(found, start) + 1, self.line, max(1, len(text)))


@dataclass(frozen=True, slots=True)
class Sheet:
    """The rows that hold anything, what was decided to read them, and what was found."""

    shown: str
    rows: tuple[Row, ...]
    said: tuple[str, ...]
    findings: tuple[Finding, ...] = ()


def letters(column: int) -> str:
    """The name of a column, counted from 0.

    >>> letters(0), letters(25), letters(26), letters(701)
    ('A', 'Z', 'AA', 'ZZ')
    """
    name, left = "", column + 1
    while left:
        left, place = divmod(left - 1, 26)
        name = chr(ord("A") + place) + name
    return name
