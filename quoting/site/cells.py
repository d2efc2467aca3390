"""The cells of a lens board as HTML: joined here and not in a template, because a board has some three hundred.

Every text is escaped; equal cells are made once.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from markupsafe import Markup

# A verdict is a sign and a word, never a color alone
SIGNS = {"fits": "✓", "caution": "!", "no": "×"}
WORDS = {"fits": "fits", "caution": "fits, with a caution", "no": "does not fit"}

FITTING = Markup('<b class="price">{price}</b><span class="edge">{thickest} mm</span>')
ASK = "ask us"
WHY = Markup('<span class="why">{note}</span>')
CELL = Markup(
    '<td class="{verdict}"{title}><span class="mark" aria-hidden="true">{sign}</span>'
    '<span class="sr">{word}: </span>{body}</td>'
)


@dataclass(frozen=True, slots=True)
class Cell:
    """What stands where a package's row meets a band's column."""

    verdict: str
    price: str  # of the pair of lenses with its surcharges; "" where there is none
    thickest: str  # mm; "" where no such lens is made
    note: str  # the first reason in a few words
    sentences: tuple[str, ...]  # every reason as the customer is told it


@lru_cache(maxsize=32768)
def cell_html(cell: Cell) -> Markup:
    """One cell.

    >>> print(cell_html(Cell("fits", "$24.00", "3.4", "", ())))
    <td class="fits"><span class="mark" aria-hidden="true">✓</span><span class="sr">fits: </span><b \
class="price">$24.00</b><span class="edge">3.4 mm</span></td>
    """
    title = Markup(' title="{}"').format(" ".join(cell.sentences)) if cell.sentences else ""
    body = Markup("") if cell.verdict == "no" else FITTING.format(price=cell.price or ASK, thickest=cell.thickest)
    body += WHY.format(note=cell.note) if cell.note else ""
    sign, word = SIGNS[cell.verdict], WORDS[cell.verdict]
    return CELL.format(verdict=cell.verdict, title=title, sign=sign, word=word, body=body)


def cells_html(cells: tuple[Cell, ...]) -> Markup:
    """All cells of a row."""
    return Markup("").join(cell_html(cell) for cell in cells)
