"""What only a changed kernel would have got wrong: each of these was once changed and no other test noticed."""

import math
from typing import get_args, get_origin, get_type_hints, is_typeddict

import pytest
from hypothesis import given

from quoting.kernel import center, quote
from quoting.kernel.altered import add_instead, frame_with, mounting_of, options_with, stretched
from quoting.kernel.bends import back_has
from quoting.kernel.bevel import arc_of
from quoting.kernel.bounds import MOST_CENTS
from quoting.kernel.center import next_center, not_settled, surfaced_lens
from quoting.kernel.checked import frame_faults
from quoting.kernel.checked_money import money_faults
from quoting.kernel.checked_package import range_faults
from quoting.kernel.chromatic import greatest_color
from quoting.kernel.discounts import discount_lines, reduction
from quoting.kernel.edge import more_extreme, most_bend
from quoting.kernel.forms import crossed_form
from quoting.kernel.lens import blank_lens
from quoting.kernel.other_frame import BY_HEIGHT, BY_WIDTH, pupils
from quoting.kernel.outline import QUARTER_POINTS
from quoting.kernel.price import tax_line
from quoting.kernel.ranges import from_zero, job_with, ranges_that_fit
from quoting.kernel.ray import no_path, path_from_object
from quoting.kernel.records import Answer, Lens, Options
from quoting.kernel.remedies import by_size_alone, remedies
from quoting.kernel.rules import holds_near, near_rule, power_rule
from quoting.kernel.section import crossing
from quoting.kernel.swap_held import bore_gap
from quoting.kernel.thickness import back_surface, both_reach, greatest_at, grind, place, rim_around
from quoting.kernel.trace import from_trace, mirrored_trace
from quoting.kernel.treatments import no_options
from tests.kernel.jobs import (
    discount,
    eye,
    frame,
    job,
    measures,
    money,
    options,
    package,
    part,
    progressive,
    random_jobs,
    region,
    steady,
    surcharge,
)


def is_shaped(value, hint):
    """Whether a value has just the fields and the kinds of value that its record promises."""
    if is_typeddict(hint):
        hints = get_type_hints(hint)
        return value.keys() == hints.keys() and all(is_shaped(value[name], each) for name, each in hints.items())
    if get_origin(hint) is list:
        return all(is_shaped(one, get_args(hint)[0]) for one in value)
    return type(value) is hint


@steady(80)
@given(random_jobs())
def test_an_answer_has_the_fields_of_its_record_and_no_others(one):
    assert is_shaped(quote.answer(one), Answer)


def test_what_begins_empty_has_the_fields_of_its_record():
    assert is_shaped(blank_lens(), Lens)
    assert is_shaped(no_options(), Options)
    assert not any(no_options().values())


def test_a_bill_to_its_last_word():
    """Shipping is free from 200.00 on; the frame is taxed."""
    found = quote.answer(job(money=money(frame_cents=12000, region=region(free_from_cents=20000, tax_frame=1000))))
    words = [(each["code"], each["id"], each["kind"], each["eye"], each["count"]) for each in found["bill"]["lines"]]
    assert words == [
        ("frame", "", "frame", "B", 1),
        ("lenses", "", "lenses", "B", 2),
        ("shipping", "", "shipping", "B", 1),
        ("tax", "frame", "tax", "B", 1),
    ]
    banded = package(prices=[{"low": -4.0, "high": 4.0, "cents": 9000}, {"low": -10.0, "high": -4.25, "cents": 13000}])
    lines = quote.answer(job(package=banded) | {"left": eye(-5.0)})["bill"]["lines"]
    assert [(each["code"], each["eye"]) for each in lines[1:3]] == [("lens", "R"), ("lens", "L")]


def test_goods_are_worth_what_they_cost_before_shipping():
    bill = quote.answer(job(money=money(frame_cents=0, region=region(shipping_cents=700))))["bill"]
    assert [each["cents"] for each in bill["lines"]] == [0, 18000, 700]


