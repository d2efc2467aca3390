"""A long list of frames comes soon: it holds the fronts of the first frames, and the others are files of their own."""

import gzip
from datetime import date
from xml.etree import ElementTree

import pytest
from bs4 import BeautifulSoup

from quoting.findings import errors
from quoting.site.build import build
from quoting.site.material import AT_ONCE, MANY
from tests.bench.build import make_shop

COUNT = MANY + 10
SVG = "{http://www.w3.org/2000/svg}"


def listed(folder, count):
    """The list of a shop with so many frames."""
    make_shop(folder / "shop", count)
    assert errors(build(folder / "shop", folder / "site", date(2026, 2, 1)).findings) == []
    return BeautifulSoup((folder / "site/frames/index.html").read_text(encoding="utf-8"), "html.parser")


@pytest.fixture(scope="module")
def long(tmp_path_factory):
    folder = tmp_path_factory.mktemp("long")
    return folder / "site", listed(folder, COUNT)


def test_the_first_fronts_are_in_the_list_and_the_others_come_when_they_are_near(long):
    site, soup = long
    cards = soup.select(".card[data-frame]")
    assert len(cards) == COUNT
    assert all(card.svg and not card.img for card in cards[:AT_ONCE])
    for card in cards[AT_ONCE:]:
        assert card.svg is None
        assert card.img["loading"] == "lazy"
        assert card.img["alt"].startswith("Front of Frame ")
        assert (site / "frames" / card.img["src"]).is_file()
    assert len(list(site.glob("frames/*/card.svg"))) == COUNT - AT_ONCE


def test_a_front_that_is_a_file_is_the_drawing_of_its_page_with_the_style_of_the_site(long):
    site, soup = long
    first = soup.select_one(".card svg")
    card = soup.select(".card[data-frame]")[AT_ONCE]
    drawn = ElementTree.parse(site / "frames" / card.img["src"]).getroot()
    assert drawn.get("viewBox") == first["viewbox"]  # one scale for all
    wide, high = (float(value) for value in drawn.get("viewBox").split()[2:])
    assert int(card.img["width"]) / int(card.img["height"]) == pytest.approx(wide / high, rel=0.01)
    style = drawn.find(f"{SVG}style").text
    for rule in (".front-piece{", ".glass{", "prefers-color-scheme:dark", "--board:"):
        assert rule in style
    page = (site / "frames" / card["data-frame"] / "index.html").read_text(encoding="utf-8")
    shapes = [one.get("d") for one in drawn.iter(f"{SVG}path")]
    assert len(shapes) > 3
    assert all(shape in page for shape in shapes)


def test_a_frame_more_is_a_few_hundred_bytes_more(long):
    site, soup = long
    path = site / "frames/index.html"
    far = soup.select(".card[data-frame]")[AT_ONCE:]
    assert max(len(str(card)) for card in far) < 1000
    assert len(gzip.compress(path.read_bytes(), 9)) < 60_000


def test_a_short_list_is_one_file(tmp_path):
    soup = listed(tmp_path, 3)
    assert len(soup.select(".card svg")) == 3
    assert not list(tmp_path.glob("site/frames/*/card.svg"))
