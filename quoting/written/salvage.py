"""A file with faults of writing, read but for the items that hold them: so what else is wrong is told at once, too."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from itertools import pairwise

from quoting.findings import Finding
from quoting.written.items import NOTHING, Item, alone, at_line, items, leave_out, open_quote, swallowed, without
from quoting.written.node import Mapping, Node, Scalar, Sheet
from quoting.written.refusals import Place, Trouble, syntax_fault

REST, LINES = "the rest of this file", "the rest of lines"
OPEN_QUOTE = (
    *("unclosed-quote", "a quote opens here and is not closed before the next field"),
    "close it where the text ends",
)
# What it may cost: each item is read once by itself, and the whole so often anew, by how long it is (our choice)
MOST_ITEMS = 20_000
MOST_TRIES, MOST_CHARACTERS = 20, 4_000_000


def salvaged(
    sheet: Sheet, trouble: Trouble, read: Callable[[str], Node | Trouble | None], scan: Callable[[str], Trouble | None]
) -> Mapping | None:
    """What stands in the file but for the items with a fault, each of which is told; None where nothing can be read.

    ``trouble`` is that of the whole file, ``read`` gives nodes of a text, ``scan`` only looks for its first trouble.
    An item that cannot be read by itself holds a fault.  Where all of them can, it is the one at which the file as a
    whole cannot: such as an entry that is not indented as the others.
    """
    lines = sheet.lines
    found = items(lines)
    gone: dict[Item, None] = {}
    following = {one: two for one, two in pairwise(found) if two.over < 0 and not two.key}
    joined: set[Item] = set()
    for item in found if len(found) <= MOST_ITEMS else ():
        if item in joined:
            continue
        own = scan(_text(item, lines))
        after = following.get(item)
        if own is not None and after is not None and scan(_text(replace(item, end=after.end), lines)) is None:
            joined.add(after)  # brackets or quotes that go on at the beginning of a line
        elif own is not None:
            _tell(sheet, item, _fault(_in_file(own, item, lines), sheet, item.first))
            gone[item] = None
    for _ in range(1 + min(MOST_TRIES, MOST_CHARACTERS // (1 + sum(map(len, lines))))):
        root = read("\n".join(without(lines, gone))) if gone else trouble
        if isinstance(root, Mapping):
            leave_out(root, gone)
            return root
        if not isinstance(root, Trouble):
            break
        place = root.at or root.since or (0, 0)
        at = at_line(found, place[0])
        fault = _fault(root, sheet, at.first if at is not None else place[0])
        at = at_line(found, fault.mark.line - 1)
        if at is None or at in gone:
            if at is None:
                sheet.findings.append(fault)
            break
        _tell(sheet, at, fault)
        gone[at] = None
    return None


def _fault(trouble: Trouble, sheet: Sheet, first: int) -> Finding:
    """What the parser stumbled over; or, where it did so behind a quote that somebody left open, that quote."""
    fault = syntax_fault(trouble, sheet)
    place = open_quote(sheet.lines, first, fault.mark.line - 1) if fault.code == "not-yaml" else None
    return Finding(sheet.mark(*place), *OPEN_QUOTE) if place is not None else fault


def told_open(sheet: Sheet, value: Scalar, indent: int, last: int) -> bool:
    """Whether a quote of a field at this indent is closed by one of a later field only, in the line ``last``; told."""
    if not swallowed(sheet.lines, value.line, value.column, indent):
        return False
    unchecked = f"{LINES} {value.line + 1} to {last + 1}"
    sheet.findings.append(Finding(sheet.mark(value.line, value.column), *OPEN_QUOTE, unchecked=unchecked))
    value.broken = True
    return True


def _text(item: Item, lines: Sequence[str]) -> str:
    return "\n".join([*alone(item, lines), ""])


def _tell(sheet: Sheet, item: Item, fault: Finding) -> None:
    """A fault, and which lines are not checked because of it."""
    last = _last(item, sheet.lines)
    several = last > item.first
    unchecked = f"{LINES} {item.first + 1} to {last + 1}" if several else ""
    sheet.findings.append(replace(fault, unchecked=unchecked))


def _last(item: Item, lines: Sequence[str]) -> int:
    """The last line of an item that holds something."""
    return next((at for at in range(item.end - 1, item.first, -1) if not NOTHING.fullmatch(lines[at])), item.first)


def _in_file(trouble: Trouble, item: Item, lines: Sequence[str]) -> Trouble:
    """The trouble of an item that was read by itself, with its places in the file."""

    def moved(place: Place | None) -> Place | None:
        if place is None:
            return None
        line, column = place[0] + before, place[1]
        if line < item.first:  # the name over it
            return item.over, column
        return (line, column) if line <= last else (last, len(lines[last]))

    last, before = _last(item, lines), item.first - (item.over >= 0)
    ended = trouble.at is not None and trouble.at[0] + before > last
    return replace(trouble, at=moved(trouble.at), since=moved(trouble.since), first=item.first, ended=ended)
