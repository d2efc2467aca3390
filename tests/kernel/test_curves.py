"""Curves as they are marked and measured: each way there and back, both signs, what has no answer."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.kernel import curves, surfaces
from tests.kernel.jobs import hundredths, steady

INDICES = hundredths(1.4, 1.9)
POWERS = st.one_of(hundredths(-25, -0.01), hundredths(0.01, 25))


@steady()
@given(POWERS, INDICES)
def test_radius_and_power_are_each_other_s_inverse_and_the_sign_stays(power, index):
    radius = curves.radius(power, index)
    assert curves.power_of_radius(radius, index) == pytest.approx(power, rel=1e-14)
    assert radius * power > 0.0
    assert 1.0 / radius == pytest.approx(surfaces.front_curvature(power, index), rel=1e-14)


@steady()
@given(hundredths(-20, 20), INDICES)
def test_nominal_and_true_curves_are_each_other_s_inverse(nominal, index):
    true = surfaces.true_power(nominal, index)
    assert curves.nominal_curve(true, index) == pytest.approx(nominal, abs=1e-12)
    assert curves.power_at_index(nominal, surfaces.TOOL_INDEX, index) == true


@steady()
@given(hundredths(-20, 20), INDICES, INDICES)
def test_a_clock_shows_the_curve_at_its_own_index(power, index, clock_index):
    shown = curves.clock_reading(power, index, clock_index)
    assert surfaces.front_curvature(shown, clock_index) == pytest.approx(
        surfaces.front_curvature(power, index), abs=1e-15
    )
    assert curves.clock_reading(power, index, index) == pytest.approx(power, rel=1e-12)


@steady()
@given(hundredths(-12, 12), hundredths(-12, 12), INDICES)
def test_the_index_that_a_clock_tells_is_the_one_the_lens_has(front, back, index):
    readings = [curves.clock_reading(power, index, 1.53) for power in (front, back)]
    if abs(sum(readings)) < 0.01:
        return
    assert curves.index_by_clock(sum(readings), 1.53, front + back) == pytest.approx(index, abs=1e-9)


def test_what_has_no_answer_says_so():
    with pytest.raises(ValueError, match="a flat surface has no radius"):
        curves.radius(0.0, 1.5)
    with pytest.raises(ValueError, match="no surface has a radius of 0"):
        curves.power_of_radius(0.0, 1.5)
    with pytest.raises(ValueError, match="readings that add up to 0 tell no index"):
        curves.index_by_clock(0.0, 1.53, 2.0)
