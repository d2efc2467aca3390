"""Lens packages: a design in a material with a treatment, in the powers it comes in, at its prices."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from dataclasses import dataclass
from typing import cast, get_args

from quoting.catalog import checks, steps
from quoting.catalog.model import Design, Light, Material, Package, PowerRange, PriceBand, Step, Treatments
from quoting.catalog.steps import Span
from quoting.catalog.table import Table
from quoting.nodes import Record
from quoting.written.figures import QUARTER

LIGHTS: tuple[str, ...] = get_args(Light)
PACKAGE = "{id: plain-150, name: Plain 1.50, design: sv, material: r150, ...}"
RANGE = "{from: -6.00, to: +4.00, cylinder: 2.00, diameter: 70}"
CURVE = "{from: -6.00, to: -2.25, base: 2.0}"
CENTER = "{from: -6.00, to: -0.25, center: 2.0}"
PRICE = "{from: -6.00, to: +4.00, lens: 24.00}"


@dataclass(frozen=True, slots=True)
class Tables:
    """What packages refer to, and where they are entered."""

    materials: Table[Material]
    designs: Table[Design]
    packages: Table[Package]


def read_packages(root: Record, tables: Tables) -> None:
    """Enter the packages of one file, once the materials and designs of all files are known."""
    maker = root.text("maker", default="" if not root.has("packages") else None, most=80, example="Hallmere")
    for record in tables.packages.listed(root, "packages", PACKAGE):
        package = read_package(record, maker, tables)
        key = record.word("id", example="plain-150")
        tables.packages.enter(record, key, package)
    root.close()


def read_package(record: Record, maker: str, tables: Tables) -> Package:
    """One package; what of it cannot be relied on is marked in the record."""
    design = tables.designs.named(record, "design", "sv")
    material = tables.materials.named(record, "material", "r150")
    finished = record.flag("finished", default=False)
    ranges, spans = read_ranges(record, design)
    return Package(
        id=record.word("id", example="plain-150"),
        name=record.text("name", most=80, example="Plain 1.50, hard coat"),
        maker=maker,
        # absent only where the record is marked faulty, and then the package goes nowhere
        design=cast(Design, design),
        material=cast(Material, material),
        light=cast(Light, record.choice("light", LIGHTS)),
        coating=record.text("coating", most=80, example="hard coat"),
        finished=finished,
        ranges=ranges,
        curves=read_curves(record, design, spans),
        centers=read_centers(record, finished, spans),
        min_center=read_min_center(record, finished, material),
        prism=record.number(
            "prism", 0, 20, default=0.0 if finished or not record.sound("finished") else None, example="3.0"
        ),
        prices=read_lens_prices(record, spans),
        about=record.prose("about", default=""),
        mark=record.mark("id"),
        treatments=read_treatments(record),
    )


def read_treatments(package: Record) -> Treatments:
    """What may be added to it, and how much light it passes; nothing and not stated where nothing is written."""
    record = package.record("treatments", "`treatments`", needed=False, example="{mirror: yes, back_ar: yes}")
    made = Treatments(
        tint_over=record.flag("tint_over", default=False),
        mirror=record.flag("mirror", default=False),
        back_ar=record.flag("back_ar", default=False),
        blue_filter=record.flag("blue_filter", default=False),
        double_use=record.flag("double_use", default=False),
        transmittance=record.number("transmittance", 1, 100, default=0.0, example="92"),
        darkened=record.number("darkened", 1, 100, default=0.0, example="15"),
    )
    record.close()
    return made


def read_ranges(package: Record, design: Design | None) -> tuple[tuple[PowerRange, ...], list[Span]]:
    """The powers it comes in, each range with its blank; with an addition where the design is made to one."""
    ranges, spans = [], []
    for record in package.records("ranges", "this range", example=RANGE):
        span = steps.read_span(record)
        add_from, add_to = read_add(record, design)
        near = read_near(record)
        made = PowerRange(
            low=span.low,
            high=span.high,
            cylinder=record.power("cylinder", 0, 12, example="2.00", step=QUARTER),
            add_from=add_from,
            add_to=add_to,
            diameter=record.length("diameter", 40, 100, example="70"),
            mark=record.mark(),
            near=near is not None,
            near_from=near[0] if near else 0.0,
            near_to=near[1] if near else 0.0,
        )
        record.close()
        ranges.append(made)
        spans.append(span)
    return tuple(ranges), spans if steps.readable(package, "ranges", spans) else []


def read_near(record: Record) -> tuple[float, float] | None:
    """The limits of the near power (sphere and add or boost), where the maker states them."""
    if not record.has("near"):
        return None
    near = record.record("near", "this near", example="{from: -6.00, to: +6.00}")
    low = near.power("from", steps.WEAKEST, steps.STRONGEST, example="-6.00", step=QUARTER)
    high = near.power("to", steps.WEAKEST, steps.STRONGEST, example="+6.00", step=QUARTER)
    checks.rising(near, "from", "to", (low, high))
    near.close()
    return low, high


def read_add(record: Record, design: Design | None) -> tuple[float, float]:
    """The additions of a range: for progressives and bifocals only, and for these always."""
    if design is None:
        record.has("add")
        return 0.0, 0.0
    if design.kind not in checks.MULTIFOCAL:
        checks.absent(record, "add", "ranges of progressive and bifocal designs")
        return 0.0, 0.0
    add = record.record("add", "this add", example="{from: 0.75, to: 3.50}")
    low = add.power("from", 0.25, 6, example="0.75", step=QUARTER)
    high = add.power("to", 0.25, 6, example="3.50", step=QUARTER)
    checks.rising(add, "from", "to", (low, high))
    add.close()
    return low, high


def read_curves(package: Record, design: Design | None, ranges: list[Span]) -> tuple[Step, ...]:
    """The base curve chart by spherical equivalent, where the maker has one."""
    records = package.records("curves", "this row", needed=False, example=CURVE)
    spans = [steps.read_span(record) for record in records]
    bases = [record.number("base", 0, 16, example="2.0") for record in records]
    if design is not None:
        checks.chart_within_design(records, bases, design)
    return _steps(package, "curves", list(zip(spans, bases, strict=True)), ranges)


def read_centers(package: Record, finished: bool, ranges: list[Span]) -> tuple[Step, ...]:
    """The center thickness of finished lenses by power; lenses made to order have none of their own."""
    known = package.sound("finished")
    if known and not finished:
        checks.absent(package, "centers", "finished lenses (finished: yes)")
        return ()
    records = package.records("centers", "this row", needed=known, example=CENTER)
    rows = [(steps.read_span(record), record.length("center", 0.5, 20, example="2.0")) for record in records]
    return _steps(package, "centers", rows, ranges)


def read_min_center(package: Record, finished: bool, material: Material | None) -> float:
    """The minimum center thickness of lenses made to order: the package's own, else the material's."""
    usual = material.min_center if material is not None else 0.0
    if finished:
        checks.absent(package, "min_center", "lenses made to order (finished: no)")
        return usual
    return package.length("min_center", 0.5, 6, default=usual, example="1.5")


def read_lens_prices(package: Record, ranges: list[Span]) -> tuple[PriceBand, ...]:
    """What one lens costs, by its strongest principal power."""
    bands, spans = [], []
    for record in package.records("prices", "this price", example=PRICE):
        span = steps.read_span(record)
        cents = record.money("lens", example="24.00")
        bands.append(PriceBand(span.low, span.high, cents, record.mark()))
        spans.append(span)
        record.close()
    steps.chart(package, "prices", spans, ranges)
    return tuple(sorted(bands, key=lambda band: band.low))


def _steps(package: Record, name: str, rows: list[tuple[Span, float]], ranges: list[Span]) -> tuple[Step, ...]:
    for span, _ in rows:
        span.record.close()
    steps.chart(package, name, [span for span, _ in rows], ranges)
    found = [Step(span.low, span.high, value, span.record.mark()) for span, value in rows]
    return tuple(sorted(found, key=lambda step: step.low))
