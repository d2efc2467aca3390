"""Which lens a drawing shows: that which is put into a frame, that which a sun version is sold with, or glass."""

from dataclasses import replace
from datetime import date

import pytest

from quoting.catalog.load import load
from quoting.catalog.model import Wears
from quoting.light.lens_worn import LensWorn
from quoting.places import shared
from quoting.show.lens_paint import paint_of
from quoting.site.fronts import Fronts


@pytest.fixture(scope="module")
def fronts():
    return Fronts(load(shared("demo_catalog"), date(2026, 11, 25))[0])


@pytest.fixture
def drawn(fronts):
    """The front of the round frame with these words at a colorway, and with a lens put into it."""

    def front(wears=None, version="sun-only", lens=None):
        frame = fronts.catalog.frames["aldmere"]
        color = replace(frame.colorways[0], version=version, wears=wears)
        return fronts.front(frame, frame.sizes[0], color, True, lens=lens), fronts.sun_text(color)

    return front


def lens(fronts, package, mix="", **more):
    return LensWorn(fronts.catalog.packages[package], fronts.catalog.tints.mixes.get(mix), **more)


def test_a_sun_version_of_which_nothing_is_said_is_gray(drawn):
    svg, said = drawn()
    assert 'class="glass sun"' in svg
    assert said == ""


def test_a_sun_version_with_a_lens_that_is_hardly_tinted_is_drawn_as_that(drawn, fronts):
    (stop,) = paint_of(fronts.catalog, fronts.catalog.packages["plain-150-hard"], None)
    svg, said = drawn(Wears(lens="plain-150-hard"))
    assert f'class="tint" fill="{stop.color}" fill-opacity="{stop.opacity:g}"' in svg
    assert "filter category 0" in said


def test_clear_lenses_that_are_put_into_a_sun_version_are_clear_glass(drawn, fronts):
    svg, _ = drawn(Wears("kelp"), lens=lens(fronts, "flat-160-ar"))
    assert 'class="glass" ' in svg
    assert 'class="tint"' not in svg


def test_a_lens_of_whose_light_nothing_is_known_has_no_color_and_says_so(drawn, fronts):
    bare = Fronts(replace(fronts.catalog, tints=replace(fronts.catalog.tints, photochromics=())))
    frame = bare.catalog.frames["aldmere"]
    photochromic = (one for one in bare.catalog.packages.values() if one.light == "photochromic")
    package = next(one for one in photochromic if not one.treatments.transmittance)
    for version, name in (("sun-only", "glass sun"), ("optical", "glass")):
        color = replace(frame.colorways[0], version=version)
        worn = LensWorn(package)
        assert f'class="{name}"' in bare.front(frame, frame.sizes[0], color, lens=worn)
        assert "not stated" in bare.lens_text(worn)


DARK = {"midnight": 95.0, "night": 92.5, "evening": 80.0}


@pytest.mark.parametrize("name", DARK)
def test_what_leaves_eight_percent_or_less_is_never_shown_without_saying_it(fronts, name):
    kelp = fronts.catalog.tints.mixes["kelp"]
    for top, bottom in ((DARK[name], DARK[name]), (10.0, DARK[name]), (DARK[name], 10.0)):
        mix = replace(kelp, id=name, name=name, top=top, bottom=bottom)
        said = fronts.lens_text(LensWorn(fronts.catalog.packages["plain-150-hard"], mix))
        assert ("nobody may drive behind it" in said) == (DARK[name] > 92)
        assert f"{name}, " in said


def test_names_tell_mirror_and_state(fronts):
    said = fronts.lens_text(lens(fronts, "plain-156-photo", state="23", mirror="tide"))
    assert "Plain 1.56" in said
    assert "under the mirror Tide, dark at 23 °C, " in said
    assert ", clear, " in fronts.lens_text(lens(fronts, "plain-156-photo"))