def test_a_package_made_in_one_power_alone_fits_at_that_power():
    narrow = package(ranges=[part(-2.0, -2.0)], prices=[{"low": -2.0, "high": -2.0, "cents": 9000}])
    assert [(span["low"], span["high"]) for span in ranges_that_fit(job(package=narrow))] == [(-2.0, -2.0)] * 2


@pytest.mark.parametrize(
    ("low", "high", "away"), [(0.5, 2.0, 0.5), (-2.0, -0.5, 0.5), (-1.0, 1.0, 0.0), (0.0, 2.0, 0.0)]
)
def test_a_range_lies_as_far_from_plano_as_its_nearer_end(low, high, away):
    assert from_zero({"verdict": "fits", "low": low, "high": high}) == away


def test_a_center_goes_down_by_what_the_edge_can_spare_and_by_what_it_has_itself():
    lens = grind(-2.0, 0.0, 180.0, 4.0, 0.0, 1.6)
    rim = rim_around([20.0, -20.0, -20.0, 20.0], [20.0, 20.0, -20.0, -20.0], 0.0, 0.0)
    back = back_surface(lens, 5.0)
    assert next_center(lens, rim, back, 5.0, 2.0, 1.0) == pytest.approx(4.0)
    assert next_center(lens, rim, back, 5.0, 2.0, 9.0) == pytest.approx(2.0)
    assert next_center(lens, rim, back, 5.0, 2.0, 0.0) == 5.0


def test_the_horizontal_through_the_reference_point_meets_the_rim_at_both_ends():
    assert crossing({"xs": [25.0, -20.0, -20.0, 25.0], "ys": [9.0, 9.0, -9.0, -9.0], "reach": 27.0}) == [-20.0, 25.0]


def test_a_rim_that_is_wide_at_one_height_only_is_met_at_that_height():
    """A rhombus 40 mm wide and 20 mm high."""
    assert crossing({"xs": [20.0, 0.0, -20.0, 0.0], "ys": [0.0, 10.0, 0.0, -10.0], "reach": 20.0}) == [-20.0, 20.0]
    assert crossing({"xs": [20.0, 0.0, -20.0, 0.0], "ys": [5.0, 15.0, 5.0, -5.0], "reach": 21.0}) == [-10.0, 10.0]


@pytest.mark.parametrize("x", [-1.0, 0.0, 1.0])
@pytest.mark.parametrize("y", [-1.0, 0.0, 1.0])
def test_color_is_greatest_where_prism_and_power_add_up_on_any_of_eight_ways(x, y):
    """Prentice: −4.00 D at 15 mm make 6 Δ; a prism of 2 Δ that lies along the way is added; Abbe number 30."""
    if (x, y) == (0.0, 0.0):
        assert greatest_color(-0.4, 0.0, 180.0, 0.0, 0.0, 15.0, 30.0) == pytest.approx(0.02)
        return
    length = math.hypot(x, y)
    prism = 2.0 * x / length, 2.0 * y / length
    assert greatest_color(-4.0, 0.0, 180.0, *prism, 15.0, 30.0) == pytest.approx(8 / 30, abs=1e-9)


def test_a_weak_add_is_not_replaced_and_nothing_else_of_an_eye_changes():
    assert add_instead(eye(add=0.75), 2.0) == eye(add=0.75)
    assert add_instead(eye(-3.0, -1.0, 20.0, prism_in=1.0, prism_up=0.5), 2.0) == eye(
        -3.0, -1.0, 20.0, add=2.0, prism_in=1.0, prism_up=0.5
    )


def test_what_is_rebuilt_has_the_fields_of_its_record():
    one = job()
    assert frame_with(one["frame"], mounting_of(one["frame"]), one["frame"]["curve"]) == one["frame"]
    assert job_with(one, 1.25) == one | {side: one[side] | {"sphere": 1.25} for side in ("right", "left")}


