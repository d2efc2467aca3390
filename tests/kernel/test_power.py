"""What must hold for every prescription, whatever its numbers."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.kernel import power
from tests.kernel.jobs import hundredths, quarters, steady

AXES = st.integers(1, 180).map(float)
FORMS = st.tuples(hundredths(-20, 20), hundredths(-6, 6), AXES)


def same_lens(one, other):
    """Equal as power vectors, so that a sphere's axis does not matter."""
    return power.vector(*one) == pytest.approx(power.vector(*other), abs=1e-9)


@steady(300)
@given(FORMS)
def test_transposing_twice_is_the_identity_to_the_bit(form):
    assert power.transposed(*power.transposed(*form)) == list(form)


@steady(300)
@given(FORMS)
def test_both_notations_have_one_minus_form_to_the_bit(form):
    assert power.minus_form(*power.transposed(*form)) == power.minus_form(*form)
    assert power.minus_form(*form)[1] <= 0.0


def test_a_sphere_has_no_cylinder_and_the_axis_180_whatever_was_written():
    assert power.minus_form(-2.0, 0.0, 35.0) == [-2.0, 0.0, 180.0]
    assert power.from_vector(-2.0, 0.0, 0.0) == [-2.0, 0.0, 180.0]
    assert power.transposed(-2.0, 0.0, 35.0) == [-2.0, 0.0, 35.0]


def test_a_sum_of_decimals_is_the_decimal_they_write():
    """-8.12 + 0.12 is -7.999999999999999 in binary; plus notation must not show it."""
    assert power.minus_form(-8.12, 0.12, 90.0) == [-8.0, -0.12, 180.0]


@steady()
@given(FORMS)
def test_transposing_keeps_the_lens(form):
    assert same_lens(power.transposed(*form), form)
    assert power.spherical_equivalent(*power.transposed(*form)[:2]) == pytest.approx(
        power.spherical_equivalent(*form[:2])
    )


@steady()
@given(FORMS, AXES)
def test_power_along_a_meridian_is_that_of_the_matrix(form, meridian):
    fxx, fxy, fyy = power.matrix(*form)
    c, s = math.cos(math.radians(meridian)), math.sin(math.radians(meridian))
    assert power.in_meridian(*form, meridian) == pytest.approx(fxx * c * c + 2 * fxy * s * c + fyy * s * s, abs=1e-9)


@steady()
@given(FORMS)
def test_power_vector_there_and_back(form):
    assert same_lens(power.from_vector(*power.vector(*form)), form)


@steady()
@given(FORMS, FORMS)
def test_crossing_commutes_and_what_is_taken_away_is_gone(one, other):
    both = power.crossed(list(one), list(other))
    assert same_lens(both, power.crossed(list(other), list(one)))
    assert same_lens(power.crossed(both, [-other[0], -other[1], other[2]]), one)


@steady()
@given(hundredths(-20, 20), hundredths(-15, 15))
def test_there_and_back_in_vertex_distance(f, moved_mm):
    assert power.at_vertex(power.at_vertex(f, moved_mm), -moved_mm) == pytest.approx(f, abs=1e-9)


def test_vertex_distance_has_no_answer_where_the_image_falls_on_the_plane():
    with pytest.raises(ZeroDivisionError):
        power.at_vertex(20.0, 50.0)


@steady(200)
@given(hundredths(-20, 20))
def test_steps_go_away_from_zero_to_the_next_quarter(f):
    """Exact, in whole hundredths of a diopter."""
    hundreds = round(f * 100)
    steps = -(-abs(hundreds) // 25) * 25
    assert round(power.on_step(f) * 100) == math.copysign(steps, hundreds)


@pytest.mark.parametrize(("f", "step"), [(-4.001, -4.25), (4.001, 4.25), (-4.0000000001, -4.0), (-3.999, -4.0)])
def test_a_step_forgives_the_dust_of_binary_sums_and_nothing_that_anyone_writes(f, step):
    assert power.on_step(f) == step


@steady()
@given(quarters(-20, 20))
def test_a_quarter_is_its_own_step(f):
    assert power.on_step(f) == f


@steady(200)
@given(FORMS)
def test_strongest_is_the_principal_power_farther_from_zero(form):
    found = power.strongest(form[0], form[1])
    assert abs(found) == max(abs(form[0]), abs(form[0] + form[1]))


def test_of_two_principal_powers_as_strong_the_minus_one_counts():
    assert power.strongest(1.0, -2.0) == -1.0
    assert power.strongest(-1.0, 2.0) == -1.0


def test_an_axis_is_brought_within_half_a_turn_without_changing_its_meridian():
    for axis in range(-720, 721):
        found = power.axis_within(float(axis))
        assert 0.0 < found <= 180.0
        assert (found - axis) % 180.0 == 0.0


def test_what_has_no_cylinder_has_the_axis_180():
    assert power.from_vector(-2.0, 0.0, 0.0) == [-2.0, 0.0, 180.0]
    assert power.minus_form(-2.0, 0.0, 35.0) == [-2.0, 0.0, 180.0]


@steady()
@given(FORMS, hundredths(-10, 10), hundredths(-10, 10))
def test_prism_by_decentration_is_that_of_the_principal_meridians(form, x, y):
    """Long way around: resolve the decentration along the two principal meridians, multiply, put together."""
    sphere, cylinder, axis = form
    c, s = math.cos(math.radians(axis)), math.sin(math.radians(axis))
    along, across = (x * c + y * s) / 10 * sphere, (y * c - x * s) / 10 * (sphere + cylinder)
    wanted = [along * c - across * s, along * s + across * c]
    assert power.prentice(*form, x, y) == pytest.approx(wanted, abs=1e-9)


@steady()
@given(hundredths(-9, 9), hundredths(-9, 9))
def test_prism_there_and_back(x, y):
    assert power.components(*power.resultant(x, y)) == pytest.approx([x, y], abs=1e-9)
