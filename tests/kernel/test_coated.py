"""Lenses between their surfaces: closed forms, and a count of the light that goes to and fro."""

import random

import pytest

from quoting.kernel import coated, filters, spectrum
from tests.kernel.parity import dyeing


def bounced(front, back, inside):
    """What comes out on both sides, by following the light from surface to surface."""
    passed, returned, beam = 0.0, front, 1 - front
    for _ in range(400):
        beam *= inside
        passed += beam * (1 - back)
        beam *= back * inside
        returned += beam * (1 - front)
        beam *= front
    return passed, returned


def test_light_that_goes_to_and_fro_is_counted_to_the_end():
    seeded = random.Random("glass")
    for _ in range(20):
        glass, layer = dyeing.glass(seeded), dyeing.curve(seeded)
        through, back = coated.transmitted(glass, layer), coated.reflected(glass, layer)
        for i in range(0, 101, 10):
            inside = glass["internal"][i] * layer[i]
            wanted = bounced(glass["front"][i], glass["back"][i], inside)
            assert (through[i], back[i]) == pytest.approx(wanted, abs=1e-12)
            assert through[i] + back[i] <= 1 + 1e-12


@pytest.mark.parametrize("index", [1.498, 1.523, 1.6, 1.74])
def test_a_clear_lens_passes_what_two_surfaces_leave(index):
    """2n / (n² + 1), as the engine says of packages."""
    surface = spectrum.flat(coated.fresnel(index))
    glass = {"internal": spectrum.flat(1.0), "front": surface, "back": surface}
    assert coated.transmitted(glass, spectrum.flat(1.0))[0] == pytest.approx(2 * index / (index**2 + 1))


def test_before_a_ground_the_light_passes_twice():
    glass = {"internal": spectrum.flat(1.0), "front": spectrum.flat(0.0), "back": spectrum.flat(0.0)}
    assert coated.looked_at(glass, spectrum.flat(0.5), spectrum.flat(0.8))[60] == pytest.approx(0.2)


def test_a_mirror_takes_from_what_passes_and_gives_it_back():
    plain = {"internal": spectrum.flat(1.0), "front": spectrum.flat(0.04), "back": spectrum.flat(0.04)}
    mirror = plain | {"front": spectrum.flat(0.3)}
    gray = spectrum.flat(0.3)
    seen = [filters.filter_of(glass, gray, 8.0, 75.0) for glass in (plain, mirror)]
    assert seen[1]["percent"] < seen[0]["percent"]
    assert min(seen[1]["on_skin"]) > max(seen[0]["on_skin"])


def test_skin_lies_between_and_is_warmer_than_gray():
    ground = filters.skin()
    assert ground == sorted(ground)
    assert (ground[0], ground[-1]) == (0.2, 0.5)
