"""The kinds of field that are numbers: lengths in mm, powers in diopters, angles in degrees, money in cents.

>>> length(20, 75).read("52.5"), whole(1, 180).read("010"), money().read("129.90")
(52.5, 10, 12990)
>>> fault = length(20, 75).read("52,5")
>>> fault.code, fault.hint
('not-a-length', 'write a decimal point, not a comma: 52.5')
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cache

from quoting.money import basis_points_from_text, cents_from_text, written
from quoting.written.kinds import Fault, Kind, refusal

NUMBER = re.compile(r"[-+]?(?:[0-9]{1,9}(?:\.[0-9]{1,9})?|\.[0-9]{1,9})", re.ASCII)
WHOLE = re.compile(r"[-+]?[0-9]{1,9}", re.ASCII)
THREE_DECIMALS = re.compile(r"[-+]?[0-9]+\.[0-9]{3,}", re.ASCII)
COMMA = re.compile(r"(?P<whole>[-+]?[0-9]{1,9}),(?P<part>[0-9]{1,9})(?P<rest>.*)", re.ASCII)
# In an amount with two decimals a mark before three digits parts thousands
WHOLE_THOUSANDS = re.compile(r"[-+]?[0-9]{1,3}(?:[,' ][0-9]{3})+", re.ASCII)
THOUSANDS = re.compile(r"(?P<whole>[-+]?[0-9]{1,3}(?:[,.' ][0-9]{3})+)[.,](?P<part>[0-9]{1,2})", re.ASCII)
UNIT = re.compile(r"(?P<number>[-+]?[0-9]+(?:[.,][0-9]+)?)\s*(?P<unit>[^\W\d_]+|[°%€$£¥\"'′″/])[^0-9]*")
UNIT_FIRST = re.compile(r"(?P<unit>[^\W\d_]+|[€$£¥])\s*(?P<number>[-+]?[0-9]+(?:[.,][0-9]+)?)")
PLANO = frozenset({"plano", "plan", "pl"})
LONGEST = 60  # no number anyone means is longer, and the patterns stay quick
QUARTER, EIGHTH = 0.25, 0.125  # powers are written on quarter, sometimes eighth diopters (practice)


def _hint(said: str, unit: str) -> str:
    """What to write instead, where the text gives away what was meant."""
    if len(said) > LONGEST:
        return ""
    if (found := THOUSANDS.fullmatch(said)) is not None:
        return f"write it without thousands marks: {re.sub('[^-+0-9]', '', found['whole'])}.{found['part']}"
    if (found := COMMA.fullmatch(said)) is not None:
        more = ", and the number alone" if found["rest"].strip() else ""
        return f"write a decimal point, not a comma{more}: {found['whole']}.{found['part']}"
    if (found := UNIT.fullmatch(said) or UNIT_FIRST.fullmatch(said)) is not None:
        return _alone(found["number"].replace(",", "."), found["unit"], unit)
    if said[:1] in {"\u2012", "\u2013", "\u2014"} and NUMBER.fullmatch(said[1:]):
        return f"write the minus as a hyphen: -{said[1:]}"
    return ""


def _alone(number: str, written_unit: str, unit: str) -> str:
    if unit == "mm" and written_unit == "cm":
        return f"write the number alone, in mm: {float(number) * 10:g}"
    if unit == "mm" and written_unit != "mm":
        return "write the number alone, in mm"
    return f"write the number alone: {number}"


def _plain(said: str) -> str:
    return said.replace("\u2212", "-")  # the typographer's minus is a minus


def _figure(code: str, noun: str, unit: str, least: float, most: float, example: str) -> Kind[float]:
    meant = f"{noun} from {least:g} to {most:g}"
    shown = example or f"{round((least + most) / 2, 1):g}"

    def read(said: str) -> float | Fault:
        plain = _plain(said)
        if NUMBER.fullmatch(plain) is None:
            return refusal(code, meant, shown, said, _hint(plain, unit))
        value = float(plain)
        if least <= value <= most:
            return value
        in_cm = unit == "mm" and least <= value * 10 <= most
        hint = f"if that is in cm, write it in mm: {value * 10:g}" if in_cm else f"write for example {shown}"
        return Fault("out-of-range", f"must be {meant}, not {plain}", hint)

    return Kind(meant, shown, max(least, 0.0), read)


def _signed(power: float) -> str:
    return f"{power:+.2f}" if power % QUARTER == 0 else f"{power:+.3f}"


@cache
def number(least: float, most: float, example: str = "") -> Kind[float]:
    """A plain number without a unit."""
    return _figure("not-a-number", "a number", "", least, most, example)


@cache
def length(least: float, most: float, example: str = "") -> Kind[float]:
    """A length in mm."""
    return _figure("not-a-length", "a length in mm", "mm", least, most, example)


@cache
def angle(least: float, most: float, example: str = "") -> Kind[float]:
    """An angle in degrees."""
    return _figure("not-an-angle", "an angle in degrees", "degrees", least, most, example)


@cache
def power(least: float, most: float, example: str = "", step: float = EIGHTH) -> Kind[float]:
    """A power in diopters on steps of 0.125, or of 0.25 where asked."""
    shown = example or next((p for p in ("-2.25", "+2.00") if least <= float(p) <= most), f"{least:+.2f}")
    figure = _figure("not-a-power", "a power in diopters", "diopters", least, most, shown)
    steps = "quarters of a diopter" if step == QUARTER else "quarters of a diopter, at the finest in eighths"

    def read(said: str) -> float | Fault:
        if said.lower() in PLANO:
            return refusal("not-a-power", figure.meant, "0.00", said, "write 0.00")
        value = figure.read(said)
        if isinstance(value, Fault) or value % step == 0:
            return value
        below = value // step * step
        hint = f"the nearest are {_signed(below)} and {_signed(below + step)}"
        return Fault("off-step", f"says {_plain(said)}, but powers here go in {steps}", hint)

    return Kind(figure.meant, shown, 0.0, read)


@cache
def whole(least: int, most: int, example: str = "") -> Kind[int]:
    """A whole number; leading zeros change nothing."""
    meant = f"a whole number from {least} to {most}"
    shown = example or str((least + most) // 2)

    def read(said: str) -> int | Fault:
        plain = _plain(said)
        if WHOLE.fullmatch(plain) is None:
            return refusal("not-a-whole-number", meant, shown, said, _hint(plain, ""))
        if least <= int(plain) <= most:
            return int(plain)
        return Fault("out-of-range", f"must be {meant}, not {plain}", f"write for example {shown}")

    return Kind(meant, shown, least, read)


def _hundredths(code: str, noun: str, unit: str, most: int, example: str, reader: Callable[[str], int]) -> Kind[int]:
    meant = f"{noun} from 0 to {most // 100}"

    def read(said: str) -> int | Fault:
        plain = _plain(said)
        try:
            value = reader(plain)
        except ValueError:
            hint = "no more than two decimals" if THREE_DECIMALS.fullmatch(plain) else _hint(plain, unit)
            if WHOLE_THOUSANDS.fullmatch(plain):
                hint = f"write it without thousands marks: {re.sub('[^-+0-9]', '', plain)}"
            return refusal(code, meant, example, said, hint)
        if 0 <= value <= most:
            return value
        return Fault("out-of-range", f"must be {meant}, not {written(value)}", f"write for example {example}")

    return Kind(meant, example, 0, read)


@cache
def money(most_cents: int = 10_000_000, example: str = "129.90") -> Kind[int]:
    """An amount of money, as cents; never below zero."""
    return _hundredths(
        "not-an-amount", "an amount of money", "the shop's currency", most_cents, example, cents_from_text
    )


@cache
def percent(most: int = 100, example: str = "8.25") -> Kind[int]:
    """A percentage, as basis points (1/100 of a percent)."""
    return _hundredths("not-a-percentage", "a percentage", "percent", most * 100, example, basis_points_from_text)
