"""What a calculator is: fields that somebody fills in, a function of the kernel, results with names and units."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from quoting.kernel.calculators import rounded

# Decimals that are shown, and whether a sign always stands before
KINDS: dict[str, tuple[int, bool, str]] = {
    "power": (2, True, "D"),
    "plain": (2, False, "D"),
    "axis": (0, False, "°"),
    "turn": (0, False, "°"),
    "angle": (1, False, "°"),
    "mm": (1, False, "mm"),
    "fine": (2, False, "mm"),
    "signed": (2, True, "mm"),
    "prism": (2, False, "Δ"),
    "toward": (2, True, "Δ"),
    "percent": (1, False, "%"),
    "index": (3, False, ""),
    "number": (2, False, ""),
    "whole": (0, False, ""),
}
NUMBER = re.compile(r"[+\-−]?[0-9]{1,5}(?:[.,][0-9]{1,4})?", re.ASCII)


class UnfitError(ValueError):
    """A field that was filled in with what cannot be meant, in one sentence."""


@dataclass(frozen=True, slots=True)
class Field:
    """One thing to fill in: a number from ``low`` to ``high``, or one of some words."""

    id: str
    label: str
    kind: str
    default: float | str
    low: float = 0.0
    high: float = 0.0
    words: tuple[str, ...] = ()

    def read(self, text: str) -> float | str:
        """What was typed.   Raises UnfitError.

        >>> Field("sphere", "sphere", "power", 0.0, -30.0, 30.0).read("−2,25")
        -2.25
        >>> Field("axis", "axis", "axis", 180.0, 1.0, 180.0).read("000")
        180.0
        """
        written = text.strip()
        if self.words:
            if written not in self.words:
                raise UnfitError(f"{self.label}: {text!r} is not one of {', '.join(self.words)}")
            return written
        if not NUMBER.fullmatch(written):
            raise UnfitError(f"{self.label}: {text!r} is not a number such as {shown(self.kind, float(self.default))}")
        value = float(written.replace("−", "-").replace(",", "."))
        if self.kind == "axis":
            value = value or self.high  # an axis of 0 is the meridian of 180, as on slips
            if value != int(value):
                raise UnfitError(f"{self.label}: {value:g} is not a whole number of degrees")
        if not self.low <= value <= self.high:
            raise UnfitError(f"{self.label}: {value:g} is not between {self.low:g} and {self.high:g}")
        return value


@dataclass(frozen=True, slots=True)
class Result:
    """One number that comes out; ``none`` says what stands in the place of a number as great as ``from_``."""

    label: str
    kind: str
    none: str = ""
    from_: float = 0.0


@dataclass(frozen=True, slots=True)
class Calculator:
    """One calculator; ``call`` is a function of the kernel, which the page calls by the same name."""

    name: str
    title: str
    call: Callable[..., list[float]]
    fields: tuple[Field, ...]
    results: tuple[Result, ...]
    formula: str
    source: str

    def values(self, typed: Mapping[str, str]) -> list[float | str]:
        """The arguments, in the order of the fields; what was not typed is as by default.   Raises UnfitError."""
        return [field.read(typed[field.id]) if field.id in typed else field.default for field in self.fields]

    def answer(self, values: list[float | str]) -> list[float]:
        """What the kernel says.   Raises UnfitError with its sentence where there is no answer."""
        try:
            return self.call(*values)
        except ValueError as fault:
            raise UnfitError(str(fault)) from fault

    def told(self, numbers: list[float]) -> list[str]:
        """The results as they are shown, with their units."""
        return [
            one.none if one.none and number >= one.from_ else shown(one.kind, number, unit=True)
            for one, number in zip(self.results, numbers, strict=True)
        ]

    def as_dict(self) -> dict[str, Any]:
        """For programs, and for the page."""
        return {
            "name": self.name,
            "title": self.title,
            "formula": self.formula,
            "source": self.source,
            "fields": [
                {"id": one.id, "label": one.label, "kind": one.kind, "default": one.default, "low": one.low,
                 "high": one.high, "words": list(one.words)}
                for one in self.fields
            ],
            "results": [
                {"label": one.label, "kind": one.kind, "none": one.none, "from": one.from_} for one in self.results
            ],
        }  # fmt: skip


def shown(kind: str, value: float, unit: bool = False) -> str:
    """A number as it is shown; the page does the same with the same rounding.

    >>> shown("power", -2.625), shown("axis", 10.0), shown("mm", 62.74, unit=True), shown("power", 0.0)
    ('−2.63', '010', '62.7 mm', '0.00')
    """
    places, signed, name = KINDS[kind]
    near = rounded(value, places)
    text = f"{abs(near):.{places}f}"
    if kind == "axis":
        text = text.zfill(3)
    sign = "−" if near < 0 else "+" if signed and near > 0 else ""
    gap = "" if name in ("°", "Δ", "") else " "
    return f"{sign}{text}{gap}{name}" if unit and name else f"{sign}{text}"
