"""The site in a browser: from disk and from a subfolder, narrow and wide, light and dark, by keyboard and on paper."""

import shutil
import threading
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import expect

from quoting.site.serve import serve
from tests.web.answered import within
from tests.web.conftest import PAGES

pytestmark = pytest.mark.browser


every_page = pytest.mark.parametrize("page_name", PAGES)

# WCAG 2.2, success criterion 1.4.3: text against its background, 4.5 : 1 (large text 3 : 1)
CONTRAST = """() => {
  const rgb = text => { const c = document.createElement("canvas").getContext("2d", {willReadFrequently: true});
    c.fillStyle = text; c.fillRect(0, 0, 1, 1); return [...c.getImageData(0, 0, 1, 1).data]; };
  const part = v => (v /= 255) <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
  const light = c => 0.2126 * part(c[0]) + 0.7152 * part(c[1]) + 0.0722 * part(c[2]);
  const behind = node => { for (let n = node; n; n = n.parentElement) {
    const c = rgb(getComputedStyle(n).backgroundColor); if (c[3] > 250) return c; } return rgb("white"); };
  const low = [], seen = new Set();
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let t; (t = walker.nextNode());) {
    const node = t.parentElement, style = getComputedStyle(node);
    if (!t.data.trim() || !node.checkVisibility() || node.closest(".sr")) continue;
    const color = node.closest("svg") ? style.fill : style.color;
    const a = rgb(color), b = behind(node);
    const ratio = (Math.max(light(a), light(b)) + 0.05) / (Math.min(light(a), light(b)) + 0.05);
    const size = parseFloat(style.fontSize), bold = parseInt(style.fontWeight) >= 700;
    const least = size >= 24 || (bold && size >= 18.66) ? 3 : 4.5;
    const key = `${node.tagName}.${node.className.baseVal ?? node.className} ${color}`;
    if (ratio < least && !seen.has(key)) { seen.add(key); low.push(`${key}: ${ratio.toFixed(2)} ${t.data.trim()}`); }
  }
  return low;
}"""


@every_page
def test_opens_from_disk_without_a_word_of_complaint(opened, site, page_name):
    page = opened((site / page_name).as_uri())
    assert page.locator("h1").is_visible()
    assert page.evaluate("getComputedStyle(document.body).maxWidth") == "1280px"
    page.wait_for_load_state("networkidle")
    assert opened.wrong == []


@every_page
def test_opens_in_a_subfolder_and_asks_nobody_else(opened, address, page_name):
    page = opened(f"{address}/{page_name}")
    page.wait_for_load_state("networkidle")
    assert opened.wrong == []
    assert len(opened.asked) > 5
    assert {urlsplit(url).netloc for url in opened.asked} == {urlsplit(address).netloc}
    assert page.context.cookies() == []


@every_page
def test_no_page_is_wider_than_the_window(opened, site, page_name):
    page = opened((site / page_name).as_uri())
    for width in (320, 360, 768, 1280):
        page.set_viewport_size({"width": width, "height": 800})
        assert page.evaluate("document.documentElement.scrollWidth") <= width


@every_page
def test_text_stands_out_from_its_ground_in_light_and_dark(opened, site, page_name):
    page = opened((site / page_name).as_uri())
    for scheme in ("light", "dark"):
        page.emulate_media(color_scheme=scheme)
        assert page.evaluate(CONTRAST) == [], scheme


def test_light_and_dark_differ(opened, site):
    grounds = set()
    for scheme in ("light", "dark"):
        page = opened((site / "index.html").as_uri(), scheme=scheme)
        grounds.add(page.evaluate("getComputedStyle(document.body).backgroundColor"))
    assert len(grounds) == 2


def test_the_skip_link_shows_itself_and_leads_to_the_content(opened, site):
    page = opened((site / "frames/cottering/index.html").as_uri())
    skip = page.locator(".skip")
    assert skip.bounding_box()["x"] < 0
    page.keyboard.press("Tab")
    expect(skip).to_be_focused()
    within(lambda: skip.bounding_box()["x"] >= 0)
    page.keyboard.press("Enter")
    expect(page.locator("#main")).to_be_focused()


