"""The paint of the demo's mixes on drawn fronts: as the lens lies on white, and from its top down where it fades."""

import re
from dataclasses import replace
from datetime import date

import pytest
from PIL import ImageColor

from quoting.catalog.load import load
from quoting.light.told import seen, usual_package
from quoting.places import shared
from quoting.show.front import front_svg
from quoting.show.lens_paint import paint_of, painted
from quoting.show.looks import STOPS


@pytest.fixture(scope="module")
def demo():
    return load(shared("demo_catalog"), date(2026, 11, 25))[0]


@pytest.fixture(params=["cottering", "holmeric", "moorvane"])
def front(demo, request):
    """A frame of each kind of rim, in a sun version and not."""
    frame = demo.frames[request.param]
    color = replace(frame.colorways[0], version="sun" if request.param == "holmeric" else "optical")
    return front_svg(frame, frame.sizes[0], color, 1.4, "Front")


def on_white(stop):
    red, green, blue = ImageColor.getrgb(stop.color)
    return [one * stop.opacity + 255 * (1 - stop.opacity) for one in (red, green, blue)]


@pytest.mark.parametrize("mirror", ["", "silver", "ember"])
def test_it_is_the_color_of_the_lens_on_white(demo, mirror):
    for mix in [None, *demo.tints.mixes.values()]:
        package = usual_package(demo, mix.deepest if mix else 0.0)
        first = paint_of(demo, package, mix, mirror)[0]
        wanted = seen(demo, package, mix, mirror).at[0]["on_white"]
        assert on_white(first) == pytest.approx([255 * one for one in wanted], abs=1.01)


def test_a_mix_that_is_the_same_all_over_has_one_stop_and_a_gradient_many(demo):
    package = demo.packages["plain-150-hard"]
    assert len(paint_of(demo, package, demo.tints.mixes["kelp"])) == len(paint_of(demo, package, None)) == 1
    for way in (1, -1):
        mix = demo.tints.mixes["dusk"]
        mix = replace(mix, top=mix.bottom, bottom=mix.top) if way < 0 else mix
        stops = paint_of(demo, package, mix)
        assert [one.at for one in stops] == list(STOPS)
        light = [sum(on_white(one)) * way for one in stops]
        assert light == sorted(light)
        assert abs(light[0] - light[-1]) > 150


def test_a_photochromic_lens_has_the_paint_of_its_state(demo):
    package = demo.packages["plain-156-photo"]
    light = [sum(on_white(paint_of(demo, package, None, state=state)[0])) for state in ("5", "23", "35", "clear")]
    assert light == sorted(light)


def test_both_lenses_wear_it_and_nothing_else_does(demo, front):
    package = demo.packages["plain-150-hard"]
    for name in ("kelp", "dusk"):
        stops = paint_of(demo, package, demo.tints.mixes[name])
        worn = painted(front, stops, "shade-x")
        assert 'class="glass' not in worn
        assert worn.count('class="tint"') == 1
        assert worn.count("<linearGradient") == (len(stops) > 1)
        plain = re.sub(r"<linearGradient.*?</linearGradient>", "", worn)
        assert re.sub(r'class="tint" fill="[^"]+"( fill-opacity="[^"]+")?', "", plain) == re.sub(
            r'class="glass[^"]*" fill="currentColor" fill-opacity="[^"]+"', "", front
        )
