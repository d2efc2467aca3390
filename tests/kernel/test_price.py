"""Cents against exact fractions, and bills reckoned by hand beside each test."""

from fractions import Fraction
from math import floor

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.kernel import discounts, lens, lines, price, quote
from tests.kernel.jobs import (
    discount,
    eye,
    frame,
    job,
    money,
    options,
    package,
    part,
    random_jobs,
    region,
    steady,
    surcharge,
)

CENTS = st.integers(0, 10**8)
RATES = st.integers(0, 10000)


NO_BILL = {"priced": False, "lines": [], "total_cents": 0, "tax_included_cents": 0}


def half_up(value):
    return floor(value + Fraction(1, 2))


@steady(300)
@given(CENTS, RATES)
def test_a_share_is_the_exact_fraction_half_a_cent_up(cents, rate):
    assert lines.share(cents, rate) == half_up(Fraction(cents * rate, 10000))


@steady(300)
@given(CENTS, RATES)
def test_tax_inside_an_amount_is_the_exact_fraction_half_a_cent_up(cents, rate):
    inside = lines.share_within(cents, rate)
    assert inside == half_up(cents - Fraction(cents) / (1 + Fraction(rate, 10000)))
    assert 0 <= inside <= cents


@pytest.mark.parametrize(
    ("cents", "rate", "share"), [(50, 100, 1), (49, 100, 0), (150, 100, 2), (1, 5000, 1), (3, 5000, 2)]
)
def test_exactly_half_a_cent_goes_up(cents, rate, share):
    assert lines.share(cents, rate) == share


def bill_of(one):
    return quote.answer(one)["bill"]


def bill_for(both=None, frame_cents=12000, **changes):
    """The usual job: frame 120.00, lenses 90.00 each."""
    return bill_of(job(both, money=money(frame_cents=frame_cents, **changes)))


def cents_of(bill, kind):
    return [line["cents"] for line in bill["lines"] if line["kind"] == kind]


def test_lines_come_in_one_order():
    bill = bill_of(
        job(
            eye(prism_in=1.0),
            money=money(
                surcharges=[surcharge()],
                discounts=[discount(cents=100)],
                region=region(shipping_cents=700, tax_frame=1000, tax_lenses=1000, tax_shipping=1000),
            ),
        )
    )
    assert [line["code"] for line in bill["lines"]] == [
        "frame",
        "lenses",
        "surcharge",
        "discount",
        "shipping",
        "tax",
        "tax",
        "tax",
    ]
    assert [line["id"] for line in bill["lines"] if line["code"] == "tax"] == ["frame", "lenses", "shipping"]


def test_lenses_at_one_price_are_one_line_for_the_pair():
    lines = [line for line in bill_for()["lines"] if line["kind"] == "lenses"]
    assert [(line["eye"], line["count"], line["cents"]) for line in lines] == [("B", 2, 18000)]


def test_lenses_at_two_prices_are_a_line_each():
    banded = package(prices=[{"low": -4.0, "high": 4.0, "cents": 9000}, {"low": -10.0, "high": -4.25, "cents": 13000}])
    bill = bill_of(job(package=banded) | {"left": eye(-4.12)})
    lines = [line for line in bill["lines"] if line["kind"] == "lenses"]
    assert [(line["eye"], line["count"], line["cents"]) for line in lines] == [("R", 1, 9000), ("L", 1, 13000)]


@pytest.mark.parametrize(("sphere", "cents"), [(-4.0, 9000), (-4.01, 13000), (-4.25, 13000)])
def test_a_price_band_ends_where_it_says_and_the_next_quarter_counts(sphere, cents):
    bands = [{"low": -4.0, "high": 4.0, "cents": 9000}, {"low": -10.0, "high": -4.25, "cents": 13000}]
    assert price.lens_cents(package(prices=bands), sphere) == cents


def test_the_stronger_principal_power_sets_the_price():
    banded = package(prices=[{"low": -4.0, "high": 4.0, "cents": 9000}, {"low": -10.0, "high": -4.25, "cents": 13000}])
    assert cents_of(bill_of(job(eye(-3.0, -1.0), package=banded)), "lenses") == [18000]
    assert cents_of(bill_of(job(eye(-3.0, -1.25), package=banded)), "lenses") == [26000]


def test_one_lens_alone_is_one_line():
    lines = [line for line in bill_of(job(has_right=False))["lines"] if line["kind"] == "lenses"]
    assert [(line["eye"], line["count"], line["cents"]) for line in lines] == [("L", 1, 9000)]


