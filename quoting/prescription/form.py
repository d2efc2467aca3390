"""A prescription as YAML, field by field; the field decides what its text means, so ``axis: 010`` is ten.

    right: {sphere: -2.25, cylinder: -0.75, axis: 010, add: +2.00, prism: [{amount: 0.5, base: down}]}
    left: {sphere: -2.50, add: +2.00}
    pd: {right: 31.5, left: 32}       # or 63, or 31.5/32
    written: 2026-05-04

>>> reading = read_form("right: {sphere: -2.25, cylinder: -0.75, axis: 010}", "rx.yaml")
>>> reading.prescription.right.axis
10
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date

from quoting.findings import Mark
from quoting.nodes import Record, read_text
from quoting.prescription import figures
from quoting.prescription.draft import SIDES, Draft
from quoting.prescription.figures import written
from quoting.prescription.model import Reading
from quoting.prescription.prism import resolved
from quoting.prescription.pupils import meaning
from quoting.prescription.words import BASES
from quoting.written.kinds import Fault, quoted

SHORT = {"bi": "in", "bo": "out", "bu": "up", "bd": "down", **{base: base for base in BASES}}
PLANO = ("plano", "pl")
HALVES = re.compile(r"([0-9.,]+)\s*/\s*([0-9.,]+)")
NOT_NUMBER = Fault("not-a-number", "is no number", "write it like -2.25")
NUMBER = re.compile(r"[-+]?(?:[0-9]+(?:[.,][0-9]+)?|\.[0-9]+)")
PD_NAMES = ("binocular", "right", "left", "near")
Reader = Callable[[str], float | Fault]


def read_form(
    text: str,
    name: str = "prescription.yaml",
    *,
    today: date | None = None,
    max_age_months: int | None = None,
    child: bool = False,
) -> Reading:
    """What a YAML form says about both eyes, with every finding.   Nothing raises."""
    record = read_text(text, name)
    draft = Draft(record.mark(), name)
    for side in SIDES:
        if record.has(side):
            _eye(draft, record.record(side, f"the {side} eye", example="{sphere: -2.25}"), side)
    if record.has("pd"):
        _pd(draft, record)
    if record.has("written"):
        day = record.day("written")
        if record.sound("written"):
            draft.put_date(day, record.mark("written"))
            draft.token(record.mark("written"), _shown(record.mark("written")), f"written on {day}")
    record.close()
    draft.findings += record.findings
    return draft.reading(today, max_age_months, child)


def _eye(draft: Draft, record: Record, side: str) -> None:
    draft.name((side,), record.mark())
    if not record.readable:
        draft.miss((side,), "sphere", record.mark())
        return
    for what, read in READERS.items():
        value = _value(record, what, read) if record.has(what) else None
        if value is not None:
            draft.put((side,), what, value, record.mark(what))
            shown = f"{what} {value:g}°" if what == "axis" else f"{NAMES[what]} {written(value)} D"
            draft.token(record.mark(what), _shown(record.mark(what)), f"{side} eye, {shown}")
        elif record.has(what):
            draft.miss((side,), what, record.mark(what))
    if record.has("prism"):
        for prism in record.records("prism", "this prism", needed=False, example="{amount: 0.5, base: down}"):
            _prism(draft, prism, side)
    record.close()


def _value(record: Record, what: str, read: Reader) -> float | None:
    """The value of a field, or None when it has none and that was told."""
    text = record.text(what, most=40, example="-2.25").replace("−", "-")
    if not record.sound(what):
        return None
    value = read(text)
    if isinstance(value, Fault):
        record.fault(what, value.code, f"`{what}` {quoted(text)} {value.said}", value.hint)
        return None
    return value


def _number(read: Reader) -> Reader:
    """A reader of numbers, guarded against what is none."""
    return lambda text: read(text) if NUMBER.fullmatch(text) else NOT_NUMBER


def _power(text: str) -> float | Fault:
    return 0.0 if text.lower() in PLANO else _number(figures.power)(text)


READERS: dict[str, Reader] = {
    "sphere": _power,
    "cylinder": _power,
    "axis": _number(figures.axis),
    "add": _number(figures.addition),
}
NAMES = {"sphere": "sphere", "cylinder": "cylinder", "add": "addition"}


def _prism(draft: Draft, record: Record, side: str) -> None:
    """An amount and its base: a word, or an angle seen facing the wearer."""
    amount = _value(record, "amount", _number(figures.prism))
    base = record.text("base", most=20, example="down").lower()
    if amount is not None and record.sound("base"):
        parts = {SHORT[base]: amount} if base in SHORT else _angle(record, side, amount, base)
        for direction, part in parts.items():
            draft.put_prism((side,), part, direction, record.mark("base"))
            draft.token(record.mark("base"), base, f"{side} eye, prism {round(part, 2):g}Δ base {direction}")
    record.close()


def _angle(record: Record, side: str, amount: float, base: str) -> dict[str, float]:
    angle = figures.base_angle(base) if NUMBER.fullmatch(base) else None
    if isinstance(angle, float):
        return resolved(side, amount, angle)
    said = f"`base` {quoted(base)} is neither in, out, up or down nor an angle from 0 to 360"
    record.fault("base", "base-range", said, "write base: up")
    return {}


def _pd(draft: Draft, record: Record) -> None:
    """One number, right and left with a slash, or names with values."""
    mark = record.mark("pd")
    if re.match(r"\{|['\"]?(?:binocular|right|left|near)\b", mark.text[mark.column - 1 :]):
        named = record.record("pd", "the pupillary distance", example="{right: 31.5, left: 32}")
        for which in PD_NAMES:
            value = _value(named, which, _number(figures.pd)) if named.has(which) else None
            if value is not None:
                _give_pd(draft, {which: value}, named.mark(which))
        named.close()
        return
    text = record.text("pd", most=40, example="63")
    found = HALVES.fullmatch(text)
    values = [_number(figures.pd)(part) for part in (found.groups() if found else (text,))]
    known = [value for value in values if isinstance(value, float)]
    meant = meaning(known, False, SIDES, ()) if len(known) == len(values) else {}
    if meant:
        _give_pd(draft, meant, mark)
    elif record.sound("pd"):
        said = f"`pd` {quoted(text)} is no pupillary distance in millimeters"
        record.fault("pd", "not-a-pd", said, "write pd: 63, or pd: {right: 31.5, left: 32}")


def _give_pd(draft: Draft, meant: dict[str, float], mark: Mark) -> None:
    for which, value in meant.items():
        draft.put_distance(which, value, mark)
    shown = ", ".join(f"{which} {value:g} mm" for which, value in meant.items())
    draft.token(mark, _shown(mark), f"pupillary distance: {shown}")


def _shown(mark: Mark) -> str:
    """What stands at a mark."""
    return mark.text[mark.column - 1 : mark.column - 1 + mark.length]
