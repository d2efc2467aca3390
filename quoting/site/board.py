"""The lens board of one frame size: packages by design, columns by power band, in plain values for the template."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from markupsafe import Markup

from quoting.catalog.model import Design, Frame, Package, Size
from quoting.catalog.shop import Band, Shop
from quoting.offers import Choice, Offer, Offers
from quoting.show.amounts import mm, money
from quoting.show.brief import brief
from quoting.show.reasons import customer, told_once
from quoting.site.cells import Cell, cells_html

# The kinds in the order in which customers ask for them
KINDS = {
    "single-vision": "Single vision",
    "anti-fatigue": "Anti-fatigue",
    "progressive": "Progressive",
    "bifocal": "Bifocal",
}


@dataclass(frozen=True, slots=True)
class Row:
    package: Package
    anchor: str
    cells: tuple[Cell, ...]
    fits: int  # how many bands it fits, cautions included

    @property
    def html(self) -> Markup:
        """The cells as they stand in the page."""
        return cells_html(self.cells)


@dataclass(frozen=True, slots=True)
class Group:
    """The packages of one design."""

    design: Design
    maker: str
    rows: tuple[Row, ...]


@dataclass(frozen=True, slots=True)
class Board:
    """One size of one frame against the whole shop."""

    size: Size
    bands: tuple[Band, ...]
    groups: tuple[Group, ...]

    @property
    def fitting(self) -> int:
        """How many packages fit at some power."""
        return sum(row.fits > 0 for row in self.rows())

    @property
    def packages(self) -> int:
        """How many packages there are."""
        return sum(1 for _ in self.rows())

    def rows(self) -> Iterator[Row]:
        """All rows, whatever their design."""
        return (row for group in self.groups for row in group.rows)


def cell_of(offer: Offer, shop: Shop) -> Cell:
    """One offer as a cell."""
    package = offer.choice.package
    reasons = told_once(offer.fit["reasons"])
    made = not any(lens["fault"] for lens in offer.lenses())
    price = money(offer.lenses_cents, shop.currency, shop.locale) if offer.bill["priced"] and made else ""
    return Cell(
        offer.fit["verdict"],
        price,
        mm(offer.thickest) if made else "",
        brief(reasons[0], package) if reasons else "",
        tuple(customer(reason, package) for reason in reasons),
    )


def row_of(offers: Offers, frame: Frame, size: Size, package: Package) -> Row:
    """One package at every band."""
    shop = offers.catalog.shop
    choice = Choice(frame, size, frame.colorways[0], package)
    cells = tuple(cell_of(offers.cell(choice, band), shop) for band in shop.bands)
    return Row(package, f"{size.key}-{package.id}", cells, sum(cell.verdict != "no" for cell in cells))


def by_design(packages: Iterable[Package]) -> list[list[Package]]:
    """The packages of each design, in the order of the catalog."""
    designs: dict[str, list[Package]] = {}
    for package in packages:
        designs.setdefault(package.design.id, []).append(package)
    return list(designs.values())


def place(group: Group) -> tuple[int, bool, int, str]:
    """Where a design stands on a board: by kind, what fits nowhere last, the least expensive first."""
    cheapest = min(band.lens_cents for row in group.rows for band in row.package.prices)
    return list(KINDS).index(group.design.kind), not any(row.fits for row in group.rows), cheapest, group.design.id


def board_of(offers: Offers, frame: Frame, size: Size) -> Board:
    """The whole board of one size."""
    groups = [
        Group(one[0].design, one[0].maker, tuple(row_of(offers, frame, size, package) for package in one))
        for one in by_design(offers.catalog.packages.values())
    ]
    return Board(size, offers.catalog.shop.bands, tuple(sorted(groups, key=place)))
