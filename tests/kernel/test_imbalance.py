"""Where the eyes read: what they meet there, how far it pulls them apart, and which lens takes the slab-off."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from quoting.kernel import imbalance, power, prism
from tests.kernel.jobs import hundredths, steady

AXES = st.integers(1, 180).map(float)
FORMS = st.tuples(hundredths(-12, 12), hundredths(-6, 6), AXES)
INSETS_MM = hundredths(0, 4)
DROPS_MM = hundredths(1, 15)
SPHERE = [0.0, 180.0]


@pytest.mark.parametrize(("sphere", "words"), [(4.0, ("out", "up")), (-4.0, ("in", "down"))], ids=["plus", "minus"])
def test_below_and_inside_the_center_plus_is_base_out_and_up_and_minus_base_in_and_down(sphere, words):
    """The base of a plus lens lies toward its optical center, that of a minus lens away from it (Prentice's rule)."""
    found = imbalance.near_prism(sphere, *SPHERE, 2.0, 8.0)
    assert [abs(part) for part in found] == [0.8, 3.2]
    assert (prism.in_or_out(found[0]), prism.up_or_down(found[1])) == words


@steady(200)
@given(FORMS, INSETS_MM, DROPS_MM)
def test_near_prism_is_that_of_the_principal_meridians(form, inset_mm, drop_mm):
    """Long way around: resolve the way from the center along the principal meridians, multiply, put together."""
    sphere, cylinder, axis = form
    c, s = math.cos(math.radians(axis)), math.sin(math.radians(axis))
    x, y = -inset_mm, drop_mm
    one, other = (x * c + y * s) / 10 * sphere, (y * c - x * s) / 10 * (sphere + cylinder)
    wanted = [one * c - other * s, one * s + other * c]
    assert imbalance.near_prism(*form, inset_mm, drop_mm) == pytest.approx(wanted, abs=1e-9)


@steady()
@given(FORMS, INSETS_MM, DROPS_MM)
def test_like_eyes_are_not_pulled_apart_vertically_and_twice_as_much_horizontally(form, inset_mm, drop_mm):
    found = imbalance.pair_at_near(list(form), list(form), [inset_mm, inset_mm], drop_mm)
    assert found == [2.0 * imbalance.near_prism(*form, inset_mm, drop_mm)[0], 0.0]


def test_each_eye_has_its_own_inset():
    right, left = [4.0, *SPHERE], [-2.0, *SPHERE]
    assert imbalance.pair_at_near(right, left, [2.0, 3.0], 10.0) == pytest.approx([-0.8 + 0.6, 6.0], abs=1e-12)


@steady()
@given(FORMS, FORMS, INSETS_MM, DROPS_MM)
def test_exchanged_eyes_have_the_opposite_imbalance(one, other, inset_mm, drop_mm):
    here = imbalance.pair_at_near(list(one), list(other), [inset_mm, 2.0], drop_mm)
    there = imbalance.pair_at_near(list(other), list(one), [2.0, inset_mm], drop_mm)
    assert there == [here[0], -here[1]]


@steady()
@given(FORMS, FORMS, INSETS_MM, DROPS_MM, st.integers(1, 180).map(float))
def test_imbalance_along_a_meridian_is_that_of_both_eyes_as_seen_from_the_front(
    one, other, inset_mm, drop_mm, meridian
):
    """Long way around: the left lens with its axis and its reading point as they are seen facing the wearer."""
    right = power.prentice(*one, -inset_mm, drop_mm)
    left = power.prentice(other[0], other[1], 180.0 - other[2], 1.5, drop_mm)
    c, s = math.cos(math.radians(meridian)), math.sin(math.radians(meridian))
    found = imbalance.imbalance_along(list(one), list(other), [inset_mm, 1.5], drop_mm, meridian)
    assert found == pytest.approx((right[0] - left[0]) * c + (right[1] - left[1]) * s, abs=1e-9)


@steady()
@given(FORMS, FORMS, DROPS_MM)
def test_vertical_imbalance_below_the_centers_is_the_difference_of_the_vertical_powers(one, other, drop_mm):
    apart = power.in_meridian(*one, 90.0) - power.in_meridian(*other, 90.0)
    found = imbalance.imbalance_along(list(one), list(other), [0.0, 0.0], drop_mm, 90.0)
    assert found == pytest.approx(apart * drop_mm / 10.0, abs=1e-9)


# (practice) from 1.5 prism diopters on, in halves
@pytest.mark.parametrize(
    ("apart", "amount"),
    [
        (0.0, 0.0),
        (1.499, 0.0),
        (1.4999999999999998, 1.5),
        (1.5, 1.5),
        (1.74, 1.5),
        (1.75, 2.0),
        (2.0, 2.0),
        (2.24, 2.0),
        (2.25, 2.5),
        (6.0, 6.0),
    ],
)
def test_slab_off_goes_in_halves_from_one_and_a_half_for_either_eye(apart, amount):
    assert imbalance.slab_off_amount(apart) == amount
    assert imbalance.slab_off_amount(-apart) == amount


@steady(200)
@given(hundredths(-12, 12))
def test_a_slab_off_leaves_at_most_a_quarter_or_what_needs_none(apart):
    left = imbalance.left_after_slab_off(apart)
    if abs(apart) < 1.5:
        assert left == apart
        assert imbalance.slab_off_eye(apart) == ""
    else:
        assert abs(left) <= 0.25
        stays = abs(apart) - imbalance.slab_off_amount(apart)
        assert left == pytest.approx(stays if apart > 0.0 else -stays, abs=1e-9)


def test_a_slab_off_that_takes_more_than_there_was_turns_the_sign():
    assert imbalance.left_after_slab_off(1.75) == -0.25
    assert imbalance.left_after_slab_off(-1.75) == 0.25
    assert imbalance.left_after_slab_off(0.0) == 0.0
    assert imbalance.left_after_slab_off(-1.0) == -1.0


@pytest.mark.parametrize(("apart", "eye"), [(1.5, "L"), (-1.5, "R"), (1.49, ""), (-1.49, ""), (0.0, "")])
def test_the_eye_with_less_base_up_takes_the_slab_off(apart, eye):
    assert imbalance.slab_off_eye(apart) == eye


@steady(200)
@given(FORMS, FORMS)
def test_the_slab_off_is_ground_on_the_lens_with_more_minus_in_its_vertical_meridian(right, left):
    """Brooks & Borish, System for Ophthalmic Dispensing (from memory): more minus or less plus takes the slab."""
    vertical = [power.in_meridian(*right, 90.0), power.in_meridian(*left, 90.0)]
    assume(abs(vertical[0] - vertical[1]) > 1.51)
    apart = imbalance.imbalance_along(list(right), list(left), [0.0, 0.0], 10.0, 90.0)
    assert imbalance.slab_off_eye(apart) == ("R" if vertical[0] < vertical[1] else "L")
