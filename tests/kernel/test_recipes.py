"""Recipes: what is made of known dyes is found again, and nothing among all coarse mixtures comes nearer."""

import itertools
import random

import pytest

from quoting.kernel import coated, colors, luminous, recipes, spectrum
from tests.kernel.parity import dyeing

PLAIN = {"internal": [0.99] * 101, "front": [0.04] * 101, "back": [0.04] * 101}


def bells(seed, count):
    """Dyes as dyes are: each takes light around one wavelength."""
    seeded = random.Random(f"dyes {seed}")
    found = []
    for n in range(count):
        center = 430 + 240 * (n + seeded.uniform(0.2, 0.8)) / count
        wide, deep = seeded.uniform(50, 110), seeded.uniform(0.5, 0.9)
        found.append([1 - deep * 2.718281828 ** (-(((nm - center) / wide) ** 2)) for nm in dyeing.NANOMETERS])
    return found


def seen_through(dyes, parts, wanted):
    mixture = spectrum.mixed(dyes, parts)
    return colors.lab(
        colors.xyz(
            coated.transmitted(PLAIN, spectrum.layer(mixture, recipes.depth_behind(PLAIN, mixture, wanted)))
        )
    )  # fmt: skip


@pytest.mark.parametrize("seed", range(6))
def test_what_was_mixed_is_found_again(seed):
    dyes = bells(seed, 4)
    seeded = random.Random(f"parts {seed}")
    parts = [float(seeded.randint(1, 6)) for _ in range(3)]
    parts.insert(seeded.randint(0, 3), 0.0)
    wanted = seeded.uniform(0.1, 0.6)
    found = recipes.match(PLAIN, dyes, wanted, seen_through(dyes, parts, wanted))
    assert found["passed"] == pytest.approx(wanted, rel=1e-9)
    assert found["difference"] < 0.5  # a share of 128 is as fine as they go
    assert sum(found["parts"]) == 128
    assert sum(part > 0 for part in found["parts"]) <= 3


@pytest.mark.parametrize("seed", range(4))
def test_no_mixture_in_sixteenths_comes_nearer(seed):
    """All mixtures of three dyes in sixteenths, tried one by one."""
    dyes = bells(seed, 3)
    seeded = random.Random(f"wanted {seed}")
    wanted = seeded.uniform(0.15, 0.5)
    color = recipes.at_lightness([50.0, seeded.uniform(-30, 30), seeded.uniform(-30, 30)], wanted)
    shares = [one for one in itertools.product(range(17), repeat=3) if sum(one) == 16]
    best = min(recipes.tried(PLAIN, dyes, list(map(float, one)), wanted, color)["difference"] for one in shares)
    assert recipes.match(PLAIN, dyes, wanted, color)["difference"] <= best + 1e-9


def test_a_lens_that_is_darker_already_takes_no_dye():
    dark = PLAIN | {"internal": [0.2] * 101}
    found = recipes.match(dark, bells(1, 2), 0.5, [50.0, 0.0, 0.0])
    assert found["depth"] == 0.0
    assert found["passed"] == luminous.luminous(coated.transmitted(dark, spectrum.flat(1.0)))


def test_the_same_chromaticity_at_another_lightness():
    color = [60.0, 20.0, -10.0]
    x, y, z = colors.from_lab(color)
    there = colors.from_lab(recipes.at_lightness(color, 0.1))
    assert there == pytest.approx([10 * x / y, 10.0, 10 * z / y])
    assert recipes.at_lightness([0.0, 0.0, 0.0], 0.5) == [0.0, 0.0, 0.0]


def test_dyes_are_needed_and_counted():
    for count in (0, 13):
        with pytest.raises(ValueError, match="one to twelve dyes"):
            recipes.match(PLAIN, [spectrum.flat(0.5)] * count, 0.5, [50.0, 0.0, 0.0])
    with pytest.raises(ValueError, match="above zero"):
        recipes.depth_behind(PLAIN, spectrum.flat(0.1), 0.0)
    assert [len(recipes.threes(count)) for count in (1, 2, 3, 6, 12)] == [1, 1, 1, 20, 220]


@pytest.mark.parametrize("count", [1, 2])
def test_fewer_than_three_dyes(count):
    dyes = bells(9, count)
    wanted = 0.4
    found = recipes.match(PLAIN, dyes, wanted, seen_through(dyes, [3.0, 5.0][:count], wanted))
    assert found["difference"] < 0.01
    assert found["parts"] == [[128.0], [48.0, 80.0]][count - 1]
