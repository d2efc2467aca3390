"""The one door of the engine: what is measured counts, what is not is said, and remembering changes nothing."""

from dataclasses import replace
from datetime import date
from itertools import product
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting import offers
from quoting.band import band_prescription
from quoting.catalog.load import load
from quoting.kernel import quote
from quoting.offers import Ask, Choice, Measures, Offers
from quoting.prescription.halves import monocular
from quoting.prescription.model import Distances, EyeRx, Prescription
from quoting.prescription.wishes import Wishes
from quoting.tables import eye_table, frame_table, front_key, limits_table, money_table, options_table, package_table
from tests.hand_built import CATALOG, DAY, FRAMES, PACKAGES, PRICES, SHOP, both, without_discounts
from tests.kernel.jobs import hundredths, quarters, steady

BRACKWATER = FRAMES["brackwater"]
CHOICES = [
    Choice(frame, size, colorway, package)
    for frame in FRAMES.values()
    for size, colorway, package in product(frame.sizes, frame.colorways, PACKAGES.values())
]
USUAL = Choice(BRACKWATER, BRACKWATER.sizes[0], BRACKWATER.colorways[0], PACKAGES["plain-160"])
ASKS = [
    Ask(both()),
    Ask(both(-5.0, -1.5, 20, pd=Distances(binocular=61.0))),
    Ask(Prescription(EyeRx(-3.0, -1.0, 20), EyeRx(-3.5, -0.5, 160), Distances(right=31.0, left=32.0))),
    Ask(Prescription(EyeRx(2.0, add=2.0), None)),
    Ask(Prescription(None, EyeRx(-3.0, 1.0, 90, prism_in=2.0)), Measures(22.0, 23.0, 14.0, 3.0, child=True)),
    Ask(both(-1.0, add=2.0), region="abroad", discounts=("club",)),
]


def fresh():
    return Offers(CATALOG, DAY)


def offered(choice=USUAL, ask=None, catalog=CATALOG):
    return Offers(catalog, DAY).offer(choice, ask or Ask(both()))


def test_remembered_answers_are_those_of_an_engine_that_remembers_nothing():
    """Every choice with every ask, twice and in two orders, against an engine made for each question alone."""
    engine = fresh()
    questions = list(product(CHOICES, ASKS))
    first = [engine.offer(*one) for one in questions]
    again = [engine.offer(*one) for one in reversed(questions)][::-1]
    assert first == again == [fresh().offer(*one) for one in questions]


def test_the_answer_is_the_kernels_for_the_same_job():
    """Built by hand here: default PD 63, pupil 4 mm above the box center, usual region, the discounts of the day."""
    job = {
        "frame": frame_table(SHOP, BRACKWATER, BRACKWATER.sizes[0]),
        "package": package_table(PACKAGES["plain-160"]),
        "limits": limits_table(SHOP.limits),
        "right": eye_table(EyeRx(-2.0)),
        "left": eye_table(EyeRx(-2.0)),
        "has_right": True,
        "has_left": True,
        "measures": {
            "pd_right": 31.5,
            "pd_left": 31.5,
            "height_right": 24.0,
            "height_left": 24.0,
            "child": False,
            "vertex": 13.0,
        },
        "money": money_table(PRICES, 12000, PRICES.regions[0], DAY),
        "options": options_table(Wishes()),
    }
    assert (offered().fit, offered().bill) == tuple(quote.answer(job).values())


@pytest.mark.parametrize(
    ("field", "moved"),
    [("a", 1.0), ("b", 1.0), ("dbl", 1.0), ("ed", 0.5), ("curve", -3.0), ("wrap", 4.0), ("tilt", 6.0)],
)
def test_no_number_of_a_frame_is_forgotten_in_remembering(field, moved):
    """Two frames that differ in one number alone do not get each other's answer."""
    if hasattr(USUAL.size, field):
        other = replace(USUAL, size=replace(USUAL.size, **{field: getattr(USUAL.size, field) + moved}))
    else:
        other = replace(USUAL, frame=replace(BRACKWATER, **{field: getattr(BRACKWATER, field) + moved}))
    engine, ask = fresh(), Ask(both(-4.0, -1.0))
    assert engine.offer(USUAL, ask).fit != engine.offer(other, ask).fit == offered(other, ask).fit


