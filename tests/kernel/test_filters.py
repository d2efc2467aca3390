"""The figures of a filter, each against a closed form: ramps, even grays, and the ground that stands for skin."""

from typing import get_type_hints

import colour
import pytest

from quoting.kernel import filters, luminous, spectrum
from quoting.kernel.records import Filter

PLAIN = {"internal": [1.0] * 101, "front": [0.0] * 101, "back": [0.0] * 101}
RAMP = [(nm - 280) / 1000 for nm in range(280, 781, 5)]


def test_skin_rises_evenly_between_its_ends():
    """0.2 up to 420 nm, 0.5 from 700 nm on, so 0.35 at 560 nm and 0.275 at 490 nm."""
    ground = filters.skin()
    for nm, wanted in ((280, 0.2), (420, 0.2), (490, 0.275), (560, 0.35), (630, 0.425), (700, 0.5), (780, 0.5)):
        assert ground[(nm - 280) // 5] == pytest.approx(wanted, abs=1e-12)


def test_blue_green_and_red_are_means_over_their_part_of_the_spectrum():
    """Of a ramp of a thousandth a nanometer from 280 nm on: its middle, at 470, 537.5 and 635 nm."""
    found = filters.filter_of(PLAIN, RAMP, 8.0, 75.0)
    assert (found["blue"], found["green"], found["red"]) == pytest.approx((19.0, 25.75, 35.5), abs=0.006)
    assert luminous.mean(RAMP, 10, 10) == RAMP[10]
    assert luminous.mean(RAMP, 10, 12) == pytest.approx(RAMP[11])


def test_a_filter_tells_all_that_its_record_names():
    found = filters.filter_of(PLAIN, spectrum.flat(0.5), 8.0, 75.0)
    assert set(found) == set(get_type_hints(Filter))
    assert found["xyz"][1] == pytest.approx(50.0)
    assert found["lab"] == pytest.approx([float(colour.XYZ_to_Lab([0.95047 / 2, 0.5, 1.08883 / 2])[0]), 0.0, 0.0])


def test_a_gray_lens_is_seen_once_through_and_twice_on_a_ground():
    """Half of the light once, a quarter twice; through the curve of IEC 61966-2-1."""
    found = filters.filter_of(PLAIN, spectrum.flat(0.5), 8.0, 75.0)
    once, twice = (float(colour.models.eotf_inverse_sRGB(share)) for share in (0.5, 0.25))
    assert found["through"] == pytest.approx([once] * 3, abs=0.0005)
    assert found["on_white"] == pytest.approx([twice] * 3, abs=0.0005)
    assert max(found["on_skin"]) < twice
