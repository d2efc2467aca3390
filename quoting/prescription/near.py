"""The addition on a slip: per eye, as a pair, or once for both eyes.

What it does with an addition told once: behind the second eye, it is read for both eyes, and that is said.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.prescription import figures
from quoting.prescription.cursor import Cursor, magnitude
from quoting.prescription.draft import Given
from quoting.prescription.eyes import BASE_ROLES, Eyes, follows_eye
from quoting.prescription.figures import written
from quoting.prescription.lexemes import Lexeme
from quoting.prescription.words import EYES
from quoting.written.kinds import Fault

ONE_EYE = ("R", "L", "R?", "L?")
EYE_ROLES = (*ONE_EYE, "B", "B?", "B-LR", "B-LR?")
OTHER_NUMBER = ("prism", "pd", "near pd", *BASE_ROLES)  # behind a number, these say that it is no addition
MOST_OF_PAIR = 9.0  # a second number behind a slash that is more than this is no addition


def add(eyes: Eyes, lexeme: Lexeme) -> None:
    """The word add, and what follows it."""
    cursor = eyes.cursor
    apart = _stands_apart(cursor)
    if _eye_ahead(cursor, 0):
        _by_eye(eyes, [lexeme])
    elif number := cursor.accept_number():
        second = _second(cursor)
        if second:
            _pair(eyes, [lexeme, *number], second, ("right", "left"))
        else:
            _once(eyes, [lexeme, *number, *cursor.accept("diopter")], apart, number[0])
    elif empty := cursor.accept_nothing():
        cursor.tell([lexeme, *empty], "no addition")
    elif _is_verb(cursor, lexeme):
        cursor.prose(lexeme)
    else:
        cursor.refuse([lexeme], Fault("unreadable", "has no value", "write add +2.00, or delete the word"))


def add_behind(eyes: Eyes, number: Lexeme) -> bool:
    """``+2.00 add``: whether this number is an addition whose word stands behind it."""
    cursor = eyes.cursor
    signed = number.plain[0] == "+" or "." in number.plain or "," in number.plain
    if not cursor.is_role("add", line=True) or cursor.is_number(ahead=1) or not signed:
        return False
    if eyes.sides and not any("sphere" in cursor.draft.eyes[side] for side in eyes.sides):
        return False
    apart = _stands_apart(cursor)
    _once(eyes, [number, cursor.skip_to()], apart, number)
    return True


def add_cell(eyes: Eyes) -> None:
    """An addition in the row of an eye."""
    if number := eyes.cursor.accept_number():
        _give(eyes, number + eyes.cursor.accept("diopter"), number[0], eyes.sides)


def share(eyes: Eyes) -> None:
    """At the end: an addition that stands once, behind the second eye, is meant for both."""
    draft = eyes.cursor.draft
    if len(eyes.loose_adds) != 1:
        return
    side, apart = eyes.loose_adds[0]
    other = "left" if side == "right" else "right"
    mine, theirs = draft.eyes[side], draft.eyes[other]
    if "sphere" not in mine or "sphere" not in theirs or "add" in theirs:
        return
    if theirs["sphere"].mark < mine["sphere"].mark:
        given = mine["add"]
        draft.put((other,), "add", given.value, given.mark)
        said = f"the addition {written(given.value)} D stands once and is read for both eyes"
        hint = f"if it is for the {side} eye alone, write add {side[0].upper()} {written(given.value)}"
        draft.say(given.mark, "add-for-both", said, hint, "note" if apart else "warning")
        draft.reword(given.mark, f"both eyes, addition {written(given.value)} D")


def _by_eye(eyes: Eyes, parts: list[Lexeme]) -> None:
    """``add R +2.00 L +2.25``, ``add R/L 2.00/2.25``, ``add OU 2.00``."""
    cursor = eyes.cursor
    while _eye_ahead(cursor, 0):
        eye, number = cursor.skip_to(), cursor.skip_to()
        sides = EYES[eye.role.rstrip("?")]
        second = _second(cursor) if len(sides) == 2 else []
        if second:
            _pair(eyes, [*parts, eye, number], second, sides)
        else:
            _give(eyes, [*parts, eye, number, *cursor.accept("diopter")], number, sides)
        parts = []


def _eye_ahead(cursor: Cursor, ahead: int) -> bool:
    """Whether an eye and a number come next; a minus is no addition but begins the eye's power."""
    number = cursor.peek(ahead + 1)
    if not cursor.is_role(*EYE_ROLES, ahead=ahead) or number is None:
        return False
    return number.kind == "number" and number.plain[0] != "-"