def test_the_keyboard_reaches_the_board_and_moves_it(opened, site):
    page = opened((site / "frames/cottering/index.html").as_uri(), 360)
    for _ in range(60):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.matches('.size-board .scroll')"):
            break
    else:
        pytest.fail("the board was never reached")
    outline = page.evaluate("getComputedStyle(document.activeElement).outlineStyle")
    assert outline != "none"
    page.keyboard.press("ArrowRight")
    within(lambda: page.evaluate("document.activeElement.scrollLeft") > 0)


def test_on_a_phone_the_name_of_the_lens_stays_while_the_board_moves(opened, site):
    page = opened((site / "frames/cottering/index.html").as_uri(), 360)
    region = page.locator(".size-board .scroll").first
    name = region.locator("tbody th.first").first
    before = name.bounding_box()["x"]
    region.evaluate("region => { region.scrollLeft = 300 }")
    within(lambda: region.evaluate("region => region.scrollLeft") > 200)
    assert name.bounding_box()["x"] == pytest.approx(before, abs=1)
    assert name.bounding_box()["width"] < 180
    cell = region.locator("tbody td").nth(4).bounding_box()
    assert cell["x"] < 360


ROWS = ["52-18-plain-150-hard", "52-18-flat-160-ar", "52-18-top28-150-hard", "54-18-path14-150-ar"]
HEADS = """region => [...region.querySelectorAll("thead th:not(.first)")].map(head => {
  const box = head.getBoundingClientRect(); return [box.left, box.right]; })"""


@pytest.mark.parametrize("width", [320, 360, 414, 600, 800])
@pytest.mark.parametrize("left", [0, 57, 250, 9999])
def test_on_a_narrow_screen_no_column_stops_half_hidden_behind_the_names(opened, site, width, left):
    page = opened((site / "frames/eskerby/index.html").as_uri(), width)
    region = page.locator(".size-board .scroll").first
    region.evaluate("(region, left) => { region.scrollLeft = left }", left)
    names = region.locator("thead .first").bounding_box()
    edge = names["x"] + names["width"]

    def aligned():
        return any(head == pytest.approx(edge, abs=1.5) for head, _ in region.evaluate(HEADS))

    within(aligned)
    end = region.bounding_box()["x"] + region.bounding_box()["width"]
    whole = [head for head, right in region.evaluate(HEADS) if head > edge - 1.5 and right < end + 1.5]
    assert len(whole) >= (1 if width < 360 else 2)


@pytest.mark.parametrize("width", [320, 360, 600, 800, 1280])
@pytest.mark.parametrize(
    "row", ["52-18-plain-150-hard", "52-18-flat-160-ar", "52-18-top28-150-hard", "54-18-path18-150-ar"]
)
def test_a_link_to_a_row_lands_with_the_row_and_its_powers_in_sight(opened, site, width, row):
    page = opened(f"{(site / 'frames/cottering/index.html').as_uri()}#{row}", width)
    target = page.locator("tr:target")
    head = page.locator("table.board:has(tr:target) thead th").nth(1)

    def in_sight():
        line, powers = target.bounding_box(), head.bounding_box()
        return powers["y"] >= 0 and powers["y"] + powers["height"] <= line["y"] + 1 and line["y"] + 60 <= 800

    within(in_sight)


def test_on_a_phone_the_powers_stay_while_the_board_moves_down(opened, site):
    page = opened((site / "frames/cottering/index.html").as_uri(), 360)
    region = page.locator(".size-board .scroll").first
    region.evaluate("region => { region.scrollTop = 900 }")
    head = region.locator("thead th").nth(1)
    within(lambda: head.bounding_box()["y"] == pytest.approx(region.bounding_box()["y"], abs=1))


def test_a_board_is_passed_by_keyboard(opened, site):
    page = opened((site / "frames/cottering/index.html").as_uri())
    past = page.locator(".past").first
    assert past.bounding_box()["x"] < 0
    past.focus()
    within(lambda: past.bounding_box()["x"] >= 0)
    page.keyboard.press("Enter")
    expect(page.locator("#past-52-18")).to_be_focused()
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.matches('summary')")


