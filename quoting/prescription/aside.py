"""What stands on a slip beside the powers: the date, visual acuity, vertex distance, and words that say no."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from quoting.prescription.cursor import Cursor
from quoting.prescription.dates import day
from quoting.prescription.eyes import Eyes
from quoting.prescription.lexemes import Lexeme
from quoting.written.kinds import Fault

NUMERAL = Fault("unreadable", "is a number in words", "write it in digits")
NOTHING = {"add": "no addition", "prism": "no prism", "cylinder": "no cylinder", "pd": "no pupillary distance"}


@dataclass(frozen=True, slots=True)
class Clock:
    """What today is, for those who say so, and how old a prescription may be."""

    today: date | None = None
    max_age_months: int | None = None


def dated(cursor: Cursor, lexeme: Lexeme) -> None:
    """The day the prescription was written."""
    value = _day(cursor, [lexeme], lexeme)
    if value is not None:
        cursor.draft.put_date(value, cursor.mark([lexeme]))
        cursor.tell([lexeme], f"written on {value}")


def born(cursor: Cursor, lexeme: Lexeme) -> None:
    """A date of birth is nothing for a lens."""
    piece = cursor.peek(line=True)
    if piece is not None and piece.kind == "date":
        cursor.tell([lexeme, cursor.skip_to()], "a date of birth: not used")
    else:
        cursor.prose(lexeme)


def until(cursor: Cursor, lexeme: Lexeme, today: date | None) -> None:
    """The day up to which the prescription is valid."""
    piece = cursor.peek(line=True)
    if piece is None or piece.kind != "date":
        cursor.prose(lexeme)
        return
    parts = [lexeme, cursor.skip_to()]
    value = _day(cursor, parts, parts[-1])
    if value is None:
        return
    cursor.tell(parts, f"valid until {value}")
    if today is not None and value < today:
        said = f"the prescription was valid until {value}; today is {today}"
        cursor.draft.say(cursor.mark(parts), "expired", said, "have the eyes examined again", "warning")


def set_aside(cursor: Cursor, lexeme: Lexeme) -> None:
    """Visual acuity and vertex distance: understood, but not part of what a lens is ordered by here."""
    parts = [lexeme]
    if lexeme.kind != "acuity":
        piece = cursor.peek(line=True)
        if piece is None or not (piece.kind == "acuity" or (piece.kind == "number" and piece.plain[0] not in "+-")):
            cursor.prose(lexeme)
            return
        parts += [cursor.skip_to(), *cursor.accept("mm")]
    vertex = lexeme.plain.lower().endswith(("vertex", "bvd", "vertex distance"))
    cursor.tell(parts, "vertex distance: not used here" if vertex else "visual acuity: not used")
    if vertex:
        said = f"`{cursor.text(parts)}` is not read as part of the prescription"
        cursor.draft.say(cursor.mark(parts), "set-aside", said, "give it with the measurements", "note")


def balance(eyes: Eyes, lexeme: Lexeme) -> None:
    """A balance lens has whatever power makes the pair look right; nobody wrote it down."""
    cursor = eyes.cursor
    if not eyes.sides or "sphere" in eyes.filled:
        cursor.prose(lexeme)
        return
    hint = "ask the prescriber for a power, or leave the eye out if it gets no lens"
    cursor.refuse([lexeme], Fault("balance-lens", "says no power", hint))
    cursor.draft.miss(eyes.sides, "sphere", cursor.mark([lexeme]))
    eyes.filled.append("sphere")


def nothing(cursor: Cursor, lexeme: Lexeme) -> None:
    """``no prism``, ``without add``."""
    if named := cursor.accept(*NOTHING):
        cursor.tell([lexeme, *named], NOTHING[named[0].role])
    else:
        cursor.prose(lexeme)


def numeral(cursor: Cursor, lexeme: Lexeme) -> None:
    """``two`` behind a word of the prescription is a number nobody wrote; elsewhere it is a word."""
    before = cursor.before()
    if before is not None and (before.kind == "number" or before.role not in ("", "and?", "numeral", "none")):
        cursor.refuse([lexeme], NUMERAL)
    else:
        cursor.prose(lexeme)


def _day(cursor: Cursor, parts: list[Lexeme], lexeme: Lexeme) -> date | None:
    value = day(lexeme.plain)
    if isinstance(value, Fault):
        cursor.refuse(parts, value, "warning" if value.code == "date-ambiguous" else "error")
        return None
    return value
