"""What lenses cost the shop: by package, or by material and what comes on it."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.catalog import steps
from quoting.catalog.model import KINDS, Package
from quoting.catalog.read_list_prices import as_wide
from quoting.catalog.read_packages import LIGHTS
from quoting.catalog.shop import Catalog
from quoting.catalog.table import listing
from quoting.nodes import Record
from quoting.private.model import BandCost, Cost
from quoting.private.tables import Entries, Known
from quoting.written.kinds import meant_hint

CLEAR, PLAIN = "clear", "single-vision"  # what a bare lens is
ROWS = "{from: -6.00, to: +4.00, cost: 9.50}"


def known_options(catalog: Catalog) -> dict[str, str]:
    """What can come on a lens, and what it is: surcharges of all price lists, and what packages have on a material."""
    lists = catalog.price_lists or (catalog.price_list,)
    return {
        **{one.coating: "coating" for one in catalog.packages.values()},
        **{one.id: "surcharge" for prices in lists for one in prices.surcharges},
        **{one.id: "design" for one in catalog.designs.values()},
        **{kind: "kind" for kind in KINDS if kind != PLAIN},
        **{light: "light" for light in LIGHTS if light != CLEAR},
    }


def on_material(package: Package) -> list[tuple[str, ...]]:
    """What comes on the bare material in a package; of names in one tuple the first that has a cost counts.

    A lens that is more than single vision costs more than its material whoever makes it, so that must be written too.
    """
    names: list[tuple[str, ...]] = [(package.coating,)]
    names += [(package.light,)] if package.light != CLEAR else []
    names += [(package.design.id, package.design.kind)] if package.design.kind != PLAIN else []
    return names


def read_materials(root: Record, known: Known, entries: Entries) -> None:
    """What a lens of a material costs before anything comes on it."""

    def one(part: Record, name: str) -> Cost:
        known.materials.keyed(part, name)
        return Cost(part.money(name, example="4.20"), part.mark(name))

    entries.read(root, ("materials", "material", "{r150: 4.20}"), entries.materials, one)


def read_options(root: Record, known: Known, entries: Entries) -> None:
    """What a coating, a light, a design or the work behind a surcharge costs."""

    def one(part: Record, name: str) -> Cost:
        if part.has(name) and known.options is not None and name not in known.options:
            said = f"`{name}` is no surcharge of a price list, and no coating, light, design or kind of a package"
            hint = meant_hint(name, tuple(known.options)) or listing(known.options)
            part.key_fault(name, "unknown-id", said, hint)
        return Cost(part.money(name, example="14.00"), part.mark(name))

    entries.read(root, ("options", "option", "{photochromic: 14.00}"), entries.options, one)


def read_packages(root: Record, known: Known, entries: Entries) -> None:
    """What a lens of a package costs: one amount, or rows by its strongest principal power."""

    def one(part: Record, name: str) -> tuple[BandCost, ...]:
        package = known.packages.keyed(part, name)
        return read_rows(part, name, package) if part.is_list(name) else read_one(part, name)

    entries.read(root, ("packages", "package", "{plain-150: 9.50}"), entries.packages, one)


def read_one(part: Record, name: str) -> tuple[BandCost, ...]:
    """One cost for all powers."""
    cost = Cost(part.money(name, example=f"9.50, or rows [{ROWS}]"), part.mark(name))
    return (BandCost(steps.WEAKEST, steps.STRONGEST, cost),)


def read_rows(part: Record, name: str, package: Package | None) -> tuple[BandCost, ...]:
    """Rows that hold every power the package comes in."""
    rows, spans = [], []
    for record in part.records(name, "this cost", example=ROWS):
        span = steps.read_span(record)
        rows.append(BandCost(span.low, span.high, Cost(record.money("cost", example="9.50"), record.mark("cost"))))
        spans.append(span)
        record.close()
    if package is not None and steps.readable(part, name, spans) and steps.contiguous(name, spans):
        as_wide(spans, package)
    return tuple(sorted(rows, key=lambda row: row.low))
