"""One cell of a table: its column says what it holds."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from dataclasses import dataclass

from quoting.prescription.cursor import IGNORED, Cursor
from quoting.prescription.eyes import STRAY, Eyes
from quoting.prescription.lexemes import Lexeme
from quoting.prescription.near import add_cell
from quoting.prescription.prism import prism_cell
from quoting.prescription.pupils import pd_cell


@dataclass(frozen=True, slots=True)
class Cell:
    """The pieces in one place of a table, and what its column holds."""

    role: str
    start: int
    end: int
    pieces: list[Lexeme]


def read_cells(eyes: Eyes, cells: list[Cell]) -> None:
    """Read the cells of one eye; a base in a column of its own belongs to the prism before it."""
    merged: list[Cell] = []
    for cell in cells:
        if cell.role == "base" and merged and merged[-1].role == "prism":
            before = merged[-1]
            merged[-1] = Cell("prism", before.start, cell.end, before.pieces + cell.pieces)
        else:
            merged.append(cell)
    for cell in merged:
        _cell(eyes, cell)


def _cell(row: Eyes, cell: Cell) -> None:
    cursor = row.cursor.part(cell.pieces)
    eyes = Eyes(cursor, row.sides, row.filled, muted=row.muted)
    if cursor.peek() is None:
        return
    if empty := cursor.accept("none"):
        cursor.tell(empty, "nothing")
    elif cell.role in ("sphere", "cylinder"):
        _power(eyes, cell.role)
    elif cell.role in ("axis", "x"):
        if number := [*cursor.accept("x", "axis"), *cursor.accept_number()]:
            eyes.degrees(number) if number[-1].kind == "number" else cursor.refuse(number, STRAY)
    elif cell.role == "add":
        add_cell(eyes)
    elif cell.role == "prism":
        prism_cell(eyes)
    elif cell.role in ("pd", "near pd"):
        pd_cell(eyes, cell.role == "near pd")
    elif cell.role == "aside":
        cursor.tell(cell.pieces, "not used")
        return
    row.muted = eyes.muted
    _rest(cursor)


def _power(eyes: Eyes, what: str) -> None:
    """A power; in the column of the cylinder ``DS`` says that there is none."""
    cursor = eyes.cursor
    if number := cursor.accept_number() or cursor.accept("plano"):
        eyes.power(number, what)
        if spherical := cursor.accept("sphere" if what == "sphere" else "cylinder"):
            cursor.tell(spherical, "diopters sphere" if what == "sphere" else "diopters cylinder")
    elif what == "cylinder" and (spherical := cursor.accept("sphere")):
        cursor.tell(spherical, f"{eyes.name}, no cylinder")


def _rest(cursor: Cursor) -> None:
    """What is left in a cell: words are listed, anything else is refused."""
    while cursor.peek() is not None:
        piece = cursor.skip_to()
        if piece.kind == "word" and not piece.role:
            cursor.tell([piece], IGNORED)
        else:
            cursor.refuse([piece], STRAY)