def test_the_mounting_is_not_forgotten_in_remembering():
    engine, ask = fresh(), Ask(both(-5.0))
    metal = replace(USUAL, frame=replace(BRACKWATER, mounting="full-rim-metal"))
    assert engine.offer(USUAL, ask).fit["reasons"] == []
    assert [one["code"] for one in engine.offer(metal, ask).fit["reasons"]] == ["edge-thick", "edge-thick"]


def test_families_of_one_box_do_not_get_each_others_answer():
    engine = fresh()
    answers = []
    for family in ("round", "oval", "panto", "rectangle", "square", "pilot", "cat-eye", "trapezoid"):
        choice = replace(USUAL, frame=replace(BRACKWATER, family=family), size=replace(USUAL.size, ed=53.0))
        answers.append(engine.offer(choice, Ask(both(-4.0, -1.0, 30))).fit["right"]["weight"])
    assert len(set(answers)) == 8


@pytest.mark.parametrize("package", PACKAGES.values(), ids=PACKAGES)
@pytest.mark.parametrize("band", SHOP.bands, ids=lambda band: f"{band.low:+g} to {band.high:+g}")
def test_a_cell_is_the_offer_for_the_bands_strongest_power(package, band):
    choice = replace(USUAL, package=package)
    add = 2.0 if package.design.kind == "progressive" else 0.0
    wanted = both(band.strongest, add=add)
    assert fresh().cell(choice, band) == offered(choice, Ask(wanted))
    assert abs(band.strongest) == max(abs(band.low), abs(band.high))


@pytest.mark.parametrize(("add_from", "add_to", "add"), [(0.75, 3.0, 2.0), (2.25, 3.0, 2.25), (0.5, 1.25, 1.25)])
def test_a_cell_of_a_progressive_asks_for_the_usual_add_or_the_nearest_that_is_made(add_from, add_to, add):
    ranges = tuple(replace(one, add_from=add_from, add_to=add_to) for one in PACKAGES["flow-160"].ranges)
    prescription = band_prescription(replace(PACKAGES["flow-160"], ranges=ranges), SHOP.bands[0].strongest)
    assert prescription.right == prescription.left == EyeRx(-8.0, add=add)


@pytest.mark.parametrize(
    ("pd", "heights", "estimated"),
    [
        (Distances(), Measures(), ("pd", "height", "outline")),
        (Distances(binocular=62.0), Measures(), ("height", "outline")),
        (Distances(), Measures(height_right=24.0), ("pd", "height", "outline")),
        (Distances(right=31.0, left=31.0), Measures(height_right=24.0, height_left=24.0), ("outline",)),
        (Distances(near=60.0), Measures(tilt=10.0, wrap=4.0), ("pd", "height", "outline")),
    ],
)
def test_what_nobody_measured_is_said(pd, heights, estimated):
    assert offered(ask=Ask(both(pd=pd), heights)).estimated == estimated


@pytest.mark.parametrize(
    ("pd", "right", "left", "measured"),
    [
        (Distances(), 31.5, 31.5, False),
        (Distances(near=60.0), 31.5, 31.5, False),
        (Distances(binocular=62.0), 31.0, 31.0, True),
        (Distances(right=30.0, left=33.0), 30.0, 33.0, True),
        (Distances(binocular=64.0, right=30.0), 30.0, 34.0, True),
        (Distances(binocular=64.0, left=30.0), 34.0, 30.0, True),
        (Distances(binocular=64.0, right=30.0, left=33.0), 30.0, 33.0, True),
    ],
)
def test_monocular_distances_come_from_what_there_is(pd, right, left, measured):
    assert monocular(pd, 63.0) == (right, left, measured)


def test_a_pd_measured_on_the_only_eye_counts():
    one = offered(ask=Ask(Prescription(EyeRx(-4.0), None, Distances(right=29.0))))
    assert one.fit["right"]["decentration_in"] == (48.0 + 20.0) / 2 - 29.0
    assert "pd" not in one.estimated


def test_a_pd_measured_on_the_other_eye_is_said_to_be_missing_on_this_one():
    one = offered(ask=Ask(Prescription(None, EyeRx(-4.0), Distances(right=29.0))))
    assert "pd" in one.estimated
    both_eyes = offered(ask=Ask(Prescription(EyeRx(-4.0), EyeRx(-4.0), Distances(right=29.0))))
    assert both_eyes.fit["right"]["decentration_in"] == (48.0 + 20.0) / 2 - 29.0
    assert "pd" in both_eyes.estimated


