"""A table on a slip: a header such as ``SPH CYL AXIS ADD PRISM``, then a row for each eye.

Cells are told apart by bars, by tabs, or by spaces.  With spaces an empty cell leaves no trace but its place, so a
row with fewer values than columns is read by what stands under what; where that is not clear it is refused.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from dataclasses import dataclass

from quoting.prescription.cells import Cell, read_cells
from quoting.prescription.cursor import Cursor
from quoting.prescription.eyes import Eyes
from quoting.prescription.lexemes import Lexeme
from quoting.prescription.near import EYE_ROLES
from quoting.prescription.spaced import Column, spaced
from quoting.written.kinds import Fault

POWERS = frozenset(("sphere", "cylinder", "axis", "x", "add"))
FIELDS = POWERS | {"prism", "base", "pd", "near pd", "aside"}
OVERFULL = Fault("table-row-unclear", "has more cells than the table has columns", "write one value a column")
WITH_EYE = Fault("table-row-unclear", "has more than the eye in its first cell", "write one value a column")


@dataclass(frozen=True, slots=True)
class Header:
    """The columns of a table without that of the eyes; cells end at ``divider``, which is empty for spaces."""

    columns: tuple[Column, ...]
    divider: str


def read_table(eyes: Eyes) -> bool:
    """Read a table if one begins at this line."""
    cursor = eyes.cursor
    if cursor.at and cursor.pieces[cursor.at - 1].kind != "break":
        return False
    end = _line_end(cursor, cursor.at)
    line = cursor.pieces[cursor.at : end]
    if len({piece.role for piece in line} & POWERS) < 2:
        return False
    header, start = _header(cursor, line), _row_start(cursor, end)
    if header is None or start is None:
        return False
    cursor.tell(line, "the columns of a table")
    while start is not None:
        end = _line_end(cursor, start)
        cursor.at = end
        _row(eyes, header, cursor.pieces[start:end])
        start = _row_start(cursor, end)
    return True


def _line_end(cursor: Cursor, at: int) -> int:
    while at < len(cursor.pieces) and cursor.pieces[at].kind != "break":
        at += 1
    return at


def _row_start(cursor: Cursor, at: int) -> int | None:
    """Where the next row begins: at an eye, behind nothing but strokes and empty lines."""
    while at < len(cursor.pieces) and (cursor.pieces[at].kind == "break" or cursor.pieces[at].plain in "|=-+_:"):
        at += 1
    return at if at < len(cursor.pieces) and cursor.pieces[at].role in EYE_ROLES else None


def _header(cursor: Cursor, line: list[Lexeme]) -> Header | None:
    """The columns, if these pieces are a header: words, no eye spoken of, no field twice."""
    roles = [piece.role for piece in line if piece.role in FIELDS]
    if len(set(roles)) < len(roles) or any(piece.role in ("R", "L", "B") for piece in line):
        return None
    if any(piece.kind not in ("word", "symbol") for piece in line):
        return None
    whole = _line_of(cursor, line[0])
    divider = "|" if "|" in whole else "\t" if "\t" in whole else ""
    if divider:
        cells = _divided(cursor, divider, line)
        roles = [next((piece.role for piece in cell.pieces if piece.role in FIELDS), "") for cell in cells]
        columns = [Column(role, cell.start, cell.end) for role, cell in zip(roles, cells, strict=True)]
    else:
        words = [piece for piece in line if piece.kind == "word"]
        columns = [Column(one.role if one.role in FIELDS else "", one.start, one.end) for one in words]
    if columns and columns[0].role == "":
        columns = columns[1:]  # the column of the eyes
    return Header(tuple(columns), divider)


def _line_of(cursor: Cursor, piece: Lexeme) -> str:
    return cursor.slip.lines[cursor.slip.line_of(piece.start)]


def _divided(cursor: Cursor, divider: str, pieces: list[Lexeme]) -> list[Cell]:
    """The cells of a line with bars or tabs; bars at its ends make no cells."""
    whole = _line_of(cursor, pieces[0])
    at = cursor.slip.starts[cursor.slip.line_of(pieces[0].start)]
    cells: list[Cell] = []
    for text in whole.split(divider):
        inside = [piece for piece in pieces if at <= piece.start < at + len(text)]
        cells.append(Cell("", at, at + len(text), inside))
        at += len(text) + 1
    if divider == "|" and not cells[0].pieces:
        cells = cells[1:]
    if divider == "|" and cells and not cells[-1].pieces and whole.rstrip().endswith("|"):
        cells = cells[:-1]
    return cells


def _row(eyes: Eyes, header: Header, pieces: list[Lexeme]) -> None:
    """One row: the eye, then its cells under the columns."""
    cursor = eyes.cursor
    eyes.begin(pieces[0])
    cells = _cells(cursor, header, pieces) if header.divider else spaced(header.columns, cursor.slip, _values(pieces))
    if isinstance(cells, Fault):
        cursor.refuse(pieces, cells)
        cursor.draft.miss(eyes.sides, "sphere", cursor.mark(pieces))
    else:
        read_cells(eyes, cells)


def _values(pieces: list[Lexeme]) -> list[Lexeme]:
    """What stands behind the eye, without the colon that belongs to it."""
    at = 1
    while at < len(pieces) and pieces[at].plain in ":.)":
        at += 1
    return pieces[at:]


def _cells(cursor: Cursor, header: Header, pieces: list[Lexeme]) -> list[Cell] | Fault:
    """The cells of a row with dividers, each with its column's role."""
    eye, *values = _divided(cursor, header.divider, pieces)
    if any(piece.kind != "symbol" for piece in eye.pieces[1:]):
        return WITH_EYE
    if any(cell.pieces for cell in values[len(header.columns) :]):
        return OVERFULL
    columns = zip(header.columns, values, strict=False)
    return [Cell(column.role, cell.start, cell.end, cell.pieces) for column, cell in columns]
