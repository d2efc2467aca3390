"""A `Record` reads one mapping field by field; what is wrong is collected, never raised.

Every getter takes the field's name and, where the field may be left out, a default; without a default the field
is required.  A value that cannot be read is told once and yields a harmless placeholder; the record remembers the
field as failed: ask `sound` before concluding anything from what was read.  End with `made` (or `close`): only
then are missing and unknown fields told.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from datetime import date
from typing import TypeVar

from quoting.findings import Finding
from quoting.written import figures, kinds
from quoting.written.kinds import Fault, Kind
from quoting.written.node import Listing, Mapping, Node, Scalar
from quoting.written.part import Part

T = TypeVar("T")
ShapeT = TypeVar("ShapeT", Listing, Mapping)

SHAPES = {Scalar: "one value", Listing: "a list", Mapping: "names with values"}


class Record(Part):
    """One mapping in a file, such as one size of a frame, read field by field."""

    __slots__ = ()

    def text(self, name: str, default: str | None = None, most: int = 500, example: str = "a few words") -> str:
        """Words for people on one line, at most so many characters."""
        return self._one(name, kinds.text(most, example), default)

    def prose(self, name: str, default: str | None = None, most: int = 500, example: str = "a sentence") -> str:
        """Sentences for people, however they are broken into lines, at most so many characters."""
        return self._one(name, kinds.sentences(most, example), default)

    def word(self, name: str, default: str | None = None, example: str = "r150") -> str:
        """An id: lower-case letters, digits, hyphens."""
        return self._one(name, kinds.word(example), default)

    def choice(self, name: str, known: tuple[str, ...], default: str | None = None) -> str:
        """One of the known words."""
        return self._one(name, kinds.choice(known), default)

    def form(self, name: str, pattern: str, meant: str, example: str, default: str | None = None) -> str:
        """A text of this regular expression, which ``meant`` puts in words."""
        return self._one(name, kinds.form(pattern, meant, example), default)

    def flag(self, name: str, default: bool | None = None) -> bool:
        """yes or no."""
        return self._one(name, kinds.flag(), default)

    def day(self, name: str, default: date | None = None) -> date:
        """A day as year-month-day."""
        return self._one(name, kinds.day(), default)

    def color(self, name: str, default: str | None = None) -> str:
        """A color as #rrggbb."""
        return self._one(name, kinds.color(), default)

    def whole(self, name: str, least: int, most: int, default: int | None = None, example: str = "") -> int:
        """A whole number."""
        return self._one(name, figures.whole(least, most, example), default)

    def number(self, name: str, least: float, most: float, default: float | None = None, example: str = "") -> float:
        """A number without a unit."""
        return self._one(name, figures.number(least, most, example), default)

    def length(self, name: str, least: float, most: float, default: float | None = None, example: str = "") -> float:
        """A length in mm."""
        return self._one(name, figures.length(least, most, example), default)

    def angle(self, name: str, least: float, most: float, default: float | None = None, example: str = "") -> float:
        """An angle in degrees."""
        return self._one(name, figures.angle(least, most, example), default)

    def power(
        self,
        name: str,
        least: float,
        most: float,
        default: float | None = None,
        example: str = "",
        step: float = figures.EIGHTH,
    ) -> float:
        """A power in diopters, on steps of 0.125, or of 0.25 where asked."""
        return self._one(name, figures.power(least, most, example, step), default)

    def money(self, name: str, default: int | None = None, most: int = 10_000_000, example: str = "129.90") -> int:
        """An amount of money, as cents."""
        return self._one(name, figures.money(most, example), default)

    def percent(self, name: str, default: int | None = None, most: int = 100, example: str = "8.25") -> int:
        """A percentage, as basis points."""
        return self._one(name, figures.percent(most, example), default)

    def texts(
        self,
        name: str,
        default: tuple[str, ...] | None = None,
        most: int = 500,
        example: str = "a line",
        prose: bool = False,
    ) -> tuple[str, ...]:
        """A list of words for people, at least one; where they are prose, each may be broken into lines."""
        node = self._shaped(name, Listing, "a list", f"[{example}]", default is not None)
        if node is None:
            return default if default is not None and not self.has(name) else ()
        kind = kinds.sentences(most, example) if prose else kinds.text(most, example)
        if not node.items:
            self.fault(name, "empty-value", f"{self.called(name)} is an empty list", f"write for example [{example}]")
        values = [self._value(name, item, kind) for item in node.items]
        return tuple(value for value in values if value is not None)

    def numbers(self, name: str, least: float, most: float, example: str = "") -> tuple[float, ...]:
        """A list of numbers without a unit, required."""
        node = self._shaped(name, Listing, "a list", f"[{example}]", False)
        if node is None:
            return ()
        kind = figures.number(least, most, example)
        return tuple(value for item in node.items if (value := self._value(name, item, kind)) is not None)

    def record(self, name: str, noun: str, needed: bool = True, example: str = "") -> Record:
        """The mapping in this field; where it is not readable, a record that gives placeholders in silence."""
        node = self._shaped(name, Mapping, "names with values", example, not needed)
        return Record(self.sheet, node, noun, (self, name))

    def records(self, name: str, noun: str, needed: bool = True, example: str = "") -> list[Record]:
        """The mappings listed in this field; those that are none are told and left out."""
        listing = self._shaped(name, Listing, "a list", f"[{example}]" if example else "", not needed)
        found: list[Record] = []
        for item in listing.items if listing is not None else []:
            if isinstance(item, Mapping):
                found.append(Record(self.sheet, item, noun, (self, name)))
            else:
                self._wrong_shape(name, item, "names with values", example, "each entry of ")
        if listing is not None and needed and not listing.items:
            self.fault(name, "empty-value", f"{self.called(name)} is an empty list", f"list at least one: [{example}]")
        return found

    def reads(self, name: str, kind: Kind[T]) -> bool:
        """Whether a value of this kind stands in the field; nothing is told."""
        node = self._node.entries[name][1] if self._node is not None and self.has(name) else None
        if not isinstance(node, Scalar) or node.broken or node.empty:
            return False
        return not isinstance(kind.read(node.text.strip()), Fault)

    def count(self, name: str) -> int:
        """How many entries were written in the list of this field, those among them that cannot be read."""
        node = self._node.entries[name][1] if self._node is not None and self.has(name) else None
        return len(node.items) + node.partial if isinstance(node, Listing) else 0

    # --- how it is done ---

    def _one(self, name: str, kind: Kind[T], default: T | None) -> T:
        node = self._entry(name, default is not None, kind.meant, kind.example)
        if node is None:
            return default if default is not None and not self.has(name) else kind.placeholder
        value = self._value(name, node, kind, default is not None)
        return kind.placeholder if value is None else value

    def _entry(self, name: str, optional: bool, meant: str, example: str = "") -> Node | None:
        """The node of a field; where it is required and not there, that will be told."""
        if self.has(name):
            return self._node.entries[name][1] if self._node is not None else None
        if not optional and self._node is not None and self.complete and name not in self._missing:
            hint = f"add {name}: {example} ({meant})" if example else f"add {name} ({meant})"
            said = f"{self.noun} has no {self.called(name).removeprefix('the ')}"
            self._missing[name] = Finding(self.mark(), "missing", said, hint)
        if not optional:
            self.fail(name)
        return None

    def _value(self, name: str, node: Node, kind: Kind[T], optional: bool = False) -> T | None:
        """The meaning of one node, or None when it has none and that was told."""
        if isinstance(node, Scalar) and not node.broken and not node.empty:
            value = kind.read(node.text.strip())
            if not isinstance(value, Fault):
                return value
            self._tell(name, node, value.code, f"{self.called(name)} {value.said}", value.hint)
        elif isinstance(node, Scalar):
            self._nothing(name, node, kind.meant, kind.example, optional)
        else:
            self._wrong_shape(name, node, kind.meant, kind.example)
        return None

    def _shaped(self, name: str, shape: type[ShapeT], meant: str, example: str, optional: bool) -> ShapeT | None:
        """The list or mapping of a field, or None when there is none (told, unless it may be left out)."""
        node = self._entry(name, optional, meant, example)
        if node is None or isinstance(node, shape):
            if isinstance(node, Listing | Mapping) and node.partial:
                self.fail(name)
            return node
        if isinstance(node, Scalar) and (node.broken or node.empty):
            self._nothing(name, node, meant, example, optional)
        else:
            self._wrong_shape(name, node, meant, example)
        return None

    def _tell(self, name: str, node: Node, code: str, message: str, hint: str = "") -> None:
        self.findings.append(Finding(self.sheet.mark_of(node), code, message, hint))
        self.fail(name)

    def _wrong_shape(self, name: str, node: Node, meant: str, example: str, where: str = "") -> None:
        if isinstance(node, Scalar) and node.broken:
            self.fail(name)
        else:
            said = f"{where}{self.called(name)} must be {meant}, not {SHAPES[type(node)]}"
            self._tell(name, node, "wrong-shape", said, f"write for example {example or '...'}")

    def _nothing(self, name: str, node: Scalar, meant: str, example: str, optional: bool) -> None:
        """Nothing stands here; a broken node was told already."""
        if node.broken:
            self.fail(name)
            return
        hint = f"write for example {name}: {example or '...'}" + (", or leave out the field" if optional else "")
        if self.sheet.lines[node.line][node.column :].lstrip().startswith("#"):
            hint = "an unquoted # begins a comment: put the value in quotes"
        self._tell(name, node, "empty-value", f"{self.called(name)} has no value; it must be {meant}", hint)
