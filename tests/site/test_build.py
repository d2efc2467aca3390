"""The built demo site: every link and anchor leads somewhere inside it, twice the same, and never half replaced."""

from datetime import date
from pathlib import Path
from urllib.parse import unquote, urlsplit

import pytest
from bs4 import BeautifulSoup

from quoting.catalog.load import load
from quoting.findings import errors
from quoting.offers import Choice, Offers
from quoting.places import shared
from quoting.site.build import build
from quoting.site.place import MARKER

DAY = date(2026, 11, 25)
CORNER = Path(__file__).parents[1] / "shops" / "corner"


def contents(folder):
    return {path.relative_to(folder): path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()}


@pytest.fixture(scope="module")
def demo(tmp_path_factory):
    output = tmp_path_factory.mktemp("demo") / "site"
    result = build(shared("demo_catalog"), output, DAY)
    assert errors(result.findings) == []
    return output


@pytest.fixture(scope="module")
def soups(demo):
    pages = sorted(demo.rglob("*.html"))
    return {page: BeautifulSoup(page.read_text(encoding="utf-8"), "html.parser") for page in pages}


def test_every_link_and_anchor_leads_somewhere_inside_the_site(demo, soups):
    ids = {page: {tag["id"] for tag in soup.find_all(id=True)} for page, soup in soups.items()}
    broken = []
    for page, soup in soups.items():
        for tag in soup.find_all(["a", "link", "img", "script"]):
            target = tag.get("href") or tag.get("src") or ""
            parts = urlsplit(target)
            if parts.scheme == "mailto":
                continue
            found = (page.parent / unquote(parts.path)).resolve() if parts.path else page
            inside = demo.resolve() in found.parents and found.is_file()
            anchored = not parts.fragment or parts.fragment in ids.get(found, ids.get(page, set()))
            if parts.scheme or parts.netloc or not inside or not anchored:
                broken.append((page.relative_to(demo).as_posix(), target))
    assert broken == []


def test_no_page_carries_inline_style_or_script(soups):
    for page, soup in soups.items():
        assert soup.find_all(style=True) == [], page
        assert soup.find_all(["style", "script"]) == [], page


def test_each_page_has_one_h1_and_its_ids_once(soups):
    for page, soup in soups.items():
        assert len(soup.find_all("h1")) == 1, page
        ids = [tag["id"] for tag in soup.find_all(id=True)]
        assert len(ids) == len(set(ids)), page


def test_same_input_same_bytes(tmp_path):
    build(CORNER, tmp_path / "one", DAY)
    build(CORNER, tmp_path / "two", DAY)
    assert contents(tmp_path / "one") == contents(tmp_path / "two")


def test_a_failed_build_leaves_the_old_site_whole(tmp_path):
    assert errors(build(CORNER, tmp_path / "site", DAY).findings) == []
    before = contents(tmp_path / "site")
    assert errors(build(tmp_path / "no-shop", tmp_path / "site", DAY).findings)
    assert contents(tmp_path / "site") == before
    assert [path.name for path in tmp_path.iterdir()] == ["site"]


def test_a_folder_that_is_not_ours_is_not_replaced(tmp_path):
    (tmp_path / "letter.txt").write_text("dear", encoding="utf-8")
    result = build(CORNER, tmp_path, DAY)
    assert [finding.code for finding in errors(result.findings)] == ["not-a-site"]
    assert contents(tmp_path) == {Path("letter.txt"): b"dear"}
    assert not (tmp_path / MARKER).exists()


def test_the_board_says_what_the_engine_says(tmp_path):
    build(CORNER, tmp_path / "site", DAY)
    catalog, _ = load(CORNER)
    frame, package = catalog.frames["alder"], catalog.packages["thin-160"]
    soup = BeautifulSoup((tmp_path / "site/frames/alder/index.html").read_text(encoding="utf-8"), "html.parser")
    cells = soup.find(id="52-18-thin-160").find_all("td")
    offers = Offers(catalog, DAY)
    choice = Choice(frame, frame.sizes[0], frame.colorways[0], package)
    for cell, band in zip(cells, catalog.shop.bands, strict=True):
        offer = offers.cell(choice, band)
        assert cell["class"] == [offer.fit["verdict"]]
        assert cell.find("b").text == f"${offer.lenses_cents / 100:,.2f}"
        assert cell.find(class_="edge").text.startswith(f"{offer.thickest:.1f}")
