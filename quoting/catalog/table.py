"""The ids of one kind over all files: each once, and every mention of one leads to what it names."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Generic, TypeVar

from quoting.findings import Mark
from quoting.nodes import Record
from quoting.written.kinds import meant_hint

T = TypeVar("T")


class Table(Generic[T]):
    """What was made under which id.  An id whose record is faulty is known too, so that mentions of it stay silent."""

    def __init__(self, noun: str) -> None:
        self.noun = noun
        self.made: dict[str, T] = {}
        self.read: list[T] = []  # all that was entered, what is faulty too
        self.complete = True  # False: some ids could not be read, so an unknown one may be among them
        self._marks: dict[str, Mark] = {}

    @property
    def empty(self) -> bool:
        """Whether it is certain that nothing was written, not even a faulty one."""
        return self.complete and not self._marks

    def listed(self, root: Record, name: str, example: str, needed: bool = False) -> list[Record]:
        """The records under this name in a file; a file or list that cannot be read leaves the table incomplete."""
        records = root.records(name, f"this {self.noun}", needed, example)
        if not root.sound(name):
            self.complete = False
        return records

    def enter(self, record: Record, key: str, read: T) -> None:
        """Put down what was read under an id, its record being closed by that; a second use of an id is told."""
        value = record.made(read)
        self.read.append(read)
        if not record.sound("id"):
            self.complete = False
        elif key in self._marks:
            said = f"the {self.noun} id `{key}` is taken already at {self._marks[key]}"
            record.fault("id", "duplicate-id", said, "give one of the two another id")
        else:
            self._marks[key] = record.mark("id")
            if value is not None:
                self.made[key] = value

    def keep(self, key: str, value: T, mark: Mark) -> None:
        """Put down what was read from somewhere else, and where it stands."""
        self._marks[key] = mark
        self.made[key] = value

    def named(self, record: Record, name: str, example: str) -> T | None:
        """What the id in a field names; what can be no id was hardly meant as a new one, so what there is, is told."""
        told = len(record.findings)
        key = record.word(name, example=example)
        for at, fault in enumerate(record.findings[told:], told):
            if fault.code == "not-an-id" and self._marks and self.complete:
                said = fault.mark.text[fault.mark.column - 1 :][: fault.mark.length]
                hint = meant_hint(said.lower(), tuple(self._marks)) or listing(self._marks)
                record.findings[at] = replace(fault, hint=hint)
        if record.sound(name) and not self._known(key):
            record.fault(name, "unknown-id", *self._unknown(key))
        return self._found(record, name, key)

    def all_named(self, record: Record, name: str, example: str) -> tuple[T, ...]:
        """What the ids of a list name, which may be left out; each that names nothing is told."""
        found = []
        for key in record.texts(name, default=(), example=example):
            if not self._known(key):
                record.fault(name, "unknown-id", *self._unknown(key))
            elif (value := self.made.get(key)) is not None:
                found.append(value)
            else:
                record.fail(name)
        return tuple(found)

    def keyed(self, part: Record, key: str) -> T | None:
        """What the id names that stands as the name of a field; where there is no such id, that is told there."""
        if not part.has(key):
            return None
        if part.sound(key) and not self._known(key):
            part.key_fault(key, "unknown-id", *self._unknown(key))
        return self._found(part, key, key)

    def _known(self, key: str) -> bool:
        return key in self._marks or not self.complete

    def _unknown(self, key: str) -> tuple[str, str]:
        """That there is no such id, and which was meant."""
        hint = meant_hint(key, tuple(self._marks)) or listing(self._marks)
        return f"there is no {self.noun} `{key}`", hint

    def _found(self, record: Record, name: str, key: str) -> T | None:
        found = self.made.get(key)
        if found is None:
            record.fail(name)
        return found


def listing(known: Iterable[str]) -> str:
    """The first dozen names of what there is."""
    names = list(known)
    if not names:
        return "none is written yet"
    more = f" and {len(names) - 12} more" if len(names) > 12 else ""
    return "there are " + ", ".join(names[:12]) + more
