"""The calculators at their limits: the last value that is answered, and the first that is refused in a sentence.

Expected numbers are worked by hand from the formula that is named beside them.
"""

import math

import pytest

from quoting.kernel import calculators, lens_calculators
from quoting.kernel.outline import effective_diameter_limits


@pytest.mark.parametrize(
    ("value", "places", "shown"),
    [
        (0.01, 2, 0.01), (-0.01, 2, -0.01), (0.12345678, 6, 0.123457), (0.12345678, 7, 0.123457), (-2.675, 2, -2.68),
        (1.0, 0, 1.0), (0.5, 0, 1.0), (0.4, 0, 0.0), (12.3456, 1, 12.3),
    ],
)  # fmt: skip
def test_rounded(value, places, shown):
    assert calculators.rounded(value, places) == shown


@pytest.mark.parametrize(("sphere", "cylinder"), [(25.0, 0.0), (25.0, -20.0), (0.0, 25.0), (10.0, 15.0)])
def test_a_lens_whose_image_falls_on_the_new_plane_has_no_power_there(sphere, cylinder):
    """F / (1 - dF): 25 D have their image at 40 mm."""
    with pytest.raises(ValueError, match="the image falls on the new plane"):
        calculators.vertex(sphere, cylinder, 180.0, 52.0, 12.0)
    assert calculators.vertex(sphere, cylinder, 180.0, 12.0, 12.0) == [sphere, cylinder, 180.0]


def test_a_millimeter_before_its_image_a_lens_has_a_power():
    """25 / (1 - 0.039 × 25) = 1000, with either end of the way counted."""
    assert calculators.vertex(25.0, 0.0, 180.0, 50.0, 11.0) == pytest.approx([1000.0, 0.0, 180.0])


def test_prisms_along_one_line_add_up():
    assert calculators.prism_combine(3.0, 0.0, 4.0, 0.0) == pytest.approx([7.0, 0.0, 7.0, 0.0])
    assert calculators.prism_combine(3.0, 90.0, 1.0, 270.0) == pytest.approx([2.0, 90.0, 0.0, 2.0], abs=1e-12)
    assert calculators.prism_combine(3.0, 180.0, 1.0, 180.0)[2:] == pytest.approx([-4.0, 0.0], abs=1e-12)


def test_a_lens_that_is_as_strong_as_the_eye_lies_deep_shows_nothing():
    """Gerstman: 1/27 mm is 37.037 D; a little less still shows a point, with next to no near PD."""
    for power in (1000.0 / 27.0, 37.05, 40.0):
        with pytest.raises(ValueError, match="so strong a lens"):
            calculators.near_distance(63.0, 400.0, power)
    weaker = 1000.0 / 27.0 - 1.25  # 400 mm times 1.25 / 1000 is a half
    assert calculators.near_distance(63.0, 400.0, weaker) == pytest.approx([63.0 - 42.0, 42.0 / 2])


def test_a_blank_at_the_ends_of_what_a_shape_can_be():
    least, most = effective_diameter_limits(52.0, 38.0, "panto")
    for ed in (least, most):
        assert calculators.blank(52.0, 38.0, 18.0, ed, "panto", 35.0, 19.0, 0.0)[3] == pytest.approx(ed)
    for ed in (least - 0.01, most + 0.01):
        with pytest.raises(ValueError, match="effective diameter"):
            calculators.blank(52.0, 38.0, 18.0, ed, "panto", 35.0, 19.0, 0.0)


def test_the_ends_of_diameter_and_index():
    """A plano lens with two flat faces is as thick at its edge as at its center, however wide."""
    for diameter in (1.0, 1.5, 100.0):
        found = lens_calculators.thickness(0.0, 0.0, 1.5, 0.0, diameter, 2.0, 1.0)
        assert found == pytest.approx([2.0, 2.0, 2.0])
    for diameter, index in ((0.99, 1.5), (100.01, 1.5), (60.0, 1.0)):
        with pytest.raises(ValueError, match="diameter or index"):
            lens_calculators.thickness(0.0, 0.0, index, 0.0, diameter, 2.0, 1.0)


