"""A table that goes on beyond the right edge of its region says so there, and no longer once its end is in sight."""

import io

import pytest
from PIL import Image, ImageChops
from playwright.sync_api import expect

from tests.web.answered import answered, becomes

pytestmark = pytest.mark.browser

# Page, and the region of its table; a prescription, so that the board of the page answers
WIDE = [
    ("frames/cottering/index.html", ".size-board .scroll"),
    ("frames/cottering/index.html#od=-6.25,-1.25,10&os=-5.75&pd=31,32", "#live-table .scroll"),
    ("frames/cottering/index.html", ".scroll:has(.figures)"),
    ("lenses/index.html", ".scroll"),
    ("guides/choosing-an-index/index.html", ".prose .scroll"),
]


def picture(page, region):
    """The right edge of the region, a strip of 24 pixels, as far as the window shows it."""
    box = region.bounding_box()
    top, foot = max(box["y"], 0), min(box["y"] + box["height"], 800)
    clip = {"x": box["x"] + box["width"] - 24, "y": top, "width": 24, "height": foot - top}
    return Image.open(io.BytesIO(page.screenshot(clip=clip))).convert("RGB")


def shaded(page, region):
    """How much of the right edge changes once nothing is drawn behind the table's content."""
    with_shade = picture(page, region)
    page.evaluate(
        """() => { const sheet = new CSSStyleSheet(); sheet.replaceSync(".scroll::after { visibility: hidden }");
        document.adoptedStyleSheets = [sheet]; }"""
    )
    without = picture(page, region)
    page.evaluate("document.adoptedStyleSheets = []")
    changed = ImageChops.difference(with_shade, without).convert("L").point(lambda value: 255 if value > 8 else 0)
    return changed.histogram()[255] / (changed.width * changed.height)


def shown(opened, site, address, where, width, **media):
    page = opened(f"{site.as_uri()}/{address}", width=width)
    page.emulate_media(**media)
    if "#" in address:
        answered(page)
    region = page.locator(where).first
    expect(region).to_be_visible()
    region.evaluate("one => one.scrollIntoView()")
    return page, region


@pytest.mark.parametrize("media", [{}, {"color_scheme": "dark"}, {"forced_colors": "active"}], ids=str)
@pytest.mark.parametrize(("address", "where"), WIDE)
def test_it_is_shaded_until_its_end_is_in_sight(opened, site, address, where, media):
    page, region = shown(opened, site, address, where, 360, **media)
    assert region.evaluate("one => one.scrollWidth > one.clientWidth + 20")
    assert shaded(page, region) > 0.05
    region.evaluate("one => { one.scrollLeft = one.scrollWidth }")
    assert shaded(page, region) == 0


@pytest.mark.parametrize(("address", "where"), WIDE)
def test_where_all_of_it_is_in_sight_nothing_is_shaded(opened, site, address, where):
    page, region = shown(opened, site, address, where, 1400)
    assert region.evaluate("one => one.scrollWidth <= one.clientWidth")
    assert shaded(page, region) == 0


@pytest.mark.parametrize(("address", "where"), WIDE)
def test_paper_has_no_shade(opened, site, address, where):
    _, region = shown(opened, site, address, where, 360, media="print")
    assert region.evaluate("one => getComputedStyle(one, '::after').content") == "none"


def test_a_table_of_prose_is_a_region_that_keys_scroll(opened, site):
    page, region = shown(opened, site, *WIDE[-1], 360)
    assert opened.wrong == []
    expect(page.get_by_role("region", name="Table 1: Our materials in figures")).to_have_count(1)
    figures = region.locator("td", has_text="58.6")
    assert figures.evaluate("one => getComputedStyle(one).textAlign") == "right"
    region.focus()
    page.keyboard.press("ArrowRight")
    becomes(lambda: region.evaluate("one => one.scrollLeft > 0"), True)


@pytest.mark.parametrize("width", [360, 768, 1280])
def test_figures_of_a_tint_fit_their_card(opened, site, width):
    page = opened((site / "tints/index.html").as_uri(), width=width)
    regions = page.locator(".card .scroll")
    beyond = regions.evaluate_all("all => all.map(one => one.scrollWidth - one.clientWidth)")
    assert len(beyond) > 5
    assert set(beyond) == {0}
