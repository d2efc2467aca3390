"""What would make a lens fit, of all that a shop has: each line is true when it is followed.

Our own engine stands on both sides: a claim is tested against what the engine then says.
"""

from dataclasses import replace
from datetime import date

import pytest

from quoting.catalog.load import load
from quoting.offers import Ask, Choice, Measures, Offers
from quoting.places import shared
from quoting.prescription.model import Distances, EyeRx, Prescription
from quoting.prescription.wishes import Wishes
from quoting.remedies import remedies
from quoting.show.remedies import REMEDIES, remedy_dict, remedy_text

DAY = date(2026, 11, 25)
ASKS = {
    "strong minus": Ask(Prescription(EyeRx(-9.0, -1.0, 10), EyeRx(-8.5), Distances(binocular=60.0), source="test")),
    "strong plus": Ask(Prescription(EyeRx(5.75), EyeRx(6.0, -1.5, 90), Distances(binocular=66.0), source="test")),
    "reading": Ask(Prescription(EyeRx(1.0, add=2.0), EyeRx(1.0, add=2.0), Distances(binocular=58.0), source="test")),
    "low pupils": Ask(
        Prescription(EyeRx(-1.0, add=2.0), EyeRx(-1.0, add=2.0), Distances(binocular=62.0), source="test"),
        Measures(16.0, 16.0),
    ),
    "a child at sport": Ask(
        Prescription(EyeRx(-3.0), EyeRx(-3.0), source="test"), Measures(child=True), wishes=Wishes(sport=True)
    ),
    "a dark mirror": Ask(
        Prescription(EyeRx(-2.0), EyeRx(-2.0), Distances(binocular=62.0), source="test"),
        wishes=Wishes(tint_depth=90.0, mirror=True, driving=True),
    ),
}


@pytest.fixture(scope="module")
def offers():
    return Offers(load(shared("demo_catalog"))[0], DAY)


def followed(offers, choice, ask, one):
    """The offer to the question as the remedy changes it; None where it speaks of a frame that is not in the shop."""
    if one.what in ("size", "package", "package-in-size", "instead"):
        return offers.offer(replace(choice, size=one.size or choice.size, package=one.package or choice.package), ask)
    wishes = {
        "tint": {"tint_depth": one.high},
        "no-tint": {"tint_depth": 0.0, "tint_gradient": False},
        "no-mirror": {"mirror": False},
        "slab-off": {"slab_off": True},
    }
    if one.what in wishes:
        return offers.offer(choice, replace(ask, wishes=replace(ask.wishes, **wishes[one.what])))
    if one.what == "pupil-height":
        usual = choice.size.b / 2 + offers.catalog.shop.defaults.pupil_above_center
        height = min(max(usual, one.low), one.high)
        return offers.offer(choice, replace(ask, measures=Measures(height, height)))
    return None


@pytest.mark.parametrize("name", ASKS)
def test_what_is_said_to_make_it_fit_makes_it_fit(offers, name):
    ask, seen, followed_up = ASKS[name], set(), 0
    for frame in list(offers.catalog.frames.values())[::3]:
        for package in offers.catalog.packages.values():
            choice = Choice(frame, frame.sizes[-1], frame.colorways[0], package)
            offer = offers.offer(choice, ask)
            found = remedies(offers, offer, ask)
            assert offer.fit["verdict"] != "fits" or found == []
            for one in found:
                seen.add(one.what)
                assert one.what not in ("package", "instead") or one.package != package
                if then := followed(offers, choice, ask, one):
                    followed_up += 1
                    assert then.fit["verdict"] == one.verdict, (frame.id, package.id, one)
                    assert not set(one.codes) & {reason["code"] for reason in then.fit["reasons"]}
    assert followed_up > 20
    assert len(seen) > 2


def test_the_cheapest_package_of_the_same_design_that_fits_is_named_first(offers):
    ask, frame = ASKS["strong minus"], offers.catalog.frames["cottering"]
    choice = Choice(frame, frame.sizes[0], frame.colorways[0], offers.catalog.packages["steady-150-ar"])
    found = {one.what: one for one in remedies(offers, offers.offer(choice, ask), ask)}
    same = [
        offers.offer(replace(choice, package=one), ask)
        for one in offers.catalog.packages.values()
        if one.design.id == choice.package.design.id and one.id != choice.package.id
    ]
    fitting = [one for one in same if one.fit["verdict"] == found["package"].verdict]
    assert found["package"].package == min(fitting, key=lambda one: one.bill["total_cents"]).choice.package
    assert found["instead"].package.design.id != choice.package.design.id
    assert (found["instead"].package.design.kind, found["instead"].package.light) == ("single-vision", "clear")


def test_each_kind_has_its_words_and_programs_get_what_belongs_to_it(offers):
    ask, frame = ASKS["low pupils"], offers.catalog.frames["cottering"]
    choice = Choice(frame, frame.sizes[0], frame.colorways[0], offers.catalog.packages["path18-153-ar"])
    found = remedies(offers, offers.offer(choice, ask), ask)
    heights = next(one for one in found if one.what == "lens-height")
    assert remedy_text(heights).startswith(f"A frame with lenses {heights.low:.1f} mm high: ")
    told = remedy_dict(heights)
    assert told == {
        "what": "lens-height", "clears": ["height-too-low"], "verdict": heights.verdict, "text": remedy_text(heights),
        "low": heights.low, "high": heights.high,
    }  # fmt: skip
    assert all(remedy_text(replace(heights, what=what)) for what in REMEDIES)
