"""Pages that moved lead on, to a page that stands."""

import pytest
from bs4 import BeautifulSoup

from quoting.findings import errors
from tests.site.conftest import CORNER


@pytest.fixture
def moved(corner):
    """Write `redirects` into the copy's shop.yaml."""

    def write(**leads):
        path = corner / "shop.yaml"
        lines = "".join(f"  {old}: {new}\n" for old, new in leads.items())
        path.write_text((CORNER / "shop.yaml").read_text(encoding="utf-8") + f"redirects:\n{lines}", encoding="utf-8")

    return write


def test_a_page_that_moved_leads_on_in_every_way_a_browser_knows(moved, built):
    moved(**{"frames/osier": "frames/alder", "old.html": "frames/osier"})
    result, pages = built()
    assert errors(result.findings) == []
    for place, link in (("frames/osier/index.html", "../alder/index.html"), ("old.html", "frames/alder/index.html")):
        page = pages[place]
        assert page.find("meta", attrs={"http-equiv": "refresh"})["content"] == f"0; url={link}"
        assert page.find("link", rel="canonical")["href"].endswith("alder/index.html")
        assert page.find("a")["href"] == link
        assert "gone" in page.p.text
        assert page.find("meta", attrs={"name": "robots"})["content"] == "noindex"


def test_prose_may_link_to_a_page_that_moved(moved, built, article):
    moved(**{"frames/osier": "frames/alder"})
    article("guides/one.md", body="[Osier](../../frames/osier/index.html)")
    assert errors(built()[0].findings) == []


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ("frames/alder", "frames", "redirect-from-page"),
        ("frames/alder/index.html/more", "frames", "redirect-from-page"),
        ("frames/osier", "frames/aldre", "redirect-nowhere"),
    ],
)
def test_what_cannot_lead_on_is_told_at_its_line(moved, built, old, new, code):
    moved(**{old: new})
    result, pages = built()
    (found,) = errors(result.findings)
    assert found.code == code
    assert found.mark.text.strip() == f"{old}: {new}"
    assert pages == {}


def test_words_of_the_shop_are_written_as_text(corner, built, rewrite):
    rewrite("shop.yaml", "Corner Opticians", "Corner & <Sons>")
    with (corner / "shop.yaml").open("a", encoding="utf-8") as file:
        file.write("redirects: {x: frames}\n")
    assert errors(built()[0].findings) == []
    text = (corner.parent / "site/x/index.html").read_text(encoding="utf-8")
    assert "<Sons>" not in text
    assert BeautifulSoup(text, "html.parser").title.text == "Gone: Corner & <Sons>"
