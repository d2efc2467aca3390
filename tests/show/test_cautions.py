"""A caution stands where it applies, and nowhere else; on paper stand all that the shop writes."""

from dataclasses import replace
from datetime import date

import pytest

from quoting.catalog.load import load
from quoting.catalog.shop import ABOUT
from quoting.offers import Ask, Choice, Offers
from quoting.places import shared
from quoting.prescription.model import Distances, EyeRx, Prescription
from quoting.prescription.wishes import Wishes
from quoting.show import cautions


@pytest.fixture(scope="module")
def catalog():
    return load(shared("demo_catalog"))[0]


@pytest.fixture(scope="module")
def offers(catalog):
    return Offers(catalog, date(2026, 11, 25))


def offered(offers, package, sphere, wishes=None):
    frame = offers.catalog.frames["cottering"]
    choice = Choice(frame, frame.sizes[0], frame.colorways[0], offers.catalog.packages[package])
    eye = EyeRx(sphere)
    ask = Ask(Prescription(eye, eye, Distances(binocular=63.0), source="test"), wishes=wishes or Wishes())
    return offers.offer(choice, ask), ask


def test_everything_that_can_be_spoken_about_has_its_usual_words():
    assert set(cautions.USUAL) == set(ABOUT)
    assert all(cautions.USUAL.values())


def test_lenses_that_are_not_for_night_driving_or_children_say_so(catalog):
    plain = replace(catalog.shop, cautions_for={})
    for shop in (catalog.shop, plain):
        for package in catalog.packages.values():
            told = " ".join(cautions.matters(shop, package)).lower()
            assert ("night" in told) == (package.light != "clear")
            assert ("anyone under 18" in told) == (not package.material.impact_resistant)
            assert ("windshield" in told) == (package.light == "photochromic")
            assert ("measured in the frame" in told) == (package.design.kind in ("progressive", "bifocal"))


@pytest.mark.parametrize(
    ("sphere", "wishes", "words"),
    [
        (-2.0, Wishes(), set()),
        (3.75, Wishes(), set()),
        (4.0, Wishes(), {"strong-plus"}),
        (-2.0, Wishes(tint_depth=15.0), {"tinted"}),
        (5.0, Wishes(tint_depth=80.0), {"strong-plus", "tinted"}),
    ],
)
def test_what_is_said_to_one_customer_follows_from_power_and_tint(offers, sphere, wishes, words):
    offer, ask = offered(offers, "steady-150-ar", sphere, wishes)
    assert set(cautions.about_offer(offer, ask)) == {"quote", "not-impact-resistant", *words}


def test_the_shops_own_sentence_goes_before_the_usual_one(offers):
    offer, ask = offered(offers, "steady-160-photo", -2.0)
    shop = replace(offers.catalog.shop, cautions_for={"photochromic": ("It changes.",)})
    told = cautions.matters_here(shop, offer, ask)
    assert "It changes." in told
    assert not set(cautions.USUAL["photochromic"]) & set(told)
    assert set(cautions.USUAL["quote"]) < set(told)


def test_on_paper_stands_what_is_said_of_every_quote_and_of_this_lens_alone(offers):
    offer, ask = offered(offers, "steady-150-ar", 5.0)
    shop = replace(offers.catalog.shop, cautions_for={"quote": ("Ask us.",), "photochromic": ("It changes.",)})
    paper = cautions.on_paper(shop, offer, ask)
    assert paper[: len(shop.cautions)] == list(shop.cautions)
    assert "Ask us." in paper
    assert "It changes." not in paper
    assert set(cautions.USUAL["strong-plus"]) <= set(paper)
    assert not set(cautions.USUAL["progressive"]) & set(paper)
    assert len(paper) == len(set(paper))
