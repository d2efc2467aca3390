"""The rows of all boards: those of the last build where nothing that they depend on has changed, else worked out."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from typing import Any

from quoting.catalog.model import Frame, Size
from quoting.languages import spoken
from quoting.offers import Offers
from quoting.remembered import digest
from quoting.site.board import Board, joined, made_row, row_of
from quoting.site.cells import SIGNS, Cell


class Rows:
    """What is remembered under front, prices, language and all that the shop says of boards: a row for each package."""

    def __init__(self, offers: Offers) -> None:
        shop = offers.catalog.shop
        self._offers = offers
        self._usual = digest((shop.bands, shop.limits, shop.defaults, shop.currency, shop.locale))
        self._names = {package.id: digest(package) for package in offers.catalog.packages.values()}

    def board(self, frame: Frame, size: Size) -> Board:
        """The board of a frame in a size."""
        key, packages = self.key(frame, size), self._offers.catalog.packages
        known = self._offers.memory.get(key)
        cells = {name: self._read(known, self._names[name]) for name in packages}
        rows = {
            name: made_row(size, package, found)
            if (found := cells[name]) is not None
            else row_of(self._offers, frame, size, package)
            for name, package in packages.items()
        }
        if None in cells.values():
            self._offers.memory.put(key, {self._names[name]: row.cells for name, row in rows.items()})
            self._offers.keep()
        else:
            self._offers.pass_on(frame, size)
        return joined(self._offers.catalog, size, rows)

    def knows(self, frame: Frame, size: Size) -> bool:
        """Whether anything is known of a board."""
        return self._offers.memory.has(self.key(frame, size))

    def key(self, frame: Frame, size: Size) -> str:
        """The name of all that a board depends on beside its packages."""
        front, money = self._offers.front(frame, size), self._offers.money(frame.colorways[0])
        return digest(("rows", front, money, spoken(), self._usual))

    def _read(self, known: Any, package: str) -> tuple[Cell, ...] | None:
        """The cells of a package as they were kept; None where they are not, or have another form."""
        try:
            cells = tuple(_cell(row) for row in known[package])
        except (KeyError, TypeError, ValueError):
            return None
        return cells if len(cells) == len(self._offers.catalog.shop.bands) else None


def _cell(row: list[Any]) -> Cell:
    verdict, price, thickness, notes, codes, partly, cents, edge, charged = row
    if verdict not in SIGNS:
        raise ValueError("no cell")
    return Cell(verdict, price, thickness, tuple(notes), tuple(codes), partly, cents, edge, tuple(charged))
