"""A frame's page names the frames that may take its lenses, and none that cannot."""

import shutil
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from quoting.catalog.load import load
from quoting.findings import errors
from quoting.places import shared
from quoting.site.build import build
from quoting.site.swaps import MOST, takers
from quoting.swapping import compared
from quoting.tables import outline_of


@pytest.fixture(scope="module")
def catalog():
    return load(shared("demo_catalog"))[0]


def named(frame, catalog):
    return [(one.frame.id, one.size.key, one.lens.key, one.sure) for one in takers(frame, catalog)]


def shop_of(catalog, *frames):
    return replace(catalog, frames={frame.id: frame for frame in frames})


def test_what_a_page_names_is_never_a_no_of_the_command(catalog):
    some = 0  # of the demo shop, both ways
    for frame in catalog.frames.values():
        for one in takers(frame, catalog):
            some += 1
            assert compared(frame, one.lens, one.frame, one.size).verdict != "no"
    assert some >= 2


@pytest.mark.parametrize(
    ("change", "taken"),
    [
        ({}, True),
        ({"mounting": "drilled"}, False),
        ({"curve": 7.0}, False),
        ({"family": "round"}, False),
        ({"id": "alder"}, False),
    ],
)
def test_what_holds_a_lens_otherwise_is_not_named(change, taken):
    catalog = load(Path(__file__).parents[1] / "shops" / "corner")[0]
    alder = catalog.frames["alder"]
    other = replace(alder, **({"id": "birch"} | change))
    found = named(alder, shop_of(catalog, alder, other) if other.id != "alder" else shop_of(catalog, alder))
    assert found == ([("birch", "52-18", "52-18", False)] if taken else [])


@pytest.mark.parametrize(
    ("size", "taken"), [({"a": 53.0}, True), ({"a": 53.1}, False), ({"b": 34.9}, False), ({"ed": 57.1}, False)]
)
def test_boxes_that_differ_too_much_are_not_named(size, taken):
    catalog = load(Path(__file__).parents[1] / "shops" / "corner")[0]
    alder = catalog.frames["alder"]
    other = replace(alder, id="birch", sizes=(replace(alder.sizes[0], **size),))
    assert bool(named(alder, shop_of(catalog, alder, other))) is taken


def test_only_traces_make_it_sure_and_sure_ones_stand_first():
    catalog = load(Path(__file__).parents[1] / "shops" / "corner")[0]
    alder = catalog.frames["alder"]
    outline = outline_of(52.0, 36.0, 55.5, "rectangle")
    traced = replace(alder, sizes=(replace(alder.sizes[0], trace="a.dcs", outline=outline),))
    same = replace(traced, id="same")
    wider = replace(
        traced, id="wider", sizes=(replace(traced.sizes[0], outline=outline_of(53.0, 36.4, 56.5, "rectangle")),)
    )
    far = replace(
        traced, id="far", sizes=(replace(traced.sizes[0], outline=outline_of(52.0, 36.0, 60.0, "rectangle")),)
    )
    many = [replace(alder, id=f"plain-{i}") for i in range(9)]
    found = named(traced, shop_of(catalog, *many, wider, far, traced, same))
    assert found[0] == ("same", "52-18", "52-18", True)
    assert len(found) == MOST
    assert "far" not in [one[0] for one in named(traced, shop_of(catalog, far, traced, same, wider))]


def test_the_page_says_so_in_words_with_links(tmp_path):
    shop = Path(shutil.copytree(Path(__file__).parents[1] / "shops" / "corner", tmp_path / "shop"))
    path = shop / "frames/bolderwood.yaml"
    text = path.read_text(encoding="utf-8")
    alder, reed = text.split("  - id: reed")
    twin = alder.partition("frames:\n")[2].replace("id: alder", "id: birch").replace("name: Alder", "name: Birch")
    path.write_text(f"{alder}{twin}  - id: reed{reed}", encoding="utf-8")
    assert errors(build(shop, tmp_path / "www", date(2026, 6, 1)).findings) == []
    page = BeautifulSoup((tmp_path / "www/frames/alder/index.html").read_text(encoding="utf-8"), "html.parser")
    section = page.find(id="swaps").find_parent("section")
    assert section.find("a")["href"].endswith("frames/birch/index.html")
    assert "perhaps" in section.get_text()
    assert "only the bench can tell" in section.get_text()
    other = BeautifulSoup((tmp_path / "www/frames/reed/index.html").read_text(encoding="utf-8"), "html.parser")
    assert other.find(id="swaps") is None
