"""The surcharges that a page names can come on top of its prices; what its prices hold, or cannot be, is left out."""

from dataclasses import replace
from datetime import date

import pytest

from quoting.catalog.load import load
from quoting.catalog.shop import Surcharge
from quoting.findings import Mark
from quoting.offers import Ask, Choice, Offers
from quoting.places import shared
from quoting.prescription.text import read_slip
from quoting.site.board import board_of
from quoting.site.on_top import can_ask_for, on_board, on_package

DAY = date(2026, 2, 1)


@pytest.fixture(scope="module")
def demo():
    return load(shared("demo_catalog"), DAY)[0]


def surcharge(when, over=0.0, mounting=""):
    return Surcharge(when, f"{when.capitalize()} work", when, over, mounting, "pair", 1000, Mark("prices", 1, 1))


def priced_by(catalog, *surcharges):
    return Offers(replace(catalog, price_list=replace(catalog.price_list, surcharges=surcharges)), DAY)


def told_on(offers, frame):
    """What is named on the page of a frame."""
    boards = [board_of(offers, frame, size) for size in frame.sizes]
    return on_board(offers.catalog, lambda: (cell for one in boards for row in one.rows() for cell in row.cells))


@pytest.mark.parametrize(
    ("frame", "given"),
    [("cottering", "full-rim-plastic"), ("moorvane", "drilled"), ("keldrow", "semi-rimless")],
)
def test_work_on_the_mounting_is_in_the_price_or_not_due(demo, frame, given):
    offers = priced_by(demo, *(surcharge("mounting", mounting=one) for one in ("drilled", "semi-rimless", given)))
    assert told_on(offers, demo.frames[frame]) == []


def test_what_prescription_and_wishes_ask_for_can_come_on_top_of_a_board(demo):
    offers = priced_by(demo, *(surcharge(when) for when in ("prism", "cylinder", "tint", "rush", "wrap", "power")))
    told = told_on(offers, demo.frames["cottering"])
    assert told == ["prism work", "cylinder work", "tint work", "rush work"]


def test_a_blank_is_in_the_price_only_where_every_price_holds_it(demo):
    frame = demo.frames["cottering"]
    assert told_on(priced_by(demo, surcharge("blank", over=20.0)), frame) == []
    assert told_on(priced_by(demo, surcharge("blank", over=70.0)), frame) == ["blank work"]
    assert told_on(priced_by(demo, surcharge("blank", over=200.0)), frame) == []


def test_a_package_names_what_its_lenses_can_be_charged_for(demo):
    offers = priced_by(demo, surcharge("mounting", mounting="drilled"), surcharge("tint"), surcharge("slab-off"))
    for package in demo.packages.values():
        told = on_package(offers.catalog, package)
        assert ("mounting work" in told) == package.material.drillable
        assert ("slab-off work" in told) == (package.design.kind in ("progressive", "bifocal"))
        assert ("tint work" in told) <= (package.material.tint_depth > 0)


@pytest.mark.parametrize("frame", ["cottering", "moorvane"])
def test_every_surcharge_of_a_quote_is_named_or_in_the_price_of_its_board(demo, frame):
    """Cross-check by the engine: strong cylinders, prism and a narrow PD, every package."""
    seen = 0
    rx = read_slip("OD -2.00 -2.25 x 90 1 BI / OS -2.00 -2.25 x 90 / PD 58").prescription
    chosen, offers = demo.frames[frame], Offers(demo, DAY)
    named = told_on(offers, chosen)
    band = next(one for one in demo.shop.bands if one.low <= -4.25 <= one.high)
    for package in demo.packages.values():
        choice = Choice(chosen, chosen.sizes[0], chosen.colorways[0], package)
        offer, cell = offers.offer(choice, Ask(rx)), offers.cell(choice, band)
        if offer.fit["verdict"] == "no" or cell.fit["verdict"] == "no":
            continue
        held = {line["id"] for line in cell.bill["lines"]}
        for line in offer.bill["lines"]:
            if line["code"] == "surcharge" and line["id"] not in held:
                one = next(one for one in demo.price_list.surcharges if one.id == line["id"])
                assert one.text[:1].lower() + one.text[1:] in named
                assert can_ask_for(package, one)
                seen += 1
    assert seen