@pytest.mark.parametrize("side", ["right", "left"])
def test_a_power_without_a_price_has_no_bill_at_all(side):
    few = package(prices=[{"low": -4.0, "high": 4.0, "cents": 9000}])
    bill = bill_of(job(package=few) | {side: eye(-4.25)})
    assert bill == NO_BILL


@pytest.mark.parametrize("side", ["right", "left"])
def test_a_lens_that_is_not_made_has_no_bill_whatever_its_price_would_be(side):
    assert bill_of(job(package=package(ranges=[part(-4.0, 4.0)])) | {side: eye(-4.25)}) == NO_BILL
    alone = job(package=package(ranges=[part(-4.0, 4.0)])) | {side: eye(-4.25), f"has_{side}": False}
    assert bill_of(alone)["priced"]


def made_lens(blank=60.0):
    return lens.blank_lens() | {"blank_exact": blank}


@pytest.mark.parametrize(
    ("one", "not_due", "due"),
    [
        (surcharge("prism"), {"prism": 0.0}, {"prism": 0.25}),
        (surcharge("cylinder", over=2.0), {"cylinder": 2.0}, {"cylinder": 2.25}),
        (surcharge("cylinder", over=2.25), {"cylinder": 2.2500000000000004}, {"cylinder": 2.5}),
        (surcharge("blank", over=65.0), {"blank": 65.0}, {"blank": 65.01}),
        (surcharge("blank", over=62.0), {"blank": 62.000000048905115}, {"blank": 62.01}),
        (surcharge("wrap", over=8.0), {"wrap": 8.0}, {"wrap": 8.01}),
        (surcharge("mounting", mounting="drilled"), {"mounting": "semi-rimless"}, {"mounting": "drilled"}),
        (surcharge("power", over=6.0), {"strongest": -6.0}, {"strongest": -6.01}),
        (surcharge("power", over=6.0), {"strongest": 6.0}, {"strongest": 6.25}),
        (surcharge("tint"), {}, {"tint_depth": 0.01}),
        (surcharge("tint", over=50.0), {"tint_depth": 50.0}, {"tint_depth": 50.01}),
        (surcharge("mirror"), {"tint_depth": 85.0}, {"mirror": True}),
        (surcharge("slab-off"), {"rush": True}, {"slab_off": True}),
        (surcharge("rush"), {"slab_off": True}, {"rush": True}),
    ],
    ids=lambda value: value.get("when", "") if "when" in value else str(value),
)
def test_a_surcharge_is_due_just_beyond_its_boundary(one, not_due, due):
    def is_due(prism=0.0, cylinder=0.0, blank=60.0, wrap=5.0, mounting="full-rim-plastic", strongest=0.0, **wishes):
        usual = job(frame=frame(wrap=wrap, mounting=mounting), options=options(**wishes))
        made = made_lens(blank) | {"strongest": strongest}
        return price.applies(one, usual, eye(cylinder=-cylinder, prism_in=-prism), made)

    assert not is_due(**not_due)
    assert is_due(**due)


def test_an_unknown_surcharge_is_refused():
    with pytest.raises(ValueError, match="no such surcharge"):
        price.wished(surcharge("weather"), options())
    assert bill_for(surcharges=[surcharge("weather")]) == NO_BILL


@pytest.mark.parametrize(
    ("right", "left", "per_lens", "line"),
    [
        (1.0, 1.0, True, ("B", 2, 1000)),
        (1.0, 0.0, True, ("R", 1, 500)),
        (0.0, -1.0, True, ("L", 1, 500)),
        (1.0, 1.0, False, ("B", 1, 500)),
        (0.0, 1.0, False, ("B", 1, 500)),
        (0.0, 0.0, True, None),
    ],
)
def test_a_surcharge_counts_lenses_or_the_pair(right, left, per_lens, line):
    bill = bill_of(
        job(money=money(surcharges=[surcharge(per_lens=per_lens)]))
        | {"right": eye(prism_in=right), "left": eye(prism_up=left)}
    )
    found = [(one["eye"], one["count"], one["cents"]) for one in bill["lines"] if one["code"] == "surcharge"]
    assert found == ([line] if line else [])


def test_a_surcharge_is_counted_for_lenses_that_are_made_only():
    alone = job(eye(prism_in=1.0), has_left=False, money=money(surcharges=[surcharge()]))
    assert cents_of(bill_of(alone), "lenses") == [9000, 500]


