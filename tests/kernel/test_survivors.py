"""What only a changed kernel would have got wrong: each of these was once changed and no other test noticed."""

import math

import pytest

from quoting.kernel.bevel import arc_of
from quoting.kernel.checked_money import money_faults
from quoting.kernel.discounts import discount_lines
from quoting.kernel.forms import crossed_form
from quoting.kernel.rules import holds_near
from tests.kernel.jobs import discount, eye, money, part, surcharge


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
