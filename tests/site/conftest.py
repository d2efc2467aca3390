"""The demo site, built once; and shops to spoil."""

import shutil
from datetime import date
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from quoting.findings import errors
from quoting.places import shared
from quoting.site.build import build

DAY = date(2026, 11, 25)
CORNER = Path(__file__).parents[1] / "shops" / "corner"


def read_pages(folder):
    """Path within the site -> parsed page."""
    return {
        path.relative_to(folder).as_posix(): BeautifulSoup(path.read_text(encoding="utf-8"), "html.parser")
        for path in sorted(folder.rglob("*.html"))
    }


@pytest.fixture(scope="session")
def demo(tmp_path_factory):
    output = tmp_path_factory.mktemp("demo") / "site"
    result = build(shared("demo_catalog"), output, DAY)
    assert errors(result.findings) == []
    assert result.pages == len(list(output.rglob("*.html")))
    return output


@pytest.fixture(scope="session")
def pages(demo):
    return read_pages(demo)


@pytest.fixture
def corner(tmp_path):
    """A copy of the small shop."""
    return Path(shutil.copytree(CORNER, tmp_path / "corner"))


@pytest.fixture
def rewrite(corner):
    """Change the text of a file of the copy."""

    def change(name, old, new):
        path = corner / name
        text = path.read_text(encoding="utf-8")
        assert old in text
        path.write_text(text.replace(old, new), encoding="utf-8")

    return change


@pytest.fixture
def article(corner):
    """Write a file of prose into the copy: metadata, then a body."""

    def write(name, body="Words.", **metadata):
        path = corner / "content" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        words = {"Title": "A title", "Date": "2026-01-05", "Summary": "A summary"} | metadata
        head = "".join(f"{key}: {value}\n" for key, value in words.items() if value)
        path.write_text(f"{head}\n{body}\n", encoding="utf-8")
        return path

    return write


COMBINATION = {
    "Frame": "alder",
    "Size": "52-18",
    "Colorway": "slate",
    "Package": "thin-160",
    "Rx": "OD -2.00 DS / OS -2.25 DS / PD 63",
}


@pytest.fixture
def built(corner, tmp_path):
    """Build the copy: the result and its pages."""

    def make(**words):
        result = build(corner, tmp_path / "site", DAY, **words)
        return result, read_pages(tmp_path / "site")

    return make
