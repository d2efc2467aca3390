"""Pupillary distances on a slip: ``PD 63``, ``PD 31.5/32``, ``PD R 31.5 L 32``, ``PD 63/60``, ``near PD 60``.

What a number means follows from its size: nobody has 40 mm from nose to pupil, and nobody much less between
the pupils (Dodgson, Proc. SPIE 5291 (2004) 36: children from five years on have at least about 40 mm).
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.prescription import figures
from quoting.prescription.cursor import Cursor, magnitude
from quoting.prescription.distances import LEAST_NEAR_PART
from quoting.prescription.eyes import Eyes
from quoting.prescription.figures import LEAST_BINOCULAR_MM
from quoting.prescription.lexemes import Lexeme
from quoting.prescription.near import EYE_ROLES, ONE_EYE
from quoting.prescription.words import EYES
from quoting.written.kinds import Fault

BETWEEN = ("/", ",", "&", "-", "|", "+", "(", ")")
NO_NUMBER = Fault("pd-without-number", "has no number behind it", "write it like PD 63 or PD 31.5/32")
UNCLEAR = Fault("pd-unclear", "can be read in several ways", "write PD 63, or PD R 31.5 L 32, or near PD 60")


def pd(eyes: Eyes, lexeme: Lexeme) -> None:
    """The word PD, and what follows it."""
    cursor = eyes.cursor
    parts = [lexeme]
    near = lexeme.role == "near pd"
    if kind := cursor.accept("near?", "far?"):
        parts, near = parts + kind, kind[0].role == "near?"
    if cursor.is_role(*ONE_EYE, line=True) and _unsigned_ahead(cursor):
        _by_eye(cursor, parts, near)
        return
    order: tuple[str, ...] = ("right", "left")
    if pair := cursor.accept(*EYE_ROLES) if _unsigned_ahead(cursor) else []:
        parts, order = parts + pair, EYES[pair[0].role.rstrip("?")]
    numbers = _numbers(cursor)
    if not numbers:
        cursor.refuse(parts, NO_NUMBER, "warning")
        return
    _read(eyes, parts, numbers, near, order)
    if cursor.is_role("near?", line=True) and cursor.is_number(ahead=1, line=True):
        parts = [cursor.skip_to()]
        _read(eyes, parts, _numbers(cursor), True, order)


def pd_behind(eyes: Eyes, number: Lexeme) -> bool:
    """``63 mm PD``, ``31.5/32 PD``: whether this number is one, with the word behind it; if so, it is read."""
    cursor = eyes.cursor
    start = cursor.at
    cursor.accept("mm")
    numbers = [number, *_numbers(cursor)]
    sensible = all(isinstance(figures.pd(magnitude(one)), float) for one in numbers)
    label = cursor.accept("pd", "near pd") if sensible else []
    eye_first = cursor.is_role(*EYE_ROLES, line=True) and _distance_ahead(cursor, 1)
    if not label or cursor.is_number(line=True) or eye_first:
        cursor.at = start
        return False
    _read(eyes, [], numbers, label[0].role == "near pd", ("right", "left"))
    return True


def pd_cell(eyes: Eyes, near: bool) -> None:
    """A pupillary distance in the row of an eye: its own half, or the whole."""
    if numbers := _numbers(eyes.cursor):
        _read(eyes, [], numbers, near, ("right", "left"))


def _numbers(cursor: Cursor) -> list[Lexeme]:
    """Up to three numbers on this line that may be distances, with ``mm`` behind any of them."""
    found: list[Lexeme] = []
    while len(found) < 3 and cursor.is_number(line=True):
        if found and not _goes_on(cursor):
            break
        found += cursor.accept_number(line=True)
        cursor.accept("mm")
        if cursor.is_role("and?", line=True) and cursor.is_number(ahead=1, line=True):
            cursor.skip_to()
    return found


def _distance_ahead(cursor: Cursor, ahead: int) -> bool:
    number = cursor.peek(ahead, line=True)
    return number is not None and number.kind == "number" and isinstance(figures.pd(magnitude(number)), float)


def _unsigned_ahead(cursor: Cursor) -> bool:
    """Whether the number behind the next piece has no sign: a signed one is the power of the eye before it."""
    number = cursor.peek(1, line=True)
    return number is not None and number.kind == "number" and magnitude(number)[0] not in "+-"


def _goes_on(cursor: Cursor) -> bool:
    """Whether the next number belongs to those before: a half behind any separator, a whole behind a slash only."""
    gap = [piece.plain for piece in cursor.pieces[cursor.at : cursor.next_at()]]
    number = cursor.peek(line=True)
    value = figures.pd(magnitude(number)) if number is not None else UNCLEAR
    if isinstance(value, Fault) or any(plain not in BETWEEN for plain in gap):
        return False
    return value < LEAST_BINOCULAR_MM or "/" in gap


def _by_eye(cursor: Cursor, parts: list[Lexeme], near: bool) -> None:
    """``PD R 31.5 L 32``."""
    while cursor.is_role(*ONE_EYE, line=True) and (parts or _distance_ahead(cursor, 1)):
        eye, number = cursor.skip_to(), cursor.skip_to()
        parts = [*parts, eye, number, *cursor.accept("mm")]
        value = cursor.value(parts, figures.pd, magnitude(number))
        if value is not None and (near or value >= LEAST_BINOCULAR_MM):
            cursor.refuse(parts, UNCLEAR)
        elif value is not None:
            _give(cursor, parts, {EYES[eye.role.rstrip("?")][0]: value})
        parts = []


def _read(eyes: Eyes, before: list[Lexeme], numbers: list[Lexeme], near: bool, order: tuple[str, ...]) -> None:
    """Say what these numbers are, or that nobody can; the piece taken last belongs to them."""
    cursor = eyes.cursor
    parts = [*before, *numbers, cursor.pieces[cursor.at - 1]]
    values = [figures.pd(magnitude(number)) for number in numbers]
    known = [value for value in values if isinstance(value, float)]
    meant = meaning(known, near, order, eyes.sides) if len(known) == len(values) else {}
    if meant:
        _give(cursor, parts, meant)
    else:
        cursor.refuse(parts, next((value for value in values if isinstance(value, Fault)), UNCLEAR))


def meaning(values: list[float], near: bool, order: tuple[str, ...], sides: tuple[str, ...]) -> dict[str, float]:
    """The distances by name; empty where several meanings are possible."""
    halves = [value < LEAST_BINOCULAR_MM for value in values]
    if near:
        whole = halves == [False] or halves == [True, True]
        return {"near": sum(values)} if whole else {}
    if halves == [False]:
        return {"binocular": values[0]}
    if halves == [True] and len(sides) == 1:
        return {sides[0]: values[0]}
    if halves == [True, True]:
        return dict(zip(order, values, strict=True))
    if halves == [False, False] and values[0] * LEAST_NEAR_PART <= values[1] <= values[0]:
        return {"binocular": values[0], "near": values[1]}
    if halves == [False, True, True]:
        return {"binocular": values[0], **dict(zip(order, values[1:], strict=True))}
    if halves == [True, True, False]:
        return {"binocular": values[2], **dict(zip(order, values[:2], strict=True))}
    return {}


def _give(cursor: Cursor, parts: list[Lexeme], meant: dict[str, float]) -> None:
    names = {"binocular": "both eyes", "near": "near", "right": "right eye", "left": "left eye"}
    for which, value in meant.items():
        cursor.draft.put_distance(which, value, cursor.mark(parts))
    shown = ", ".join(f"{names[which]} {value:g} mm" for which, value in meant.items())
    cursor.tell(parts, f"pupillary distance: {shown}")
