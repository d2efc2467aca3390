"""The price list: surcharges, discounts, shipping and tax, with its version and its day."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from datetime import date
from typing import Literal, cast, get_args

from quoting.catalog import checks
from quoting.catalog.model import MOUNTINGS, Frame, Package
from quoting.catalog.read_list_prices import read_frame_prices, read_lens_prices
from quoting.catalog.shop import Discount, On, PriceList, Region, Surcharge, When
from quoting.catalog.table import Table
from quoting.nodes import Record

WHENS: tuple[str, ...] = get_args(When)
ONS: tuple[str, ...] = get_args(On)
SURCHARGE = "{id: prism, text: Prescribed prism, when: prism, per: lens, price: 12.00}"
DISCOUNT = "{id: autumn, text: Autumn offer, on: lenses, percent: 10}"
REGION = "{id: home, name: Our county, shipping: 6.50, tax: {frame: 8.25, lenses: 0, shipping: 0}}"
ASKING = "surcharges for a cylinder, a power, a blank, a wrap or a tint"


def read_prices(root: Record, packages: Table[Package], frames: Table[Frame]) -> PriceList | None:
    """The price list of one file, or None where any of it cannot be relied on."""
    effective = root.day("effective")
    return root.made(
        PriceList(
            version=root.text("version", most=40, example="2026-09"),
            effective=effective,
            tax_included=root.flag("tax_included"),
            surcharges=read_surcharges(root),
            discounts=read_discounts(root, effective if root.sound("effective") else None),
            regions=read_regions(root),
            mark=root.mark("effective"),
            lenses=read_lens_prices(root, packages),
            frames=read_frame_prices(root, frames),
        )
    )


def read_surcharges(root: Record) -> tuple[Surcharge, ...]:
    """What is added, and when."""
    records = root.records("surcharges", "this surcharge", needed=False, example=SURCHARGE)
    surcharges = [read_surcharge(record) for record in records]
    checks.distinct_ids(records, [surcharge.id for surcharge in surcharges], "surcharge", "of this list")
    return tuple(surcharges)


def read_surcharge(record: Record) -> Surcharge:
    """One surcharge; what it is measured by depends on when it is due."""
    when = record.choice("when", WHENS)
    known = record.sound("when")
    surcharge = Surcharge(
        id=record.word("id", example="prism"),
        text=record.text("text", most=120, example="Prescribed prism"),
        when=cast(When, when),
        over=over(record, when if known else ""),
        mounting=record.choice("mounting", MOUNTINGS) if known and when == "mounting" else "",
        per=cast(Literal["lens", "pair"], record.choice("per", ("lens", "pair"))),
        cents=record.money("price", example="12.00"),
        mark=record.mark("id"),
    )
    if known and when != "mounting":
        checks.absent(record, "mounting", "surcharges for a mounting")
    record.has("over"), record.has("mounting")  # known fields even where `when` could not be read
    record.close()
    return surcharge


def over(record: Record, when: str) -> float:
    """From where on a surcharge is due: D of cylinder or power, mm of blank, degrees of wrap, percent of tint."""
    if when == "cylinder":
        return record.power("over", 0, 12, example="2.00")
    if when == "blank":
        return record.length("over", 40, 100, example="70")
    if when == "wrap":
        return record.angle("over", 0, 40, example="15")
    if when == "power":
        return record.power("over", 0, 40, example="6.00")
    if when == "tint":
        return record.number("over", 0, 100, default=0.0, example="50")
    if when:
        checks.absent(record, "over", ASKING)
    return 0.0


def read_discounts(root: Record, effective: date | None) -> tuple[Discount, ...]:
    """What is taken off, and on what conditions."""
    records = root.records("discounts", "this discount", needed=False, example=DISCOUNT)
    discounts = [read_discount(record, effective) for record in records]
    checks.distinct_ids(records, [discount.id for discount in discounts], "discount", "of this list")
    return tuple(discounts)


def read_discount(record: Record, effective: date | None) -> Discount:
    """One discount: a percentage or an amount."""
    discount = Discount(
        id=record.word("id", example="autumn"),
        text=record.text("text", most=120, example="Autumn offer"),
        on=cast(On, record.choice("on", ONS)),
        basis_points=record.percent("percent", example="10") if record.has("percent") else 0,
        cents=record.money("amount", example="25.00") if record.has("amount") else 0,
        starts=record.day("from") if record.has("from") else None,
        ends=record.day("until") if record.has("until") else None,
        asked=record.flag("asked", default=False),
        combinable=record.flag("combinable", default=True),
        mark=record.mark("id"),
    )
    checks.one_of_two(record, "percent", "amount")
    checks.worth_something(record, "percent", discount.basis_points)
    checks.worth_something(record, "amount", discount.cents)
    checks.dates(record, discount.starts, discount.ends, effective)
    record.close()
    return discount


def read_regions(root: Record) -> tuple[Region, ...]:
    """Where we ship to, what that costs, and which tax is due; the first is the usual one."""
    records = root.records("regions", "this region", example=REGION)
    regions = []
    for record in records:
        tax = record.record("tax", "this tax", example="{frame: 8.25, lenses: 0, shipping: 0}")
        region = Region(
            id=record.word("id", example="home"),
            name=record.text("name", most=120, example="Our county"),
            shipping_cents=record.money("shipping", example="6.50"),
            free_from_cents=record.money("free_from", example="250.00") if record.has("free_from") else 0,
            tax_frame=tax.percent("frame"),
            tax_lenses=tax.percent("lenses", example="0"),
            tax_shipping=tax.percent("shipping", example="0"),
            mark=record.mark("id"),
        )
        tax.close()
        record.close()
        regions.append(region)
    checks.distinct_ids(records, [region.id for region in regions], "region", "of this list")
    return tuple(regions)
