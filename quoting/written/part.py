"""One mapping of a file while it is read: where it stands, what was found in it, whether it can be relied on."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from typing import TypeVar

from quoting.findings import Finding, Mark, Severity
from quoting.written import strays
from quoting.written.kinds import Fault
from quoting.written.node import Listing, Mapping, Scalar, Sheet

T = TypeVar("T")

WHOLE = ""  # the name under which a part remembers a fault that is not one field's
LEFT_OUT = "..."  # and that some of its fields could not be read, or stand twice; no field is called so


class Part:
    """The places and the soundness of one mapping; `quoting.written.record.Record` adds the getters."""

    __slots__ = ("_failed", "_known", "_missing", "_node", "_parent", "noun", "sheet")

    def __init__(self, sheet: Sheet, node: Mapping | None, noun: str, parent: tuple[Part, str] | None = None) -> None:
        self.sheet = sheet
        self.noun = noun  # what messages call it: "this size"
        self._node = node  # None: nothing to read, and that was told already
        self._parent = parent
        self._known: dict[str, None] = {}
        self._failed: set[str] = {WHOLE} if node is None else {LEFT_OUT} if node.partial or node.spoiled else set()
        self._missing: dict[str, Finding] = {}
        if LEFT_OUT in self._failed and parent is not None:
            parent[0].fail(parent[1])

    @property
    def findings(self) -> list[Finding]:
        """Everything found so far in the file this part lies in."""
        return self.sheet.findings

    @property
    def readable(self) -> bool:
        """Whether there is a mapping at all; if not, that was told and every getter gives its placeholder."""
        return self._node is not None

    @property
    def complete(self) -> bool:
        """Whether it is known which fields were written; if not, one that is not there may be in what is unreadable."""
        return self._node is None or not self._node.partial

    def has(self, name: str) -> bool:
        """Whether the field was written; to ask makes it a known field."""
        self._known[name] = None
        return self._node is not None and name in self._node.entries

    def is_list(self, name: str) -> bool:
        """Whether a list stands in the field; it does not become a known field by that."""
        return self._node is not None and isinstance(self._node.entries.get(name, (None, None))[1], Listing)

    def is_mapping(self, name: str) -> bool:
        """Whether names with values stand in the field; it does not become a known field by that."""
        return self._node is not None and isinstance(self._node.entries.get(name, (None, None))[1], Mapping)

    def names(self) -> tuple[str, ...]:
        """The fields as written, in order."""
        return tuple(self._node.entries) if self._node is not None else ()

    def mark(self, name: str = WHOLE) -> Mark:
        """The place of a field's value; of the part itself where the field is not written."""
        if self._node is None:
            return self.sheet.mark(0, 0) if self._parent is None else self._parent[0].mark(self._parent[1])
        entry = self._node.entries.get(name)
        return self.sheet.mark_of(entry[1] if entry is not None else self._node)

    def sound(self, *names: str) -> bool:
        """Whether these fields were read without fault; without names: all so far, nested parts included."""
        if not names or WHOLE in self._failed:
            return not self._failed
        if not self.complete and any(name not in self.names() for name in names):
            return False
        return self._failed.isdisjoint(names)

    def called(self, name: str) -> str:
        """The field as messages name it: in trade words where the file has them, then as written."""
        words = self.sheet.words.get(name, "")
        return f"the {words} `{name}`" if words else f"`{name}`"

    def key_mark(self, name: str) -> Mark:
        """The place of a field's name; of the part itself where the field is not written."""
        entry = self._node.entries.get(name) if self._node is not None else None
        return self.sheet.mark_of(entry[0]) if entry is not None else self.mark()

    def key_fault(self, name: str, code: str, message: str, hint: str = "") -> None:
        """Tell what is wrong with the name of a field itself, where an id or a page stands as a name."""
        self.findings.append(Finding(self.key_mark(name), code, message, hint))
        self.fail(name)

    def fault(self, name: str, code: str, message: str, hint: str = "", severity: Severity = "error") -> None:
        """Tell what is wrong with a field (with the part, where the name is empty) at its place."""
        self.findings.append(Finding(self.mark(name), code, message, hint, severity))
        if severity == "error":
            self.fail(name)

    def fail(self, name: str) -> None:
        """Remember a field as not to be relied on, here and in the parts this one lies in."""
        self._failed.add(name)
        if self._parent is not None:
            self._parent[0].fail(self._parent[1])

    def close(self) -> bool:
        """Tell the fields that are missing or unknown; whether all of the part can be relied on."""
        if self._node is not None:
            known = tuple(self._known)
            for name, (key, value) in self._node.entries.items():
                if isinstance(value, Scalar) and value.broken:
                    self.fail(name)
                elif name not in self._known:
                    self._stray(key, strays.stray(key, value, known, tuple(self._missing), self.noun))
            self._close_loose(self._node, known)
        self.findings.extend(self._missing.values())
        self._missing.clear()
        return self.sound()

    def made(self, value: T) -> T | None:
        """Close, and give the value built from this part if all of it can be relied on."""
        return value if self.close() else None

    def _close_loose(self, node: Mapping, known: tuple[str, ...]) -> None:
        entries = list(node.entries.values())
        for key in node.loose:
            before = [entry for entry in entries if (entry[0].line, entry[0].column) < (key.line, key.column)]
            self._stray(key, strays.loose(key, before[-1] if before else None, known))

    def _stray(self, key: Scalar, found: tuple[Fault, str]) -> None:
        fault, meant = found
        self._missing.pop(meant, None)
        self.findings.append(Finding(self.sheet.mark_of(key), fault.code, fault.said, fault.hint))
        self.fail(key.text)
