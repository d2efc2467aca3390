"""What changes is told once, politely, to those who hear the page: one act of a visitor is one announcement.

WCAG 2.2, success criterion 4.1.3 (Status Messages): by role, without moving the focus.
"""

import re

import pytest

from tests.site.conftest import demo, pages  # noqa: F401

FRAME = "frames/cottering/index.html"
RX = "#od=-6.25,-1.25,10&os=-5.75&pd=31,32"
# Texts of every live region of the page at each of its changes
WATCH = """() => {
  globalThis.heard = [];
  const live = '[role="status"], [role="alert"], [role="log"], [aria-live]';
  const told = new Map();
  new MutationObserver((changes) => {
    const regions = new Set(changes.map(({ target }) =>
      (target.nodeType === 1 ? target : target.parentElement)?.closest(live)).filter(Boolean));
    for (const region of regions) {
      if (told.get(region) === region.textContent) continue;
      told.set(region, region.textContent);
      heard.push(region.textContent);
    }
  }).observe(document, { subtree: true, childList: true, characterData: true });
}"""
REST_MS = 3000  # longer than the page waits before it speaks


@pytest.fixture
def listened(browser, site):
    contexts = []

    def opened(name=FRAME, fragment=""):
        contexts.append(browser.new_context())
        page = contexts[-1].new_page()
        page.clock.install(time="2026-11-25T12:00:00")
        page.goto((site / name).as_uri() + fragment)
        page.clock.pause_at("2026-11-25T13:00:00")  # from here on time goes by when a test says so
        page.clock.run_for(REST_MS)
        page.evaluate(WATCH)
        return page

    yield opened
    for context in contexts:
        context.close()


def heard(page):
    page.clock.run_for(REST_MS)
    return page.evaluate("() => heard")


def test_one_polite_region_stands_on_every_page_from_the_start(pages):  # noqa: F811
    for name, soup in pages.items():
        (region,) = soup.select("[role=status], [role=alert], [role=log], [aria-live]")
        assert (region["id"], region.get_text()) == ("aloud", ""), name


def test_a_pasted_slip_is_one_announcement(listened):
    page = listened()
    page.get_by_text("Paste it as text").click()
    page.locator("#rx-slip").fill("OD -6.25 -1.25 x 010 OS -5.75 PD 31/32")
    page.locator("#rx-slip-pieces li").first.wait_for()
    (said,) = heard(page)
    assert said.startswith("Read. Please compare it with your slip. Read as: OD −6.25 −1.25 × 010 / OS −5.75 DS")
    assert "lens packages fit" in said
    assert page.evaluate("() => document.activeElement.id") == "rx-slip"


def test_a_typed_prescription_is_one_announcement_when_typing_rests(listened):
    page = listened()
    for field, text in (("right-sphere", "-6.25"), ("left-sphere", "-5.75")):
        page.locator(f"#rx-{field}").focus()
        for key in text:
            page.keyboard.type(key)
            page.clock.run_for(250)
    (said,) = heard(page)
    assert said.startswith("Read as: OD −6.25 DS / OS −5.75 DS")
    assert "lens packages fit" in said


def test_what_is_wrong_is_heard_with_what_it_keeps_from_being_worked_out(listened):
    page = listened(fragment=RX)
    page.locator("#rx-right-sphere").fill("-2.2x")
    (said,) = heard(page)
    assert "“-2.2x” is not a number" in said
    assert "1 to mend" in said


def test_what_an_earlier_key_was_answered_is_not_heard_beside_what_is_wrong(listened):
    page = listened(fragment=RX)
    page.locator("#rx-right-sphere").focus()
    page.keyboard.press("Control+A")
    for key in "-5.x":  # before its last key this is a power that is answered
        page.keyboard.type(key)
        page.clock.run_for(250)
    (said,) = heard(page)
    assert "1 to mend" in said
    assert "packages fit" not in said


def test_a_doubt_is_heard_too(listened):
    page = listened()
    page.locator("#rx-right-sphere").fill("-2")
    page.locator("#rx-left-sphere").fill("+2")
    (said,) = heard(page)
    assert "Is a sign missing?" in said


def test_the_list_of_frames_speaks_when_all_are_ranked_and_not_before(listened):
    page = listened("frames/index.html")
    page.locator("#rx-right-sphere").fill("-2")
    page.locator("#rx-left-sphere").fill("-2")
    (said,) = heard(page)
    assert re.search(r"\d+ of \d+ frames", said), said
    assert page.locator("[data-frame] .suits").count() == page.locator("[data-frame]").count()
    page.locator("#find-need").select_option("thinnest")
    page.locator("#find-family").select_option("round")
    assert len(heard(page)) == 2


def test_other_pages_speak_once_too(listened):
    for name in ("lenses/path18-153-ar/index.html", "combinations/no-rim-and-a-progressive/index.html"):
        page = listened(name)
        page.locator("#rx-right-sphere").fill("-2")
        page.locator("#rx-left-sphere").fill("-2")
        (said,) = heard(page)
        assert said.startswith("Read as: OD −2.00 DS / OS −2.00 DS")
        assert len(said) > 60, said


def test_filters_and_the_fifth_lens_to_compare_are_heard(listened):
    page = listened(fragment=RX)
    page.locator("#live-hide").check()
    (said,) = heard(page)
    assert "lens packages fit" in said
    for number in range(5):
        page.locator("#live tr.fits .is-compare input").nth(number).click()
    assert "Four at most" in heard(page)[-1]
