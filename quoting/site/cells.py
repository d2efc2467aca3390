"""The cells of a lens board as HTML: joined here and not in a template, because a board has some three hundred.

Every text is escaped; equal cells are made once.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from functools import lru_cache
from typing import Any, NamedTuple

from markupsafe import Markup, escape

from quoting.languages import _
from quoting.show.terms import verdict

# A verdict is a sign and a word, never a color alone
SIGNS = {"fits": "✓", "caution": "!", "no": "×"}


class Cell(NamedTuple):
    """What stands where a package's row meets a band's column."""

    verdict: str
    price: str = ""  # of the pair of lenses with its surcharges; "" where there is none
    thickness: str = ""  # of the thickest edge, and of the center where that is thicker; "" where it does not fit
    notes: tuple[str, ...] = ()  # what speaks against it, each in a few words
    codes: tuple[str, ...] = ()  # what those are about
    partly: bool = False  # it does not fit at the strongest power, and does at another of the column
    cents: int | None = None  # the price as a number
    edge: int | None = None  # the thickest edge in hundredths of a mm; None where it does not fit
    charged: tuple[str, ...] = ()  # ids of the surcharges that are in the price

    @property
    def fits(self) -> bool:
        """Whether it fits at some power of the column."""
        return self.partly or self.verdict != "no"


def cell_html(cell: Cell) -> Markup:
    """One cell.

    >>> print(cell_html(Cell("fits", "$24.00", "edge 3.4")))
    <td class="fits"><span class="mark" aria-hidden="true">✓</span><span class="sr">fits: </span><b \
class="price">$24.00</b><span class="edge">edge 3.4</span></td>
    """
    return _html(cell[:6], verdict(cell.verdict), _("ask us"))


@lru_cache(maxsize=32768)
def _html(shown: tuple[Any, ...], word: str, ask: str) -> Markup:
    cell, fit = Cell(*shown), ""
    if cell.verdict != "no":
        price, thickness = escape(cell.price or ask), escape(cell.thickness)
        fit = f'<b class="price">{price}</b><span class="edge">{thickness}</span>'
    why = " ".join(f'<span class="why">{escape(note)}</span>' for note in cell.notes)
    return Markup(
        f'<td class="{cell.verdict}{" partly" if cell.partly else ""}">'
        f'<span class="mark" aria-hidden="true">{SIGNS[cell.verdict]}</span>'
        f'<span class="sr">{escape(word)}: </span>{fit}{why}</td>'
    )


def cells_html(cells: tuple[Cell, ...]) -> Markup:
    """All cells of a row."""
    words, ask = {name: verdict(name) for name in SIGNS}, _("ask us")
    return Markup("".join(_html(cell[:6], words[cell.verdict], ask) for cell in cells))
