"""Prism on a slip: ``2 BI``, ``1.5Δ base up``, ``prism 2 in 1 up``, ``2^ @ 180``, ``BI 2``.

A base angle is seen facing the wearer, 0 to the observer's right: nasal for the right eye, temporal for the left
(ISO 13666; the same as the 360 degree notation of the workshops).
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterable

from quoting.findings import Mark
from quoting.kernel.power import components
from quoting.prescription import figures
from quoting.prescription.cursor import Cursor
from quoting.prescription.draft import Draft
from quoting.prescription.eyes import BASE_ROLES, Eyes
from quoting.prescription.lexemes import Lexeme
from quoting.prescription.near import EYE_ROLES
from quoting.prescription.words import BASES, EYES
from quoting.written.kinds import Fault

WEAK_BASES = tuple(f"{base}?" for base in BASES)
DIRECTIONS = (*BASES, *WEAK_BASES)
NO_BASE = Fault("base-missing", "is a prism without a base", "write BI, BO, BU or BD behind it, such as 2 BI")
NO_AMOUNT = Fault("unreadable", "is a base without an amount of prism", "write the amount before it, such as 2 BI")


def resolved(side: str, amount: float, angle: float) -> dict[str, float]:
    """Parts of a prism with a base angle: its amount by base in, out, up, down.

    >>> resolved("right", 2.0, 0.0), resolved("left", 2.0, 0.0), resolved("left", 1.0, 270.0)
    ({'in': 2.0}, {'out': 2.0}, {'down': 1.0})
    """
    x, y = components(amount, angle)
    inward = x if side == "right" else -x
    parts = {"in" if inward > 0 else "out": abs(inward), "up" if y > 0 else "down": abs(y)}
    return {base: part for base, part in parts.items() if part}


def prism(eyes: Eyes, lexeme: Lexeme) -> None:
    """The word prism or its sign, or a base, first."""
    cursor = eyes.cursor
    if lexeme.role != "prism":
        _base_first(eyes, lexeme)
    elif cursor.is_role(*EYE_ROLES) and _term_ahead(cursor, 1):
        parts = [lexeme]
        while cursor.is_role(*EYE_ROLES) and _term_ahead(cursor, 1):
            parts.append(cursor.skip_to())
            _terms(eyes, parts, EYES[parts[-1].role.rstrip("?")])
            parts = []
    elif _term_ahead(cursor, 0) or cursor.is_number(line=True):
        _terms(eyes, [lexeme], eyes.sides)
    elif empty := cursor.accept_nothing():
        cursor.tell([lexeme, *empty], "no prism")
    else:
        cursor.refuse([lexeme], Fault("unreadable", "has no value", "write it like prism 2 BI, or delete the word"))


def prism_behind(eyes: Eyes, number: Lexeme) -> bool:
    """Whether this number is an amount of prism, as what stands behind it says; if so, it is read."""
    cursor = eyes.cursor
    if number.plain[0] in "+-" and "sphere" not in eyes.filled:
        return False
    base_behind = cursor.is_role(*BASE_ROLES, line=True) and not _base_begins(cursor)
    if not base_behind and not _is_unit(cursor, number):
        return False
    cursor.at -= 1
    _terms(eyes, [], eyes.sides)
    return True


def _is_unit(cursor: Cursor, number: Lexeme) -> bool:
    """Whether Δ, prism or pd is the unit of this number: ``2Δ BI``, ``2 pd base in``; not so ``-1.00 prism 2 BI``."""
    unit = cursor.peek(line=True)
    if unit is None or number.plain[0] in "+-" or unit.role not in ("prism", "pd"):
        return False
    if unit.kind == "symbol":
        return not cursor.is_number(ahead=1, line=True)
    return cursor.is_role(*DIRECTIONS, "base", ahead=1, line=True)


def prism_cell(eyes: Eyes) -> None:
    """A prism in the row of an eye."""
    if eyes.cursor.is_number() or eyes.cursor.is_role(*BASES):
        _terms(eyes, [], eyes.sides)


def _base_begins(cursor: Cursor) -> bool:
    """``plano BI 2``, ``0.00 BI 2``: whether the base next begins a prism of its own instead of ending one."""
    pieces = cursor.pieces[cursor.at : cursor.at + 3]
    if len(pieces) < 2 or pieces[0].role not in BASES or pieces[1].kind != "number" or pieces[1].plain[0] in "+-":
        return False
    return len(pieces) == 2 or pieces[2].role not in (*DIRECTIONS, "base", "prism")


def _term_ahead(cursor: Cursor, ahead: int) -> bool:
    """Whether an amount with its base, or a base with its amount, comes next on this line."""
    first, second = cursor.peek(ahead, line=True), cursor.peek(ahead + 1, line=True)
    if first is None:
        return False
    if first.kind == "number":
        if first.plain[0] in "+-" or second is None:
            return False
        return second.role in (*DIRECTIONS, "base", "prism") or second.plain == "@"
    return first.role in BASES and second is not None and second.kind == "number"


def _terms(eyes: Eyes, parts: list[Lexeme], sides: tuple[str, ...]) -> None:
    """One or more amounts with their bases."""
    cursor = eyes.cursor
    while True:
        if base := cursor.accept(*BASES):
            _base_first(eyes, base[0], [*parts], sides)
        else:
            _amount_first(eyes, [*parts, *cursor.accept_number(line=True)], sides)
        parts = cursor.accept("and?") if cursor.is_role("and?", line=True) and _term_ahead(cursor, 1) else []
        if not parts and not _term_ahead(cursor, 0):
            return


def _amount_first(eyes: Eyes, parts: list[Lexeme], sides: tuple[str, ...]) -> None:
    cursor = eyes.cursor
    number = parts[-1]
    parts = parts + cursor.accept("prism")
    if cursor.is_role(*BASES, "base", ahead=1, line=True):
        parts = parts + cursor.accept("pd")
    base = cursor.accept(*DIRECTIONS)
    if not base and (marked := cursor.accept("base", "x")):
        parts = parts + marked
        base = cursor.accept(*DIRECTIONS) or cursor.accept_number(line=True)
    parts = parts + base
    if base and base[0].kind == "number":
        parts = parts + cursor.accept("degree")
    amount = cursor.value(parts, figures.prism, number.plain)
    if not base and amount:
        cursor.refuse(parts, NO_BASE)
    elif amount is not None:
        _give(eyes, parts, sides, amount, base[0] if base else None)


def _base_first(
    eyes: Eyes, lexeme: Lexeme, before: list[Lexeme] | None = None, sides: tuple[str, ...] | None = None
) -> None:
    """``BI 2``, ``base in 2``."""
    cursor = eyes.cursor
    parts = [*(before or []), lexeme]
    if lexeme.role == "base":
        after = cursor.peek(line=True)
        if after is not None and after.kind == "word" and not after.role:
            cursor.prose(lexeme)
        else:
            cursor.refuse(parts, NO_AMOUNT)
        return
    number = cursor.accept_number(line=True)
    if not number or number[0].plain[0] in "+-":
        cursor.at -= len(number)
        cursor.refuse(parts, NO_AMOUNT)
        return
    parts = parts + number
    parts = parts + cursor.accept("prism")
    amount = cursor.value(parts, figures.prism, number[0].plain)
    if amount is not None:
        _give(eyes, parts, eyes.sides if sides is None else sides, amount, lexeme)


def _give(eyes: Eyes, parts: list[Lexeme], sides: tuple[str, ...], amount: float, base: Lexeme | None) -> None:
    """Put a prism into the draft and say how it was read."""
    cursor = eyes.cursor
    if not sides:
        said = "is given for no eye"
        cursor.refuse(parts, Fault("eye-missing", said, "write OD for the right eye or OS for the left eye before it"))
        return
    angle = None
    if base is not None and base.kind == "number":
        value = cursor.value(parts, figures.base_angle, base.plain)
        if value is None:
            return
        angle = value
    name = "both eyes" if len(sides) > 1 else f"{sides[0]} eye"
    shown = _put(cursor.draft, sides, amount, base.role if base else "", angle, cursor.mark(parts))
    cursor.tell(parts, f"{name}, {shown}" if amount else f"{name}, no prism")


def _put(draft: Draft, sides: Iterable[str], amount: float, base: str, angle: float | None, mark: Mark) -> str:
    shown: list[str] = []
    for side in sides:
        parts = {base.rstrip("?"): amount} if angle is None else resolved(side, amount, angle)
        for direction, part in parts.items():
            if part:
                draft.put_prism((side,), part, direction, mark)
        words = " and ".join(f"{round(part, 2):g}Δ base {direction}" for direction, part in parts.items())
        if not shown or shown[-1] != words:
            shown.append(words)
    return "prism " + "; ".join(shown)
