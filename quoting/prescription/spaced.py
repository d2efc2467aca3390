"""Rows of a table whose cells are apart by spaces alone."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from quoting.prescription.cells import Cell
from quoting.prescription.lexemes import Lexeme, Slip
from quoting.written.kinds import Fault

UNCLEAR = Fault(
    "table-row-unclear", "does not say which value belongs to which column", "put a dash into each empty cell"
)
BEGINS = ("plano", "sphere", "none", "x")  # with numbers and dashes: what begins a value


@dataclass(frozen=True, slots=True)
class Column:
    """One column: what it holds, and from where to where its title stands in the text."""

    role: str
    start: int
    end: int


def spaced(columns: tuple[Column, ...], slip: Slip, values: list[Lexeme]) -> list[Cell] | Fault:
    """The values of a row under their columns."""
    wide = any(right.start - left.end > 1 for left, right in pairwise(values))
    groups = _apart(values) if wide else _by_value(values)
    if len(groups) < len(columns) and not wide:
        columns = _narrow(columns, groups)
    if len(groups) == len(columns):
        return [_cell(column, group) for column, group in zip(columns, groups, strict=True)]
    return _under(columns, slip, groups) if wide and len(groups) < len(columns) else UNCLEAR


def _apart(values: list[Lexeme]) -> list[list[Lexeme]]:
    """Values apart by two spaces or more."""
    groups: list[list[Lexeme]] = []
    for piece in values:
        if groups and piece.start - groups[-1][-1].end <= 1:
            groups[-1].append(piece)
        else:
            groups.append([piece])
    return groups


def _by_value(values: list[Lexeme]) -> list[list[Lexeme]]:
    """Values apart by single spaces: each begins with a number, a dash or a word that stands for one."""
    groups: list[list[Lexeme]] = []
    for piece in values:
        begins = piece.kind in ("number", "broken") or piece.role in BEGINS or piece.plain == "-"
        joins = bool(groups) and (groups[-1][-1].role == "x" or (piece.plain == "-" and groups[-1][-1].plain == "-"))
        if not groups or (begins and not joins):
            groups.append([piece])
        else:
            groups[-1].append(piece)
    return groups


def _narrow(columns: tuple[Column, ...], groups: list[list[Lexeme]]) -> tuple[Column, ...]:
    """The columns that values apart by single spaces can only mean; all of them where that is not clear."""
    roles = [column.role for column in columns]
    if "base" in roles and len(groups) == len(columns) - 1:  # amount and base make one value: 2 BI
        return tuple(column for column in columns if column.role != "base")
    if roles[:3] != ["sphere", "cylinder", "axis"]:
        return columns
    if len(groups) in (1, 3) and not any(group[0].role == "sphere" for group in groups):
        return columns[: len(groups)]
    if len(groups) > 1 and groups[1][0].role == "sphere":  # -2.50 DS +2.00: no axis behind DS
        return (*columns[:2], *columns[3:])[: len(groups)] if len(groups) in (2, len(columns) - 1) else columns
    return columns


def _under(columns: tuple[Column, ...], slip: Slip, groups: list[list[Lexeme]]) -> list[Cell] | Fault:
    """Each value under the one title it stands under."""
    begins = slip.starts[slip.line_of(groups[0][0].start)]
    above = slip.starts[slip.line_of(columns[0].start)]
    cells: list[Cell] = []
    last = -1
    for group in groups:
        start, end = group[0].start - begins, group[-1].end - begins
        under = [i for i, c in enumerate(columns) if c.start - above < end and start < c.end - above]
        if len(under) != 1 or under[0] <= last:
            return UNCLEAR
        last = under[0]
        cells.append(_cell(columns[last], group))
    return cells


def _cell(column: Column, group: list[Lexeme]) -> Cell:
    return Cell(column.role, group[0].start, group[-1].end, group)
