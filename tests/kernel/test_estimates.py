"""Rules of thumb beside the exact figures: by how much they differ is part of the promise."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.kernel import estimates, surfaces, thickness
from tests.kernel.jobs import hundredths, steady

INDICES = hundredths(1.45, 1.9)


@steady(150)
@given(hundredths(-14, 14), INDICES, st.floats(1, 38))
def test_approximate_sag_falls_short_of_the_exact_one_by_half_of_one_less_the_cosine(power, index, distance):
    """Of the sphere's sag: (1 - √(1 - (y/r)²)) / 2, from s = r - √(r² - y²); at least (y/r)²/4 of it."""
    curvature = surfaces.front_curvature(power, index)
    part = (curvature * distance) ** 2
    if part >= 1.0 or power == 0.0:
        return
    exact = surfaces.sag(curvature, 0.0, distance * distance)
    missing = 1.0 - estimates.approximate_sag(power, index, distance) / exact
    assert missing == pytest.approx((1.0 - math.sqrt(1.0 - part)) / 2.0, abs=1e-12)
    assert missing >= part / 4.0 - 1e-12


@pytest.mark.parametrize(("part", "missing"), [(0.28, 0.020), (0.5, 0.067)])
def test_approximate_sag_falls_short_as_its_docstring_says(part, missing):
    exact = surfaces.sag(1 / 100.0, 0.0, (100.0 * part) ** 2)
    rule = estimates.approximate_sag(5.0, 1.5, 100.0 * part)
    assert 1.0 - rule / exact == pytest.approx(missing, abs=0.0005)


@steady(150)
@given(hundredths(0.25, 8), INDICES, hundredths(0, 0.5), st.integers(40, 65))
def test_approximate_thickness_of_a_minus_lens_is_below_the_exact_one_by_less_than_a_quarter(
    power, index, base, diameter
):
    """Nearly flat fronts, up to -8.00, 40 to 65 mm: what the edge is thicker than the center is 0 to 24 % more."""
    lens = thickness.grind(-power, 0.0, 180.0, base, 0.0, index)
    half = diameter / 2
    exact = thickness.thickness_at(lens, 2.0, half, 0.0) - 2.0
    rule = estimates.approximate_thickness(2.0, -power, float(diameter), index) - 2.0
    assert 0.0 <= exact - rule <= 0.24 * exact


def test_approximate_thickness_takes_plus_and_minus_alike_and_adds_to_the_least():
    assert estimates.approximate_thickness(1.0, 5.0, 60.0, 1.5) == 5.5
    assert estimates.approximate_thickness(1.0, -5.0, 60.0, 1.5) == 5.5
    assert estimates.approximate_thickness(2.0, 0.0, 60.0, 1.5) == 2.0


@steady()
@given(hundredths(-10, 10), st.floats(1, 60), INDICES)
def test_prism_thickness_is_the_wedge_that_a_lens_gets(prism, distance, index):
    lens = thickness.with_prism(thickness.grind(0.0, 0.0, 180.0, 0.0, 0.0, index), prism, 0.0)
    there, back = (thickness.thickness_at(lens, 5.0, x, 0.0) for x in (distance / 2, -distance / 2))
    assert estimates.prism_thickness(prism, distance, index) == pytest.approx(there - back, abs=1e-12)


@steady()
@given(st.floats(-25, 25), INDICES)
def test_exact_prism_is_snell_s_law_at_the_second_face_and_above_the_thin_rule(apex, index):
    """Angles by the library's own arc sine: r - A with sin r = n sin A."""
    if not estimates.deviates(apex, index):
        assert abs(index * math.sin(math.radians(apex))) >= 1.0
        return
    out = math.asin(index * math.sin(math.radians(apex)))
    exact = estimates.prism_exact(apex, index)
    assert exact == pytest.approx(100.0 * math.tan(out - math.radians(apex)), abs=1e-9)
    assert abs(exact) >= abs(estimates.prism_by_apex(apex, index)) - 1e-12


@pytest.mark.parametrize(("apex", "least", "most"), [(2.0, 0.0, 0.0006), (5.0, 0.002, 0.02), (10.0, 0.01, 0.1)])
def test_the_thin_prism_rule_is_good_to_a_hundredth_below_ten_degrees(apex, least, most):
    """By how much, of itself, at an index of 1.5: 0.05 %, 0.3 %, 1.2 %."""
    thin, exact = estimates.prism_by_apex(apex, 1.5), estimates.prism_exact(apex, 1.5)
    assert least <= exact / thin - 1.0 <= most


def test_light_is_reflected_inside_a_steep_prism():
    assert estimates.deviates(41.8, 1.5)
    assert not estimates.deviates(41.82, 1.5)
    assert not estimates.deviates(-41.82, 1.5)
    assert not estimates.deviates(90.0, 1.0), "along the face is not out of it"
    with pytest.raises(ValueError, match="math domain error"):
        estimates.prism_exact(45.0, 1.5)


def test_a_prism_has_the_sign_of_its_apex():
    assert estimates.prism_by_apex(-3.0, 1.5) == -estimates.prism_by_apex(3.0, 1.5)
    assert estimates.prism_exact(-3.0, 1.5) == pytest.approx(-estimates.prism_exact(3.0, 1.5), abs=1e-12)
    assert estimates.prism_exact(0.0, 1.5) == estimates.prism_by_apex(0.0, 1.5) == 0.0


def test_curve_variation_factor_is_one_for_the_crown_itself_and_falls_with_the_index():
    assert estimates.curve_variation_factor(1.523, 1.523) == 1.0
    assert estimates.curve_variation_factor(1.6, 1.5) == pytest.approx(0.5 / 0.6)


@steady()
@given(st.floats(-0.05, 0.05), st.floats(-0.05, 0.05))
def test_turning_a_lens_around_turns_the_sign_of_its_bending(front, back):
    if abs(front - back) < 1e-6:
        return
    assert estimates.bending(-back, -front) == pytest.approx(-estimates.bending(front, back), rel=1e-9, abs=1e-9)
    assert estimates.bending(front, back) == pytest.approx((front + back) / (front - back))


def test_bending_needs_a_power():
    with pytest.raises(ValueError, match="a lens without power has no shape factor"):
        estimates.bending(0.01, 0.01)
