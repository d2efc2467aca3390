"""Hues on their circle, and CIEDE2000 where two colors lie opposite each other or one has no hue."""

import colour
import numpy as np
import pytest

from quoting.kernel import color_difference


@pytest.mark.parametrize(
    ("one", "other", "middle"),
    [
        (10.0, 50.0, 30.0), (50.0, 10.0, 30.0), (0.0, 180.0, 90.0), (350.0, 20.0, 5.0), (20.0, 350.0, 5.0),
        (10.0, 340.0, 355.0), (340.0, 10.0, 355.0), (355.0, 5.5, 0.25), (200.0, 15.0, 287.5), (345.0, 164.0, 74.5),
    ],
)  # fmt: skip
def test_the_middle_of_two_hues_lies_on_the_shorter_way(one, other, middle):
    """By hand, on the circle."""
    assert color_difference.middle_hue(one, other) == pytest.approx(middle, abs=1e-12)


@pytest.mark.parametrize(
    ("one", "other", "step"),
    [
        (10.0, 50.0, 40.0), (50.0, 10.0, -40.0), (350.0, 20.0, 30.0), (20.0, 350.0, -30.0), (0.0, 180.5, -179.5),
        (180.5, 0.0, 179.5), (179.5, 0.0, -179.5), (0.0, 179.5, 179.5), (0.0, 180.0, 180.0), (180.0, 0.0, -180.0),
    ],
)  # fmt: skip
def test_the_step_from_hue_to_hue_goes_the_shorter_way_and_halfway_around_as_it_is_written(one, other, step):
    """By hand; opposite hues as in Sharma, Wu and Dalal (2005), step 10: up to 180 the plain difference."""
    assert color_difference.hue_step(one, other) == step


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ([50.0, 0.0, 1.0], [50.0, 0.0, -1.0]),  # chroma 1 and opposite hues
        ([50.0, 0.0, 1.0], [50.0, 0.0, 1.0]),
        ([50.0, 0.0, 0.0], [60.0, 20.0, -30.0]),  # one has no hue
        ([60.0, 20.0, -30.0], [50.0, 0.0, 0.0]),
        ([30.0, 0.0, 0.0], [80.0, 0.0, 0.0]),
        ([30.0, 40.0, -60.0], [35.0, 20.0, -70.0]),  # blue, where chroma and hue turn each other
    ],
)
def test_as_colour_science_has_it(one, other):
    wanted = float(colour.delta_E(np.array(one), np.array(other), method="CIE 2000"))
    assert color_difference.difference(one, other) == pytest.approx(wanted, abs=1e-9)
