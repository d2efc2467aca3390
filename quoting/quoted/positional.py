"""Records as lists of their values, written and read by a form; every value is held to its kind both ways.

>>> eye = {"sphere": -2250, "cylinder": 0, "axis": 180, "add": 0, "prism_in": 0, "prism_up": 0}
>>> packed(FORM, "eye", eye), unpacked(FORM, "eye", [-2250]) == eye
([-2250], True)
>>> unpacked(FORM, "eye", ["-2.25"])
Traceback (most recent call last):
quoting.quoted.positional.FormError: eye.sphere: '-2.25' is not a whole number
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date
from typing import Any, NoReturn

from quoting.findings import UNPRINTABLE
from quoting.quoted.form import FORM, Form

__all__ = ["FORM", "FormError", "day_number", "day_of", "packed", "unpacked"]

WORD = re.compile(r"[A-Za-z0-9 _-]*", re.ASCII)
COLOR = re.compile(r"[0-9a-f]{6}", re.ASCII)


class FormError(ValueError):
    """A value that its place in the form does not allow; the message begins with the place."""


def day_number(day: date) -> int:
    """A day as the form has it.

    >>> day_number(date(2026, 11, 25))
    20261125
    """
    return day.year * 10000 + day.month * 100 + day.day


def day_of(number: int) -> date:
    """The day of such a number.   Raises ValueError where there is no such day."""
    return date(number // 10000, number // 100 % 100, number % 100)


def packed(form: Form, kind: str, value: Any, place: str = "") -> Any:
    """The value as lists.   Raises FormError."""
    return _each(form, kind, value, place or kind, _record_to_list)


def unpacked(form: Form, kind: str, value: Any, place: str = "") -> Any:
    """The value of such lists, fields by name.   Raises FormError."""
    return _each(form, kind, value, place or kind, _list_to_record)


Turn = Callable[[Form, str, Any, str], Any]


def _each(form: Form, kind: str, value: Any, place: str, turn: Turn) -> Any:
    """Records and lists by ``turn``, single values as they are once they are found good."""
    if kind.startswith("?"):
        return None if value is None else _each(form, kind[1:], value, place, turn)
    name, _, limits = kind.partition(":")
    if name == "list":
        most, _, inner = limits.partition(":")
        if not isinstance(value, list) or len(value) > int(most):
            _refuse(place, value, f"no list of at most {most}")
        return [_each(form, inner, one, f"{place}[{at}]", turn) for at, one in enumerate(value)]
    if name in form:
        return turn(form, name, value, place)
    KINDS[name](value, limits, place)
    return value


def _record_to_list(form: Form, name: str, value: Any, place: str) -> list[Any]:
    fields = form[name]
    if not isinstance(value, dict) or value.keys() != {field[0] for field in fields}:
        _refuse(place, value, "not a record of these fields")
    found = [packed(form, field[1], value[field[0]], f"{place}.{field[0]}") for field in fields]
    while found and len(fields[len(found) - 1]) == 3 and found[-1] == fields[len(found) - 1][-1]:
        found.pop()
    return found


def _list_to_record(form: Form, name: str, value: Any, place: str) -> dict[str, Any]:
    fields = form[name]
    least = sum(len(field) == 2 for field in fields)
    if not isinstance(value, list) or not least <= len(value) <= len(fields):
        _refuse(place, value, f"no list of {least} to {len(fields)} values")
    whole = [*value, *(field[-1] for field in fields[len(value) :])]
    return {
        field[0]: unpacked(form, field[1], one, f"{place}.{field[0]}") for field, one in zip(fields, whole, strict=True)
    }


def _text(value: Any, limits: str, place: str) -> None:
    if not isinstance(value, str) or len(value) > int(limits):
        _refuse(place, value, f"no text of at most {limits} characters")
    if any(ord(char) in UNPRINTABLE or 0xD800 <= ord(char) < 0xE000 for char in value):
        _refuse(place, value, "holds what cannot be shown")


def _word(value: Any, limits: str, place: str) -> None:
    if not isinstance(value, str) or len(value) > int(limits) or not WORD.fullmatch(value):
        _refuse(place, value, f"no word of at most {limits} characters")


def _whole(value: Any, limits: str, place: str) -> None:
    low, _, high = limits.partition(":")
    if not isinstance(value, int) or isinstance(value, bool):
        _refuse(place, value, "is not a whole number")
    if not int(low) <= value <= int(high):
        _refuse(place, value, f"is not from {low} to {high}")


def _day(value: Any, _: str, place: str) -> None:
    _whole(value, "20000101:21991231", place)
    try:
        day_of(value)
    except ValueError:
        _refuse(place, value, "is no day")


def _color(value: Any, _: str, place: str) -> None:
    if not isinstance(value, str) or not COLOR.fullmatch(value):
        _refuse(place, value, "is no color")


def _flag(value: Any, _: str, place: str) -> None:
    _whole(value, "0:1", place)


def _one(value: Any, limits: str, place: str) -> None:
    if value not in limits.split("|"):
        _refuse(place, value, f"is none of {limits}")


KINDS: dict[str, Callable[[Any, str, str], None]] = {
    "text": _text,
    "word": _word,
    "whole": _whole,
    "day": _day,
    "color": _color,
    "flag": _flag,
    "one": _one,
}


def _refuse(place: str, value: Any, why: str) -> NoReturn:
    shown = repr(value)
    raise FormError(f"{place}: {shown if len(shown) <= 40 else shown[:37] + '...'} {why}")