def test_the_greatest_near_power_is_that_of_the_weaker_principal_meridian():
    """+1.00 −2.00 with add 2.00: near powers of +3.00 and +1.00."""
    stated = part(-6.0, 6.0, 4.0, 0.75, 3.5) | {"near": True, "near_from": -4.0, "near_to": 2.5}
    reasons = []
    one = job(package=progressive(ranges=[stated]))
    near_rule(one, eye(1.0, -2.0, 90.0, add=2.0), "R", reasons)
    assert [(each["code"], each["needed"], each["given"]) for each in reasons] == [("near-too-plus", 2.5, 3.0)]


def test_a_discount_is_one_line_for_both_eyes():
    lines = []
    assert discount_lines(money(discounts=[discount(cents=500)]), 12000, 8000, lines) == [11700, 7800]
    assert lines == [{"code": "discount", "id": "less", "kind": "discount", "eye": "B", "count": 1, "cents": -500}]


@pytest.mark.parametrize(
    "changes",
    [{"frame_cents": -1}, {"surcharges": [surcharge(cents=-1)]}, {"discounts": [discount(basis_points=10001)]}],
    ids=["frame", "surcharge", "discount"],
)
def test_money_that_cannot_be_concerns_both_eyes(changes):
    assert {reason["eye"] for reason in money_faults(money(**changes))} == {"B"}


@pytest.mark.parametrize(
    ("cylinder", "held"),
    [(-4.0, True), (-4.01, False), (2.0, True), (2.01, False)],
    ids=["low", "below", "high", "above"],
)
def test_both_near_powers_are_held_to_their_limits_on_both_sides(cylinder, held):
    near = part() | {"near": True, "near_from": -6.0, "near_to": 0.0}
    assert holds_near(near, eye(-2.0, cylinder, 90.0), 0.0) is held


def test_a_chord_longer_than_the_circle_by_rounding_alone_is_half_its_length():
    assert arc_of(2 * 25.0 + 1e-13, 25.0) == pytest.approx(25 * math.pi, abs=1e-9)


def test_a_chord_little_shorter_than_the_circle_is_not_taken_for_all_of_it():
    """The arc over a chord c of a circle of radius r is 2 r asin(c / 2r) (closed form)."""
    assert arc_of(49.99, 25.0) == pytest.approx(50 * math.asin(49.99 / 50), abs=1e-9)


def test_the_second_of_two_crossed_cylinders_lies_across_the_first():
    first, second = crossed_form(1.0, -2.0, 135.0)[1], crossed_form(1.0, -2.0, 45.0)[1]
    assert (first, second) == (45.0, 135.0)


def test_a_near_power_at_its_lower_limit_is_not_below_it():
    """+1.00 −2.00 with add 2.00 from near −1.00 to +2.50: only +3.00 is beyond."""
    stated = part(-6.0, 6.0, 4.0, 0.75, 3.5) | {"near": True, "near_from": 1.0, "near_to": 2.5}
    reasons = []
    near_rule(job(package=progressive(ranges=[stated])), eye(1.0, -2.0, 90.0, add=2.0), "R", reasons)
    assert [each["code"] for each in reasons] == ["near-too-plus"]


def test_the_smallest_share_takes_off_its_share():
    assert reduction(discount(basis_points=1, cents=50000), 1000000) == 100


@pytest.mark.parametrize("wild", [discount(on="hovering"), discount(on="")], ids=["another", "none"])
def test_a_discount_on_nothing_that_is_known_makes_no_bill(wild):
    assert [each["verdict"] for each in money_faults(money(discounts=[wild]))] == ["no"]


def test_the_back_of_an_oblique_toric_ends_along_its_own_meridians():
    c, s = math.cos(math.radians(30.0)), math.sin(math.radians(30.0))
    for away, there in ((49.0, True), (50.0, False)):
        assert back_has([0.02, 0.02, c, s], away * c, away * s) is there
        assert back_has([0.01, 0.02, c, s], -away * s, away * c) is there


def test_front_and_both_meridians_of_the_back_must_reach():
    flat = grind(0.0, 0.0, 180.0, 0.0, 0.0, 1.5)
    assert both_reach(flat, [0.01, 0.02, 1.0, 0.0], 49.0)
    assert not both_reach(flat, [0.01, 0.02, 1.0, 0.0], 51.0)
    assert not both_reach(flat, [0.02, 0.01, 1.0, 0.0], 51.0)
    assert not both_reach(grind(0.0, 0.0, 180.0, 10.0, 0.0, 1.5), [0.0, 0.0, 1.0, 0.0], 51.0)