def test_surcharges_are_part_of_the_lenses_for_discount_and_tax():
    """90.00 · 2 + 2 · 5.00 = 190.00; a tenth is 19.00; tax of 10 % on 171.00 is 17.10."""
    bill = bill_for(
        eye(prism_in=1.0),
        surcharges=[surcharge()],
        discounts=[discount("lenses", basis_points=1000)],
        region=region(tax_lenses=1000),
    )
    assert cents_of(bill, "discount") == [-1900]
    assert cents_of(bill, "tax") == [1710]


@pytest.mark.parametrize(
    ("on", "cents"),
    [
        ("frame", -1200),  # a tenth of 120.00
        ("lenses", -1800),  # a tenth of 180.00
        ("goods", -3000),  # a tenth of 300.00
    ],
)
def test_a_discount_is_taken_from_what_it_is_on(on, cents):
    assert cents_of(bill_for(discounts=[discount(on, basis_points=1000)]), "discount") == [cents]


def test_each_discount_is_taken_from_what_the_earlier_ones_left():
    """300.00 - 30.00 = 270.00, less a fifth (54.00) = 216.00; the other way around 60.00, then 24.00."""
    tenth, fifth = discount(basis_points=1000, name="tenth"), discount(basis_points=2000, name="fifth")
    assert cents_of(bill_for(discounts=[tenth, fifth]), "discount") == [-3000, -5400]
    assert cents_of(bill_for(discounts=[fifth, tenth]), "discount") == [-6000, -2400]


def test_a_fixed_amount_before_or_after_a_percentage():
    """300.00 - 50.00 = 250.00, a tenth is 25.00; or 30.00 first, then 50.00."""
    fixed, tenth = discount(cents=5000), discount(basis_points=1000)
    assert cents_of(bill_for(discounts=[fixed, tenth]), "discount") == [-5000, -2500]
    assert cents_of(bill_for(discounts=[tenth, fixed]), "discount") == [-3000, -5000]


def test_one_that_is_not_combinable_comes_alone_and_only_where_it_takes_more_off():
    alone = discount(basis_points=2000, combinable=False, name="alone")
    better = discount(basis_points=2500, combinable=False, name="better")
    other = discount(basis_points=1000, name="other")

    def given_names(*discounts):
        bill = bill_for(discounts=list(discounts))
        return [line["id"] for line in bill["lines"] if line["code"] == "discount"]

    assert given_names(alone) == ["alone"]
    assert given_names(alone, other) == ["alone"]
    assert given_names(other, alone) == ["alone"]
    assert given_names(other, alone, other) == ["alone"]
    assert given_names(other, other, other, alone) == ["other", "other", "other"]
    assert given_names(alone, better, other) == ["better"]
    same = discount(basis_points=1000, combinable=False, name="same")
    assert given_names(same, other) == ["other"]


def test_one_that_takes_nothing_off_keeps_no_other_away():
    nothing = discount("frame", basis_points=2000, combinable=False, name="nothing")
    tenth = discount("lenses", basis_points=1000, name="tenth")
    bill = bill_for(frame_cents=0, discounts=[nothing, tenth])
    assert [line["id"] for line in bill["lines"] if line["code"] == "discount"] == ["tenth"]


def test_no_discount_takes_more_than_there_is():
    assert cents_of(bill_for(discounts=[discount("frame", cents=99999)]), "discount") == [-12000]
    bill = bill_for(discounts=[discount("goods", cents=99999)], region=region(tax_frame=1000, tax_lenses=1000))
    assert bill["total_cents"] == 0


@steady(200)
@given(CENTS, CENTS, CENTS)
def test_a_discount_on_all_goods_is_split_by_their_worth_and_no_part_goes_below_zero(frame_cents, lenses_cents, off):
    given = []
    left = discounts.discount_lines(money(discounts=[discount(cents=off)]), frame_cents, lenses_cents, given)
    taken = min(off, frame_cents + lenses_cents)
    assert sum(left) == frame_cents + lenses_cents - taken
    assert min(left) >= 0
    assert sum(line["cents"] for line in given) == -taken
    if taken:
        assert left[0] == frame_cents - half_up(Fraction(taken * frame_cents, frame_cents + lenses_cents))


