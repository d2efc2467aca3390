"""What is odd about a whole catalog is told on one side of its limit, and not on the other."""

from dataclasses import replace
from datetime import date

import pytest

from quoting.catalog import sense
from quoting.catalog.load import load
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
        ((1290, 12900), 0),  # of two nobody knows which is meant
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
