"""Sags against the plain geometry of circles, conics and tori; vertex powers against each other."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.kernel import power, surfaces, worn
from tests.kernel.jobs import hundredths, quarters, steady

INDICES = hundredths(1.48, 1.9)


@steady()
@given(st.floats(30, 2000), st.floats(0, 29))
def test_sag_of_a_sphere_is_that_of_its_circle(radius, y):
    wanted = radius - math.sqrt(radius * radius - y * y)
    assert surfaces.sag(1 / radius, 0.0, y * y) == pytest.approx(wanted, abs=1e-9)
    assert surfaces.sag(-1 / radius, 0.0, y * y) == pytest.approx(-wanted, abs=1e-9)


@steady()
@given(st.floats(40, 2000), st.floats(0, 25), st.floats(-3, 1))
def test_sag_of_a_conic_lies_on_the_conic(radius, y, conic):
    """ISO 13666 form: y² = 2 r z - (1 + k) z²."""
    z = surfaces.sag(1 / radius, conic, y * y)
    assert y * y == pytest.approx(2 * radius * z - (1 + conic) * z * z, abs=1e-7)


@steady(150)
@given(st.floats(-0.012, 0.012), st.floats(-0.012, 0.012), st.floats(-30, 30), st.floats(-30, 30))
def test_toric_sag_lies_on_the_torus(base, cross, x, y):
    """Every point keeps its distance from the axis of the base curve: that of the arc it was turned from."""
    base, cross = sorted((base, cross), key=abs)
    if abs(base) < 1e-4:
        base = 0.0
    z = surfaces.toric_sag(base, cross, x, y)
    arc = surfaces.sag(cross, 0.0, y * y)
    if base == 0.0:
        assert z == pytest.approx(arc, abs=1e-9)
    else:
        assert math.hypot(x, 1 / base - z) == pytest.approx(abs(1 / base - arc), abs=1e-7)


@steady()
@given(st.floats(-0.012, 0.012), st.floats(-40, 40), st.floats(-40, 40))
def test_torus_of_two_equal_curves_is_a_sphere(curve, x, y):
    assert surfaces.toric_sag(curve, curve, x, y) == pytest.approx(surfaces.sag(curve, 0.0, x * x + y * y), abs=1e-9)


def test_a_surface_beyond_its_hemisphere_has_no_depth():
    with pytest.raises(ValueError, match="math domain error"):
        surfaces.sag(1 / 20, 0.0, 21.0**2)


@steady(100)
@given(hundredths(-16, 16), hundredths(0, 14), st.floats(0.5, 12), INDICES)
def test_the_back_that_gives_a_power_gives_it(wanted, front, center, index):
    back = surfaces.back_power(wanted, front, center, index)
    assert surfaces.back_vertex_power(front, back, center, index) == pytest.approx(wanted, abs=1e-9)


@steady()
@given(hundredths(-10, 12), hundredths(-16, 2), st.floats(0.5, 12), INDICES)
def test_back_vertex_power_is_that_of_a_ray_through_both_surfaces(front, back, center, index):
    """Paraxial ray, parallel at the front: refract, travel, refract; power is its slope over its height (Gauss)."""
    height, slope = 1.0, -front / index
    height_behind = height + center / 1000 * slope
    slope_behind = index * slope - back * height_behind
    assert surfaces.back_vertex_power(front, back, center, index) == pytest.approx(
        -slope_behind / height_behind, abs=1e-9
    )


@steady()
@given(hundredths(-10, 12), hundredths(-16, 2), st.floats(0.5, 12), INDICES)
def test_equivalent_power_is_that_of_a_ray_from_its_principal_plane(front, back, center, index):
    """The same ray: its slope behind over its height in front (Gauss); both vertex powers by their shape factors."""
    height_behind = 1.0 - center / 1000 * front / index
    equivalent = surfaces.equivalent_power(front, back, center, index)
    assert equivalent == pytest.approx(front + back * height_behind, abs=1e-9)
    whole = surfaces.back_vertex_power(front, back, center, index) / surfaces.shape_factor(front, center, index)
    assert equivalent == pytest.approx(whole, abs=1e-9)
    whole = surfaces.front_vertex_power(front, back, center, index) / surfaces.shape_factor(back, center, index)
    assert equivalent == pytest.approx(whole, abs=1e-9)


def test_powers_of_a_lens_without_thickness_are_all_the_sum_of_its_surfaces():
    for power_of in (surfaces.equivalent_power, surfaces.back_vertex_power, surfaces.front_vertex_power):
        assert power_of(6.25, -8.5, 0.0, 1.6) == -2.25


@pytest.mark.parametrize(
    ("equivalent", "base"), [(0.0, 6.0), (2.0, 8.0), (-2.0, 5.0), (-4.25, 4.0), (-12.0, 0.5), (9.0, 8.5)]
)
def test_base_curve_by_rule_comes_in_half_diopters_within_what_is_made(equivalent, base):
    """Vogel's rule (memory): plus SE + 6, minus SE/2 + 6; -4.25 gives 3.875, the nearest half is 4.

    A frame curved as the rule has it leaves the rule as it is.
    """
    assert surfaces.base_by_rule(equivalent, 0.5, 8.5, surfaces.vogel_base(equivalent)) == base


@pytest.mark.parametrize(("frame_curve", "base"), [(2.0, 3.0), (3.5, 3.5), (4.0, 4.0), (5.0, 5.0), (8.0, 5.0)])
def test_base_curve_meets_the_frame_but_goes_no_farther_than_a_diopter_from_the_rule(frame_curve, base):
    """-4.00: the rule says 4.  (practice)"""
    assert surfaces.base_by_rule(-4.0, 0.5, 8.5, frame_curve) == base


@steady()
@given(quarters(-20, 12), quarters(0, 4), quarters(4, 10), quarters(0, 9))
def test_base_curve_by_rule_never_leaves_what_is_made(equivalent, low, high, frame_curve):
    assert low <= surfaces.base_by_rule(equivalent, low, high, frame_curve) <= high


@steady()
@given(hundredths(-10, 10), st.floats(0, 20), INDICES)
def test_tilt_makes_no_lens_weaker_and_no_tilt_leaves_it(straight, tilt, index):
    sphere, cylinder = worn.martin(straight, tilt, index)
    assert abs(sphere) >= abs(straight)
    assert cylinder * straight >= 0.0
    assert worn.martin(straight, 0.0, index) == [straight, 0.0]


@pytest.mark.parametrize(("about", "steep", "flat"), [(180.0, 90.0, 180.0), (90.0, 180.0, 90.0)])
def test_tilt_adds_power_across_its_own_axis(about, steep, flat):
    """Pantoscopic tilt (about 180) adds power along 90, wrap (about 90) along 180: Martin's formulas."""
    sphere, cylinder, axis = worn.tilted(-6.0, 0.0, 180.0, 15.0, about, 1.6)

    def along(meridian):
        return sphere + cylinder * math.sin(math.radians(meridian - axis)) ** 2

    wanted = worn.martin(-6.0, 15.0, 1.6)
    assert along(flat) == pytest.approx(wanted[0])
    assert along(steep) == pytest.approx(wanted[0] + wanted[1])