@pytest.mark.parametrize(("sphere", "cylinder"), [(-4.0, -2.0), (-2.0, -3.5), (-6.0, 0.0)])
@pytest.mark.parametrize("diameter", [52.0, 70.0])
def test_edges_of_a_round_toric_lens_in_closed_form(sphere, cylinder, diameter):
    """Exact sags r - sqrt(r² - h²) of both faces; the back by the back vertex power F = F1 / (1 - t F1 / n) + F2.

    The front of 4.00 D at 1.530 has 4.00 (n - 1) / 0.530 in this material (Brooks & Borish).
    """
    index, center, half = 1.6, 2.0, diameter / 2

    def sag(power):
        radius = 1000 * (index - 1) / power
        return radius - math.sqrt(radius**2 - half**2)

    front = 4.0 * (index - 1) / 0.53
    shaken = front / (1 - center / 1000 / index * front)
    edges = [center - sag(front) + sag(shaken - power) for power in (sphere, sphere + cylinder)]
    found = lens_calculators.thickness(sphere, cylinder, index, 4.0, diameter, center, 0.0)
    assert found[0] == pytest.approx(center)
    assert found[1] == pytest.approx(edges[0], abs=0.012)  # the thinnest lies between two corners of the outline
    assert found[2] == pytest.approx(edges[1], abs=0.0002)


def test_a_center_thinner_than_a_millimeter_is_answered():
    assert lens_calculators.thickness(0.0, 0.0, 1.5, 0.0, 60.0, 0.5, 0.0) == pytest.approx([0.5, 0.5, 0.5])


def test_prism_of_a_pair_is_that_of_its_two_meridians():
    """-5.00 -6.00 x 45 has -8.00 D in both (sine squared of 45 is a half); ANSI: 1.0 mm up, 2.5 mm across, by Prentice.

    With the axis at 90 it has -5.00 upright and -11.00 across.
    """
    assert lens_calculators.tolerance("ansi", "single-vision", -5.0, -6.0, 45.0, 0.0)[4:6] == pytest.approx([0.8, 2.0])
    assert lens_calculators.tolerance("ansi", "single-vision", -5.0, -6.0, 90.0, 0.0)[4:6] == pytest.approx([0.5, 2.75])


def test_a_flat_front_still_has_a_radius():
    """530 mm D over the curve at the tool's index of 1.530."""
    assert lens_calculators.base_curve(-15.0, 0.0, 1.53, 0.5, 0.5)[1:] == pytest.approx([0.5, 0.5, 1060.0])


@pytest.mark.parametrize(
    ("dye", "parts", "lens", "through"),
    [
        (50.0, 2.0, 10.0, 22.5), (50.0, 0.0, 10.0, 90.0), (50.0, 0.5, 0.0, 100 * math.sqrt(0.5)),
        (10.0, 20.0, 0.0, 100 * 0.9**20), (0.0, 3.0, 20.0, 80.0),
    ],
)  # fmt: skip
def test_light_through_a_dyed_lens(dye, parts, lens, through):
    """Beer and Lambert: what the lens passes, times what the dye passes to the power of its depth."""
    found = lens_calculators.tint_density(dye, parts, lens)
    assert found[:3] == pytest.approx([through, 100 - through, -math.log10(through / 100)])


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ((50.0, -0.01, 0.0), "no dye is taken so deep"), ((50.0, 20.01, 0.0), "no dye is taken so deep"),
        ((50.0, 1.0, 100.0), "something must come through"), ((100.0, 1.0, 0.0), "something must come through"),
    ],
)  # fmt: skip
def test_what_no_dyed_lens_is(given, said):
    with pytest.raises(ValueError, match=said):
        lens_calculators.tint_density(*given)


@pytest.mark.parametrize(("absorption", "target"), [(50.0, 80.0), (0.5, 0.5), (99.9, 50.0), (50.0, 0.0), (20.0, 0.5)])
def test_depth_for_a_wanted_absorption(absorption, target):
    """The logarithm of one over that of the other, on four decimals."""
    wanted = math.log(1 - target / 100) / math.log(1 - absorption / 100)
    assert lens_calculators.parts_for(absorption, target) == [pytest.approx(wanted, abs=0.000051)]
    assert lens_calculators.parts_for(absorption, target)[0] == round(wanted, 4)


@pytest.mark.parametrize(("absorption", "target"), [(100.0, 50.0), (0.0, 50.0), (50.0, 100.0), (50.0, -0.01)])
def test_a_depth_that_is_none(absorption, target):
    with pytest.raises(ValueError, match="more than nothing"):
        lens_calculators.parts_for(absorption, target)
