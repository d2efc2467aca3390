"""A frame in true size: the screen is measured with a bank card, by keyboard too, and kept only if that is asked for.

The card: ISO/IEC 7810, format ID-1, 85.60 mm by 53.98 mm (from memory).
"""

import pytest
from playwright.sync_api import expect

from quoting.catalog.load import load
from quoting.places import shared
from tests.web.answered import becomes, quoted, within

pytestmark = pytest.mark.browser

FRAME = "frames/cottering/index.html"
CARD_LONG, CARD_SHORT = 85.60, 53.98
KEPT = "bevelbook.screen"
USUAL = 96 / 25.4


@pytest.fixture(scope="module")
def sizes():
    catalog, _ = load(shared("demo_catalog"))
    return catalog.frames["cottering"].sizes


@pytest.fixture
def visit(browser, site):
    """The page of a frame in a window of its own; a window that is given again keeps what it kept."""
    contexts = []

    def opened(width=1280, fragment="", context=None, **settings):
        context = context or browser.new_context(viewport={"width": width, "height": 900}, **settings)
        contexts.append(context)
        page = context.new_page()
        page.wrong = []
        page.on("pageerror", lambda error: page.wrong.append(str(error)))
        page.on("console", lambda said: said.type in ("error", "warning") and page.wrong.append(said.text))
        page.goto((site / FRAME).as_uri() + fragment)
        return page

    yield opened
    for context in contexts:
        assert [error for page in context.pages for error in getattr(page, "wrong", [])] == []
        context.close()


def open_it(page):
    page.locator(".life > summary").focus()
    page.keyboard.press("Enter")
    page.locator(".life-front").wait_for()
    return page


def wide(page, selector):
    return page.locator(selector).evaluate("one => one.getBoundingClientRect().width")


def span(page, selector):
    """From the left edge of the first to the right edge of the last, in dots of the page."""
    return page.evaluate(
        """selector => { const all = [...document.querySelectorAll(selector)].map(one => one.getBoundingClientRect());
        return Math.max(...all.map(one => one.right)) - Math.min(...all.map(one => one.left)); }""",
        selector,
    )


def dots(page):
    """Dots to a millimeter, as the slider has them."""
    return float(page.locator("#life-slider").input_value())


def test_its_script_comes_when_it_is_opened(browser, site):
    context = browser.new_context()
    page = context.new_page()
    asked = []
    page.on("request", lambda request: asked.append(request.url.rsplit("/", 1)[1]))
    page.goto((site / FRAME).as_uri())
    page.wait_for_load_state("networkidle")
    assert not {"life.js", "fronts.js", "views.js", "views.css"} & set(asked)
    open_it(page)
    within(lambda: {"life.js", "fronts.js", "views.js", "views.css"} <= set(asked), page)
    context.close()


def test_card_and_frame_grow_together_by_keyboard_alone(visit, sizes):
    page = open_it(visit())
    assert dots(page) == pytest.approx(USUAL, abs=0.006)
    page.keyboard.press("Tab")
    while page.evaluate("document.activeElement.id") != "life-slider":
        page.keyboard.press("Tab")
    for _ in range(40):
        page.keyboard.press("ArrowRight")
    assert dots(page) == pytest.approx(USUAL + 0.40, abs=0.011)
    page.keyboard.press("ArrowLeft")
    now = dots(page)
    assert now == pytest.approx(USUAL + 0.39, abs=0.011)
    assert wide(page, ".life-card") == pytest.approx(CARD_LONG * now, abs=0.5)
    size = sizes[0]
    assert span(page, ".life-front .glass") == pytest.approx((2 * size.a + size.dbl) * now, rel=0.005)
    page.keyboard.press("End")
    assert dots(page) == 9
    page.keyboard.press("Home")
    assert dots(page) == 2
    assert wide(page, ".life-card") == pytest.approx(CARD_LONG * 2, abs=0.5)


