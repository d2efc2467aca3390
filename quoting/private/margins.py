"""What is left of each price: lenses by package and band, frames by colorway and size, surcharges."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from quoting.catalog.model import Colorway, Frame, Package, PriceBand
from quoting.catalog.shop import Catalog, Surcharge
from quoting.findings import Mark
from quoting.private.model import BandCost, Cost, Costs, Floor
from quoting.private.read_lens_costs import on_material
from quoting.private.till import Kind, Till
from quoting.written.figures import QUARTER

Key = tuple[str, str, str, float]  # of one price of a day: kind, id, colorway, lower end of the band
NO_PRICES: Mapping[Key, int] = {}


@dataclass(frozen=True, slots=True)
class Margin:
    """One price and what it costs the shop.  Lenses and frames each, a surcharge per lens or pair, as it is charged."""

    kind: Kind
    id: str
    colorway: str  # of a frame; else ""
    sizes: tuple[str, ...]  # of a frame: those that cost the same; else ()
    low: float  # of a lens, D; else 0
    high: float
    price: int  # cents, as it stands in the price list
    net: int  # cents, without tax and offers
    cost: Cost | None  # None where nobody wrote it
    missing: tuple[str, ...]  # what would have to be written for a cost
    floor: Floor | None
    mark: Mark = field(compare=False, repr=False)  # of the price

    @property
    def cents(self) -> int | None:
        """What is left, cents."""
        return None if self.cost is None else self.net - self.cost.cents

    @property
    def percent(self) -> float | None:
        """What is left in percent of the price without tax; None where nothing is paid, too."""
        return None if self.cents is None or self.net == 0 else self.cents * 100 / self.net

    @property
    def at_loss(self) -> bool:
        """Whether the shop pays for selling it."""
        return self.cents is not None and self.cents < 0

    @property
    def under_floor(self) -> bool:
        """Whether less is left than the shop's floor."""
        return self.cost is not None and self.floor is not None and not self.floor.kept_by(self.net, self.cost.cents)


@dataclass(frozen=True, slots=True)
class Books:
    """A catalog at the prices of a day, what it costs the shop, and what is left of a price."""

    catalog: Catalog
    costs: Costs
    till: Till

    def margins(self, instead: Mapping[Key, int] = NO_PRICES) -> list[Margin]:
        """All of them in the order of the catalog: lenses, frames, surcharges.  ``instead``: other prices, in cents."""
        found: list[Margin] = []
        for package in self.catalog.packages.values():
            for band in package.prices:
                found += self._lens(package, band, instead.get(("lens", package.id, "", band.low), band.lens_cents))
        for frame in self.catalog.frames.values():
            for color in frame.colorways:
                price = instead.get(("frame", frame.id, color.id, 0.0), color.price_cents)
                found += self._frame(frame, color, price)
        found += [self._surcharge(one) for one in self.catalog.price_list.surcharges]
        return found

    def _lens(self, package: Package, band: PriceBand, price: int) -> Iterator[Margin]:
        rows, missing = self.lens_costs(package)
        net = self.till.net("lens", price)
        for low, high, cost in parts(band, rows):
            yield Margin(
                "lens", package.id, "", (), low, high, price, net, cost,
                () if cost else missing or ("package",), self.costs.lens_floor, band.mark,
            )  # fmt: skip

    def lens_costs(self, package: Package) -> tuple[tuple[BandCost, ...], tuple[str, ...]]:
        """Rows of costs of a package, or what is missing: its own, else its material and what comes on it."""
        if package.id in self.costs.packages:
            return self.costs.packages[package.id], ()
        material = self.costs.materials.get(package.material.id)
        if material is None:
            return (), ("package",)
        options, cents = self.costs.options, material.cents
        missing = []
        for names in on_material(package):
            found = next((options[name] for name in names if name in options), None)
            cents += found.cents if found is not None else 0
            missing += [names[-1]] if found is None else []
        if missing:
            return (), tuple(missing)
        return (BandCost(-float("inf"), float("inf"), Cost(cents, material.mark)),), ()

    def _frame(self, frame: Frame, color: Colorway, price: int) -> Iterator[Margin]:
        net = self.till.net("frame", price)
        alike: dict[Cost | None, list[str]] = {}
        for size in frame.sizes:
            alike.setdefault(self.costs.of_frame(frame.id, color.id, size.key), []).append(size.key)
        for cost, sizes in alike.items():
            yield Margin(
                "frame", frame.id, color.id, tuple(sizes), 0.0, 0.0, price, net, cost,
                () if cost else ("frame",), self.costs.frame_floor, color.mark,
            )  # fmt: skip

    def _surcharge(self, one: Surcharge) -> Margin:
        cost, net = self.costs.options.get(one.id), self.till.net("surcharge", one.cents)
        missing = () if cost else ("option",)
        return Margin("surcharge", one.id, "", (), 0.0, 0.0, one.cents, net, cost, missing, None, one.mark)


def parts(band: PriceBand, rows: tuple[BandCost, ...]) -> Iterator[tuple[float, float, Cost | None]]:
    """A band of one price in parts of one cost; None where no row of costs holds the powers.

    >>> from quoting.findings import Mark
    >>> mark = Mark("", 1, 1)
    >>> rows = (BandCost(-6.0, -2.25, Cost(900, mark)), BandCost(-2.0, 0.0, Cost(800, mark)))
    >>> [(low, high, cost and cost.cents) for low, high, cost in parts(PriceBand(-4.0, 2.0, 2400, mark), rows)]
    [(-4.0, -2.25, 900), (-2.0, 0.0, 800), (0.25, 2.0, None)]
    """
    at = band.low
    for row in rows:
        if row.high < at or row.low > band.high:
            continue
        if row.low > at:
            yield at, row.low - QUARTER, None
            at = row.low
        yield at, min(row.high, band.high), row.cost
        at = row.high + QUARTER
    if at <= band.high:
        yield at, band.high, None
