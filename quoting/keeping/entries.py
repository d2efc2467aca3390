"""A frame or package that is being entered: what was answered so far, read by the readers of the shop's files.

>>> entry: Entry = {"id": "alder", "sizes": [{"a": "52", "b": "5,6"}]}
>>> def reader(root): return [one.length("b", 15, 75) for one in root.records("sizes", "this size")]
>>> told = findings(entry, reader, {}, str)
>>> [(path, one.message) for path, one in told]
[(('sizes', 0, 'b'), '`b` must be a length in mm from 15 to 75, not `5,6`')]
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import replace
from typing import TypeAlias, Union

from quoting.findings import Finding
from quoting.keeping.scalars import scalar
from quoting.nodes import Record, read_text

Value: TypeAlias = Union[str, "Entry", "list[Entry]"]
Entry: TypeAlias = dict[str, Value]
Path: TypeAlias = tuple[str | int, ...]
Reader: TypeAlias = Callable[[Record], object]

LONG = 100_000
LINE = re.compile(r"\bline ([0-9]+)")


def slug(name: str) -> str:
    """An id from a name.

    >>> slug("Brûlé 52 / No. 3")
    'brule-52-no-3'
    """
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode("ascii").lower()
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-")


def lined(entry: Entry, indent: int = 0, path: Path = ()) -> Iterator[tuple[str, Path]]:
    """The entry as YAML with each value on a line of its own, and which value that is."""
    for name, value in entry.items():
        here, margin = (*path, name), " " * indent
        if isinstance(value, str):
            yield f"{margin}{name}: {scalar(value)}", here
        elif isinstance(value, dict):
            yield f"{margin}{name}:", here
            yield from lined(value, indent + 2, here)
        else:
            yield f"{margin}{name}:", here
            for at, one in enumerate(value):
                yield f"{margin}  -", (*here, at)
                yield from lined(one, indent + 4, (*here, at))


def findings(
    entry: Entry, reader: Reader, words: Mapping[str, str], called: Callable[[Path], str]
) -> list[tuple[Path, Finding]]:
    """What a reader of the shop's files tells of the entry, each with the value that it speaks of.

    ``called`` names another value that a finding speaks of, in place of its line, which nobody has seen.
    """
    lines = list(lined(entry))
    root = read_text("\n".join(text for text, _ in lines) or "{}", "entry", dict(words))
    reader(root)
    places = [place for _, place in lines] or [()]

    def name(found: re.Match[str]) -> str:
        return called(places[int(found[1]) - 1]) if int(found[1]) <= len(places) else found[0]

    def said(text: str) -> str:
        parts = text.split("`")
        parts[::2] = [LINE.sub(name, part) for part in parts[::2]]  # what is quoted stays
        return "`".join(parts)

    told = (replace(one, message=said(one.message), hint=said(one.hint)) for one in root.findings)
    return [(places[one.mark.line - 1], one) for one in told]


def entry_of(record: Record, known: Iterable[str] = ()) -> Entry:
    """What stands in a record, as written; its fields are not judged, but what a comma cut off is told.

    ``known`` names the fields it may have, to tell a missing space from a missing value.
    """
    found: Entry = {}
    for name in known:
        record.has(name)
    for name in record.names():
        if record.is_mapping(name):
            found[name] = entry_of(record.record(name, "this value"))
        elif record.is_list(name):
            found[name] = [entry_of(one) for one in record.records(name, "this entry")]
        else:
            found[name] = record.text(name, most=LONG)
    record.close()
    return found
