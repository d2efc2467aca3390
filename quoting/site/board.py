"""The lens board of one frame size: packages by design, columns by power band, in plain values for the template."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from markupsafe import Markup

from quoting.catalog.model import Design, Frame, Package, Size
from quoting.catalog.shop import Band, Catalog, Shop
from quoting.kernel.records import Fit
from quoting.languages import _
from quoting.offers import Choice, Offer, Offers
from quoting.show.amounts import mm, money
from quoting.show.brief import brief, elsewhere, may_fit
from quoting.show.reasons import told_once
from quoting.show.terms import KINDS
from quoting.site.cells import Cell, cells_html
from quoting.site.ends import End, forbids_all, only_there, other_end


@dataclass(frozen=True, slots=True)
class Row:
    package: Package
    anchor: str
    cells: tuple[Cell, ...]
    fits: int  # in how many bands it fits at some power, cautions included

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

    @property
    def codes(self) -> set[str]:
        """What the notes in its cells are about."""
        return {code for row in self.rows() for cell in row.cells for code in cell.codes}

    def rows(self) -> Iterator[Row]:
        """All rows, whatever their design."""
        return (row for group in self.groups for row in group.rows)


def thickness(offer: Offer) -> str:
    """The thickest edge, and the center where that is thicker, mm."""
    center, edge = max(lens["center"] for lens in offer.lenses()), offer.thickest
    more = center > edge and mm(center) != mm(edge)
    if more:
        return _("edge {edge}, center {center}").format(edge=mm(edge), center=mm(center))
    return _("edge {edge}").format(edge=mm(edge))


def cell_of(offer: Offer, end: End | None, shop: Shop) -> Cell:
    """An offer that fits as a cell, with what is otherwise at another power of its column."""
    package, verdict = offer.choice.package, offer.fit["verdict"]
    priced = offer.bill["priced"]
    price = money(offer.lenses_cents, shop.currency, shop.locale) if priced else ""
    reasons = told_once(offer.fit["reasons"])
    notes, codes = [brief(reason, package) for reason in reasons], [reason["code"] for reason in reasons]
    found = only_there(end, offer.fit) if end else None
    if end and found:
        verdict = "caution"
        notes.insert(0 if found["verdict"] == "no" else len(notes), elsewhere(found, package, end.power))
        codes += [found["code"], "not-at" if found["verdict"] == "no" else "at"]
    return Cell(
        verdict,
        price,
        thickness(offer),
        tuple(notes),
        tuple(codes),
        cents=offer.lenses_cents if priced else None,
        edge=round(offer.thickest * 100),
        charged=tuple(line["id"] for line in offer.bill["lines"] if line["code"] == "surcharge"),
    )


def misfit(fit: Fit, package: Package, end: End | None, band: Band) -> Cell:
    """The cell of a lens that does not fit at the strongest power: the reason that reaches farthest, in one note."""
    reasons = told_once(fit["reasons"])
    worst = next((reason for reason in reasons if forbids_all(reason)), reasons[0])
    notes, codes = [brief(worst, package)], [worst["code"]]
    partly = end is not None and end.verdict != "no"
    if partly:
        notes.append(may_fit(band.strongest, band.other))
        codes.append("may-fit")
    return Cell("no", notes=tuple(notes), codes=tuple(codes), partly=partly)


def row_of(offers: Offers, frame: Frame, size: Size, package: Package) -> Row:
    """One package at every band."""
    choice, cells = Choice(frame, size, frame.colorways[0], package), []
    for band in offers.catalog.shop.bands:
        fit = offers.fit_at(choice, band.strongest)
        offer = None if fit["verdict"] == "no" else offers.cell(choice, band)  # the same question, while it is at hand
        end = other_end(offers, choice, band, fit)
        shop = offers.catalog.shop
        cells.append(cell_of(offer, end, shop) if offer else misfit(fit, package, end, band))
    return made_row(size, package, tuple(cells))


def made_row(size: Size, package: Package, cells: tuple[Cell, ...]) -> Row:
    """The row of these cells."""
    return Row(package, f"{size.key}-{package.id}", cells, sum(cell.fits for cell in cells))


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
    """The whole board of one size, worked out."""
    packages = offers.catalog.packages.values()
    return joined(offers.catalog, size, {one.id: row_of(offers, frame, size, one) for one in packages})


def joined(catalog: Catalog, size: Size, rows: Mapping[str, Row]) -> Board:
    """The board of these rows, one for each package by its id."""
    groups = [
        Group(one[0].design, one[0].maker, tuple(rows[package.id] for package in one))
        for one in by_design(catalog.packages.values())
    ]
    return Board(size, catalog.shop.bands, tuple(sorted(groups, key=place)))
