"""Order sheet, tint card and record card: each one page on either paper, valid, for everybody, without a script."""

import io
from dataclasses import replace

import pypdfium2
import pytest

from quoting.catalog.load import load
from quoting.orders.model import Changed, Told
from quoting.orders.readings import readings
from quoting.orders.verifying import Read, verified
from quoting.show.record_card import Measured
from quoting.site.order_pages import card_page, sheet_page_of, tint_page
from tests.orders.shops import book, ordered, quoted, shop_in
from tests.site.valid import faults
from tests.web.test_access import found_on, free  # noqa: F401

pytestmark = pytest.mark.browser
NAMES = ("sheet", "tint", "record")


@pytest.fixture(scope="module")
def files(tmp_path_factory):
    """The three papers of an order that has everything: prism, addition, tint, remarks, an old pair to be remade."""
    folder = tmp_path_factory.mktemp("papers")
    shop = shop_in(folder)
    rx = "OD +1.25 -0.75 x 170 prism 1.5 in 0.5 up add +2.00 / OS +1.50 -1.00 x 5 prism 0.5 down add +2.00 / PD 63"
    name = "Ms. Marrable-Featherstonehaugh of Ottersea"
    number = quoted(shop, "--tint", "30", package="path18-150-ar", rx=rx, customer=name)
    more = ("--tint-recipe", "W 7", "--note", "Please call before you ship.")
    measured = ("--pd", "31/32", "--height", "22/22", "--by", "J. Alder")
    order = book(shop).read(ordered(shop, *more, number=number, measured=measured))
    said = "A sentence as exact as the optician needs it to be, 17 of 18 mm."
    remarks = tuple(Told("height-too-low", "caution", side, said) for side in "RLB")
    frame = replace(order.frame, sun=True, groove=(0.6, 0.4), holes=((22.0, 3.0, 1.4), (-22.5, 4.0, 1.4)))
    order = replace(
        order, frame=frame, reasons=remarks, overruled="the wearer tried it", remake_of="261125-AAAAA-1",
        remake_reason="scratched",
        changes=tuple(Changed(f"thickest edge {side}", "7.6 mm", "8.0 mm") for side in ("R", "L")) * 3,
    )  # fmt: skip
    found = {name: readings("+1.25 -0.75 x 170 add=2 pd=31 height=22 center=2 base=6 in=0 up=0", name) for name in "RL"}
    one = verified(order, Read(found, 70.0, {}), "2026-12-01", "K")
    catalog = load(shop)[0]
    pages = {
        "sheet": sheet_page_of(order, catalog.shop),
        "tint": tint_page(order, catalog.shop),
        "record": card_page(order, Measured(list(one.checks), one.standard, one.day, found), catalog.shop),
    }
    out = folder / "pages"
    out.mkdir()
    for name, text in pages.items():
        (out / f"{name}.html").write_text(text, encoding="utf-8")
    return out


@pytest.mark.parametrize("paper", ["Letter", "A4"])
@pytest.mark.parametrize("name", NAMES)
def test_it_is_one_page(opened, files, name, paper):
    page = opened((files / f"{name}.html").as_uri())
    printed = pypdfium2.PdfDocument(io.BytesIO(page.pdf(format=paper, prefer_css_page_size=False)))
    assert len(printed) == 1
    assert opened.wrong == []


@pytest.mark.parametrize("width", [1280, 360, 320])
@pytest.mark.parametrize("name", NAMES)
def test_axe_finds_nothing_and_nothing_is_cut_off(free, files, name, width):  # noqa: F811
    page = free(width).new_page()
    page.goto((files / f"{name}.html").as_uri())
    for scheme in ("light", "dark"):
        page.emulate_media(color_scheme=scheme)
        assert found_on(page) == []
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")


def test_all_are_valid_html(files):
    assert faults(files) == []


def test_no_script_and_nothing_from_elsewhere(files):
    for name in NAMES:
        text = (files / f"{name}.html").read_text(encoding="utf-8")
        assert "<script" not in text
        assert "default-src 'none'" in text
        assert "http" not in text.replace("http-equiv", "")