def test_measured_distances_decenter_the_lens():
    usual = offered().fit["right"]
    narrow = offered(ask=Ask(both(pd=Distances(binocular=58.0)))).fit["right"]
    assert (usual["decentration_in"], narrow["decentration_in"]) == (2.5, 5.0)
    assert narrow["blank_exact"] > usual["blank_exact"]
    assert narrow["edge_max"] > usual["edge_max"]


def test_measured_heights_move_the_lens_and_decide_a_progressive():
    flow = replace(USUAL, package=PACKAGES["flow-160"])
    prescription = both(add=2.0)
    assert offered(flow, Ask(prescription)).fit["verdict"] == "fits"
    low = offered(flow, Ask(prescription, Measures(17.5, 19.0))).fit
    assert [(one["code"], one["eye"]) for one in low["reasons"]] == [("height-too-low", "R")]
    assert (low["right"]["height"], low["left"]["height"]) == (13.5, 15.0)


def test_a_height_measured_on_one_eye_holds_for_the_other():
    one = offered(ask=Ask(both(), Measures(height_left=21.0))).fit
    assert one["right"]["height"] == one["left"]["height"] == 21.0 - 4.0


def test_tilt_and_wrap_as_worn_go_before_the_frames_own():
    one = offered(ask=Ask(both(), Measures(tilt=14.0, wrap=9.0))).fit
    assert {(each["code"], each["given"]) for each in one["reasons"]} == {
        ("tilt-not-compensated", 14.0),
        ("wrap-not-compensated", 9.0),
    }
    flat = offered(ask=Ask(both(), Measures(tilt=0.0))).fit
    assert flat["right"]["height"] == 24.0, "0 is a measured tilt, not a missing one"


def test_a_child_gets_a_childs_pd_and_an_impact_resistant_lens():
    hard = replace(USUAL, package=PACKAGES["plain-150"])
    one = offered(hard, Ask(both(), Measures(child=True)))
    assert "impact-needed" in {each["code"] for each in one.fit["reasons"]}
    assert one.fit["right"]["decentration_in"] == 34.0 - 27.0
    assert "impact-needed" not in {each["code"] for each in offered(hard).fit["reasons"]}


def test_the_first_region_is_the_usual_one_and_each_has_its_shipping_and_tax():
    """Home: 10 % on frame and shipping; after a tenth off, 120.00 is 108.00: tax 10.80 and 0.50 on 5.00."""
    home, named = offered(), offered(ask=Ask(both(), region="home"))
    assert home == named
    kinds = [(line["id"], line["cents"]) for line in home.bill["lines"] if line["kind"] == "tax"]
    assert kinds == [("frame", 1080), ("shipping", 50)]
    abroad = offered(ask=Ask(both(), region="abroad"))
    assert [line["cents"] for line in abroad.bill["lines"] if line["kind"] in ("shipping", "tax")] == [2500]
    assert abroad.fit == home.fit


def test_an_unknown_region_is_not_taken_for_the_usual_one():
    with pytest.raises(KeyError):
        offered(ask=Ask(both(), region="elsewhere"))


def test_discounts_of_the_day_and_those_that_were_named():
    def names(ask):
        return [line["id"] for line in offered(ask=ask).bill["lines"] if line["code"] == "discount"]

    assert names(Ask(both())) == ["spring"]
    assert names(Ask(both(), discounts=("club",))) == ["spring", "club"]


def test_another_price_does_not_disturb_what_is_remembered_about_fit():
    engine = Offers(without_discounts(), DAY)
    dear = replace(USUAL, colorway=replace(USUAL.colorway, price_cents=99000))
    one, other = engine.offer(USUAL, Ask(both())), engine.offer(dear, Ask(both()))
    assert one.fit is other.fit
    assert other.bill["total_cents"] - one.bill["total_cents"] == 87000 + 8700


def test_every_package_is_offered_in_the_order_of_the_catalog():
    found = fresh().fitting(BRACKWATER, BRACKWATER.sizes[1], BRACKWATER.colorways[0], Ask(both()))
    assert [one.choice.package.id for one in found] == list(PACKAGES)
    assert [one.fit["verdict"] for one in found][3] == "no", "a misfit stays, with its reason"


