"""A color's version is told with its price, what comes in the parcel, and the other version where there is one."""

from dataclasses import replace
from datetime import date

import pytest

from quoting.catalog.load import load
from quoting.offers import Ask, Choice, Offers
from quoting.prescription.model import EyeRx, Prescription
from quoting.show.text import fit_text, frame_line
from quoting.show.versions import quoted_version_dict, quoted_version_lines, version_lines
from tests.site.conftest import CORNER

DAY = date(2026, 11, 25)
ASK = Ask(Prescription(EyeRx(-1.0), EyeRx(-1.0)), region="away")


@pytest.fixture
def offers():
    return Offers(load(CORNER, DAY)[0], DAY)


def offered(offers, colors, color, package="plain-150"):
    """The frame Alder in these colorways, one of which is chosen: rows of id, name, version, cents and stock."""
    frame = offers.catalog.frames["alder"]
    (plain,) = frame.colorways
    names = ("id", "name", "version", "price_cents", "stock")
    frame = replace(frame, colorways=tuple(replace(plain, **dict(zip(names, one, strict=True))) for one in colors))
    chosen = {one.id: one for one in frame.colorways}[color]
    return offers.offer(Choice(frame, frame.sizes[0], chosen, offers.catalog.packages[package]), ASK)


BOTH = (("moss", "Moss", "optical", 12000, "in-stock"), ("moss-sun", "MOSS", "sun", 13550, "in-stock"))
ALONE = (BOTH[0], ("dusk", "Dusk", "sun-only", 14000, "in-stock"))


def test_the_sun_version_costs_what_its_frame_costs_and_the_optical_one_is_offered(offers):
    sun, optical = offered(offers, BOTH, "moss-sun"), offered(offers, BOTH, "moss")
    assert sun.bill["total_cents"] - optical.bill["total_cents"] == 13550 - 12000  # this region has no tax
    assert quoted_version_lines(sun, ASK, offers) == [
        "MOSS is the sun version: your lenses go into it; its original lenses come in the parcel",
        "The optical version of Moss costs $120.00 without lenses, "
        f"and ${optical.bill['total_cents'] / 100:.2f} in all with these",
    ]
    assert frame_line(sun.choice).startswith("Bolderwood Alder 52□18 145, MOSS, sun version, full-rim plastic")


def test_an_optical_version_is_the_usual_thing_and_nothing_is_said(offers):
    assert quoted_version_lines(offered(offers, BOTH, "moss"), ASK, offers) == []


def test_a_color_that_is_sold_out_says_so_first(offers):
    gone = tuple((*one[:4], "sold-out") for one in ALONE)
    assert quoted_version_lines(offered(offers, gone, "moss"), ASK, offers) == ["Moss is sold out at present"]
    lines = quoted_version_lines(offered(offers, gone, "dusk"), ASK, offers)
    assert [line.partition(" is ")[0] for line in lines] == ["Dusk", "Dusk"]
    assert lines[0].endswith("is sold out at present")


def test_a_color_that_is_sold_as_a_sun_version_only_says_so_and_offers_nothing(offers):
    said = "Dusk is sold as a sun version only: your lenses go into it; its original lenses come in the parcel"
    assert quoted_version_lines(offered(offers, ALONE, "dusk"), ASK, offers) == [said]


@pytest.mark.parametrize(
    ("stock", "words"),
    [("in-stock", []), ("to-order", ["It has to be ordered"]), ("sold-out", ["It is sold out at present"])],
)
def test_whether_the_optical_version_can_be_had_is_said(offers, stock, words):
    found = offered(offers, ((*BOTH[0][:4], stock), BOTH[1]), "moss-sun")
    lines = version_lines(found.choice.frame, found.choice.colorway, offers.catalog.shop)
    assert lines[1:] == ["The optical version of Moss costs $120.00 without lenses", *words]


def test_where_the_lenses_have_no_price_nothing_is_said_of_a_sum(offers):
    found = offered(offers, BOTH, "moss-sun", "flow-160")  # a progressive without its addition has no price
    assert not found.bill["priced"]
    assert quoted_version_lines(found, ASK, offers)[-1] == "The optical version of Moss costs $120.00 without lenses"
    assert quoted_version_dict(found, ASK, offers)["other_version"]["total_cents"] is None


@pytest.mark.parametrize(("chosen", "other"), [("moss", "moss-sun"), ("moss-sun", "moss")])
def test_programs_are_told_of_the_other_version_either_way(offers, chosen, other):
    found, twin = offered(offers, BOTH, chosen), offered(offers, BOTH, other)
    assert quoted_version_dict(found, ASK, offers) == {
        "version": found.choice.colorway.version,
        "original_lenses": chosen == "moss-sun",
        "other_version": {
            "colorway": other,
            "version": twin.choice.colorway.version,
            "stock": "in-stock",
            "frame_cents": twin.choice.colorway.price_cents,
            "total_cents": twin.bill["total_cents"],
        },
    }


def test_fit_says_it_below_the_frame(offers):
    rows = fit_text([offered(offers, BOTH, "moss-sun")], ASK, offers).splitlines()
    assert rows[1].startswith("MOSS is the sun version")
    assert rows[2] == "The optical version of Moss costs $120.00 without lenses."
