"""The one door of the engine: what was measured counts, what was not is said, and nothing remembered is ever wrong."""

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting import offers
from quoting.catalog.load import load
from quoting.catalog.model import FAMILIES
from quoting.catalog.shop import Band
from quoting.kernel import quote
from quoting.offers import Ask, Choice, Measures, Offers, monocular
from quoting.prescription.model import Distances, EyeRx, Prescription
from tests.kernel.jobs import hundredths, quarters, steady

CATALOG, _ = load(Path(__file__).parent / "shops" / "corner")
QUIET_DAY, SPRING_DAY = date(2026, 2, 1), date(2026, 4, 1)
OFFERS = Offers(CATALOG, QUIET_DAY)
CHOICES = [
    Choice(frame, size, colorway, package)
    for frame in CATALOG.frames.values()
    for size in frame.sizes
    for colorway in frame.colorways
    for package in CATALOG.packages.values()
]
BANDS = CATALOG.shop.bands


def choice(frame="alder", package="thin-160", colorway=0):
    found = CATALOG.frames[frame]
    return Choice(found, found.sizes[0], found.colorways[colorway], CATALOG.packages[package])


def named(one):
    return f"{one.frame.id}-{one.colorway.id}-{one.package.id}"


def both(sphere=-2.0, pd=None, **more):
    eye = EyeRx(sphere, **more)
    return Prescription(eye, eye, pd or Distances())


def fresh(one, ask, day=QUIET_DAY):
    """The answer of an engine that remembers nothing."""
    return Offers(CATALOG, day).offer(one, ask)


def codes(offer):
    return {reason["code"] for reason in offer.fit["reasons"]}


@st.composite
def eyes(draw):
    return draw(
        st.one_of(
            st.none(),
            st.builds(
                EyeRx,
                quarters(-9, 7),
                quarters(-4.5, 4.5),
                st.integers(1, 180),
                quarters(0, 4),
                quarters(-6, 6),
                quarters(-2, 2),
            ),
        )
    )


@st.composite
def asks(draw):
    maybe = st.none()
    half, height = st.one_of(maybe, hundredths(27, 36)), st.one_of(maybe, hundredths(14, 30))
    pd = Distances(draw(st.one_of(maybe, hundredths(54, 74))), draw(half), draw(half))
    measures = Measures(
        draw(height),
        draw(height),
        draw(st.one_of(maybe, hundredths(-2, 16))),
        draw(st.one_of(maybe, hundredths(0, 20))),
        draw(st.booleans()),
    )
    named_discounts = draw(st.sampled_from(((), ("teacher",), ("nobody",))))
    region = draw(st.sampled_from(("", "here", "away")))
    return Ask(Prescription(draw(eyes()), draw(eyes()), pd), measures, region, named_discounts)


@steady(250)
@given(st.sampled_from(CHOICES), asks(), st.sampled_from(CHOICES), asks())
def test_an_engine_that_remembers_answers_like_one_that_does_not(one, ask, other, other_ask):
    """OFFERS has seen everything before; the second pair shuffles the order in which it was asked."""
    assert OFFERS.offer(one, ask) == fresh(one, ask)
    assert OFFERS.offer(other, other_ask) == fresh(other, other_ask)
    assert OFFERS.offer(one, ask) == fresh(one, ask)


def altered_frame(**changes):
    one = choice()
    return replace(one, frame=replace(one.frame, **changes))


def altered_size(**changes):
    one = choice()
    return replace(one, size=replace(one.size, **changes))


# One change each to what a lens depends on; the plain choice is among them
ALIKE = {
    "as it is": choice(),
    **{f"family {family}": altered_frame(family=family) for family in FAMILIES if family != "rectangle"},
    **{name: altered_frame(mounting=name) for name in ("full-rim-metal", "semi-rimless", "drilled")},
    "tilt": altered_frame(tilt=9.0),
    "wrap": altered_frame(wrap=12.0),
    "curve": altered_frame(curve=6.5),
    "a": altered_size(a=51.9),
    "b": altered_size(b=36.1),
    "dbl": altered_size(dbl=18.1),
    "ed": altered_size(ed=55.6),
    "package": choice(package="plain-150"),
}


@pytest.mark.parametrize("sphere", [-4.0, 2.0])
def test_frames_that_differ_in_one_thing_are_never_taken_for_each_other(sphere):
    remembering, ask = Offers(CATALOG, QUIET_DAY), Ask(both(sphere, cylinder=-1.0, axis=30))
    for one in [*ALIKE.values(), *ALIKE.values()]:
        assert remembering.offer(one, ask) == fresh(one, ask)


