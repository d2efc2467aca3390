"""The picture that goes with a link: every page names one that is there, painted once and kept."""

import io

import feedparser
import pytest
from PIL import Image

from quoting.site import cards
from tests.site.conftest import COMBINATION

URL = "https://www.example.org/shop"


@pytest.fixture
def addressed(rewrite):
    rewrite("shop.yaml", "  locale: en_US", f"  locale: en_US\n  url: {URL}")


def named(soup, name):
    return [tag["content"] for tag in soup.find_all("meta", property=name)]


def test_every_page_names_a_picture_that_is_there_with_its_size_and_words(built, addressed, article):
    article("combinations/one.md", **COMBINATION)
    article("guides/one.md", Title="On bevels")
    result, pages = built()
    for page, soup in pages.items():
        (address,) = named(soup, "og:image")
        content = (result.output / address.removeprefix(f"{URL}/")).read_bytes()
        image = Image.open(io.BytesIO(content))
        assert (image.format, [str(side) for side in image.size]) == (
            "PNG", named(soup, "og:image:width") + named(soup, "og:image:height"),
        ), page  # fmt: skip
        assert named(soup, "og:image:alt")[0].startswith("Front of ")
        for name in ("og:title", "og:description", "og:type"):
            assert len(named(soup, name)) == 1
            assert named(soup, name)[0].strip()
        assert page == "404.html" or named(soup, "og:url") == [f"{URL}/{page}"]
        assert soup.find("meta", attrs={"name": "twitter:card"})["content"] == "summary_large_image"
    colors = {named(pages[page], "og:image")[0] for page in pages if page.startswith("frames/")}
    assert len(colors) > 1


def test_a_combination_shows_its_own_colorway_and_so_does_its_entry_in_the_feed(built, addressed, article):
    article("combinations/one.md", **COMBINATION)
    result, pages = built()
    page = pages["combinations/a-title/index.html"]
    (address,), (words,) = named(page, "og:image"), named(page, "og:image:alt")
    assert f"in {COMBINATION['Colorway'].capitalize()}" in words
    (entry,) = feedparser.parse((result.output / "combinations/feed.atom.xml").read_bytes()).entries
    assert f'src="{address}"' in entry.content[0].value


def test_without_an_address_nothing_is_painted_and_nothing_named(built):
    result, pages = built()
    assert not (result.output / "cards").exists()
    assert all(named(soup, "og:image") == [] for soup in pages.values())


def test_the_next_build_paints_nothing_and_writes_the_same(built, addressed, monkeypatch):
    result, _ = built()
    first = {path.name: path.read_bytes() for path in (result.output / "cards").iterdir()}
    assert first
    monkeypatch.setattr(cards, "card", lambda _: pytest.fail("painted again"))
    result, _ = built()
    assert {path.name: path.read_bytes() for path in (result.output / "cards").iterdir()} == first


def test_a_damaged_picture_that_was_kept_is_painted_again(built, addressed):
    result, _ = built()
    first = {path.name: path.read_bytes() for path in (result.output / "cards").iterdir()}
    for path in (cards.Shelf(cards.FOLDER)._folder).iterdir():
        path.write_bytes(path.read_bytes()[:-9])
    result, _ = built()
    assert {path.name: path.read_bytes() for path in (result.output / "cards").iterdir()} == first
