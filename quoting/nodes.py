"""YAML as it was written: the one way from a file to a `Record`, with a mark on everything.

Only the parser's events are used.  Nothing is resolved: the field that asks decides what ``010`` or ``no`` means.
A subset of YAML is read: one document, no anchors, aliases, merge keys or tags; what is left out is refused at
its place.  Nothing in a file raises; faults are in ``record.findings``.

>>> record = read_text("{name: Tarn, a: 52.5, tilt: 08}", "tarn.yaml")
>>> record.text("name"), record.length("a", 20, 75), record.whole("tilt", -5, 30), record.close(), record.findings
('Tarn', 52.5, 8, True, [])
>>> record = read_text("a: 52,5", "tarn.yaml")
>>> placeholder, good = record.length("a", 20, 75), record.close()
>>> good, record.findings[0].hint
(False, 'write a decimal point, not a comma: 52.5')
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections import deque
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any, NoReturn

import yaml

from quoting.findings import Finding
from quoting.written import escapes
from quoting.written.files import raw_of
from quoting.written.kinds import quoted
from quoting.written.node import Listing, Mapping, Node, Scalar, Sheet
from quoting.written.part import Part
from quoting.written.record import Record
from quoting.written.refusals import Trouble, decoded, first_unprintable, lines_of
from quoting.written.salvage import REST, salvaged, told_open

__all__ = ["Part", "Record", "read", "read_text"]

LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
MOST_BYTES = 8_000_000  # a shop of ten thousand frames stays below
MOST_DEPTH = 20  # the deepest field of our files lies 6 deep
MOST_NODES = 1_000_000
TO_THE_END = 1_000_000  # a width that reaches to the end of any line; marks are cut to their line
ROOT = "this file"
SHORTHAND = "is YAML shorthand that shop files do not take"
WRITE_OUT = "write the value out here; a text that begins with & or * belongs in quotes"
Event = Any  # the event classes share no typed base that has marks, anchor and tag


def read(path: Path, shown: str = "", words: dict[str, str] | None = None) -> Record:
    """The mapping in a file, as a record.

    ``shown`` is the path as messages name it, ``words`` the fields in trade words.  A file that cannot be read gives a
    record that is not ``readable``, with the reason among its findings.
    """
    sheet = Sheet(shown or str(path), words)
    raw = raw_of(path, sheet, MOST_BYTES)
    return _read_bytes(raw, sheet) if raw is not None else Record(sheet, None, ROOT)


def read_text(text: str, shown: str, words: dict[str, str] | None = None) -> Record:
    """The mapping in a text, as a record; ``shown`` says in messages where the text came from."""
    return _read_bytes(text.encode("utf-8", "surrogatepass"), Sheet(shown, words))


def _read_bytes(raw: bytes, sheet: Sheet) -> Record:
    text = decoded(raw, sheet)
    if text is None:
        return _lost(sheet)
    sheet.lines = lines_of(text)
    if first_unprintable(text, sheet):
        return _lost(sheet)
    try:
        root = _root(text, sheet)
        if isinstance(root, Trouble):
            root = salvaged(sheet, root, lambda part: _root(part, sheet), _first_trouble)
    except _EnoughError:
        return _lost(sheet)
    if root is None and sheet.findings:
        return _lost(sheet)
    if root is None:
        said, hint = "this file is empty", "write what belongs in it, or delete it"
        sheet.findings.append(Finding(sheet.mark(0, 0), "empty-file", said, hint))
        return Record(sheet, None, ROOT)
    if isinstance(root, Mapping):
        return Record(sheet, root, ROOT)
    if not (isinstance(root, Scalar) and root.broken):
        said = "this file must hold names with values, such as name: Tarn"
        sheet.findings.append(Finding(sheet.mark_of(root), "wrong-shape", said, "put a space after each colon"))
    return _lost(sheet)


def _lost(sheet: Sheet) -> Record:
    """The record of a file of which nothing can be read, once the reason is told."""
    if len(sheet.lines) != 1:  # none: it is no text at all
        sheet.findings[-1] = replace(sheet.findings[-1], unchecked=REST)
    return Record(sheet, None, ROOT)


def _root(text: str, sheet: Sheet) -> Node | Trouble | None:
    """The root of a text, None for an empty one, or the parser's trouble; then nothing else of it is told."""
    told = len(sheet.findings)
    try:
        return _Builder(sheet, yaml.parse(text, Loader=LOADER)).document()
    except yaml.MarkedYAMLError as error:
        del sheet.findings[told:]
        return _trouble(error)
    except (ValueError, OverflowError):  # from the parser in Python, which asks `chr` for whatever an escape says
        if (finding := escapes.beyond_unicode(text, sheet)) is None:
            raise
        sheet.findings.append(finding)
        raise _EnoughError from None


def _first_trouble(text: str) -> Trouble | None:
    """The parser's trouble with a text, if any; escapes that are no characters are seen when it is read."""
    try:
        deque(yaml.parse(text, Loader=LOADER), maxlen=0)
    except yaml.MarkedYAMLError as error:
        return _trouble(error)
    except (ValueError, OverflowError):
        pass
    return None


def _trouble(error: yaml.MarkedYAMLError) -> Trouble:
    marks = (error.problem_mark, error.context_mark)
    at, since = ((mark.line, mark.column) if mark is not None else None for mark in marks)
    return Trouble(error.problem or "", error.context or "", at, since)


class _EnoughError(Exception):
    """Reading on would be of no use; why was told."""