@pytest.mark.parametrize(
    "name", [name for name in ALIKE if name.startswith("family") or name in ("a", "b", "ed", "dbl")]
)
def test_what_the_change_above_changes_shows_in_the_lens(name):
    """So that the test above cannot pass because nothing differs."""
    ask = Ask(both(-4.0))
    assert fresh(ALIKE[name], ask).fit["right"] != fresh(ALIKE["as it is"], ask).fit["right"]


def test_lenses_are_computed_once_and_prices_each_time(monkeypatch):
    computed = []

    def counted(job):
        computed.append(job)
        return quote.fit(job)

    monkeypatch.setattr(offers, "quote", type("counting", (), {"fit": staticmethod(counted)}))
    engine = Offers(CATALOG, SPRING_DAY)
    reed = CATALOG.frames["reed"]
    asked = [Ask(both()), Ask(both(), region="away"), Ask(both(), discounts=("teacher",))]
    found = [
        engine.offer(Choice(reed, reed.sizes[0], color, CATALOG.packages["thin-160"]), ask)
        for color in reed.colorways
        for ask in asked
    ]
    assert len(computed) == 1
    assert len({one.bill["total_cents"] for one in found}) == len(found), "each colorway, region and discount counts"
    engine.offer(choice("reed"), Ask(both(-2.25)))
    assert len(computed) == 2


@pytest.mark.parametrize("band", BANDS, ids=lambda band: f"{band.low:+.2f}to{band.high:+.2f}")
@pytest.mark.parametrize("one", CHOICES, ids=named)
def test_a_cell_is_the_offer_for_the_strongest_power_of_its_band(one, band):
    """Bands of the shop end, away from zero, at -8.00, -4.00 and +6.00; a progressive is asked with an add of 2.00."""
    strongest = {-8.0: -8.0, -4.0: -4.0, 2.25: 6.0}[band.low]
    eye = EyeRx(strongest, add=2.0 if one.package.design.kind == "progressive" else 0.0)
    wanted = fresh(one, Ask(Prescription(eye, eye)))
    cell = OFFERS.cell(one, band)
    assert (cell.fit, cell.bill, cell.estimated) == (wanted.fit, wanted.bill, wanted.estimated)
    assert cell.estimated == ("pd", "height", "outline")
    assert (cell.has_right, cell.has_left) == (True, True)


@pytest.mark.parametrize(
    ("low", "high", "strongest"),
    [(-4.0, 2.0, -4.0), (0.25, 2.0, 2.0), (-2.0, 2.0, -2.0), (-1.0, 3.0, 3.0), (-6.0, -4.25, -6.0)],
)
def test_the_strongest_power_of_a_band_is_its_end_farther_from_zero(low, high, strongest):
    band = Band(low, high, BANDS[0].mark)
    assert offers.band_prescription(CATALOG.packages["thin-160"], band).right == EyeRx(strongest)


@pytest.mark.parametrize(
    ("ranges", "add"),
    [([(0.75, 3.5)], 2.0), ([(2.25, 3.5)], 2.25), ([(0.75, 1.5)], 1.5), ([(0.75, 1.25), (1.0, 3.0)], 2.0)],
)
def test_the_add_of_a_cell_is_the_usual_one_as_far_as_the_package_has_it(ranges, add):
    flow = CATALOG.packages["flow-160"]
    parts = tuple(replace(flow.ranges[0], add_from=low, add_to=high) for low, high in ranges)
    found = offers.band_prescription(replace(flow, ranges=parts), BANDS[1])
    assert (found.right.add, found.left.add) == (add, add)


def test_every_package_is_asked_in_the_order_of_the_catalog():
    one = choice("reed")
    found = OFFERS.fitting(one.frame, one.size, one.colorway, Ask(both()))
    assert [offer.choice.package.id for offer in found] == ["plain-150", "thin-160", "flow-160"]
    assert [offer.fit["verdict"] for offer in found] == ["no", "fits", "no"]
    assert codes(found[0]) >= {"not-drillable"}
    assert codes(found[2]) >= {"add-missing"}


MEASURED = Distances(right=31.0, left=32.0)
ONE_HEIGHT = Measures(height_right=22.0)


