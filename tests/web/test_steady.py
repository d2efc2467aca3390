"""Nothing moves under a visitor: not when a page finds its prescription, not when answers arrive, not while typing.

Layout shifts as Chromium counts them (Layout Instability, W3C community group draft; web.dev/cls calls 0.1 good).
"""

import time
from datetime import datetime, timedelta

import pytest
from playwright.sync_api import expect

from tests.web.answered import answered

RX = "#od=-6.25,-1.25,10&os=-5.75&pd=31,32"
MOST = 0.01
PAGES = [
    "index.html",
    "frames/index.html",
    "frames/cottering/index.html",
    "lenses/path18-153-ar/index.html",
    "combinations/index.html",
    "combinations/no-rim-and-a-progressive/index.html",
]
WATCH = """
globalThis.shifts = [];
new PerformanceObserver((list) => shifts.push(...list.getEntries())).observe({ type: "layout-shift", buffered: true });
"""
MOVED = """() => shifts.map(({ value, hadRecentInput, sources }) => [value, hadRecentInput,
  sources.map(({ node }) => node?.id || node?.className || node?.nodeName).join()])"""


@pytest.fixture
def watched(browser):
    contexts = []

    def opened(url, width=1280, slow=False, keep=""):
        context = browser.new_context(viewport={"width": width, "height": 900})
        contexts.append(context)
        context.add_init_script(WATCH + keep)
        page = context.new_page()
        if slow:  # scripts arrive long after the page was shown

            def late(route):
                time.sleep(0.4)
                route.continue_()

            page.route("**/data/engine.js", late)
        page.goto(url)
        return page

    yield opened
    for context in contexts:
        context.close()


def moved(page):
    """What moved, by how much; Chromium reports it with the next frames."""
    page.evaluate("() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))")
    return page.evaluate(MOVED)


@pytest.mark.parametrize("width", [1280, 360])
@pytest.mark.parametrize("fragment", ["", RX], ids=["nothing asked", "a prescription"])
def test_nothing_moves_when_a_page_comes_and_its_answers_after_it(watched, address, width, fragment):
    wrong = {}
    for name in PAGES:
        page = watched(f"{address}/{name}{fragment}", width, slow=True)
        if fragment:
            answered(page)
        shifts = moved(page)
        if sum(value for value, *_ in shifts) > MOST:
            wrong[name] = shifts
        page.close()
    assert wrong == {}


def test_nothing_moves_for_who_comes_back_to_what_this_browser_keeps(watched, address):
    keep = 'localStorage.setItem("bevelbook.prescription", "od=-2&os=-2");'
    page = watched(f"{address}/frames/index.html", slow=True, keep=keep)
    answered(page)
    assert sum(value for value, *_ in moved(page)) <= MOST


@pytest.mark.parametrize("width", [1280, 360])
@pytest.mark.parametrize("name", ["frames/index.html", "frames/cottering/index.html"])
def test_nothing_moves_while_a_prescription_is_typed(watched, site, width, name):
    """Those shifts too that follow a key at once, which are usually forgiven: half typed values are no faults yet."""
    page = watched((site / name).as_uri(), width)
    for field, text in (("right-sphere", "-6.25"), ("right-cylinder", "-1.25"), ("right-axis", "10")):
        page.locator(f"#rx-{field}").focus()
        page.keyboard.type(text, delay=30)
    page.locator("#rx-left-sphere").focus()
    page.keyboard.type("-5.75", delay=30)
    expect(page.locator("#rx-read")).to_have_text("Read as: OD −6.25 −1.25 × 010 / OS −5.75 DS")
    answered(page)
    shifts = [(value, what) for value, _, what in moved(page) if value > 0.0005]
    assert [what for value, what in shifts if value > MOST] == []
    assert sum(value for value, _ in shifts) <= 2 * MOST


def test_what_is_wrong_is_said_once_typing_rests(watched, site):
    page = watched((site / "frames/cottering/index.html").as_uri())
    page.clock.install()
    page.reload()
    page.clock.pause_at(datetime.now() + timedelta(hours=1))
    note = page.locator("#rx-note-right")
    page.locator("#rx-right-sphere").press("-")
    page.clock.run_for(200)
    expect(note).to_be_empty()
    page.clock.run_for(1000)
    expect(note).to_contain_text("is not a number")
    page.keyboard.type("2")
    page.clock.run_for(50)
    expect(note).to_be_empty()
