"""Ways of looking and of pointing: small and large windows, large text, fingers, keys, forced colors, paper.

WCAG 2.2: 1.4.4 (text of 200 %), 1.4.10 (reflow at 320), 1.4.11, 2.4.7, 2.4.11 (focus seen), 2.5.8 (targets of 24 px).
"""

import re
import time

import pytest
from playwright.sync_api import expect

from quoting.places import shared
from quoting.quoted.sealing import unsigned
from tests.quoted.quotes import largest
from tests.web.answered import answered, quoted
from tests.web.conftest import CHROMIUM, PAGES, SWITCHES
from tests.web.patient import launched
from tests.web.test_access import AXE, RX, free  # noqa: F401

FRAME = "frames/cottering/index.html"
# Seconds until a page that scrolls to what has the focus must stand still
STILL = 10.0
TOO_SMALL = """async () => (await axe.run(document, {runOnly: {type: "rule", values: ["target-size"]},
  rules: {"target-size": {enabled: true}}})).violations.flatMap((found) =>
    found.nodes.map((node) => node.html.slice(0, 120)))"""
# Elements that reach out of the window, beside those in a region of their own that can be moved
OUTSIDE = """() => { const wide = document.documentElement.clientWidth;
  return document.documentElement.scrollWidth <= wide ? [] : [...document.querySelectorAll("body *")]
    .filter((one) => one.checkVisibility() && !one.closest(".scroll, .sr, .skip, .past")
      && one.getBoundingClientRect().right > wide + 1).map((one) => one.outerHTML.slice(0, 80)); }"""
# Fields whose value or whose words are cut off
CUT = """() => [...document.querySelectorAll("input[type=text], button, .button, .live-choice span")]
  .filter((one) => one.checkVisibility() && one.scrollWidth > one.clientWidth + 1)
  .map((one) => one.outerHTML.slice(0, 120))"""
# Where the focus is: what it is on, how much of it nothing else covers, and whether it is shown
FOCUS = """() => {
  const one = document.activeElement, box = one.getBoundingClientRect();
  if (one === document.body) return null;
  const points = [[0.5, 0.5], [0.1, 0.2], [0.9, 0.2], [0.1, 0.8], [0.9, 0.8]];
  const free = points.filter(([x, y]) => {
    const top = document.elementFromPoint(box.left + box.width * x, box.top + box.height * y);
    return top && (one.contains(top) || top.closest("label")?.contains(one));
  });
  const shown = [one, one.nextElementSibling].some((node) => node && getComputedStyle(node).outlineStyle !== "none"
    && parseFloat(getComputedStyle(node).outlineWidth) >= 2);
  return [one.outerHTML.slice(0, 80), free.length, shown];
}"""


def ready(page, name, fragment=RX):
    """Everything is answered, a lens is picked and two are compared."""
    if fragment:
        answered(page)
    if fragment and page.locator("#live").count():
        page.locator('#live tr.fits input[type="radio"]').first.check()
        for number in (0, 1):
            page.locator("#live tr.fits .is-compare input").nth(number).check()
        page.locator("#live-compare table").wait_for()
        quoted(page)


@pytest.fixture(scope="module")
def large(browser):
    """A Chromium whose owner wants text twice as large as it usually is."""
    chromium = launched(browser.browser_type, CHROMIUM, [*SWITCHES, "--blink-settings=defaultFontSize=32"])
    yield chromium
    chromium.close()


def fits_a_phone(large, file):
    """A page of a file, with text twice as large, is no wider than a phone."""
    page = large.new_context(viewport={"width": 360, "height": 800}).new_page()
    page.goto(file.as_uri())
    assert page.evaluate("getComputedStyle(document.body).fontSize") == "32px"
    assert page.evaluate("document.documentElement.scrollWidth") == 360
    page.context.close()


@pytest.mark.parametrize("width", [320, 1920])
def test_no_answered_page_is_wider_than_the_window(free, site, width):  # noqa: F811
    context, wrong = free(width), {}
    for name in PAGES:
        page = context.new_page()
        page.goto((site / name).as_uri() + RX)
        ready(page, name)
        if found := page.evaluate(OUTSIDE) + page.evaluate(CUT):
            wrong[name] = found
        page.close()
    assert wrong == {}


