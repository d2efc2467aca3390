"""The tint book as it is built: each mix with its look, figures, order code and materials; and no page without dyes."""

import re
from datetime import date
from pathlib import Path

import pytest

from quoting.catalog.load import load
from quoting.kernel.colors import from_srgb
from quoting.light.told import seen, usual_package
from quoting.places import shared
from quoting.show.looks import hexed
from quoting.site.build import build

DAY = date(2026, 11, 25)
CORNER = Path(__file__).parents[1] / "shops" / "corner"


@pytest.fixture(scope="module")
def catalog():
    return load(shared("demo_catalog"), DAY)[0]


@pytest.fixture(scope="module")
def page(pages):
    return pages["tints/index.html"]


def test_each_mix_has_its_code_figures_and_materials(page, catalog):
    for mix in catalog.tints.mixes.values():
        card = page.select_one(f"#{mix.id}")
        assert mix.code in card.select_one("h3").text
        found = seen(catalog, usual_package(catalog, mix.deepest), mix)
        shown = [row.select("td")[1].text for row in card.select("tbody tr")]
        places = found.at if mix.fades else (found.reference,)
        assert shown == [f"{one['percent']:.1f}\N{NO-BREAK SPACE}%" for one in places]
        assert hexed(found.at[0]["on_skin"]) in str(card)
        takers = [one.name for one in catalog.materials.values() if mix.deepest <= one.tint_depth]
        assert "Taken by: " + ", ".join(takers) + "." in card.text


def test_lenses_wear_the_gradient_that_is_drawn_for_them(page):
    for lens in page.select("path.tint"):
        name = re.fullmatch(r"url\(#(.+)\)", lens["fill"])[1]
        assert lens.find_parent("svg").find(id=name).name == "lineargradient"


def test_the_street_is_dimmer_through_a_lens(page):
    """No part is lighter through slate water than without a lens; a last digit of the screen aside."""
    plain, dim = (
        [piece["fill"] for piece in page.select_one(place).select("[data-part]")]
        for place in ("#mixing-look .street", "#slate-water .street")
    )
    assert len(plain) == len(dim) == 24
    for one, other in zip(plain, dim, strict=True):
        before, after = (from_srgb([int(color[i : i + 2], 16) / 255 for i in (1, 3, 5)])[1] for color in (one, other))
        assert after < before + 0.1


def test_photochromic_lenses_are_drawn_in_each_state(page):
    labels = [label.text for label in page.select(".card > .label")]
    assert labels == ["clear", "dark at 5 °C", "dark at 23 °C", "dark at 35 °C"]


def test_what_the_signals_are_is_said(page):
    assert "Whether signal lights keep their color (Q) is not computed" in page.text


def test_a_shop_without_dyes_has_no_such_page(tmp_path):
    build(CORNER, tmp_path / "site", DAY)
    assert not (tmp_path / "site" / "tints").exists()
    assert not (tmp_path / "site" / "data" / "light.js").exists()
    frames = next((tmp_path / "site" / "frames").glob("*/index.html")).read_text(encoding="utf-8")
    assert "tint" not in re.sub(r"<style.*?</style>", "", frames).replace("tinted", "").split("<main", 1)[0]
    assert 'id="tinted"' not in frames