@pytest.mark.parametrize(("free_from", "shipping"), [(0, 700), (30000, 0), (30001, 700), (29999, 0)])
def test_goods_at_or_above_the_limit_ship_free(free_from, shipping):
    """Goods are 120.00 + 180.00; a limit of 0 means never."""
    bill = bill_for(region=region(shipping_cents=700, free_from_cents=free_from))
    assert cents_of(bill, "shipping") == [shipping]


def test_free_shipping_is_earned_by_what_is_paid_and_not_by_list_prices():
    bill = bill_for(discounts=[discount(cents=1)], region=region(shipping_cents=700, free_from_cents=30000))
    assert cents_of(bill, "shipping") == [700]


RATES_BY_KIND = {"tax_frame": 2100, "tax_lenses": 900, "tax_shipping": 2100, "shipping_cents": 695}


def test_tax_is_added_by_kind_of_line():
    """21 % of 120.00 = 25.20; 9 % of 180.00 = 16.20; 21 % of 6.95 = 1.4595, so 1.46; in all 349.81."""
    bill = bill_for(region=region(**RATES_BY_KIND))
    assert cents_of(bill, "tax") == [2520, 1620, 146]
    assert bill["total_cents"] == 12000 + 18000 + 695 + 2520 + 1620 + 146 == 34981
    assert bill["tax_included_cents"] == 0


def test_tax_inside_the_prices_is_told_and_not_added():
    """120.00 holds 20.83 (21/121), 180.00 holds 14.86 (9/109), 6.95 holds 1.21: 36.90 in 306.95."""
    bill = bill_for(region=region(**RATES_BY_KIND), tax_included=True)
    assert cents_of(bill, "tax") == []
    assert bill["total_cents"] == 30695
    assert bill["tax_included_cents"] == 2083 + 1486 + 121 == 3690


def test_tax_follows_the_discount():
    """A third off 120.00 leaves 80.00 (33.33 % of 120.00 is 39.996): 21 % of 80.00 is 16.80."""
    bill = bill_for(discounts=[discount("frame", basis_points=3333)], region=region(tax_frame=2100))
    assert cents_of(bill, "discount") == [-4000]
    assert cents_of(bill, "tax") == [1680]


def test_where_nothing_is_taxed_no_tax_line_stands():
    assert cents_of(bill_for(), "tax") == []


@steady(150)
@given(random_jobs())
def test_the_total_is_the_sum_of_whole_cents_and_never_below_zero(one):
    bill = bill_of(one)
    cents = [line["cents"] for line in bill["lines"]]
    assert all(type(each) is int for each in cents)
    assert bill["total_cents"] == sum(cents) >= 0
    assert 0 <= bill["tax_included_cents"] <= bill["total_cents"]
    assert bill["priced"] == bool(cents)
    taken = [line["cents"] for line in bill["lines"] if line["code"] == "discount"]
    assert all(each < 0 for each in taken)
    assert all(line["cents"] >= 0 for line in bill["lines"] if line["code"] != "discount")


def plus_notation(one):
    """The same prescription written the other way around, in both eyes."""
    turned = {}
    for side in ("right", "left"):
        old = one[side]
        if old["cylinder"]:
            sphere = round(old["sphere"] + old["cylinder"], 6)
            axis = old["axis"] + 90.0 if old["axis"] <= 90.0 else old["axis"] - 90.0
            turned[side] = old | {"sphere": sphere, "cylinder": -old["cylinder"], "axis": axis}
    return one | turned


@steady(150)
@given(random_jobs())
def test_two_notations_of_one_prescription_cost_the_same_to_the_cent(one):
    assert bill_of(plus_notation(one)) == bill_of(one)


@steady(60)
@given(random_jobs())
def test_the_two_eyes_changed_for_one_another_cost_the_same_in_all(one):
    """Mirrored: each eye is seen in its nasal frame, so its price does not know its side."""
    seen = {"right": one["left"], "left": one["right"], "has_right": one["has_left"], "has_left": one["has_right"]}
    for side in ("right", "left"):
        seen[side] = seen[side] | {"axis": 180.0 - seen[side]["axis"] or 180.0}
    of = one["measures"]
    sides = {f"{name}_{side}": of[f"{name}_{other}"] for name in ("pd", "height") for side, other in SWAPPED}
    swapped = one | seen | {"measures": of | sides}
    assert bill_of(swapped)["total_cents"] == bill_of(one)["total_cents"]


SWAPPED = (("right", "left"), ("left", "right"))
