"""The curves that lie in a lens of a shop: the demo's, and one that states little."""

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from quoting.catalog.load import load
from quoting.kernel.coated import fresnel
from quoting.kernel.treatments import passed
from quoting.light.glass import glass_of, states, takes, tint_of
from quoting.light.told import all_states, seen, usual_package
from quoting.places import shared
from quoting.tables import package_table

DAY = date(2026, 11, 25)
WHARF = Path(__file__).parents[1] / "shops" / "wharf"


@pytest.fixture(scope="module")
def demo():
    return load(shared("demo_catalog"), DAY)[0]


@pytest.fixture(scope="module")
def wharf():
    return load(WHARF, DAY)[0]


def test_an_uncoated_lens_passes_what_the_engine_says_of_it(wharf):
    package = wharf.packages["plain-150"]
    wanted = passed(package_table(package), False)
    assert seen(wharf, package, None).reference["percent"] == pytest.approx(wanted, abs=0.01)


def test_a_coat_lies_on_the_sides_that_its_coating_names(demo):
    bare = fresnel(demo.packages["round-159-clear"].material.index)
    both, back, none = (
        glass_of(demo, demo.packages[name]).glass for name in ("plain-150-ar", "round-159-clear", "plain-150-hard")
    )
    assert back["front"][50] == pytest.approx(bare)
    assert back["back"][50] == both["front"][50] == both["back"][50] < 0.02
    assert none["front"][50] == none["back"][50] == pytest.approx(fresnel(1.498))


def test_a_mirror_takes_the_place_of_the_front(demo):
    package = demo.packages["plain-150-ar"]
    mirrored = glass_of(demo, package, mirror="silver").glass
    assert mirrored["front"] == list(demo.tints.mirrors["silver"].reflects)
    assert mirrored["back"] == glass_of(demo, package).glass["back"]
    assert seen(demo, package, None, "silver").reference["percent"] < 70


def test_a_photochromic_lens_has_the_states_that_are_stated(demo, wharf):
    assert states(demo, demo.packages["plain-156-photo"]) == ("clear", "5", "23", "35")
    assert states(wharf, wharf.packages["dusk-150"]) == ("clear", "23", "35")
    percents = [one.reference["percent"] for one in all_states(demo, demo.packages["plain-156-photo"], None)]
    assert percents[0] > percents[3] > percents[2] > percents[1]


def test_what_nobody_stated_is_named(demo, wharf):
    bare = replace(demo, tints=replace(demo.tints, photochromics=(), materials={}))
    stated, silent = bare.packages["round-153-photo"], bare.packages["plain-156-photo"]
    found = all_states(bare, stated, None)
    assert [one.stack.unstated for one in found] == [("material", "light")] * 2
    assert [one.reference["percent"] for one in found] == pytest.approx([88.0, 14.0], abs=0.02)  # on its grid
    assert all_states(bare, silent, None)[1].stack.unstated == ("material", "nothing")
    assert seen(demo, demo.packages["plain-150-ar"], None).stack.unstated == ()
    assert seen(wharf, wharf.packages["glare-150"], None).stack.unstated[-1] in ("light", "nothing")


@pytest.mark.parametrize(
    ("package", "depth", "code"),
    [
        ("plain-150-hard", 90, ""),
        ("plain-150-hard", 90.1, "too-deep"),
        ("plain-150-ar", 85, ""),
        ("plain-150-ar", 86, "under-coat"),
        ("plain-156-photo", 20, "over-filter"),
        ("bench-glass", 1, "too-deep"),
    ],
)
def test_which_lens_takes_which_tint(demo, package, depth, code):
    assert takes(demo, demo.packages[package], depth) == code


def test_a_mix_is_shown_on_a_lens_that_takes_it(demo):
    for mix in demo.tints.mixes.values():
        package = usual_package(demo, mix.deepest)
        assert takes(demo, package, mix.deepest) == ""
        found = seen(demo, package, mix)
        assert found.darkest == min(found.at, key=lambda one: one["percent"])
        assert (found.at[0] == found.at[2]) is not mix.fades
    assert tint_of(demo, None)["dyes"] == []
