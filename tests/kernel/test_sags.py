"""Depths at many points: those of one point each, and of numpy's widest float."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.kernel import sags, surfaces, thickness
from tests.kernel.jobs import hundredths, steady

PLACES = [(0.0, 0.0), (3.0, -4.0), (-20.0, 15.0), (0.0, 29.0), (29.0, 0.0), (-12.5, -25.0)]
XS, YS = [x for x, _ in PLACES], [y for _, y in PLACES]


@steady()
@given(st.floats(-0.03, 0.03), st.sampled_from((-3.0, -1.0, -0.5, 0.0, 0.2)))
def test_depths_of_a_conic_are_those_of_each_point(curvature, conic):
    found = sags.sags(curvature, conic, XS, YS)
    assert found == [surfaces.sag(curvature, conic, x * x + y * y) for x, y in PLACES]


@steady()
@given(st.floats(-0.03, 0.03), st.floats(-0.03, 0.03), st.integers(1, 180))
def test_depths_of_a_back_are_those_of_each_point(one, other, axis):
    flat, steep = sorted((one, other), key=abs)
    turned = thickness.back_surface(thickness.grind(0.0, -1.0, float(axis), 5.0, 0.0, 1.6), 2.0)
    back = [flat, steep, turned[2], turned[3]]
    found = sags.back_sags(back, XS, YS)
    assert found == pytest.approx([thickness.back_sag(back, x, y) for x, y in PLACES], rel=1e-12, abs=1e-14)


@steady()
@given(st.floats(-0.03, 0.03))
def test_a_back_without_cylinder_is_a_sphere_to_the_bit(curvature):
    assert sags.back_sags([curvature, curvature, 0.6, 0.8], XS, YS) == sags.sags(curvature, 0.0, XS, YS)


@steady()
@given(hundredths(30, 900), hundredths(-3, 0.1))
def test_a_sag_is_right_to_twelve_digits(radius, conic):
    """The plain formula (r - √(r² - (1 + k) y²)) / (1 + k) in numpy's extended precision."""
    wide = np.longdouble
    for y in (0.5, 7.0, 25.0, 28.0):
        k = wide(1) + wide(conic)
        if abs(k) < 1e-6:
            continue
        wanted = (wide(radius) - np.sqrt(wide(radius) ** 2 - k * wide(y) ** 2)) / k
        assert float(surfaces.sag(1.0 / radius, conic, y * y) / wanted) == pytest.approx(1.0, abs=1e-12)


def test_points_beyond_the_hemisphere_are_an_error():
    with pytest.raises(ValueError, match="math domain error"):
        sags.sags(0.05, 0.0, [20.1], [0.0])
    with pytest.raises(ValueError, match="math domain error"):
        sags.back_sags([0.0, 0.05, 1.0, 0.0], [0.0], [20.1])
    assert sags.sags(0.0625, 0.0, [16.0], [0.0]) == [16.0]
    assert sags.back_sags([0.0, 0.0625, 1.0, 0.0], [99.0], [16.0]) == [16.0]
