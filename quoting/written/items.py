"""The items of a file that can be read one without another: entries of a list, and fields, one or two levels deep.

A fault of writing in one of them does not keep the others from being read.

>>> lines = ["maker: Fellmark", "frames:", "  - id: tarn", "    name: {", "  - id: reed", "# the end"]
>>> [(one.first, one.end) for one in items(lines)]
[(0, 1), (2, 4), (4, 6)]
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from quoting.written.node import Listing, Mapping, Node, Scalar

KEY = re.compile(r"""(?P<indent> *)(?P<name>[^\W\d][\w./-]{0,79}|"[^"\\]{0,79}"|'[^']{0,79}')\s*:(?P<value>\s.*|)""")
DASH = re.compile(r" *-(?:\s|$)")
OPEN = re.compile(r""" *(?:-\s+)*(?P<key>[^\W\d][\w./-]{0,79}):\s+(?P<text>"(?:[^"\\]|\\.)*|'(?:[^']|'')*)""")
NOTHING = re.compile(r"\s*(?:#.*)?")
GOES_ON = ("]", "}", "\t", "#", "...")  # a line that begins with one of these begins no field


@dataclass(frozen=True, slots=True)
class Item:
    """Lines from ``first`` up to, and without, ``end``, counted from 0."""

    first: int
    end: int
    over: int  # the line of the name under which it stands; -1: it stands by itself
    key: str  # its line up to the colon; "" for an entry of a list, and where no name can be read


def items(lines: Sequence[str]) -> list[Item]:
    """All of them, in order, with lines that stand where an item should begin.  What is before the first is none."""
    found: list[Item] = []
    for first, end in _parts(range(len(lines)), lines, lambda line: not line.startswith((" ", "-", *GOES_ON))):
        key = KEY.match(lines[first])
        inside = _depth(lines, first + 1, end)
        if key is None or NOTHING.fullmatch(key["value"]) is None or inside is None:
            found.append(Item(first, end, -1, _named(lines[first])))
            continue
        dashed, depth = inside

        def begins(line: str, dashed: bool = dashed, depth: int = depth) -> bool:
            indent = len(line) - len(line.lstrip(" "))
            if not dashed and indent == depth:
                return not line.startswith(GOES_ON, indent)
            return indent <= depth and (DASH if dashed else KEY).match(line) is not None

        parts = _parts(range(first + 1, end), lines, begins)
        found += [Item(start, stop, first, "" if dashed else _named(lines[start])) for start, stop in parts]
    return found


def _parts(where: range, lines: Sequence[str], begins: Callable[[str], bool]) -> list[tuple[int, int]]:
    """Where each part begins, and where it ends."""
    starts = [at for at in where if lines[at] and begins(lines[at])]
    told = next((at for at in where if NOTHING.fullmatch(lines[at]) is None), None)
    if told is not None and (not starts or told < starts[0]):
        starts.insert(0, told)  # something that is no beginning stands before the first one
    return list(zip(starts, [*starts[1:], where.stop][: len(starts)], strict=True))


def _depth(lines: Sequence[str], first: int, end: int) -> tuple[bool, int] | None:
    """Whether a list stands in these lines, and how far its entries, or else its fields, are indented."""
    for at in range(first, end):
        if NOTHING.fullmatch(lines[at]) is None:
            dashed = DASH.match(lines[at]) is not None
            indent = len(lines[at]) - len(lines[at].lstrip(" "))
            return (dashed, indent) if dashed or (indent and KEY.match(lines[at])) else None
    return None


def _named(line: str) -> str:
    key = KEY.match(line)
    return line[: key.start("value")] if key is not None else ""


def swallowed(lines: Sequence[str], line: int, column: int, indent: int) -> bool:
    """Whether the quote at this place goes on over the next field, though parsers let it pass.

    The lines of a quoted text stand further in than the name before it, which stands at ``indent`` (YAML 1.2.2, section
    8.2.3: a value in a block mapping is a flow node of one indentation more).
    """
    if lines[line][column : column + 1] not in ("'", '"'):
        return False
    inside = next((one for one in lines[line + 1 :] if one.strip()), "")
    begins = KEY.match(inside) is not None or DASH.match(inside) is not None
    return begins and len(inside) - len(inside.lstrip(" ")) <= indent


def open_quote(lines: Sequence[str], first: int, last: int) -> tuple[int, int] | None:
    """The first quote of a field in these lines that goes on over the next field; its line and column."""
    for at in range(first, last + 1):
        found = OPEN.fullmatch(lines[at])
        if found is not None and swallowed(lines, at, found.start("text"), found.start("key")):
            return at, found.start("text")
    return None


def at_line(found: Sequence[Item], line: int) -> Item | None:
    """The item in which a line stands."""
    at = bisect_right(found, line, key=lambda one: one.first) - 1
    return found[at] if at >= 0 and line < found[at].end else None


def alone(item: Item, lines: Sequence[str]) -> list[str]:
    """Its lines with the name over it: what is read to see whether the fault is in it."""
    over = [lines[item.over]] if item.over >= 0 else []
    return over + list(lines[item.first : item.end])


def without(lines: Sequence[str], gone: Iterable[Item]) -> list[str]:
    """All lines but those of these items, each in its place; names stay, without their values."""
    left = list(lines)
    for item in gone:
        left[item.first : item.end] = [item.key, *[""] * (item.end - item.first - 1)]
    return left


def leave_out(root: Mapping, gone: Iterable[Item]) -> None:
    """Mark what was left out, so that nobody takes it for missing or empty."""
    for item in gone:
        over = (value for name, value in root.entries.values() if name.line == item.over)
        within: Node = root if item.over < 0 else next(over, root)
        if isinstance(within, Scalar):  # nothing was left of it
            within.broken = True
        elif isinstance(within, Mapping) and item.key:
            for name, value in within.entries.values():
                if name.line == item.first and isinstance(value, Scalar):
                    value.broken = True
        elif isinstance(within, Listing | Mapping):
            within.partial = True
