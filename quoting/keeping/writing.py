"""A new entry behind the last one of a list in a YAML file, written like that one; every other byte stays as it was.

>>> raw = b"frames: # ours\\n- id: alder\\n  sizes:\\n  - { a: 52, b: 36 }\\n# the end\\n"
>>> print(appended(raw, "frames", {"id": "reed", "sizes": [{"a": "50", "b": "30"}]}).decode())
frames: # ours
- id: alder
  sizes:
  - { a: 52, b: 36 }
- id: reed
  sizes:
  - { a: 50, b: 30 }
# the end
<BLANKLINE>
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import codecs
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from quoting.findings import Mark
from quoting.keeping.entries import Entry, Value
from quoting.keeping.scalars import scalar
from quoting.nodes import Record, read_text
from quoting.written.refusals import BREAK


class NoPlaceError(ValueError):
    """The list is written so that nobody can say where in it another entry would go."""

    def __init__(self, mark: Mark) -> None:
        super().__init__(f"{mark}: no entry can be put behind this one")
        self.mark = mark


@dataclass(frozen=True, slots=True)
class Style:
    """How an entry is written."""

    dash: int = 2  # the column of its dash
    inner: int = 2  # from the dash to its first field
    flow: bool = False  # all of it in braces
    pad: str = ""  # inside braces
    blank: bool = True  # an empty line stands before it
    lists: Mapping[str, tuple[int, bool]] = field(default_factory=dict)  # how far in (see INLINE), whether in braces
    names: tuple[str, ...] = ()  # its fields, in order


USUAL = Style()
INLINE = -1  # rows stand in brackets behind the name of their list


def whole_file(head: Mapping[str, str], name: str, *entries: Entry) -> bytes:
    """A new file: a few values, then the list with its first entries."""
    lines = [f"{key}: {scalar(value)}" for key, value in head.items()]
    return "\n".join([*lines, *_new_list(name, entries)]).encode("utf-8")


def appended(raw: bytes, name: str, *entries: Entry) -> bytes:
    """The file with the entries at the end of their list; where there is no such list yet, at its end.

    Raises NoPlaceError.  Whoever calls reads the result again and sees whether only the entry is new.
    """
    text = raw.removeprefix(codecs.BOM_UTF8).decode("utf-8")
    first = codecs.BOM_UTF8 if raw.startswith(codecs.BOM_UTF8) else b""
    breaks = list(BREAK.finditer(text))
    ends = breaks[0].group() if breaks else "\n"
    starts = [0, *(one.end() for one in breaks)]
    lines = [text[start:end] for start, end in zip(starts, [*(one.start() for one in breaks), len(text)], strict=True)]
    root = read_text(text, "file")
    if not root.has(name):
        more = "" if text.endswith(ends) or not text else ends
        new = text + more + ends.join(_new_list(name, entries))
        return first + new.encode("utf-8")
    last, style = _last(root, name, lines)
    at = _end(lines, last.line - 1, style.dash)
    here = starts[at] + len(lines[at])
    written = [line for entry in entries for line in _with_gap(_in_order(entry, style.names), style)]
    return first + (text[:here] + ends + ends.join(written) + text[here:]).encode("utf-8")


def _new_list(name: str, entries: Sequence[Entry]) -> list[str]:
    """The lines of a list that is not there yet, with an empty one before it and between its entries."""
    lines = [line for entry in entries for line in _with_gap(entry, USUAL)]
    return ["", f"{name}:", *lines[1:], ""]


def _with_gap(entry: Entry, style: Style) -> list[str]:
    return [*([""] if style.blank else []), *_lines(entry, style)]


def _last(root: Record, name: str, lines: list[str]) -> tuple[Mark, Style]:
    """Where the last entry of a list begins, and how it is written."""
    place = root.mark(name)
    items = root.records(name, "this entry", needed=False)
    if not items or _at(lines, place) == "[":
        raise NoPlaceError(place)
    last = items[-1]
    mark = last.mark()
    dash = lines[mark.line - 1][: mark.column - 1].rfind("-")
    if dash < 0 or lines[mark.line - 1][:dash].strip():
        raise NoPlaceError(mark)
    between = [line.strip() for line in lines[items[-2].mark().line - 1 if len(items) > 1 else 0 : mark.line - 1]]
    if len(items) == 1:  # then the list itself shows whether empty lines are liked
        between = between[: _named(between, name)]
    lists = {one: _rows(last, one, lines, mark) for one in last.names() if last.is_list(one)}
    style = Style(
        dash=dash,
        inner=mark.column - 1 - dash,
        flow=_at(lines, mark) == "{",
        pad=" " if any("{ " in line for line in lines[mark.line - 1 :]) else "",
        blank=_blank_before(between),
        lists=lists,
        names=last.names(),
    )
    return mark, style


def _named(lines: list[str], name: str) -> int:
    """The last of these lines that begins with the name of the list."""
    return max((at for at, line in enumerate(lines) if re.match(rf"[\"']?{re.escape(name)}\b", line)), default=0)


def _blank_before(between: list[str]) -> bool:
    """Whether an empty line parts an entry, and what is said of it above it, from the one before it."""
    while between and between[-1].startswith("#"):
        between = between[:-1]
    return bool(between) and not between[-1]


def _at(lines: list[str], mark: Mark) -> str:
    return lines[mark.line - 1][mark.column - 1 : mark.column]


def _rows(record: Record, name: str, lines: list[str], entry: Mark) -> tuple[int, bool]:
    """How far in from the entry's fields the rows of one of its lists stand, and whether they are in braces."""
    rows = record.records(name, "this row", needed=False)
    if not rows:
        return 2, True
    if _at(lines, record.mark(name)) == "[":
        return INLINE, True
    mark = rows[-1].mark()
    dash = lines[mark.line - 1][: mark.column - 1].rfind("-")
    return max(0, dash - (entry.column - 1)), _at(lines, mark) == "{"