@pytest.mark.parametrize(
    ("pd", "measures", "estimated"),
    [
        (Distances(), Measures(), ("pd", "height", "outline")),
        (Distances(near=60.0), Measures(), ("pd", "height", "outline")),
        (Distances(binocular=63.0), Measures(), ("height", "outline")),
        (MEASURED, Measures(), ("height", "outline")),
        (Distances(), ONE_HEIGHT, ("pd", "outline")),
        (MEASURED, Measures(height_left=22.0), ("outline",)),
        (MEASURED, Measures(22.0, 21.0), ("outline",)),
        (MEASURED, Measures(tilt=9.0, wrap=6.0, child=True), ("height", "outline")),
    ],
)
def test_what_nobody_measured_is_said_to_be_estimated(pd, measures, estimated):
    assert OFFERS.offer(choice(), Ask(both(pd=pd), measures)).estimated == estimated


@pytest.mark.parametrize(
    ("pd", "found"),
    [
        (Distances(), (31.5, 31.5, False)),
        (Distances(near=60.0), (31.5, 31.5, False)),
        (Distances(binocular=64.0), (32.0, 32.0, True)),
        (Distances(right=31.0, left=32.5), (31.0, 32.5, True)),
        (Distances(binocular=64.0, right=31.0), (31.0, 33.0, True)),
        (Distances(binocular=64.0, left=31.0), (33.0, 31.0, True)),
        (Distances(binocular=70.0, right=31.0, left=32.0), (31.0, 32.0, True)),  # the two halves go first
    ],
)
def test_monocular_distances_come_from_whatever_was_measured(pd, found):
    assert monocular(pd, 63.0) == found


def test_without_a_measured_pd_a_child_has_a_childs():
    """shop.yaml: 63 and 54; (52 + 18) / 2 = 35 from the bridge's middle to the middle of a lens."""
    grown = OFFERS.offer(choice(), Ask(both())).fit["right"]
    child = OFFERS.offer(choice(), Ask(both(), Measures(child=True))).fit["right"]
    measured = OFFERS.offer(choice(), Ask(both(pd=MEASURED), Measures(child=True))).fit["right"]
    assert (grown["decentration_in"], child["decentration_in"]) == (3.5, 8.0)
    assert measured["decentration_in"] == 4.0


def test_children_get_impact_resistant_lenses_only():
    ask = Ask(both(-1.0), Measures(child=True))
    assert "impact-needed" in codes(OFFERS.offer(choice(package="plain-150"), ask))
    assert "impact-needed" not in codes(OFFERS.offer(choice(package="thin-160"), ask))
    assert "impact-needed" not in codes(OFFERS.offer(choice(package="plain-150"), Ask(both(-1.0))))


def test_each_eye_has_its_own_measured_pd_and_the_lens_follows():
    fit = OFFERS.offer(choice(), Ask(both(-6.0, Distances(right=28.0, left=34.0)))).fit
    assert (fit["right"]["decentration_in"], fit["left"]["decentration_in"]) == (7.0, 1.0)
    assert fit["right"]["edge_max"] > fit["left"]["edge_max"]
    assert fit["right"]["blank_exact"] > fit["left"]["blank_exact"]


@pytest.mark.parametrize(
    ("measures", "right", "left"),
    [
        (Measures(), 18.0, 18.0),  # 36 / 2 + 4 above the center, less 4 mm for 8° of tilt
        (Measures(height_right=24.0), 20.0, 20.0),  # one alone stands for both
        (Measures(height_left=24.0), 20.0, 20.0),
        (Measures(24.0, 23.0), 20.0, 19.0),
        (Measures(tilt=4.0), 20.0, 20.0),
        (Measures(24.0, 23.0, tilt=0.0), 24.0, 23.0),
    ],
)
def test_measured_heights_and_tilt_place_the_optical_center(measures, right, left):
    fit = OFFERS.offer(choice(), Ask(both(), measures)).fit
    assert (fit["right"]["height"], fit["left"]["height"]) == (right, left)


@pytest.mark.parametrize(
    ("right", "left", "told"),
    [
        (22.0, 22.0, set()),
        (18.0, 26.0, set()),  # least height 18, least distance above 10, in a lens of 36
        (17.99, 26.0, {("height-too-low", "R")}),
        (18.0, 26.01, {("above-too-low", "L")}),
    ],
)
def test_a_measured_height_decides_whether_a_progressive_fits(right, left, told):
    ask = Ask(both(pd=MEASURED, add=2.0), Measures(right, left))
    offer = OFFERS.offer(choice(package="flow-160"), ask)
    assert {(reason["code"], reason["eye"]) for reason in offer.fit["reasons"]} == told
    assert offer.fit["verdict"] == ("no" if told else "fits")