@pytest.mark.parametrize(
    ("direction", "word"),
    [(295.0, "lower nasal"), (290.0, "bottom"), (335.0, "lower nasal"), (340.0, "nasal"), (20.0, "nasal")],
)
def test_eight_words_share_the_turn_evenly(direction, word):
    turned = math.radians(direction)
    assert place(math.cos(turned), math.sin(turned)) == word


def test_the_first_of_all_may_be_the_greatest():
    assert greatest_at([3.0, 1.0]) == 0
    assert greatest_at([2.0, 2.0]) == 0


def test_a_discount_that_takes_nothing_off_has_no_line_and_a_cent_has_one():
    nothing, cent = [], []
    assert discount_lines(money(discounts=[discount(cents=500)]), 0, 0, nothing) == [0, 0]
    assert nothing == []
    assert sum(discount_lines(money(discounts=[discount(cents=1)]), 100, 0, cent)) == 99
    assert [line["cents"] for line in cent] == [-1]


def test_a_tax_is_a_line_or_lies_inside_and_none_is_neither():
    lines = []
    assert tax_line(lines, "frame", 10000, 0, True) == 0
    assert tax_line(lines, "frame", 10000, 0, False) == 0
    assert lines == []
    assert tax_line(lines, "frame", 12100, 2100, True) == 2100
    assert lines == []
    assert tax_line(lines, "frame", 10000, 2100, False) == 0
    assert [line["cents"] for line in lines] == [2100]


def reason(code):
    return {"code": code, "verdict": "no", "eye": "B", "needed": 0.0, "given": 0.0}


@pytest.mark.parametrize(
    ("codes", "alone"),
    [
        (["blank-too-small"], True),
        (["height-too-low"], True),
        (["blank-too-small", "height-too-low"], True),
        (["not-drillable"], False),
        (["blank-too-small", "not-drillable"], False),
        ([], False),
    ],
)
def test_size_alone_forbids_where_every_reason_is_one_of_size(codes, alone):
    known = {"blank-too-small": BY_WIDTH[0], "height-too-low": BY_HEIGHT[0]}
    assert by_size_alone([reason(known.get(code, code)) for code in codes]) is alone


@pytest.mark.parametrize(
    ("right", "left", "heights"), [(True, True, [21.0, 22.0]), (True, False, [21.0]), (False, True, [22.0])]
)
def test_only_pupils_that_get_a_lens_count(right, left, heights):
    one = job(measures=measures(height_right=21.0, height_left=22.0), has_right=right, has_left=left)
    assert pupils(one) == heights


@pytest.mark.parametrize("missing", ["has_right", "has_left"])
def test_the_curve_of_a_frame_follows_the_one_lens_there_is(missing):
    one = job(frame=frame(curve=0.5), package=package(base_from=5.0, base_to=5.0), **{missing: False})
    found = {each["what"]: each for each in remedies(one, [], [], True)}
    assert (found["frame-curve"]["low"], found["frame-curve"]["high"]) == (1.0, 7.5)


def test_wishes_that_are_not_changed_stay():
    wished = options(rush=True, sport=True, one_eyed=True, driving=True, night_driving=True, mirror=True)
    assert options_with(wished, 0.0, False, True, False, False) == wished


def test_a_stretched_frame_has_the_effective_diameter_of_its_outline():
    changed = stretched(job(), 60.0, 30.0)["frame"]
    far = max(math.hypot(x, y) for x, y in zip(changed["xs"], changed["ys"], strict=True))
    assert changed["ed"] == pytest.approx(2 * far)
    assert (changed["a"], changed["b"]) == (60.0, 30.0)