def test_sums_over_the_lenses_that_are_made():
    two = offered(ask=Ask(Prescription(EyeRx(-2.0), EyeRx(-4.0, prism_in=1.0))))
    right, left = two.fit["right"], two.fit["left"]
    assert two.lenses() == [right, left]
    assert two.weight == right["weight"] + left["weight"]
    assert two.thickest == left["edge_max"] > right["edge_max"]
    assert two.lenses_cents == 9000 + 9000 + 1500
    alone = offered(ask=Ask(Prescription(None, EyeRx(-4.0))))
    assert (alone.lenses(), alone.has_right, alone.lenses_cents) == ([alone.fit["left"]], False, 9000)


def test_a_power_without_a_price_has_no_lens_price():
    unmade = offered(ask=Ask(both(-9.0)))
    assert (unmade.fit["verdict"], unmade.bill["priced"], unmade.lenses_cents) == ("no", False, 0)


def test_a_drilled_frame_refuses_what_cannot_be_drilled():
    thornlow = FRAMES["thornlow"]
    verdicts = {
        one.choice.package.id: {each["code"] for each in one.fit["reasons"]}
        for one in fresh().fitting(thornlow, thornlow.sizes[0], thornlow.colorways[0], Ask(both()))
    }
    assert "not-drillable" in verdicts["plain-150"]
    assert "not-drillable" not in verdicts["plain-160"]


REMEMBERING = fresh()
NOBODY = st.none()
ANY_EYE = st.builds(
    EyeRx, quarters(-9, 5), quarters(-4.5, 4.5), st.integers(1, 180), quarters(0, 4), quarters(-5, 5), quarters(-2, 2)
)
ANY_ASK = st.builds(
    Ask,
    st.builds(
        Prescription,
        NOBODY | ANY_EYE,
        NOBODY | ANY_EYE,
        st.builds(Distances, NOBODY | hundredths(54, 74), NOBODY | hundredths(27, 36), NOBODY | hundredths(27, 36)),
    ),
    st.builds(
        Measures,
        NOBODY | hundredths(14, 30),
        NOBODY | hundredths(14, 30),
        NOBODY | hundredths(-2, 16),
        NOBODY | hundredths(0, 20),
        st.booleans(),
    ),
    st.sampled_from(("", "home", "abroad")),
    st.sampled_from(((), ("club",), ("nobody",))),
)


@steady(200)
@given(st.sampled_from(CHOICES), ANY_ASK)
def test_an_engine_that_has_seen_everything_before_answers_like_a_new_one(choice, ask):
    """One engine over all examples, so that each comes after whatever others were asked."""
    assert REMEMBERING.offer(choice, ask) == REMEMBERING.offer(choice, ask) == fresh().offer(choice, ask)


def test_lenses_are_computed_once_and_prices_each_time(monkeypatch):
    computed = []

    class Counting:
        @staticmethod
        def fit(job):
            computed.append(job)
            return quote.fit(job)

    monkeypatch.setattr(offers, "quote", Counting)
    engine = fresh()
    asks = [Ask(both()), Ask(both(), region="abroad"), Ask(both(), discounts=("club",))]
    assert len({engine.offer(USUAL, ask).bill["total_cents"] for ask in asks}) == 3
    assert len(computed) == 1
    engine.offer(USUAL, Ask(both(-2.25)))
    assert len(computed) == 2


@pytest.mark.parametrize(
    ("right", "left", "told"),
    [
        (24.0, 24.0, set()),
        (18.0, 30.0, set()),  # least height 18, least distance above 10, in a lens of 40
        (17.99, 30.0, {("height-too-low", "R")}),
        (18.0, 30.01, {("above-too-low", "L")}),
    ],
)
def test_a_measured_height_decides_a_progressive_to_the_hundredth(right, left, told):
    flow = replace(USUAL, package=PACKAGES["flow-160"])
    fit = offered(flow, Ask(both(add=2.0), Measures(right, left))).fit
    assert {(one["code"], one["eye"]) for one in fit["reasons"]} == told
    assert fit["verdict"] == ("no" if told else "fits")


CORNER, _ = load(Path(__file__).parent / "shops" / "corner")


def corner(frame, package, ask, day=date(2026, 2, 1), colorway=0):
    """An offer of the shop in tests/shops/corner."""
    one = CORNER.frames[frame]
    return Offers(CORNER, day).offer(Choice(one, one.sizes[0], one.colorways[colorway], CORNER.packages[package]), ask)