@pytest.mark.parametrize("width", [1280, 640, 360])
def test_text_may_be_twice_as_large(large, site, width):
    context, wrong = large.new_context(viewport={"width": width, "height": 900}), {}
    for name in PAGES:
        page = context.new_page()
        page.goto((site / name).as_uri() + RX)
        assert page.evaluate("() => getComputedStyle(document.body).fontSize") == "32px"
        ready(page, name)
        if found := page.evaluate(OUTSIDE) + page.evaluate(CUT):
            wrong[name] = found
        page.close()
    context.close()
    assert wrong == {}


@pytest.mark.parametrize("width", [1280, 360])
def test_what_is_opened_has_room_for_text_twice_as_large(large, site, width):
    """Prism, pasted slip, true size, tint, numbers of the thickness; and the strongest powers in their fields."""
    page = large.new_context(viewport={"width": width, "height": 900}).new_page()
    page.goto((site / FRAME).as_uri() + RX + "&lens=bench-159-ar")
    answered(page)
    quoted(page)
    page.evaluate("document.querySelectorAll('main details').forEach((one) => { one.open = true; })")
    page.locator(".life-front").wait_for()
    page.locator("#tinted .tint").first.wait_for(state="attached")
    page.locator(".map-numbers table").wait_for()
    for name in ("sphere", "cylinder"):
        page.fill(f"#rx-right-{name}", "-12.25")
        page.press(f"#rx-right-{name}", "Tab")
    expect(page.locator("#rx-right-sphere")).to_have_value("−12.25")
    assert page.evaluate(OUTSIDE) + page.evaluate(CUT) == []
    page.context.close()


@pytest.mark.parametrize("width", [1280, 360])
def test_alternatives_of_a_quote_have_room_for_text_twice_as_large(large, site, width):
    page = large.new_context(viewport={"width": width, "height": 900}).new_page()
    page.goto((site / "quote/index.html").as_uri() + f"#{unsigned(largest())}")
    page.evaluate("bevelbook.quoteShown")
    expect(page.locator(".quote-overview table")).to_be_visible()
    assert page.evaluate(OUTSIDE) + page.evaluate(CUT) == []
    page.context.close()


def test_the_strongest_powers_are_not_cut_off_on_a_narrow_screen(free, site):  # noqa: F811
    page = free(320).new_page()
    page.goto((site / FRAME).as_uri() + "#od=-22.25,-12.25,10&os=-24,-10.25,175&pd=31,32")
    answered(page)
    assert page.evaluate(CUT) == []


def test_letters_alone_may_be_twice_as_large(free, site):  # noqa: F811
    """Of some browsers only the text grows: queries about the window are answered as before."""
    page = free(1280).new_page()
    page.goto((site / FRAME).as_uri())
    page.evaluate("document.documentElement.style.fontSize = '200%'")
    assert page.evaluate(OUTSIDE) + page.evaluate(CUT) == []
    assert page.evaluate("document.documentElement.scrollWidth") == 1280


@pytest.mark.parametrize("width", [1280, 360])
def test_what_can_be_pointed_at_is_large_enough_or_stands_apart(free, site, width):  # noqa: F811
    context, wrong = free(width), {}
    for name in PAGES:
        page = context.new_page()
        page.goto((site / name).as_uri() + RX)
        ready(page, name)
        page.evaluate(AXE)
        if found := page.evaluate(TOO_SMALL):
            wrong[name] = found
        page.close()
    assert wrong == {}


def test_what_is_too_small_is_seen(free, site):  # noqa: F811
    page = free().new_page()
    page.goto((site / FRAME).as_uri() + RX)
    ready(page, FRAME)
    page.evaluate(AXE)
    page.evaluate(
        "() => document.querySelectorAll('.pick').forEach((one) => "
        "{ one.style.minHeight = '1px'; one.append(one.cloneNode(true)); })"
    )
    assert page.evaluate(TOO_SMALL) != []


@pytest.mark.parametrize("width", [1280, 360])
@pytest.mark.parametrize("name", [FRAME, "frames/index.html", "lenses/index.html"])
def test_the_focus_is_seen_wherever_it_goes_and_nothing_lies_over_it(free, site, width, name):  # noqa: F811
    page = free(width).new_page()
    page.goto((site / name).as_uri() + RX)
    ready(page, name)
    page.evaluate("() => { document.activeElement.blur(); scrollTo(0, 0); }")
    seen, wrong = set(), []
    for _ in range(200):
        page.keyboard.press("Tab")
        found = page.evaluate(FOCUS)
        end = time.monotonic() + STILL
        while found and not all(found[1:]) and time.monotonic() < end:  # cards take their height as they come in sight
            found = page.evaluate(FOCUS)
        if found is None:
            break
        seen.add(found[0])
        if not all(found[1:]):
            wrong.append(found)
    assert len(seen) > 30
    assert wrong == []


