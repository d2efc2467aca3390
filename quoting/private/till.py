"""What a price leaves in the till: without the tax it may hold, and without what offers take off.

Sources: the shop's own price list; shares and offers are those of a bill (kernel/lines.py, kernel/discounts.py).
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from bisect import bisect_left
from dataclasses import dataclass
from datetime import date
from typing import Literal

from quoting.catalog.shop import Catalog, Region
from quoting.kernel.discounts import discount_lines
from quoting.kernel.lines import share_within
from quoting.kernel.records import Money
from quoting.private.model import Floor
from quoting.tables import money_table

Kind = Literal["lens", "frame", "surcharge"]
MOST_CENTS = 10_000_000  # as in the catalog's own fields


@dataclass(frozen=True, slots=True)
class Till:
    """A price list's tax in one region, and the offers of a day."""

    region: Region
    tax_included: bool
    offers: Money | None  # None: reckoned without offers

    @classmethod
    def of(cls, catalog: Catalog, region: Region, day: date, offers: bool = False) -> Till:
        """With ``offers``: with those that everybody gets on that day, as if each thing were sold alone."""
        prices = catalog.price_list
        return cls(region, prices.tax_included, money_table(prices, 0, region, day) if offers else None)

    def rate(self, kind: Kind) -> int:
        """The tax that a price holds, basis points."""
        if not self.tax_included:
            return 0
        return self.region.tax_frame if kind == "frame" else self.region.tax_lenses

    def net(self, kind: Kind, cents: int) -> int:
        """What is left of a price, cents."""
        paid = self.paid(kind, cents)
        return paid - share_within(paid, self.rate(kind))

    def paid(self, kind: Kind, cents: int) -> int:
        """What is paid after offers.  Lenses are sold in pairs; half a cent of one is rounded up."""
        if self.offers is None or kind == "surcharge":
            return cents
        if kind == "frame":
            return discount_lines(self.offers, cents, 0, [])[0]
        return (discount_lines(self.offers, 0, 2 * cents, [])[1] + 1) // 2

    def least(self, kind: Kind, cost_cents: int, floor: Floor) -> int | None:
        """The least price that keeps the floor, cents; None where no price that can be written does.

        What is left grows with the price, so the first that keeps it is found by halving.
        """
        prices = range(MOST_CENTS + 1)
        found = bisect_left(prices, True, key=lambda cents: floor.kept_by(self.net(kind, cents), cost_cents))
        return found if found <= MOST_CENTS else None