def test_one_step_of_the_keys_is_less_than_a_millimeter_of_the_card_and_of_the_frame(visit):
    page = open_it(visit())
    before = dots(page)
    page.locator("#life-slider").press("ArrowRight")
    assert dots(page) - before == pytest.approx(0.01, abs=0.0051)
    assert 145 * 0.01 / before < 0.5


def test_the_wheel_scrolls_the_page_and_leaves_the_slider(visit):
    page = open_it(visit())
    slider = page.locator("#life-slider")
    slider.scroll_into_view_if_needed()
    slider.focus()
    box = slider.bounding_box()
    before, top = dots(page), page.evaluate("scrollY")
    page.mouse.move(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    page.mouse.wheel(0, 300)
    within(lambda: page.evaluate("scrollY") > top + 50)
    assert dots(page) == before


def test_buttons_step_as_the_keys_do(visit):
    page = open_it(visit())
    before = dots(page)
    page.get_by_role("button", name="Wider").click()
    page.get_by_role("button", name="Wider").click()
    page.get_by_role("button", name="Narrower").click()
    assert dots(page) == pytest.approx(before + 0.01, abs=0.0051)


def test_on_a_phone_the_card_stands_upright_and_the_frame_scrolls_in_its_own_region(visit):
    page = open_it(visit(360))
    assert page.locator("#life-upright").is_checked()
    page.locator("#life-slider").evaluate("one => { one.value = 6; one.dispatchEvent(new Event('input')); }")
    assert wide(page, ".life-card") == pytest.approx(CARD_SHORT * 6, abs=0.5)
    card = page.locator(".life-card").bounding_box()
    assert card["x"] >= 0
    assert card["x"] + card["width"] <= 360
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    region = page.locator(".life-scroll")
    assert region.evaluate("one => one.scrollWidth > one.clientWidth")
    expect(page.locator(".life-note")).to_contain_text("move it sideways")
    region.focus()
    page.keyboard.press("ArrowRight")
    within(lambda: region.evaluate("one => one.scrollLeft") > 0)


def test_nothing_is_kept_unless_it_is_asked_for_and_one_click_erases_it(visit):
    page = open_it(visit())
    page.locator("#life-slider").press("End")
    assert page.evaluate("localStorage.length") == 0
    page.locator("#life-keep").check()
    becomes(lambda: float(page.evaluate(f"localStorage.getItem('{KEPT}')")), 9)
    page.locator("#life-slider").press("Home")
    becomes(lambda: float(page.evaluate(f"localStorage.getItem('{KEPT}')")), 2)
    again = open_it(visit(context=page.context))
    assert again.locator("#life-keep").is_checked()
    assert dots(again) == 2
    expect(again.locator(".life-note")).to_contain_text("In true size on this screen")
    again.locator("#life-keep").uncheck()
    becomes(lambda: again.evaluate("localStorage.length"), 0)
    third = open_it(visit(context=page.context))
    assert dots(third) == pytest.approx(USUAL, abs=0.006)
    expect(third.locator(".life-note")).to_contain_text("not measured yet")


@pytest.mark.parametrize("there", ["NaN", "-4", "0", "1e9", "<script>", ""])
def test_what_cannot_be_a_screen_is_not_taken_for_one(visit, there):
    page = visit()
    page.evaluate("([key, text]) => localStorage.setItem(key, text)", [KEPT, there])
    again = open_it(visit(context=page.context))
    assert dots(again) == pytest.approx(USUAL, abs=0.006)


def test_a_zoomed_page_shows_the_same_size(visit):
    """Zoom makes each dot of the page larger; what is kept are dots of the screen."""
    page = open_it(visit())
    page.locator("#life-slider").evaluate("one => { one.value = 4.5; one.dispatchEvent(new Event('input')); }")
    page.locator("#life-keep").check()
    session = page.context.new_cdp_session(page)
    session.send(
        "Emulation.setDeviceMetricsOverride",
        {"width": 853, "height": 600, "deviceScaleFactor": 1.5, "mobile": False},
    )
    within(lambda: dots(page) == 3)
    assert wide(page, ".life-card") == pytest.approx(CARD_LONG * 3, abs=0.5)


def test_the_size_and_color_of_the_address_are_shown_first_and_others_on_choice(visit, sizes):
    page = open_it(visit(fragment="#od=-1&os=-1&size=54-18&color=dark-tortoise"))
    label = page.locator(".life-front")
    expect(label).to_have_attribute("aria-label", "Front of Cottering 54□18 150 in Dark tortoise, in true size")
    second = span(page, ".life-front .glass")
    page.locator("#life-size").select_option("0")
    assert span(page, ".life-front .glass") / second == pytest.approx(
        (2 * sizes[0].a + sizes[0].dbl) / (2 * sizes[1].a + sizes[1].dbl), rel=0.002
    )


PAPER = {"A4": 210 - 28, "Letter": 215.9 - 28}  # mm between the margins of the style for paper


@pytest.mark.parametrize("paper", PAPER)
@pytest.mark.parametrize("frame", ["cottering", "padstrow", "garrowe"])
def test_on_paper_each_line_to_check_by_is_fifty_millimeters(browser, site, paper, frame):
    """Of the plate, of the front in true size, of that with the eyes behind it, whatever the screen was measured to.

    A browser prints a page smaller where anything in it is wider than the paper: so nothing may be.
    """
    wide_mm = PAPER[paper]
    context = browser.new_context(viewport={"width": int(wide_mm / 25.4 * 96), "height": 900})
    page = context.new_page()
    fragment = "#od=2.25,-0.75,100,2&os=3,-0.5,80,2&pd=63&h=19,20&lens=path18-153-ar"
    page.goto((site / f"frames/{frame}/index.html").as_uri() + fragment)
    page.locator(".maps").wait_for()
    quoted(page)
    open_it(page)
    page.locator("#life-slider").press("End")
    page.emulate_media(media="print")
    for drawing in (".plate .front", ".life-front", ".sitting-front"):
        assert wide(page, f"{drawing} .check") / 96 * 25.4 == pytest.approx(50, abs=0.3), drawing
    assert page.evaluate("document.documentElement.scrollWidth") <= wide_mm / 25.4 * 96
    expect(page.get_by_text("Printed at 100 % this drawing is life size")).to_be_visible()
    for screen_only in ("#life-slider", ".life-card", "#life-keep"):
        expect(page.locator(screen_only)).to_be_hidden()
    context.close()


def test_without_script_it_says_so_and_that_paper_works(browser, site):
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto((site / FRAME).as_uri())
    page.locator(".life > summary").click()
    expect(page.get_by_text("print this page at 100 %")).to_be_visible()
    expect(page.get_by_text("On a screen this needs script.")).to_be_visible()
    context.close()


def test_each_size_is_a_file_that_is_life_size_without_script(browser, site):
    """A millimeter is 96/25.4 px, on paper too (CSS Values 4, 6.2)."""
    plain, other = browser.new_context(java_script_enabled=False), browser.new_context()
    page = plain.new_page()
    page.goto((site / FRAME).as_uri())
    page.locator(".life > summary").click()
    links = page.locator(".life a")
    assert links.all_inner_texts() == ["52□18 145", "54□18 150"]
    files = [(site / FRAME).parent / link.get_attribute("href") for link in links.all()]
    across = "one => one.getBBox().width * one.getScreenCTM().a / 96 * 25.4"
    for file, width in zip(files, (52, 54), strict=True):
        drawn = other.new_page()
        drawn.goto(file.as_uri())
        assert drawn.locator(".check").evaluate(across) == pytest.approx(50, abs=0.05)
        assert drawn.locator(".glass").evaluate(across) == pytest.approx(2 * width + 18, abs=0.05)
    plain.close()
    other.close()
