"""Reads a typed prescription: one line or several, a table, a mail with words around it.

Nothing is guessed in silence: every piece is read, listed as ignored, or refused with its place.

>>> reading = read_slip("OD -2.25 -0.75 x 090 / OS -2.50 DS / PD 63")
>>> reading.prescription.right.axis, reading.prescription.left.sphere, reading.prescription.pd.binocular
(90, -2.5, 63.0)
>>> print(read_slip("OD -225 DS").findings[0].line())
slip:1:4: error: `-225` has no decimal point [point-missing]
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from quoting.prescription import aside
from quoting.prescription.cursor import Cursor
from quoting.prescription.draft import Draft
from quoting.prescription.eyes import STRAY, Eyes
from quoting.prescription.lexemes import Lexeme, Slip
from quoting.prescription.model import Reading
from quoting.prescription.near import add, add_behind, share
from quoting.prescription.prism import prism, prism_behind
from quoting.prescription.pupils import pd, pd_behind
from quoting.prescription.table import read_table
from quoting.written.kinds import Fault

MOST_CHARACTERS = 4000  # a long mail; a slip has a hundred

SIGN = Fault("unreadable", "is a sign without a number", "write the sign before its number, without a space")
UNIT = Fault("unreadable", "stands behind no number it fits", "write it behind its number, or delete it")


def read_slip(
    text: str, name: str = "slip", *, today: date | None = None, max_age_months: int | None = None, child: bool = False
) -> Reading:
    """What a typed text says about both eyes, with every finding.

    ``name`` is the file the findings point into.  With ``today`` the date is looked at; ``max_age_months`` is the
    shop's limit.  ``child``: the wearer is known to be under 18.  Nothing raises.
    """
    slip = Slip(text, name)
    draft = Draft(slip.mark(0, len(text)), "slip")
    if len(text) > MOST_CHARACTERS:
        said = f"this text has {len(text):,} characters; {MOST_CHARACTERS:,} are the most"
        draft.say(draft.start, "slip-too-long", said, "send the lines with the prescription only")
    else:
        _read(slip, draft, today)
    return draft.reading(today, max_age_months, child)


def _read(slip: Slip, draft: Draft, today: date | None) -> None:
    cursor = Cursor.over(slip, draft)
    eyes = Eyes(cursor)
    while cursor.at < len(cursor.pieces):
        if not read_table(eyes):
            _piece(eyes, cursor.take(), today)
    cursor.tell_prose()
    share(eyes)


def _piece(eyes: Eyes, lexeme: Lexeme, today: date | None) -> None:
    """One piece that begins something."""
    cursor = eyes.cursor
    if lexeme.kind == "number":
        if not (prism_behind(eyes, lexeme) or pd_behind(eyes, lexeme) or add_behind(eyes, lexeme)):
            eyes.number(lexeme)
    elif lexeme.role == "until":
        aside.until(cursor, lexeme, today)
    elif lexeme.role in OF_EYES:
        OF_EYES[lexeme.role](eyes, lexeme)
    else:
        of_words = OF_WORDS.get(lexeme.role) or OF_WORDS.get(lexeme.kind)
        if of_words is not None:
            of_words(cursor, lexeme)


def _broken(cursor: Cursor, lexeme: Lexeme) -> None:
    cursor.refuse([lexeme], STRAY)


def _symbol(cursor: Cursor, lexeme: Lexeme) -> None:
    if lexeme.plain in "+±∓":
        cursor.refuse([lexeme], SIGN)


def _sign(cursor: Cursor, lexeme: Lexeme) -> None:
    """The words minus and plus where no number follows."""
    if cursor.is_role("numeral", line=True):
        cursor.refuse([lexeme], SIGN)
    else:
        cursor.prose(lexeme)


def _unit(cursor: Cursor, lexeme: Lexeme) -> None:
    """A unit that no number took."""
    before = cursor.before()
    if before is not None and before.kind == "number":
        cursor.refuse([lexeme], UNIT)
    elif lexeme.kind == "word":
        cursor.prose(lexeme)


OF_EYES: dict[str, Callable[[Eyes, Lexeme], None]] = {
    **dict.fromkeys(("R", "L", "B", "R?", "L?", "B?", "B-LR", "B-LR?"), Eyes.eye),
    **dict.fromkeys(("sphere", "cylinder"), Eyes.label),
    **dict.fromkeys(("axis", "x"), Eyes.axis),
    **dict.fromkeys(("prism", "base", "in", "out", "up", "down"), prism),
    **dict.fromkeys(("pd", "near pd"), pd),
    "plano": Eyes.number,
    "infinity": Eyes.infinity,
    "add": add,
    "balance": aside.balance,
}
OF_WORDS: dict[str, Callable[[Cursor, Lexeme], None]] = {
    "broken": _broken,
    "date": aside.dated,
    "acuity": aside.set_aside,
    "symbol": _symbol,
    "word": Cursor.prose,
    **dict.fromkeys(("diopter", "mm", "degree"), _unit),
    **dict.fromkeys(("minus", "plus"), _sign),
    "none": aside.nothing,
    "numeral": aside.numeral,
    "born": aside.born,
    "aside": aside.set_aside,
}