class _Builder:
    """Nodes from events.  Lists and mappings nest as deep as MOST_DEPTH; all nodes together are at most MOST_NODES."""

    def __init__(self, sheet: Sheet, events: Iterator[Event]) -> None:
        self.sheet = sheet
        self._next = events.__next__
        self._room = MOST_NODES

    def document(self) -> Node | None:
        """The root of the only document, or None where there is none."""
        self._next()  # the stream starts
        if type(self._next()) is yaml.StreamEndEvent:
            return None
        root = self._node(self._next(), 0)
        self._next()  # the document ends
        event = self._next()
        if type(event) is not yaml.StreamEndEvent:
            said = "a second document begins here; one file holds one"
            self._tell(_place(event), "second-document", said, "delete the line ---, or put the rest in another file")
            raise _EnoughError
        return None if isinstance(root, Scalar) and root.empty and not root.broken else root

    def _tell(self, place: tuple[int, int, int], code: str, message: str, hint: str) -> None:
        self.sheet.findings.append(Finding(self.sheet.mark(*place), code, message, hint))

    def _node(self, event: Event, depth: int) -> Node:
        kind = type(event)
        place = _place(event)
        self._room -= 1
        if depth > MOST_DEPTH or self._room < 0:
            self._stop(place)
        if kind is yaml.AliasEvent:
            self._tell(place, "anchor", f"*{event.anchor} {SHORTHAND}", WRITE_OUT)
            return Scalar(place, "", True, True)
        broken = self._shorthand(event, place)
        if kind is yaml.MappingStartEvent:
            return self._mapping(event, place, depth)
        if kind is yaml.SequenceStartEvent:
            return self._listing(event, place, depth)
        if event.style == '"' and not broken and (fault := escapes.hidden(event.value)) is not None:
            self._tell(place, fault.code, fault.said, fault.hint)
            return Scalar(place, escapes.shown(event.value), False, True)
        return Scalar(place, event.value, not event.style, broken)

    def _shorthand(self, event: Event, place: tuple[int, int, int]) -> bool:
        """Whether the node has an anchor or a tag, which is told."""
        if event.anchor is not None:
            self._tell(place, "anchor", f"&{event.anchor} {SHORTHAND}", WRITE_OUT)
        elif event.tag is not None:
            said = "a YAML type tag stands here, but the field decides the type"
            self._tell(place, "tag", said, "delete it; a text that begins with ! belongs in quotes")
        return event.anchor is not None or event.tag is not None

    def _stop(self, place: tuple[int, int, int]) -> NoReturn:
        if self._room < 0:
            said = f"this file holds more than {MOST_NODES:,} values; here it is too much"
            self._tell(place, "file-too-large", said, "split it into several files")
        else:
            said = f"brackets or indentation go more than {MOST_DEPTH} levels deep here"
            self._tell(place, "too-deep", said, "close the brackets, or check how far the lines are indented")
        raise _EnoughError

    def _listing(self, event: Event, place: tuple[int, int, int], depth: int) -> Listing:
        listing = Listing(place, [])
        while type(inner := self._next()) is not yaml.SequenceEndEvent:
            listing.items.append(self._node(inner, depth + 1))
        _close(listing, event, inner, listing.items[0] if listing.items else None)
        return listing

    def _mapping(self, event: Event, place: tuple[int, int, int], depth: int) -> Mapping:
        mapping = Mapping(place)
        first: Node | None = None
        while type(inner := self._next()) is not yaml.MappingEndEvent:
            key = self._node(inner, depth + 1)
            value = self._node(held := self._next(), depth + 1)
            first = first or key
            self._enter(mapping, key, value, event.flow_style)
            if value.width == TO_THE_END and isinstance(value, Scalar) and not event.flow_style:
                mapping.partial |= told_open(self.sheet, value, key.column, held.end_mark.line)
        _close(mapping, event, inner, first)
        return mapping

    def _enter(self, mapping: Mapping, key: Node, value: Node, flow: bool) -> None:
        place = (key.line, key.column, key.width)
        if not isinstance(key, Scalar) or key.empty:
            mapping.spoiled = True
            if not (isinstance(key, Scalar) and key.broken):
                self._tell(place, "not-a-name", "a name must stand before the colon", "write one word before the colon")
        elif flow and isinstance(value, Scalar) and value.plain and not value.text and not self._colon(key):
            mapping.loose.append(key)
        elif key.text in mapping.entries:
            mapping.spoiled, line = True, mapping.entries[key.text][0].line + 1
            said = f"{quoted(key.text)} stands here a second time; the first is in line {line}"
            self._tell(place, "duplicate-key", said, "keep one of them")
        else:
            mapping.entries[key.text] = (key, value)

    def _colon(self, key: Scalar) -> bool:
        """Whether a colon follows the name."""
        line = self.sheet.lines[key.line]
        return line[key.column + key.width :].lstrip().startswith(":")


def _place(event: Event) -> tuple[int, int, int]:
    start, end = event.start_mark, event.end_mark
    return start.line, start.column, end.column - start.column if end.line == start.line else TO_THE_END


def _close(node: Node, first: Event, last: Event, inner: Node | None) -> None:
    """How much of a list or mapping is underlined: all of it on one line, else what it begins with."""
    if first.flow_style:
        one_line = last.end_mark.line == node.line
        node.width = last.end_mark.column - node.column if one_line else TO_THE_END
    elif inner is not None:
        node.width = inner.width
