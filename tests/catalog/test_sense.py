"""What is odd about a whole catalog is told on one side of its limit, and not on the other."""

from dataclasses import replace
from datetime import date

import pytest

from quoting.catalog import sense
from quoting.catalog.load import load
from quoting.catalog.shop import LensPrices
from quoting.findings import Mark
from tests.errors.gallery import WHOLE

DAY = date(2026, 10, 1)


@pytest.fixture(scope="module")
def catalog():
    return load(WHOLE, DAY)[0]


def codes(catalog, day=DAY):
    return [finding.code for finding in sense.sense(catalog, day)]


def with_frame(catalog, **changes):
    return replace(catalog, frames={"tarn": replace(catalog.frames["tarn"], **changes)})


def with_surcharge(catalog, **changes):
    one = replace(catalog.price_list.surcharges[0], **changes)
    return replace(catalog, price_list=replace(catalog.price_list, surcharges=(one,)))


@pytest.mark.parametrize(("day", "told"), [(date(2026, 12, 31), []), (date(2027, 1, 1), ["discount-past"])])
def test_a_discount_is_over_on_the_day_after_its_last(catalog, day, told):
    assert codes(catalog, day) == told


@pytest.mark.parametrize(
    ("field", "value", "told"),
    [
        ("temple", 109.5, ["implausible"]),
        ("temple", 110, []),
        ("temple", 160, []),
        ("temple", 160.5, ["implausible"]),
        ("weight", 2.9, ["implausible"]),
        ("weight", 3, []),
        ("weight", 70, []),
        ("weight", 71, ["implausible"]),
        ("weight", 0.0, []),  # not known
    ],
)
def test_temples_and_weights_are_those_that_frames_have(catalog, field, value, told):
    (size,) = catalog.frames["tarn"].sizes
    assert codes(with_frame(catalog, sizes=(replace(size, **{field: value}),))) == told


@pytest.mark.parametrize(
    ("prices", "told"),
    [
        ((12900, 12900, 12900), 0),
        ((12900, 12900, 64500), 0),  # five times
        ((12900, 12900, 64501), 1),
        ((12900, 12900, 2580), 0),  # a fifth
        ((12900, 12900, 2579), 1),
        ((1290, 12900), 1),  # nobody knows which is meant: both amounts are told
        ((2580, 12900), 0),
    ],
)
def test_a_colorway_is_far_from_the_others_beyond_five_times(catalog, prices, told):
    (colorway,) = catalog.frames["tarn"].colorways
    colorways = tuple(
        replace(colorway, id=f"c{at}", name=f"Color {at}", price_cents=cents) for at, cents in enumerate(prices)
    )
    assert codes(with_frame(catalog, colorways=colorways)) == ["price-apart"] * told


@pytest.mark.parametrize(
    ("spans", "told"),
    [
        ([(-6, -2.25, 24), (-2, 2, 29), (2.25, 4, 29)], 1),
        ([(-6, -2.25, 29), (-2, 2, 24), (2.25, 4, 29)], 0),
        ([(-6, -4.25, 20), (-4, -2.25, 24), (-2, 4, 22)], 1),
        ([(-6, 2, 29), (2.25, 4, 24)], 0),  # the first holds stronger ones too
    ],
)
def test_a_band_is_not_cheaper_than_one_whose_powers_are_all_weaker(catalog, spans, told):
    package = catalog.packages["plain-150"]
    bands = tuple(replace(package.prices[0], low=low, high=high, lens_cents=euro * 100) for low, high, euro in spans)
    changed = replace(catalog, packages={**catalog.packages, "plain-150": replace(package, prices=bands)})
    assert codes(changed) == ["cheaper-though-stronger"] * told