def _pair(eyes: Eyes, first: list[Lexeme], second: list[Lexeme], sides: tuple[str, ...]) -> None:
    """Two additions with a slash: the right eye's first, unless the eyes are named the other way round."""
    _give(eyes, first, first[-1], sides[:1])
    _give(eyes, [*second, *eyes.cursor.accept("diopter")], second[-1], sides[1:])


def _second(cursor: Cursor) -> list[Lexeme]:
    """The second addition of a pair, taken, if a slash leads to one."""
    here = cursor.pieces[cursor.at : cursor.at + 3]
    if len(here) < 2 or here[0].plain != "/" or here[1].kind != "number" or here[1].plain[0] == "-":
        return []
    if len(here) == 3 and here[2].role in OTHER_NUMBER:
        return []
    value = figures.addition(here[1].plain)
    if isinstance(value, Fault) or value > MOST_OF_PAIR:
        return []
    cursor.at += 2
    return [here[1]]


def _give(eyes: Eyes, parts: list[Lexeme], number: Lexeme, sides: tuple[str, ...]) -> bool:
    """Put an addition into the draft and say how it was read; whether that went well."""
    cursor, draft = eyes.cursor, eyes.cursor.draft
    value = cursor.value(parts, figures.addition, magnitude(number))
    mark = cursor.mark(parts)
    if value is None:
        draft.miss(sides, "add", mark)
        return False
    good = draft.put(sides, "add", value, mark)
    name = "both eyes" if len(sides) > 1 else f"{sides[0]} eye"
    cursor.tell(parts, f"{'' if good else 'not used: '}{name}, addition {written(value)} D")
    return good


def _once(eyes: Eyes, parts: list[Lexeme], apart: bool, number: Lexeme) -> None:
    """An addition for the eye being spoken of, or, before any, for both."""
    cursor, draft = eyes.cursor, eyes.cursor.draft
    elsewhere = not follows_eye(cursor, 1) or cursor.is_role("pd", "near pd", ahead=1)
    if elsewhere and cursor.is_role("B", "B?", line=True):
        _give(eyes, [*parts, cursor.skip_to()], number, ("right", "left"))
        return
    if not eyes.sides and draft.shared_add is None:
        value = cursor.value(parts, figures.addition, magnitude(number))
        if value is not None:
            draft.shared_add = Given(value, cursor.mark(parts))
            cursor.tell(parts, f"both eyes, addition {written(value)} D")
        return
    eyes.filled.append("add")
    if _give(eyes, parts, number, eyes.sides or ("right", "left")) and len(eyes.sides) == 1:
        eyes.loose_adds.append((eyes.sides[0], apart))


def _stands_apart(cursor: Cursor) -> bool:
    """Whether the piece just taken begins a line or follows a divider, and so may speak of both eyes."""
    before = cursor.before()
    return before is None or before.kind == "break" or before.plain in ("/", ";", "|")


def _is_verb(cursor: Cursor, lexeme: Lexeme) -> bool:
    """``please add a tint``: the English word."""
    after = cursor.pieces[cursor.at] if cursor.at < len(cursor.pieces) else None
    words = after is not None and after.kind == "word" and after.role in ("", "none", "and?", "B?")
    return words and not lexeme.plain.isupper()