@steady()
@given(quarters(-10, 10), quarters(-4, 4), st.integers(1, 180), st.floats(0, 20), st.sampled_from((90.0, 180.0)))
def test_a_tilted_sphero_cylinder_is_the_tilted_mean_sphere_and_the_untilted_rest(sphere, cylinder, axis, tilt, about):
    """Power matrices written out here: Martin's sphere and cylinder on (P1 + P2) / 2, plus what is left of the lens."""

    def plus(s, c, a):
        sine, cosine = math.sin(math.radians(a)), math.cos(math.radians(a))
        return s + c * sine * sine, -c * sine * cosine, s + c * cosine * cosine

    whole = plus(sphere, cylinder, axis)
    mean = (whole[0] + whole[2]) / 2
    tilted = plus(*worn.martin(mean, tilt, 1.6), about)
    wanted = [tilted[0] + whole[0] - mean, tilted[1] + whole[1], tilted[2] + whole[2] - mean]
    found = worn.tilted(sphere, cylinder, float(axis), tilt, about, 1.6)
    assert plus(*found) == pytest.approx(wanted, abs=1e-9)


def test_tilt_of_a_sphero_cylinder_works_on_its_mean_power_and_leaves_the_cylinder():
    """-4.00 -2.00 x 180 tilted about 180: mean -5.00 by Martin, then +1.00 along 180 and -1.00 along 90."""
    sphere, cylinder = worn.martin(-5.0, 15.0, 1.6)
    found = worn.tilted(-4.0, -2.0, 180.0, 15.0, 180.0, 1.6)
    assert found == pytest.approx([sphere + 1.0, cylinder - 2.0, 180.0], abs=1e-9)


@steady()
@given(hundredths(-10, 10), hundredths(-4, 4), st.integers(1, 180))
def test_a_lens_that_is_not_tilted_keeps_its_powers(sphere, cylinder, axis):
    untilted = worn.tilted(sphere, cylinder, float(axis), 0.0, 180.0, 1.6)
    assert power.vector(*untilted) == pytest.approx(power.vector(sphere, cylinder, float(axis)), abs=1e-9)