@pytest.mark.parametrize(
    ("day", "region", "discounts", "total"),
    [
        # 120.00 + 2 · 60.00, 8.25 % of 120.00 = 9.90, shipping 5.00
        (date(2026, 2, 28), "", (), 25490),
        (date(2026, 2, 28), "here", (), 25490),
        (date(2026, 2, 28), "away", (), 12000 + 12000 + 1400),
        # a tenth of the lenses, 12.00, less
        (date(2026, 3, 1), "", (), 24290),
        (date(2026, 5, 31), "", (), 24290),
        (date(2026, 6, 1), "", (), 25490),
        # and 15.00 off 228.00, of which 7.89 off the frame: 8.25 % of 112.11 = 9.249075, so 9.25
        (date(2026, 3, 1), "", ("teacher",), 22725),
        # 15.00 off 240.00, half of it off the frame: 8.25 % of 112.50 = 9.28125, so 9.28
        (date(2026, 2, 28), "", ("teacher",), 23928),
    ],
)
def test_totals_of_a_shop_read_from_files_reckoned_by_hand(day, region, discounts, total):
    offer = corner("alder", "thin-160", Ask(both(), region=region, discounts=discounts), day)
    assert offer.bill["total_cents"] == total


def test_one_lens_alone_reckoned_by_hand():
    """Frame 120.00, one lens 60.00, 8.25 % of the frame 9.90, shipping 5.00."""
    offer = corner("alder", "thin-160", Ask(Prescription(None, EyeRx(-3.0))))
    assert offer.bill["total_cents"] == 12000 + 6000 + 990 + 500


@pytest.mark.parametrize(("colorway", "frame", "tax"), [(0, 18000, 1485), (1, 19550, 1613)])
def test_drilling_is_charged_once_and_each_colorway_has_its_price(colorway, frame, tax):
    """Goods beyond 300.00 ship free; 8.25 % of 180.00 = 14.85, of 195.50 = 16.12875, so 16.13."""
    offer = corner("reed", "thin-160", Ask(both()), colorway=colorway)
    assert offer.lenses_cents == 12000 + 3500
    assert offer.bill["total_cents"] == frame + 15500 + tax


@pytest.mark.parametrize("package", CORNER.packages)
@pytest.mark.parametrize("frame", CORNER.frames)
def test_cells_of_a_shop_read_from_files_stand_for_the_ends_of_its_bands(frame, package):
    """Bands -8.00 to -4.25, -4.00 to +2.00, +2.25 to +6.00: their strongest powers are -8.00, -4.00 and +6.00."""
    one = CORNER.frames[frame]
    choice = Choice(one, one.sizes[0], one.colorways[0], CORNER.packages[package])
    engine = Offers(CORNER, date(2026, 2, 1))
    add = 2.0 if package == "flow-160" else 0.0
    for band, strongest in zip(CORNER.shop.bands, (-8.0, -4.0, 6.0), strict=True):
        assert engine.cell(choice, band) == corner(frame, package, Ask(both(strongest, add=add)))


FRONTS = {
    "as it is": USUAL,
    "another name and weight": replace(
        USUAL, frame=replace(BRACKWATER, id="other", name="Other"), size=replace(USUAL.size, weight=9.0)
    ),
    "another family": replace(USUAL, frame=replace(BRACKWATER, family="square"), size=replace(USUAL.size, ed=53.0)),
    "another mounting": replace(USUAL, frame=replace(BRACKWATER, mounting="full-rim-metal")),
    "another price": replace(USUAL, colorway=replace(USUAL.colorway, price_cents=15000)),
    "another package": replace(USUAL, package=PACKAGES["plain-150"]),
} | {
    f"another {field}": replace(USUAL, size=replace(USUAL.size, **{field: getattr(USUAL.size, field) + 1.0}))
    for field in ("a", "b", "dbl", "ed")
} | {
    f"another {field}": replace(USUAL, frame=replace(BRACKWATER, **{field: getattr(BRACKWATER, field) + 4.0}))
    for field in ("curve", "wrap", "tilt")
}  # fmt: skip


def test_remembered_cells_are_those_of_an_engine_that_remembers_nothing():
    """Fronts that differ in one thing alone, every band, turn about and twice."""
    engine = fresh()
    questions = list(product(FRONTS.values(), SHOP.bands)) * 2
    cells = [(engine.cell(one, band), engine.fit_at(one, band.other)) for one, band in questions]
    assert cells == [(fresh().cell(one, band), fresh().fit_at(one, band.other)) for one, band in questions]