def test_a_conic_front_bends_as_much_as_both_surfaces_together():
    conic = grind(-3.0, 0.0, 180.0, 5.0, -1.0, 1.6)
    front = 5.0 / 600.0
    assert most_bend(conic, [0.016, 0.018, 1.0, 0.0], -1.0) == pytest.approx(2 * (0.016 + front))
    assert most_bend(conic, [0.016, 0.018, 1.0, 0.0], 1.0) == pytest.approx(2 * (0.018 + front))
    plain = grind(-3.0, 0.0, 180.0, 5.0, 0.0, 1.6)
    assert most_bend(plain, [-0.003, 0.018, 1.0, 0.0], 1.0) == pytest.approx(2 * (0.018 - front))
    assert most_bend(plain, [-0.003, 0.018, 1.0, 0.0], -1.0) == pytest.approx(2 * (0.003 + front))


def test_a_mirrored_trace_starts_at_the_other_side_and_goes_on_rising():
    mirrored = [[21.0, 20.0, 23.0, 22.0], [90.0, 180.0, 240.0, 340.0]]
    assert mirrored_trace([20.0, 21.0, 22.0, 23.0], [0.0, 90.0, 200.0, 300.0]) == mirrored


@pytest.mark.parametrize("side", ["R", "L", "B"])
def test_an_outline_from_a_trace_has_as_many_points_as_any(side):
    xs, ys = from_trace([25.0, 24.0, 25.0, 24.0], [0.0, 90.0, 180.0, 270.0], side)
    assert len(xs) == len(ys) == 4 * QUARTER_POINTS


def test_vertical_imbalance_is_told_as_prentice_has_it():
    """−2.00 and −4.00 at so many millimeters down: 2 D times the drop in centimeters."""
    apart = job(eye(-2.0, add=2.0), package=progressive()) | {"left": eye(-4.0, add=2.0)}
    told = [each for each in quote.fit(apart)["reasons"] if each["code"] == "reading-imbalance"]
    assert told[0]["given"] == pytest.approx(0.2 * apart["limits"]["reading_drop"])


def test_light_that_misses_the_front_has_no_path():
    lens = grind(2.0, 0.0, 180.0, 10.0, 0.0, 1.5)
    assert path_from_object(lens, 4.0, [80.0, 0.0, -5.0], [0.0, 0.0, 1.0]) == no_path()


def test_what_is_impossible_of_a_frame_its_package_and_its_money_concerns_both_eyes():
    reasons = []
    frame_faults(frame() | {"a": -1.0, "b": -1.0}, reasons)
    range_faults(package(ranges=[]), reasons)
    range_faults(package(ranges=[part(-99.0, 99.0, 99.0, 9.0, 10.5)]), reasons)
    reasons += money_faults(money(frame_cents=-1, surcharges=[surcharge(cents=-1)]))
    assert len(reasons) > 6
    assert {one["eye"] for one in reasons} == {"B"}
    assert [one["code"] for one in money_faults(money(surcharges=[surcharge(cents=-1)]))] == ["impossible-money"]


def test_of_two_spots_of_one_thickness_the_first_is_told():
    for sign in (1.0, -1.0):
        assert more_extreme([2.0, 0.0, 0.0], [2.0, 5.0, 0.0], sign) == [2.0, 0.0, 0.0]


def test_a_range_that_holds_plano_lies_at_it():
    assert from_zero({"verdict": "fits", "low": -2.0, "high": 0.5}) == 0.0
    assert from_zero({"verdict": "fits", "low": -2.0, "high": -0.5}) == 0.5


def test_no_meridian_of_a_back_is_taken_for_a_conic():
    flat = grind(0.0, 0.0, 180.0, 0.0, 0.0, 1.5)
    assert both_reach(flat, [0.0198, 0.0198, 1.0, 0.0], 50.0)
    assert both_reach(flat, [0.0198, 0.001, 1.0, 0.0], 50.0)
    assert both_reach(flat, [0.001, 0.0198, 1.0, 0.0], 50.0)