# What a line is drawn in against what it is drawn on, in the colors that somebody chose for all pages
LINES = """() => {
  const light = text => { const c = document.createElement("canvas").getContext("2d"); c.fillStyle = text;
    c.fillRect(0, 0, 1, 1); const part = v => (v /= 255) <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
    const [r, g, b] = c.getImageData(0, 0, 1, 1).data; return 0.2126 * part(r) + 0.7152 * part(g) + 0.0722 * part(b); };
  const ground = light(getComputedStyle(document.body).backgroundColor);
  return [".cut", ".range-fits", ".range-eye", ".dimension", ".glass", ".mark"].map((name) => {
    const style = getComputedStyle(document.querySelector(`main ${name}`));
    const line = light(name === ".mark" ? style.color : style.stroke);
    return [name, (Math.max(line, ground) + 0.05) / (Math.min(line, ground) + 0.05)]; });
}"""


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_drawings_can_be_seen_in_forced_colors(browser, site, scheme):
    context = browser.new_context(forced_colors="active", color_scheme=scheme)
    page = context.new_page()
    page.goto((site / FRAME).as_uri() + RX)
    ready(page, FRAME)
    assert page.evaluate("() => matchMedia('(forced-colors: active)').matches")
    assert [(name, ratio) for name, ratio in page.evaluate(LINES) if ratio < 3] == []
    # Where all borders show, the page one is on is still told from the others
    borders = page.locator(".mast li a").evaluate_all(
        "all => all.map((one) => getComputedStyle(one).borderBottomColor)"
    )
    assert len(set(borders)) == 2
    context.close()


# The shade beside a wide table goes by how far it was moved, not by time, and itself moves nowhere
BY_HAND = re.compile(
    r"animation: more linear both; animation-timeline: scroll\(inline\);"
    r"|@keyframes more \{ from, 97% \{ opacity: 0\.5; \} \}"
)


def test_nothing_is_animated():
    """So nothing has to be taken back for those who ask for less motion; what waits, waits without moving."""
    for sheet in (shared("theme") / "static" / "css").glob("*.css"):
        text = BY_HAND.sub("", sheet.read_text(encoding="utf-8"))
        assert not re.search(r"animation|@keyframes|scroll-behavior|view-transition", text), sheet.name
        assert re.findall(r"transition: (.*?);", text) in ([], ["opacity 0s 0.4s"]), sheet.name
    for script in (shared("theme") / "static" / "js").glob("*.js"):
        assert "smooth" not in script.read_text(encoding="utf-8"), script.name


def test_on_paper_stands_for_whom_and_what_was_chosen_and_nothing_to_click(browser, site):
    context = browser.new_context(viewport={"width": 700, "height": 1000})
    page = context.new_page()
    page.goto((site / FRAME).as_uri())
    page.emulate_media(media="print")
    expect(page.locator("#rx")).to_be_hidden()
    expect(page.locator("table.board").first).to_be_visible()
    page.goto((site / FRAME).as_uri() + RX)
    page.reload()
    answered(page)
    expect(page.locator("#rx-read")).to_be_visible()
    expect(page.locator("#rx-read")).to_contain_text("−6.25")
    expect(page.locator("#live-table")).to_be_visible()
    touched = page.locator("#rx input, #rx summary, #live input, #live select, #live button").all()
    assert [one.evaluate("one => one.outerHTML") for one in touched if one.is_visible()] == []
    chosen = page.locator(".live-choice label:has(:checked) span")
    assert chosen.count() == 2
    assert all(one.is_visible() for one in chosen.all())
    page.emulate_media(media="screen")
    page.locator('#live tr.fits input[type="radio"]').first.check()
    quoted(page)
    page.emulate_media(media="print")
    expect(page.locator("#live-quote .bill")).to_be_visible()
    expect(page.locator("#live-table")).to_be_hidden()
    context.close()
