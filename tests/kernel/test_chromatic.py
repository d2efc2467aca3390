"""Color: prism and power over the Abbe number, the greatest in a circle against every point of its edge."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.kernel import chromatic, power
from tests.kernel.jobs import hundredths, steady

ABBE = st.sampled_from((30.0, 41.0, 58.0))
FORMS = st.tuples(hundredths(-12, 8), hundredths(-5, 5), st.integers(1, 180).map(float))


def test_limit_and_field_are_those_of_practice():
    """(practice) 0.1 prism diopters; eyes turn 30 degrees, 27 mm behind the lens: 15.6 mm, taken as 15."""
    assert chromatic.NOTICED == 0.1
    assert chromatic.FIELD_MM == 15.0
    assert abs(27.0 * math.tan(math.radians(30.0)) - chromatic.FIELD_MM) < 1.0


@pytest.mark.parametrize(("amount", "abbe", "wanted"), [(6.0, 30.0, 0.2), (-5.8, 58.0, -0.1), (0.0, 41.0, 0.0)])
def test_colors_spread_by_the_abbe_number(amount, abbe, wanted):
    assert chromatic.axial_color(amount, abbe) == pytest.approx(wanted, abs=1e-15)
    assert chromatic.prism_color(amount, abbe) == pytest.approx(wanted, abs=1e-15)


@steady()
@given(FORMS, st.floats(-20, 20), st.floats(-20, 20), ABBE)
def test_off_center_colors_spread_as_prentices_prism(form, x, y, abbe):
    """The power matrix of Long written out: F = S + C sin² and so on, prism = F · d / 10."""
    sphere, cylinder, axis = form
    s, c = math.sin(math.radians(axis)), math.cos(math.radians(axis))
    xx, xy, yy = sphere + cylinder * s * s, -cylinder * s * c, sphere + cylinder * c * c
    wanted = [(xx * x + xy * y) / 10 / abbe, (xy * x + yy * y) / 10 / abbe]
    assert chromatic.transverse_color(*form, x, y, abbe) == pytest.approx(wanted, abs=1e-12)


@pytest.mark.parametrize("straight", [6.0, -6.0])
def test_the_clear_radius_ends_where_colors_are_noticed(straight):
    radius = chromatic.clear_radius(straight, 58.0)
    assert radius == pytest.approx(58.0 / 6.0)
    assert chromatic.greatest_color(straight, 0.0, 180.0, 0.0, 0.0, radius, 58.0) == pytest.approx(0.1)


def test_a_plano_has_no_clear_radius_since_it_is_clear_everywhere():
    with pytest.raises(ZeroDivisionError):
        chromatic.clear_radius(0.0, 30.0)


@steady(150)
@given(FORMS, hundredths(-5, 5), hundredths(-5, 5), st.floats(0, 20), ABBE)
def test_the_greatest_color_in_a_circle_is_that_of_its_worst_point(form, prism_x, prism_y, radius, abbe):
    """Every degree of the edge; the prism is convex, so no inner point has more."""
    worst = 0.0
    for degree in range(720):
        x, y = radius * math.cos(math.pi * degree / 360), radius * math.sin(math.pi * degree / 360)
        there = power.prentice(*form, -x, -y)
        worst = max(worst, math.hypot(prism_x + there[0], prism_y + there[1]) / abbe)
    found = chromatic.greatest_color(*form, prism_x, prism_y, radius, abbe)
    assert found >= worst * (1 - 1e-6)
    assert found == pytest.approx(worst, rel=1e-4, abs=1e-9)


@steady()
@given(FORMS, st.floats(0, 20), ABBE)
def test_without_prism_the_strongest_meridian_decides(form, radius, abbe):
    wanted = abs(power.strongest(form[0], form[1])) * radius / 10.0 / abbe
    assert chromatic.greatest_color(*form, 0.0, 0.0, radius, abbe) == pytest.approx(wanted, abs=1e-6)


@pytest.mark.parametrize(
    ("prism", "radius", "wanted"), [((3.0, 4.0), 0.0, 5.0), ((3.0, -4.0), 15.0, 5.0), ((0.0, 0.0), 15.0, 0.0)]
)
def test_a_plano_has_its_prism_everywhere(prism, radius, wanted):
    assert chromatic.greatest_color(0.0, 0.0, 180.0, *prism, radius, 40.0) == pytest.approx(wanted / 40.0)


def test_prism_and_power_add_up_on_the_side_where_they_agree():
    """-4.00 and 2 prism diopters base in: 15 mm farther out there are 6 more."""
    assert chromatic.greatest_color(-4.0, 0.0, 180.0, 2.0, 0.0, 15.0, 40.0) == pytest.approx(8.0 / 40.0)
    assert chromatic.greatest_color(4.0, 0.0, 180.0, 0.0, -2.0, 15.0, 40.0) == pytest.approx(8.0 / 40.0)
