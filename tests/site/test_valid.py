"""Every page is valid HTML, whatever a shop calls its things, and what it calls them stays text."""

import shutil

import pytest

from quoting.findings import errors
from quoting.site.build import build
from quoting.site.changes_page import changes_page
from tests.site.conftest import DAY, read_pages
from tests.site.hostile import HOSTILE, hostile_shop
from tests.site.test_changes import after, before, told  # noqa: F401
from tests.site.valid import faults


@pytest.fixture(scope="module")
def hostile(tmp_path_factory):
    folder = tmp_path_factory.mktemp("hostile")
    result = build(hostile_shop(folder / "shop"), folder / "site", DAY)
    assert errors(result.findings) == []
    return folder / "site"


def test_every_page_is_valid(demo):
    assert faults(demo) == []


def test_every_page_is_valid_where_texts_look_like_markup(hostile):
    assert faults(hostile) == []


def test_what_looks_like_markup_stays_text(hostile):
    pages = read_pages(hostile)
    for page, soup in pages.items():
        assert soup.find_all("b", id="x") == [], page
        assert [one for one in soup.find_all("script") if one.get_text() == "a()"] == [], page
        assert HOSTILE in soup.title.get_text(), page
    named = [page for page, soup in pages.items() if f"{HOSTILE}Alder" in soup.get_text()]
    assert {"index.html", "frames/index.html", "frames/alder/index.html", "combinations/one/index.html"} <= {*named}


def test_the_page_of_changes_is_valid(before, after, tmp_path):  # noqa: F811
    (tmp_path / "changes.html").write_text(changes_page(told(before, after)), encoding="utf-8")
    assert faults(tmp_path) == []


def test_the_checker_is_awake(demo, tmp_path):
    page = (demo / "404.html").read_text(encoding="utf-8")
    assert page.count("<h1>") == 1
    shutil.copy(demo / "404.html", tmp_path / "sound.html")
    (tmp_path / "spoiled.html").write_text(page.replace("<h1>", '<h1 id="main" align="left">'), encoding="utf-8")
    found = "\n".join(faults(tmp_path))
    assert "Duplicate ID “main”" in found
    assert "“align”" in found
    assert "sound.html" not in found
