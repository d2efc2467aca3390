"""Tables in prose: each in a region that scrolls where it is too wide, by keyboard too, and shows that it goes on."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
from collections.abc import Iterator

from markupsafe import Markup, escape

from quoting.languages import _

PART = re.compile(r"<(?P<close>/?)(?P<kind>table|h[1-6])\b[^>]*>", re.IGNORECASE)
# A cell as Markdown writes it: of a column that is aligned (`---:`) with a style, which the pages' policy forbids
CELL = re.compile(r'<(t[hd])(?: style="text-align: (left|center|right);")?>')
CLASSES = {"center": ' class="mid"', "right": ' class="num"'}
REGION = '<div class="scroll" role="region" aria-label="{}" tabindex="0">{}</div>'


def in_regions(html: str, title: str) -> Markup:
    """A piece of prose with each table in a region, named after the heading above it, or else after ``title``.

    Numbers keep two names of one page apart, as landmarks must be.

    >>> print(in_regions('<h2>Of <i>glass</i></h2>\\n<table><td style="text-align: right;">1</table>', "A guide"))
    <h2>Of <i>glass</i></h2>
    <div class="scroll" role="region" aria-label="Table 1: Of glass" tabindex="0"><table><td class="num">1</table></div>
    """
    found, end = "", 0
    for number, (start, stop, heading) in enumerate(_tables(html), 1):
        label = escape(_("Table {number}: {title}").format(number=number, title=heading or title))
        found += html[end:start] + REGION.format(label, _cells(html[start:stop]))
        end = stop
    return Markup(found + html[end:])


def _cells(table: str) -> str:
    """A table with our classes for its columns, and scopes for the cells at its head."""
    top, foot, body = table.rpartition("</thead>")
    heads = CELL.sub(lambda cell: f'<{cell[1]} scope="col"{CLASSES.get(cell[2], "")}>', top)
    return heads + foot + CELL.sub(lambda cell: f"<{cell[1]}{CLASSES.get(cell[2], '')}>", body)


def _tables(html: str) -> Iterator[tuple[int, int, str]]:
    """Where each table begins and ends, and the heading above it; one in another table belongs to that."""
    heading, opened, began, inside = "", 0, 0, 0
    for part in PART.finditer(html):
        table, close = part["kind"].lower() == "table", bool(part["close"])
        if table and not close:
            began, inside = (began if inside else part.start()), inside + 1
        elif table and inside:
            inside -= 1
            if not inside:
                yield began, part.end(), heading
        elif not table and not close:
            opened = part.end()
        elif not table and not inside:
            heading = Markup(html[opened : part.start()]).striptags()
