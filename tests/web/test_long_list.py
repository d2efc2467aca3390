"""The fronts of a long list that are files of their own, seen in Chromium: in light and dark as those in the page."""

from datetime import date
from io import BytesIO

import pytest
from PIL import Image

from quoting.findings import errors
from quoting.site.build import build
from quoting.site.material import AT_ONCE, MANY
from tests.bench.build import make_shop
from tests.web.answered import until

# Whether the picture of a card has come
COME = """at => [...document.querySelectorAll(".card img")].slice(at, at + 1)
  .every((one) => one.complete && one.naturalWidth)"""


@pytest.fixture(scope="module")
def long(tmp_path_factory):
    folder = tmp_path_factory.mktemp("long")
    make_shop(folder / "shop", MANY + 5)
    assert errors(build(folder / "shop", folder / "site", date(2026, 2, 1)).findings) == []
    return (folder / "site/frames/index.html").as_uri()


def colors(shown):
    """The colors of a picture, the most frequent first."""
    seen = Image.open(BytesIO(shown.screenshot())).convert("RGB").getcolors(1 << 20)
    return [color for _, color in sorted(seen, reverse=True)[:3]]


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_a_picture_comes_when_it_is_near_and_has_the_colors_of_those_in_the_page(opened, long, scheme):
    page = opened(long, scheme=scheme)
    assert page.locator(".card svg").count() == AT_ONCE
    pictures = page.locator(".card img")
    assert not page.evaluate(COME, pictures.count() - 1)
    pictures.last.scroll_into_view_if_needed()
    until(page, COME, pictures.count() - 1)
    far = colors(pictures.last)
    page.locator(".card svg").first.scroll_into_view_if_needed()
    assert set(far) == set(colors(page.locator(".card svg").first))
    assert opened.wrong == []