def test_what_the_short_reasons_mean_opens_by_keyboard_and_is_printed(opened, site):
    page = opened((site / "frames/cottering/index.html").as_uri())
    meaning = page.locator(".meanings dd").first
    assert not meaning.is_visible()
    page.locator(".meanings summary").focus()
    page.keyboard.press("Enter")
    expect(meaning).to_be_visible()
    page.keyboard.press("Enter")
    expect(meaning).to_be_hidden()
    page.emulate_media(media="print")
    assert page.locator(".meanings dl").bounding_box()["height"] > 100


def test_on_paper_the_power_a_column_is_for_is_its_largest(opened, site):
    page = opened((site / "frames/cottering/index.html").as_uri(), 688)
    page.emulate_media(media="print")
    for head in page.locator(".board thead th:not(.first)").all():
        sizes = head.evaluate(
            "head => [head, head.querySelector('b')].map(one => parseFloat(getComputedStyle(one).fontSize))"
        )
        assert sizes[1] > sizes[0]


def test_a_closed_size_opens_by_keyboard_and_by_a_link_to_its_row(opened, site):
    address = (site / "frames/cottering/index.html").as_uri()
    page = opened(address)
    second = page.locator("details.size-board").nth(1)
    assert not second.locator("table").is_visible()
    second.locator("summary").focus()
    page.keyboard.press("Enter")
    expect(second.locator("table")).to_be_visible()
    page = opened(f"{address}#54-18-flat-160-ar")
    within(lambda: page.locator("details.size-board[open]").count() == 2)
    expect(page.locator("tr:target")).to_be_visible()


def test_on_paper_every_size_is_shown_and_nothing_is_cut_off(opened, site):
    page = opened((site / "frames/cottering/index.html").as_uri(), 720)
    page.emulate_media(media="print")
    heights = [box["height"] for box in (one.bounding_box() for one in page.locator("table.board").all())]
    assert min(heights) > 300
    assert not page.locator("nav").is_visible()
    assert page.evaluate("document.documentElement.scrollWidth") <= 720


def test_measured_drawings_print_at_life_size(opened, site):
    """CSS Values and Units 3: a millimeter is 96 / 25.4 px on paper."""
    page = opened((site / "frames/cottering/index.html").as_uri(), 900)
    page.emulate_media(media="print")
    drawing = page.locator("svg.measured").first
    wide_mm = float(drawing.get_attribute("viewBox").split()[2])
    assert drawing.bounding_box()["width"] == pytest.approx(wide_mm * 96 / 25.4, abs=1)


def test_a_page_that_is_served_reloads_after_a_save(opened, site, tmp_path):
    output, shop = tmp_path / "site", tmp_path / "shop"
    shutil.copytree(site, output)
    shop.mkdir()
    said, stop = [], threading.Event()
    thread = threading.Thread(target=serve, args=(lambda: True, [shop], output, 0, said.append, stop))
    thread.start()
    try:
        within(lambda: said)
        page = opened(f"{said[0].split('/  ')[0]}/frames/cottering/index.html")
        with page.expect_response("**/__version"):
            page.evaluate("document.title = 'before'")
        (shop / "shop.yaml").write_text("changed", encoding="utf-8")
        within(lambda: page.title() != "before")
        assert page.locator("h1").inner_text() == "Cottering"
        assert [one for one in opened.wrong if "ERR_ABORTED" not in one] == []  # a reload breaks off what runs
        missing = opened(f"{said[0].split('/  ')[0]}/frames/nobody/")
        assert missing.evaluate("getComputedStyle(document.body).maxWidth") == "1280px"
    finally:
        stop.set()
        thread.join(60)


def test_what_is_for_paper_alone_is_on_no_screen(opened, site):
    page = opened((site / "frames/cottering/index.html").as_uri())
    parts = page.locator(".on-paper")
    assert parts.count() >= 1
    assert [part.is_visible() for part in parts.all()] == [False] * parts.count()
    page.emulate_media(media="print")
    assert [part.is_visible() for part in parts.all()] == [True] * parts.count()