def test_a_lens_tells_where_its_edge_is_thinnest():
    lens = quote.answer(job(eye(-4.0)))["fit"]["right"]
    assert set(lens) == set(get_type_hints(Lens))
    assert lens["edge_min_at"] in ("top", "bottom", "nasal", "upper nasal", "lower nasal", "upper temporal")


def test_a_center_that_does_not_settle_in_its_rounds_is_told_so(monkeypatch):
    lens = grind(-6.0, 0.0, 180.0, 4.0, 0.0, 1.6)
    rim = rim_around([20.0, 0.0, -20.0, 0.0], [0.0, 15.0, 0.0, -15.0], 0.0, 0.0)
    assert surfaced_lens(lens, rim, 1.5, 1.0) != not_settled()
    monkeypatch.setattr(center, "MOST_ROUNDS", 0)
    assert surfaced_lens(lens, rim, 1.5, 1.0) == not_settled()


def test_one_surcharge_that_is_no_amount_is_not_made_good_by_another():
    faults = money_faults(money(surcharges=[surcharge(cents=-1), surcharge(cents=5)]))
    assert [(one["eye"], one["needed"], one["given"]) for one in faults] == [("B", 0.0, -1.0)]


@pytest.mark.parametrize(
    "surcharges",
    [[surcharge(over=-1.0)], [surcharge(cents=MOST_CENTS), surcharge(cents=1)]],
    ids=["from a negative size on", "too much together"],
)
def test_impossible_surcharges_concern_both_eyes(surcharges):
    assert [one["eye"] for one in money_faults(money(surcharges=surcharges))] == ["B"]


def test_an_add_beyond_ten_diopters_is_told_at_both_its_ends():
    reasons = []
    range_faults(package(ranges=[part(add_from=10.5, add_to=10.5)]), reasons)
    assert [(one["eye"], one["needed"], one["given"]) for one in reasons] == [("B", 10.0, 10.5)] * 2


def test_light_that_is_reflected_at_a_thinner_medium_has_no_path():
    """From air into glass there is always a way; an index below 1 is that of a bubble in water (Snell)."""
    bubble = grind(0.0, 0.0, 180.0, 0.0, 0.0, 0.75)
    assert path_from_object(bubble, 2.0, [0.0, 0.0, 0.0], [0.6, 0.0, 0.8])["hit"]
    assert path_from_object(bubble, 2.0, [0.0, 0.0, 0.0], [0.8, 0.0, 0.6]) == no_path()


def test_powers_that_are_made_but_not_together():
    """Up to −4.00 with four diopters of cylinder, up to −8.00 with two: −6.00 −3.00 is in neither."""
    both = package(ranges=[part(-4.0, 0.0, 4.0), part(-8.0, 0.0, 2.0)])
    for written, expected in ((eye(-3.0, -1.0), []), (eye(-4.5, -3.0), [("power-not-together", "R", -4.5, 3.0)])):
        reasons = []
        power_rule(job(package=both), written, "R", reasons)
        assert [(one["code"], one["eye"], one["needed"], one["given"]) for one in reasons] == expected


@pytest.mark.parametrize("sides", [("right", "left"), ("left", "right")])
def test_vertical_imbalance_is_that_straight_below_the_centers(sides):
    """A cylinder of −3.00 at 45 has −1.50 D down the vertical meridian, and as much across: nothing across is added."""
    apart = job(package=progressive()) | {sides[0]: eye(0.0, -3.0, 45.0, 2.0), sides[1]: eye(0.0, add=2.0)}
    told = [each for each in quote.fit(apart)["reasons"] if each["code"] == "reading-imbalance"]
    assert told[0]["given"] == pytest.approx(0.15 * apart["limits"]["reading_drop"])


@pytest.mark.parametrize("y", [3.0, -3.0])
def test_a_bore_is_compared_with_that_of_the_nearest_hole_up_and_down_too(y):
    one = [[21.0], [y], [1.4]]
    assert bore_gap(one, [[21.0, 21.0], [y, -y], [1.5, 2.0]]) == pytest.approx(0.1)
    assert bore_gap(one, [[21.0, 21.0], [-y, y], [2.0, 1.5]]) == pytest.approx(0.1)
