"""Fronts of the demo wear what their lenses are: cards, combinations, pictures of links, files and scripts."""

import io
import json
import re
from datetime import date

import pytest
from PIL import Image

from quoting.catalog.load import load
from quoting.light.lens_worn import LensWorn, sun_lens
from quoting.places import shared
from quoting.show.lens_paint import paint_of

DAY = date(2026, 11, 25)


@pytest.fixture(scope="module")
def catalog():
    return load(shared("demo_catalog"), DAY)[0]


def fill_of(svg):
    """What the lenses of a drawing are filled with: stops, or one color and its opacity; nothing where it is glass."""
    lens = svg.select_one("path.tint")
    if lens is None:
        return []
    name = re.fullmatch(r"url\(#(.+)\)", lens["fill"])
    if not name:
        return [(0.0, lens["fill"], float(lens["fill-opacity"]))]
    stops = svg.find(id=name[1]).find_all("stop")
    return [(float(one["offset"]), one["stop-color"], float(one["stop-opacity"])) for one in stops]


def stops(catalog, lens):
    return [tuple(one) for one in paint_of(catalog, lens.package, lens.mix, lens.mirror, lens.state)]


def test_each_colorway_wears_what_its_owner_says_and_others_stay_glass(pages, catalog):
    worn = 0
    for frame in catalog.frames.values():
        page = pages[f"frames/{frame.id}/index.html"]
        cards = page.select("section[aria-labelledby=colors] .card")
        for color, card in zip(frame.colorways, cards, strict=True):
            lens = sun_lens(catalog, color)
            assert fill_of(card) == (stops(catalog, lens) if lens else [])
            text = " ".join(card.text.split())
            assert ("Sun lenses are drawn gray." in text) == (color.sun and lens is None)
            if lens is not None:
                worn += 1
                assert (lens.mix.name if lens.mix else lens.package.name) in text
                at = lens.seen(catalog).at
                assert f"{at[0 if lens.mix and lens.mix.fades else 1]['percent']:.1f} % of the light" in text
        first = sun_lens(catalog, frame.shown_first)
        assert fill_of(page.select_one(".measured")) == (stops(catalog, first) if first else [])
    assert worn > 8


def test_a_list_shows_the_first_colorway_in_its_own_lenses(pages, catalog):
    for name in ("frames/index.html", "index.html"):
        for card in pages[name].select("[data-frame]"):
            lens = sun_lens(catalog, catalog.frames[card["data-frame"]].shown_first)
            assert fill_of(card) == (stops(catalog, lens) if lens else [])


def test_gradients_of_a_page_have_names_of_their_own(pages):
    for name, page in pages.items():
        ids = [one["id"] for one in page.find_all(id=True)]
        assert len(ids) == len(set(ids)), name


COMBINED = {
    "dusk-on-the-terrace": ("plain-150-ar", "dusk", "", "clear"),
    "from-the-door-to-the-quay": ("plain-156-photo", "", "", "23"),
    "honey-for-the-water": ("steady-160-polar", "", "", "clear"),
}


@pytest.mark.parametrize("name", COMBINED)
def test_a_combination_is_drawn_and_priced_with_its_lens(pages, demo, catalog, name):
    package, mix, mirror, state = COMBINED[name]
    lens = LensWorn(catalog.packages[package], catalog.tints.mixes.get(mix), mirror, state)
    page = pages[f"combinations/{name}/index.html"]
    assert fill_of(page.select_one("figure .measured")) == stops(catalog, lens)
    home = pages["index.html"].select_one(f'a[href$="combinations/{name}/index.html"]').find_parent("li")
    assert fill_of(home) == stops(catalog, lens)
    bill = [row.text for row in page.select(".bill tbody th")]
    assert ("Tint" in bill) == bool(mix)
    address = page.find("meta", property="og:image")["content"].split("example.org/")[1]
    picture = Image.open(io.BytesIO((demo / address).read_bytes())).convert("RGB")
    found = {dot for _, dot in picture.getcolors(1 << 20)}
    for _, color, opacity in stops(catalog, lens):
        channels = [int(color[at : at + 2], 16) for at in (1, 3, 5)]
        wanted = [one * opacity + 255 * (1 - opacity) for one in channels]
        assert any(max(abs(a - b) for a, b in zip(wanted, dot, strict=True)) < 5 for dot in found)


def test_clear_lenses_in_a_sun_version_are_clear(pages):
    """What a combination glazes a sun version with is what it is drawn with."""
    for name in ("no-rim-and-a-progressive", "a-plain-rectangle-for-a-stronger-minus"):
        page = pages[f"combinations/{name}/index.html"]
        assert page.select_one("figure .measured .glass") is not None
        assert "drawn as they look" not in page.text


def test_scripts_have_the_paint_of_each_colorway_and_drawings_without_any(demo, catalog):
    for frame in catalog.frames.values():
        script = (demo / f"frames/{frame.id}/fronts.js").read_text(encoding="utf-8")
        data = json.loads(script.split("=", 1)[1].rstrip(";\n"))
        assert all('class="tint"' not in svg for svg in data["sizes"].values())
        for color in frame.colorways:
            lens = sun_lens(catalog, color)
            own = [tuple(one) for one in (data["colors"][color.id][2:] or [[]])[0]]
            assert own == (stops(catalog, lens) if lens else [])
