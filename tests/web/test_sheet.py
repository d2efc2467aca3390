"""The sheet of a quote goes on one page, on either paper, and its code reads off the paper."""

import io

import pypdfium2
import pytest
import zxingcpp

from quoting.quoted.armor import address
from quoting.quoted.sealing import sealed
from quoting.show.seen import seen
from quoting.site.sheet_page import sheet_page
from tests.quoted.quotes import KEY, largest, offers, ordinary, plain
from tests.web.test_access import found_on, free  # noqa: F401

pytestmark = pytest.mark.browser


@pytest.mark.parametrize("paper", ["Letter", "A4"])
@pytest.mark.parametrize("quote", [plain, ordinary, largest])
def test_it_is_one_page(opened, tmp_path, quote, paper):
    link = address("https://ottersea.example.org", sealed(quote(), KEY.id, KEY.sign))
    file = tmp_path / "sheet.html"
    file.write_text(sheet_page(seen(quote(), offers().catalog.shop), "Ms. Marrable", link), encoding="utf-8")
    page = opened(file.as_uri())
    printed = pypdfium2.PdfDocument(io.BytesIO(page.pdf(format=paper, prefer_css_page_size=False)))
    assert len(printed) == 1
    picture = printed[0].render(scale=4).to_pil()
    assert [found.text for found in zxingcpp.read_barcodes(picture)] == [link]


@pytest.mark.parametrize("width", [1280, 320])
@pytest.mark.parametrize("quote", [plain, ordinary, largest])
def test_on_a_screen_it_is_for_everybody_too(free, tmp_path, quote, width):  # noqa: F811
    link = address("https://ottersea.example.org", sealed(quote(), KEY.id, KEY.sign))
    file = tmp_path / "sheet.html"
    file.write_text(sheet_page(seen(quote(), offers().catalog.shop), "Ms. Marrable", link), encoding="utf-8")
    page = free(width).new_page()
    page.goto(file.as_uri())
    assert found_on(page) == []
    assert page.evaluate("document.documentElement.scrollWidth") == width