def _end(lines: list[str], start: int, dash: int) -> int:
    """The last line of the entry that begins at a line: what follows it is not as far in as its dash."""
    end = start
    for at in range(start + 1, len(lines)):
        line = lines[at]
        if not line.strip():
            continue
        if len(line) - len(line.lstrip(" ")) > dash:
            end = at
        elif not line.lstrip().startswith("#"):
            break
    return end


def _in_order(entry: Entry, names: tuple[str, ...]) -> Entry:
    """The fields in the order of those of another entry, unless it is in our order anyway."""
    shared = [name for name in names if name in entry]
    if shared == [name for name in entry if name in shared]:
        return entry
    order = [*shared, *(name for name in entry if name not in shared)]
    return {name: entry[name] for name in order}


def _lines(entry: Entry, style: Style) -> Iterator[str]:
    """The entry, line by line."""
    lead, gap = " " * style.dash + "-", " " * (style.inner - 1)
    if style.flow:
        yield f"{lead}{gap}{_flow(entry, style)}"
        return
    for at, line in enumerate(_block(entry, style)):
        yield f"{lead}{gap}{line}" if at == 0 else " " * (style.dash + style.inner) + line


def _block(entry: Entry, style: Style) -> Iterator[str]:
    usual = next(iter(style.lists.values()), (2, True))
    for name, value in entry.items():
        offset, braces = style.lists.get(name, usual)
        if not isinstance(value, list) or offset == INLINE:
            yield f"{name}: {scalar(value) if isinstance(value, str) else _flow(value, style)}"
            continue
        yield f"{name}:"
        for row in value:
            yield from _lines(row, Style(dash=offset, flow=braces, pad=style.pad))


def _flow(value: Value, style: Style) -> str:
    if isinstance(value, str):
        return scalar(value, braces=True)
    if isinstance(value, list):
        return "[" + ", ".join(_flow(one, style) for one in value) + "]"
    inside = ", ".join(f"{name}: {_flow(one, style)}" for name, one in value.items())
    return "{" + style.pad + inside + style.pad + "}"