@pytest.mark.parametrize(
    ("amounts", "told"),
    [
        ((24, 29, 145), []),  # five times
        ((24, 29, 146), [2]),
        ((24, 29, 5), [2]),  # told as this, not as cheaper though stronger
        ((240, 29, 34), [0]),
        ((34, 240, 29), [1]),  # apart from both beside it: they are not told
        ((24, 240, 240), [0]),  # not the two that are alike
        ((24, 29, 290), [2]),
        ((0, 0, 0), []),
        ((24, 29, 0), [2]),
    ],
)
def test_a_band_is_far_from_those_beside_it_beyond_five_times(catalog, amounts, told):
    package = catalog.packages["plain-150"]
    spans = ((-6.0, -4.25), (-4.0, -2.25), (-2.0, 4.0))
    bands = tuple(
        replace(package.prices[0], low=low, high=high, lens_cents=euro * 100, mark=Mark("x", at + 1, 1))
        for at, ((low, high), euro) in enumerate(zip(spans, reversed(amounts), strict=True))
    )
    changed = replace(catalog, packages={**catalog.packages, "plain-150": replace(package, prices=bands)})
    found = [one for one in sense.sense(changed, DAY) if one.code == "price-apart"]
    assert [3 - one.mark.line for one in found] == told


@pytest.mark.parametrize(("cents", "told"), [(64500, 0), (64501, 1), (2580, 0), (2579, 1)])
def test_a_frame_is_far_from_the_others_of_its_maker_beyond_five_times(catalog, cents, told):
    frame = catalog.frames["tarn"]
    color = frame.colorways[0]
    frames = {f"f{at}": replace(frame, id=f"f{at}", name=f"F{at}") for at in range(2)}
    odd = replace(frame, id="odd", colorways=(replace(color, price_cents=cents),))
    assert codes(replace(catalog, frames={**frames, "odd": odd})) == ["price-apart"] * told
    elsewhere = replace(odd, maker="Skerrowick")
    assert codes(replace(catalog, frames={**frames, "odd": elsewhere})) == []


@pytest.mark.parametrize(
    ("low", "high", "told"),
    [(-10.0, -6.25, ["empty-column"]), (-10.0, -6.0, []), (4.0, 8.0, []), (4.25, 8.0, ["empty-column"])],
)
def test_a_column_of_the_board_has_a_package(catalog, low, high, told):
    band = replace(catalog.shop.bands[0], low=low, high=high)
    assert codes(replace(catalog, shop=replace(catalog.shop, bands=(*catalog.shop.bands, band)))) == told


def with_list(catalog, version, effective, **changes):
    later = replace(catalog.price_list, version=version, effective=effective, discounts=(), **changes)
    return replace(catalog, price_lists=tuple(sorted((*catalog.price_lists, later), key=lambda one: one.effective)))


@pytest.mark.parametrize(
    ("version", "effective", "told"),
    [
        ("2026-10", date(2026, 11, 1), []),
        ("2026-08", date(2026, 11, 1), ["lists-crossed"]),
        ("2026-10", date(2026, 8, 1), ["lists-crossed"]),
        ("2026-9b", date(2026, 11, 1), []),  # not written alike: nobody knows which is later
        ("2026-010", date(2026, 11, 1), []),
        ("spring", date(2026, 8, 1), []),
        ("2026-10", date(2028, 10, 2), []),
        ("2026-10", date(2028, 10, 4), ["list-far-off"]),
    ],
)
def test_lists_follow_each_other_as_their_versions_do(catalog, version, effective, told):
    assert codes(with_list(catalog, version, effective)) == told


@pytest.mark.parametrize(("euro", "told"), [(48, []), (49, ["price-jump"]), (12, []), (11, ["price-jump"]), (24, [])])
def test_a_price_more_than_doubles_or_halves_from_one_list_to_the_next(catalog, euro, told):
    weak, strong = catalog.packages["plain-150"].prices
    lens = LensPrices("plain-150", (replace(weak, lens_cents=euro * 100), strong), 0, Mark("list", 9, 1))
    assert set(codes(with_list(catalog, "2027-01", date(2027, 1, 1), lenses=(lens,)))) == set(told)
    assert codes(with_list(catalog, "2026-08", date(2026, 8, 1), lenses=(lens,)))[1:] == []  # it held before


