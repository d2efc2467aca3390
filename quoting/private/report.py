"""The margins of a day, and what a raise would make of them."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from quoting.private.margins import Books, Margin
from quoting.private.tried import Raise
from quoting.tables import in_force


@dataclass(frozen=True, slots=True)
class Report:
    """All margins now; with a raise also as they would be, in the same order."""

    books: Books
    day: date
    now: list[Margin]
    later: list[Margin]  # the same as now without a raise
    wanted: Raise | None
    taken_out: bool  # whether tax or offers leave less of any price than stands in the list

    @classmethod
    def of(cls, books: Books, day: date, wanted: Raise | None = None) -> Report:
        """Reckoned from the catalog."""
        now = books.margins()
        later = books.margins(wanted.prices) if wanted else now
        return cls(books, day, now, later, wanted, any(one.net != one.price for one in later))

    def pairs(self, under: bool = False) -> Iterator[tuple[Margin, Margin]]:
        """Each margin and what becomes of it: with a raise those that change, ``under``: those under the floor."""
        for now, later in zip(self.now, self.later, strict=True):
            flagged = any(one.under_floor or one.at_loss for one in (now, later))
            if (self.wanted is None or now.price != later.price) and (flagged or not under):
                yield now, later

    def least(self, one: Margin) -> int | None:
        """The least price that keeps the floor, cents; None where it is kept, or where no price would."""
        if not one.under_floor or one.cost is None or one.floor is None:
            return None
        return self.books.till.least(one.kind, one.cost.cents, one.floor)

    @property
    def offers(self) -> list[str]:
        """The offers that are reckoned with, or that would be."""
        return [one.id for one in self.books.catalog.price_list.discounts if in_force(one, self.day, ())]


def counted(margins: list[Margin]) -> tuple[int, int]:
    """How many are under the floor, those at a loss left out, and how many are at a loss."""
    at_loss = sum(1 for one in margins if one.at_loss)
    return sum(1 for one in margins if one.under_floor and not one.at_loss), at_loss