def test_a_lens_is_computed_once_for_all_frames_that_differ_in_name_weight_and_price_alone(monkeypatch):
    engine, asked = fresh(), []
    whole = quote.shared_reasons
    monkeypatch.setattr(quote, "shared_reasons", lambda *job: asked.append(job) or whole(*job))
    cells = [engine.cell(choice, SHOP.bands[0]) for choice in FRONTS.values()]
    assert [cell.choice for cell in cells] == list(FRONTS.values())
    assert len(asked) == len(FRONTS) - len({"another name and weight", "another price"})
    dear, usual = cells[list(FRONTS).index("another price")], cells[list(FRONTS).index("as it is")]
    assert (dear.fit, dear.bill == usual.bill) == (usual.fit, False)


def test_packages_that_differ_in_their_prices_alone_are_one_lens(monkeypatch):
    prices = tuple(replace(band, lens_cents=99900) for band in PACKAGES["plain-150"].prices)
    alike = replace(PACKAGES["plain-150"], id="dear", prices=prices)
    engine = Offers(replace(CATALOG, packages={**CATALOG.packages, "dear": alike}), DAY)
    one = engine.cell(replace(USUAL, package=PACKAGES["plain-150"]), SHOP.bands[2])
    monkeypatch.setattr(quote, "shared_reasons", None)  # asking once more would fail
    other = engine.cell(replace(USUAL, package=alike), SHOP.bands[2])
    assert other.fit == one.fit
    assert other.lenses_cents > one.lenses_cents > 0


def test_a_front_that_is_no_more_lends_its_number_to_nobody():
    """Frames made and dropped in a row may lie at one place in memory, one after the other."""
    engine = fresh()
    for tilt in range(40):
        choice = replace(USUAL, frame=replace(BRACKWATER, tilt=float(tilt)))
        assert engine.cell(choice, SHOP.bands[2]) == fresh().cell(choice, SHOP.bands[2])


def test_traces_of_one_box_are_not_taken_for_each_other():
    """Nothing but the trace tells them apart."""
    one = frame_table(SHOP, BRACKWATER, USUAL.size) | {"traced": True}
    other = one | {"xs": [x * 0.99 for x in one["xs"]]}
    assert front_key(one, "panto") != front_key(other, "panto")
    assert front_key(one | {"traced": False}, "panto") == front_key(other | {"traced": False}, "panto")


def test_the_range_that_fits_is_what_offers_at_each_power_say():
    """Thin metal: strong minus lenses are too thick at the edge, and before that are warned of."""
    choice = replace(USUAL, frame=replace(BRACKWATER, mounting="full-rim-metal"))
    engine = fresh()
    found = {span["verdict"]: (span["low"], span["high"]) for span in engine.range(choice, Ask(both(-1.0, add=1.0)))}
    assert "fits" not in found, "an add that is left out is told at every power"
    found = {span["verdict"]: (span["low"], span["high"]) for span in engine.range(choice, Ask(both(-1.0)))}
    for verdict, allowed in (("fits", {"fits"}), ("caution", {"fits", "caution"})):
        low, high = found[verdict]
        told = {power / 4: engine.offer(choice, Ask(both(power / 4))).fit["verdict"] for power in range(-36, 21)}
        assert {power for power, one in told.items() if one in allowed} == {
            power for power in told if low <= power <= high
        }
    assert found["caution"][0] < found["fits"][0]


def test_what_is_wished_is_not_forgotten_in_remembering():
    engine = fresh()
    assert engine.offer(USUAL, Ask(both())).fit["verdict"] == "fits"
    for wishes in (Wishes(tint_depth=95.0), Wishes(mirror=True), Wishes(blue_filter=True)):
        assert engine.offer(USUAL, Ask(both(), wishes=wishes)).fit["verdict"] == "no"
    hard = replace(USUAL, package=PACKAGES["plain-150"])
    for wishes in (Wishes(sport=True), Wishes(one_eyed=True)):
        assert engine.offer(hard, Ask(both())).fit["verdict"] == "fits"
        assert engine.offer(hard, Ask(both(), wishes=wishes)).fit["verdict"] == "no"