def test_prices_of_a_later_list_are_looked_at_as_those_of_today_and_told_once(catalog):
    package = catalog.packages["plain-150"]
    weak, strong = package.prices
    odd = (replace(weak, lens_cents=2400), replace(strong, lens_cents=2300, mark=Mark("list", 9, 1)))
    strong_only = replace(strong, low=2.25, high=4.0)
    bands = (replace(weak, low=-2.0, high=2.0), replace(odd[1], low=strong_only.low, high=4.0))
    lens = LensPrices("plain-150", bands, 0, Mark("list", 8, 1))
    later = with_list(catalog, "2027-01", date(2027, 1, 1), lenses=(lens,))
    later = with_list(later, "2027-02", date(2027, 2, 1))
    (found,) = sense.sense(later, DAY)
    assert (found.code, found.mark.line) == ("cheaper-though-stronger", 9)
    assert found.message.endswith("(from 2027-01-01 on)")


def test_a_surcharge_of_a_later_list_may_never_be_due(catalog):
    mirror = replace(catalog.price_list.surcharges[0], when="mirror", mark=Mark("list", 5, 1))
    later = with_list(catalog, "2027-01", date(2027, 1, 1), surcharges=(mirror,))
    assert [(one.code, one.mark.file) for one in sense.sense(later, DAY)] == [("never-due", "list")]


@pytest.mark.parametrize(("least", "told"), [(32, []), (32.5, ["too-tall"])])
def test_a_design_may_need_all_the_height_there_is(catalog, least, told):
    design = replace(catalog.designs["prog"], min_height=least)  # with 10 above, in a lens of 42
    assert codes(replace(catalog, designs={**catalog.designs, "prog": design})) == told


@pytest.mark.parametrize(
    ("changes", "due"),
    [
        ({"when": "cylinder", "over": 3.75}, True),
        ({"when": "cylinder", "over": 4.0}, False),
        ({"when": "blank", "over": 74}, True),
        ({"when": "blank", "over": 75}, False),
        ({"when": "power", "over": 5.75}, True),
        ({"when": "power", "over": 6.0}, False),
        ({"when": "tint", "over": 84}, True),
        ({"when": "tint", "over": 85}, False),
        ({"when": "mounting", "mounting": "full-rim-plastic"}, True),
        ({"when": "mounting", "mounting": "drilled"}, False),
        ({"when": "mirror"}, False),
        ({"when": "prism"}, True),
        ({"when": "rush"}, True),
    ],
)
def test_a_surcharge_is_never_due_beyond_what_the_shop_has(catalog, changes, due):
    assert codes(with_surcharge(catalog, **changes)) == ([] if due else ["never-due"])


@pytest.mark.parametrize(("name", "told"), [("Tarn", ["same-model"]), ("tarn", ["same-model"]), ("Tarn Two", [])])
def test_two_frames_of_a_maker_have_two_names(catalog, name, told):
    frame = catalog.frames["tarn"]
    assert codes(replace(catalog, frames={"tarn": frame, "other": replace(frame, id="other", name=name)})) == told
    elsewhere = replace(frame, id="other", name=name, maker="Bolderwood")
    assert codes(replace(catalog, frames={"tarn": frame, "other": elsewhere})) == []


@pytest.mark.parametrize(
    ("colors", "told"),
    [
        ((("Slate", "optical"), ("Slate", "sun")), []),
        ((("Slate", "optical"), ("SLATE", "sun")), []),
        ((("Slate", "optical"), ("Moss", "sun")), ["sun-unsaid"]),
        ((("Slate", "optical"), ("Moss", "sun-only")), []),
        ((("Slate", "optical"), ("Slate", "sun-only")), ["not-sun-only"]),
        ((("Slate", "sun"), ("Moss", "sun")), ["sun-unsaid", "sun-unsaid"]),
        ((("Slate", "sun-only"), ("Slate", "sun-only")), ["same-color"]),
        ((("Slate", "optical"), ("slate", "optical"), ("Slate", "sun")), ["same-color"]),
        ((("Slate", "sun"), ("Slate", "sun-only"), ("Slate", "optical")), ["same-color", "not-sun-only"]),
    ],
)
def test_which_version_a_color_is_sold_in_is_said_and_goes_by_its_name(catalog, colors, told):
    (one,) = catalog.frames["tarn"].colorways
    made = tuple(replace(one, id=f"c{at}", name=name, version=version) for at, (name, version) in enumerate(colors))
    assert codes(with_frame(catalog, colorways=made)) == told