@pytest.mark.parametrize(
    ("measures", "code"),
    [
        (Measures(tilt=12.0), None),
        (Measures(tilt=12.01), "tilt-not-compensated"),
        (Measures(wrap=10.0), None),
        (Measures(wrap=10.01), "wrap-not-compensated"),
        (Measures(wrap=15.0), "wrap-design-needed"),
        (Measures(tilt=0.0, wrap=0.0), None),
    ],
)
def test_tilt_and_wrap_as_worn_go_before_the_frames_own(measures, code):
    told = codes(OFFERS.offer(choice(), Ask(both(), measures)))
    assert (code in told) if code else not told


def test_a_measured_nought_is_not_taken_for_nothing_measured():
    """0° of tilt leaves the center at the pupil, 22 mm up; the frame's own 8° would have put it at 18."""
    assert OFFERS.offer(choice(), Ask(both(), Measures(tilt=0.0))).fit["right"]["height"] == 22.0


def test_one_eye_gets_one_lens():
    """Frame 120.00, one lens 60.00, 8.25 % of the frame 9.90, shipping 5.00."""
    offer = OFFERS.offer(choice(), Ask(Prescription(None, EyeRx(-3.0))))
    assert (offer.has_right, offer.has_left) == (False, True)
    assert offer.lenses() == [offer.fit["left"]]
    assert offer.weight == offer.fit["left"]["weight"] > 0.0
    assert offer.thickest == offer.fit["left"]["edge_max"] > 0.0
    assert offer.lenses_cents == 6000
    assert offer.bill["total_cents"] == 12000 + 6000 + 990 + 500


def test_two_eyes_are_told_right_before_left_and_weigh_together():
    offer = OFFERS.offer(choice(), Ask(Prescription(EyeRx(-2.0), EyeRx(-6.0))))
    assert offer.lenses() == [offer.fit["right"], offer.fit["left"]]
    assert offer.weight == offer.fit["right"]["weight"] + offer.fit["left"]["weight"]
    assert offer.thickest == offer.fit["left"]["edge_max"] > offer.fit["right"]["edge_max"]
    assert offer.lenses_cents == 6000 + 7500


@pytest.mark.parametrize(
    ("day", "discounts", "total"),
    [
        # 120.00 + 2 · 60.00, 8.25 % of 120.00 = 9.90, shipping 5.00
        (QUIET_DAY, (), 25490),
        # a tenth of the lenses, 12.00, less
        (SPRING_DAY, (), 24290),
        # and 15.00 off 228.00, of which 7.89 off the frame: 8.25 % of 112.11 = 9.249075, so 9.25
        (SPRING_DAY, ("teacher",), 22725),
        # 15.00 off 240.00, half of it off the frame: 8.25 % of 112.50 = 9.28125, so 9.28
        (QUIET_DAY, ("teacher",), 23928),
        (date(2026, 5, 31), (), 24290),
        (date(2026, 6, 1), (), 25490),
    ],
)
def test_the_day_and_the_asking_make_the_price(day, discounts, total):
    assert fresh(choice(), Ask(both(), discounts=discounts), day).bill["total_cents"] == total


@pytest.mark.parametrize(
    ("region", "total"),
    [("", 25490), ("here", 25490), ("away", 12000 + 12000 + 1400)],
)
def test_the_region_brings_shipping_and_tax_and_the_first_is_the_usual_one(region, total):
    assert OFFERS.offer(choice(), Ask(both(), region=region)).bill["total_cents"] == total


def test_an_unknown_region_is_refused_and_not_taken_for_the_usual_one():
    with pytest.raises(KeyError, match="mars"):
        OFFERS.offer(choice(), Ask(both(), region="mars"))


def test_drilling_is_charged_once_and_belongs_to_the_lenses():
    """180.00 + 2 · 60.00 + 35.00 ships free from 300.00; 8.25 % of 180.00 = 14.85."""
    offer = OFFERS.offer(choice("reed"), Ask(both()))
    assert offer.lenses_cents == 12000 + 3500
    assert offer.bill["total_cents"] == 18000 + 15500 + 1485


def test_the_colorway_sets_the_price_of_the_frame():
    gray, dusk = (OFFERS.offer(choice("reed", colorway=number), Ask(both())) for number in (0, 1))
    assert [one.bill["lines"][0]["cents"] for one in (gray, dusk)] == [18000, 19550]
    assert gray.fit == dusk.fit


def test_a_power_without_a_price_has_no_bill_and_no_lens_price():
    offer = OFFERS.offer(choice(package="plain-150"), Ask(both(-6.0)))
    assert offer.fit["verdict"] == "no"
    assert offer.bill["priced"] is False
    assert (offer.lenses_cents, offer.bill["total_cents"]) == (0, 0)
