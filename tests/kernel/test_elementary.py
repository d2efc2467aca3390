"""The kernel's own sine, arc tangent, exponential and logarithm beside those of the platform's C library.

An ulp is 2⁻⁵² of the value's own power of two; each bound below is stated where it is used.
"""

import math
import sys

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from quoting.kernel import elementary
from tests.kernel.jobs import steady

EPSILON = sys.float_info.epsilon


def floats(low, high):
    return st.floats(low, high, allow_nan=False, allow_subnormal=False)


@steady(400)
@given(floats(-45.0, 45.0))
def test_sine_and_cosine_near_zero_are_within_three_ulp(degrees):
    radians = math.radians(degrees)
    assert abs(elementary.sin_deg(degrees) - math.sin(radians)) <= 3 * EPSILON * abs(math.sin(radians)) + 1e-300
    assert abs(elementary.cos_deg(degrees) - math.cos(radians)) <= 3 * EPSILON


@steady(400)
@given(floats(-720.0, 720.0))
def test_sine_and_cosine_over_two_turns(degrees):
    """Bound: two ulp of 1 and what rounding the angle to radians costs the C library."""
    radians = math.radians(degrees)
    bound = 2 * EPSILON + EPSILON * abs(radians)
    assert abs(elementary.sin_deg(degrees) - math.sin(radians)) <= bound
    assert abs(elementary.cos_deg(degrees) - math.cos(radians)) <= bound


@pytest.mark.parametrize("quarter", range(-9, 10))
def test_multiples_of_ninety_are_exact(quarter):
    assert elementary.sin_deg(90.0 * quarter) == (0.0, 1.0, 0.0, -1.0)[quarter % 4]
    assert elementary.cos_deg(90.0 * quarter) == (1.0, 0.0, -1.0, 0.0)[quarter % 4]


@steady(200)
@given(floats(-1.0, 1.0))
def test_arc_tangent_is_within_four_ulp(z):
    assert abs(elementary.atan_unit(z) - math.atan(z)) <= 4 * EPSILON * abs(math.atan(z)) + 1e-300


@steady(400)
@given(floats(-1e6, 1e6), floats(-1e6, 1e6))
def test_direction_is_that_of_atan2(x, y):
    """Bound: four ulp of a full turn."""
    found = elementary.angle_deg(x, y)
    assert 0.0 <= found < 360.0
    assume(x != 0.0 or y != 0.0)  # no direction at all; the kernel says 0
    apart = abs(found - math.degrees(math.atan2(y, x)) % 360.0)
    assert min(apart, 360.0 - apart) <= 4 * EPSILON * 360.0


@pytest.mark.parametrize(
    ("x", "y", "degrees"),
    [(0, 0, 0), (1, 0, 0), (0, 1, 90), (-1, 0, 180), (0, -1, 270)],
)
def test_directions_along_the_axes_are_exact(x, y, degrees):
    assert elementary.angle_deg(float(x), float(y)) == degrees


@pytest.mark.parametrize(("x", "y", "degrees"), [(1, 1, 45), (-1, 1, 135), (-1, -1, 225), (1, -1, 315)])
def test_diagonals_are_within_one_ulp(x, y, degrees):
    assert abs(elementary.angle_deg(float(x), float(y)) - degrees) <= math.ulp(degrees)


def test_a_hair_below_the_horizon_does_not_become_a_full_turn():
    assert elementary.angle_deg(1.0, -1e-20) == 0.0


@steady(400)
@given(floats(-700.0, 700.0))
def test_exponential(x):
    """Bound: three ulp, and one more for each unit of x (the argument's own rounding counts that much)."""
    wanted = math.exp(x)
    assert abs(elementary.exp(x) - wanted) <= (3 + abs(x)) * EPSILON * wanted


@steady(400)
@given(floats(1e-300, 1e300))
def test_logarithm_is_within_five_ulp(x):
    assert abs(elementary.ln(x) - math.log(x)) <= 5 * EPSILON * abs(math.log(x))


@steady(200)
@given(floats(0.5, 2.0))
def test_logarithm_near_one_keeps_its_relative_precision(x):
    assert abs(elementary.ln(x) - math.log(x)) <= 5 * EPSILON * abs(math.log(x))


@pytest.mark.parametrize("x", [0.0, -0.0, -1.0, -1e-300])
def test_logarithm_refuses_what_is_not_above_zero(x):
    with pytest.raises(ValueError, match="above zero"):
        elementary.ln(x)
