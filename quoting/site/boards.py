"""The boards of a shop while its pages are made: a page asks more than once, and lens pages ask for all."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from quoting.catalog.model import Frame, Package, Size
from quoting.offers import Offers
from quoting.site.ahead import NOBODY, Ahead
from quoting.site.board import Board
from quoting.site.cells import Cell
from quoting.site.rows import Rows

Watch = Callable[[Frame, Size, Board], None]

# A frame's page asks for the boards of all its sizes
MOST_BOARDS = 12


class Boards:
    """Those of one edition.  ``watch`` is shown each once; some may be worked out ahead."""

    def __init__(self, offers: Offers, watch: Watch | None, worked_out: Ahead = NOBODY) -> None:
        self._ahead = worked_out
        self._rows = Rows(offers)
        self._watch = watch
        self._held: dict[tuple[str, str], Board] = {}
        self._taken: dict[tuple[str, str], dict[str, int]] = {}  # in how many bands a package fits

    def board(self, frame: Frame, size: Size) -> Board:
        """The lens board of a frame in a size, made once and held while its page is made."""
        key = (frame.id, size.key)
        if key not in self._held:
            if len(self._held) >= MOST_BOARDS:
                self._held.clear()
            self._ahead.need(frame)
            self._held[key] = self._rows.board(frame, size)
            if self._watch is not None and key not in self._taken:
                self._watch(frame, size, self._held[key])
            self._taken[key] = {row.package.id: row.fits for row in self._held[key].rows() if row.fits}
        return self._held[key]

    def cells(self, frame: Frame) -> Iterator[Cell]:
        """All cells of a frame's boards."""
        boards = (self.board(frame, size) for size in frame.sizes)
        return (cell for board in boards for row in board.rows() for cell in row.cells)

    def takers(
        self, frames: Iterable[Frame], packages: Iterable[Package]
    ) -> dict[str, list[tuple[Frame, list[tuple[Size, int]]]]]:
        """For each package the frames that take it, with their sizes and in how many bands."""
        found: dict[str, list[tuple[Frame, list[tuple[Size, int]]]]] = {package.id: [] for package in packages}
        for frame in frames:
            sizes: dict[str, list[tuple[Size, int]]] = {}
            for size in frame.sizes:
                if (frame.id, size.key) not in self._taken:
                    self.board(frame, size)
                for package, fits in self._taken[frame.id, size.key].items():
                    sizes.setdefault(package, []).append((size, fits))
            for package, taken in sizes.items():
                found[package].append((frame, taken))
        return found
