"""Recipes: what is made of known dyes is found again, and nothing among all coarse mixtures comes nearer."""

import itertools
import math
import random
from typing import get_type_hints

import pytest

from quoting.kernel import coated, colors, luminous, recipes, spectrum
from quoting.kernel.records import Recipe
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


@pytest.mark.parametrize(
    "parts", [(4, 0, 0), (0, 4, 0), (0, 0, 4), (3, 1, 0), (1, 0, 3), (0, 3, 1), (0, 1, 3), (1, 3, 0), (1, 1, 2)]
)
def test_a_mixture_in_quarters_is_found_at_once(parts):
    dyes = bells(2, 3)
    color = seen_through(dyes, list(map(float, parts)), 0.3)
    found = recipes.coarse(PLAIN, dyes, [0, 1, 2], 0.3, color)
    assert found["parts"] == list(parts)
    assert found["difference"] == pytest.approx(0.0, abs=1e-6)


@pytest.mark.parametrize("parts", [(4, 0), (3, 1), (2, 2), (1, 3), (0, 4)])
def test_a_mixture_of_two_in_quarters_is_found_at_once(parts):
    dyes = bells(3, 4)
    color = seen_through(dyes, [0.0, float(parts[0]), 0.0, float(parts[1])], 0.3)
    assert recipes.coarse(PLAIN, dyes, [1, 3], 0.3, color)["parts"] == [0, parts[0], 0, parts[1]]


@pytest.mark.parametrize("parts", [(1.0, 4.0, 0.0), (1.0, 5.0, 0.0), (1.0, 9.0, 0.0), (0.0, 1.0, 6.0), (2.0, 0.0, 5.0)])
def test_no_mixture_holds_less_than_nothing_of_a_dye(parts):
    """Where the wanted color lies between the last quarter and the pure dye, and one more quarter would come nearer."""
    dyes = bells(2, 3)
    color = seen_through(dyes, list(parts), 0.3)
    found = recipes.coarse(PLAIN, dyes, [0, 1, 2], 0.3, color)
    near = recipes.neared(PLAIN, dyes, [0, 1, 2], found, 0.3, color)
    for one in (found, near):
        assert min(one["parts"]) >= 0.0
        assert sum(one["parts"]) == 4.0


def test_a_pure_dye_is_neared_share_by_share_and_not_beyond_it():
    """From two dyes half and half: the other gives all it has, and no more."""
    dyes = bells(5, 2)
    start = recipes.tried(PLAIN, dyes, [2.0, 2.0], 0.3, [50.0, 0.0, 0.0])
    for wanted in ([1.0, 0.0], [0.0, 1.0]):
        color = seen_through(dyes, wanted, 0.3)
        start["difference"] = recipes.tried(PLAIN, dyes, [2.0, 2.0], 0.3, color)["difference"]
        found = recipes.neared(PLAIN, dyes, [0, 1], start, 0.3, color)
        assert found["parts"] == [4.0 * part for part in wanted]


def test_behind_a_lens_a_dye_that_takes_nothing_is_not_taken():
    assert recipes.depth_behind(PLAIN, spectrum.flat(0.0), 0.5) == 0.0


def test_depth_behind_a_lens_in_closed_form():
    """A gray dye of density 1 in a lens without surfaces: its depth is the logarithm."""
    bare = {"internal": [1.0] * 101, "front": [0.0] * 101, "back": [0.0] * 101}
    for wanted in (0.9, 0.3, 0.01):
        found = recipes.depth_behind(bare, spectrum.flat(1.0), wanted)
        assert found == pytest.approx(-math.log(wanted), rel=1e-12)


@pytest.mark.parametrize("lightness", [1.0, 5.0, 8.0, 90.0])
def test_a_dark_color_is_lightened_as_well(lightness):
    """Gray of 18.4 percent has an L* of 50 (ISO/CIE 11664-4: 116 times the cube root of it, less 16)."""
    light = (66 / 116) ** 3
    assert recipes.at_lightness([lightness, 0.0, 0.0], light) == pytest.approx([50.0, 0.0, 0.0], abs=1e-9)


def test_a_color_without_any_blue_is_no_black():
    """So yellow that its Z is below zero: X, Y and Z keep their proportion."""
    color = [50.0, 10.0, 120.0]
    x, y, z = colors.from_lab(color)
    assert z < 0.0
    assert colors.from_lab(recipes.at_lightness(color, 0.4)) == pytest.approx([40 * x / y, 40.0, 40 * z / y])


def test_a_recipe_tells_its_color():
    dyes = bells(7, 2)
    found = recipes.tried(PLAIN, dyes, [1.0, 3.0], 0.4, [50.0, 0.0, 0.0])
    assert found["lab"] == pytest.approx(seen_through(dyes, [1.0, 3.0], 0.4), abs=1e-9)
    assert set(found) == set(get_type_hints(Recipe))


@pytest.mark.parametrize("pure", range(4))
def test_a_pure_dye_among_four_is_found_in_whatever_three_it_stands(pure):
    dyes = bells(4, 4)
    wanted = [128.0 * (n == pure) for n in range(4)]
    assert recipes.match(PLAIN, dyes, 0.35, seen_through(dyes, wanted, 0.35))["parts"] == wanted


@pytest.mark.parametrize("chosen", [(0, 1, 2), (0, 3, 4), (2, 3, 4)])
def test_three_of_five_dyes_are_found_wherever_they_stand(chosen):
    """Ten threes there are, of which six are looked at more closely: the right one is among them."""
    dyes, parts = [[]] * 5, [0.0] * 5
    for place, n in zip([*chosen, *sorted({0, 1, 2, 3, 4} - set(chosen))], (0, 1, 4, 2, 3), strict=True):
        dyes[place] = bells(11, 5)[n]
    for place, part in zip(chosen, (45.0, 50.0, 33.0), strict=True):
        parts[place] = part
    found = recipes.match(PLAIN, dyes, 0.3, seen_through(dyes, parts, 0.3))
    assert found["parts"] == parts
    assert found["difference"] == pytest.approx(0.0, abs=1e-6)


@pytest.mark.parametrize("seed", range(3))
def test_of_four_dyes_the_best_three_are_taken(seed):
    """Each three by themselves, one after the other."""
    seeded, dyes = random.Random(f"four {seed}"), bells(seed, 4)
    color = recipes.at_lightness([50.0, seeded.uniform(-40, 40), seeded.uniform(-40, 40)], 0.3)
    each = [recipes.match(PLAIN, list(three), 0.3, color)["difference"] for three in itertools.combinations(dyes, 3)]
    assert recipes.match(PLAIN, dyes, 0.3, color)["difference"] == pytest.approx(min(each), abs=1e-12)
