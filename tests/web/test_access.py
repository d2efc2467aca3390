"""Nothing that axe-core finds, on any kind of page, light and dark, wide and narrow, with and without a prescription.

Rules: axe-core (Deque, MPL-2.0), those tagged WCAG 2.0 to 2.2 A and AA and best practice.
"""

import shutil
from pathlib import Path

import axe_playwright_python
import pytest

from quoting.quoted.sealing import unsigned
from tests.quoted.quotes import largest, ordinary, plain
from tests.web.answered import answered, quoted
from tests.web.conftest import PAGES
from tests.web.test_site import CONTRAST

AXE = next(Path(axe_playwright_python.__file__).parent.rglob("axe.min.js")).read_text(encoding="utf-8")
TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
RX = "#od=-6.25,-1.25,10&os=-5.75&pd=31,32"
RUN = """async tags => (await axe.run(document, {runOnly: tags})).violations.map(
  found => `${found.id}: ${found.nodes[0].html.slice(0, 160)}`)"""


def found_on(page):
    page.evaluate(AXE)
    return page.evaluate(RUN, TAGS)


@pytest.fixture
def free(browser):
    """Opens windows in which axe-core may run, which the policy of the pages forbids."""
    contexts = []

    def opened(width=1280):
        contexts.append(browser.new_context(viewport={"width": width, "height": 900}, bypass_csp=True))
        return contexts[-1]

    yield opened
    for context in contexts:
        context.close()


@pytest.mark.parametrize("fragment", ["", RX], ids=["nothing asked", "a prescription"])
@pytest.mark.parametrize("width", [1280, 360])
def test_axe_finds_nothing(free, site, width, fragment):
    context, wrong = free(width), {}
    for name in PAGES:
        page = context.new_page()
        page.goto((site / name).as_uri() + fragment)
        if fragment:
            answered(page)
        if fragment and page.locator("#live").count():
            page.locator('#live tr.fits input[type="radio"]').first.check()
            for number in (0, 1):
                page.locator("#live tr.fits .is-compare input").nth(number).check()
            page.locator("#live-compare table").wait_for()
            quoted(page)
        for scheme in ("light", "dark"):
            page.emulate_media(color_scheme=scheme)
            if found := found_on(page):
                wrong[name, scheme] = found
        page.close()
    assert wrong == {}


# A lens of each kind, and the reasons that are drawn: a blank that is too small, a height that is missing
DRAWN = [
    "cottering/index.html#od=-6.25,-1.25,10&os=-5.75&lens=bench-159-ar",
    "cottering/index.html#od=2,0,180,2&os=3,0,180,2&h=20&lens=top28-150-ar",
    "padstrow/index.html#od=2.25,-0.75,100&os=3&pd=29,28.5&h=16,17&lens=plain-150-ar",
    "sparrick/index.html#od=2.25,0,180,2&os=3,0,180,2&pd=58&h=16,20&lens=path18-153-ar",
]


@pytest.mark.parametrize("address", DRAWN, ids=lambda address: address.rpartition("=")[2])
@pytest.mark.parametrize("width", [1280, 360])
def test_axe_finds_nothing_in_the_drawings_and_their_words_stand_out(free, site, address, width):
    page, wrong = free(width).new_page(), {}
    page.goto((site / "frames").as_uri() + f"/{address}")
    page.locator("#live-quote .marks").wait_for()
    answered(page)
    quoted(page)
    page.locator(".life > summary").click()
    page.locator(".life-front").wait_for()
    for numbers in page.locator(".map-numbers summary").all():
        numbers.click()
    for scheme in ("light", "dark"):
        page.emulate_media(color_scheme=scheme)
        wrong[scheme] = [*found_on(page), *page.evaluate(CONTRAST)]
        assert page.evaluate("document.documentElement.scrollWidth") <= width
    assert wrong == {"light": [], "dark": []}


def wrong_values(page):
    """A slip that is not understood, prisms, and powers that cannot be or are hardly ever meant."""
    page.locator(".rx-prism > summary").click()
    page.locator(".rx-paste > summary").click()
    page.fill("#rx-slip", "OD -2.25 -0.75 x 9O\nOS -250 DS")
    page.locator("#rx-slip-pieces .unread").first.wait_for()
    page.fill("#rx-right-sphere", "-21")
    page.fill("#rx-left-axis", "200")
    page.press("#rx-left-axis", "Tab")
    page.locator("#rx-note-left").get_by_text("An axis lies between").wait_for()


def in_a_tint(page):
    """A mix of one's own on every front, and the street through it."""
    page.locator(".tinted > summary").click()
    page.locator("#tinted .tint").first.wait_for(state="attached")


def reasons_told(page):
    """All reasons of lenses that do not fit, and what would make them fit."""
    answered(page)
    page.evaluate("document.querySelectorAll('#live .whys').forEach((one) => { one.open = true; })")
    page.locator("#live .mend button").first.wait_for()


def quote_opened(page):
    page.evaluate("bevelbook.quoteShown")
    page.locator("#quote .bill").first.wait_for()


@pytest.mark.parametrize(
    ("address", "done"),
    [
        ("frames/cottering/index.html", wrong_values),
        (f"frames/cottering/index.html{RX}&tint=brown~2+rose~1,80,10,10,80", in_a_tint),
        (f"frames/cottering/index.html{RX}", reasons_told),
        *((f"quote/index.html#{unsigned(quote())}", quote_opened) for quote in (plain, ordinary, largest)),
        (f"quote/index.html#{unsigned(plain())[:-9]}", None),
    ],
    ids=["wrong values", "a tint", "reasons", "a short quote", "a quote", "a long quote", "a cut quote"],
)
@pytest.mark.parametrize("width", [1280, 360])
def test_axe_finds_nothing_in_what_is_opened_or_goes_wrong(free, site, address, done, width):
    page, wrong = free(width).new_page(), {}
    page.goto(f"{site.as_uri()}/{address}")
    if done:
        done(page)
    for scheme in ("light", "dark"):
        page.emulate_media(color_scheme=scheme)
        wrong[scheme] = [*found_on(page), *page.evaluate(CONTRAST)]
    assert wrong == {"light": [], "dark": []}


LONG = """for (const one of document.querySelectorAll('option, .live-choice span, .bill tbody th'))
  one.textContent = 'x'.repeat(60)"""


@pytest.mark.parametrize(
    ("address", "shown"),
    [
        ("frames/index.html", ".find option >> nth=0"),
        ("frames/cottering/index.html#od=-6.25&os=-5.75&lens=bench-159-ar", "#live-quote .bill"),
        ("combinations/no-rim-and-a-progressive/index.html", ".bill"),
    ],
)
def test_long_names_stay_in_the_page(free, site, address, shown):
    """Names of makers, regions, colors and lenses are a shop's own, and may be long and without a space."""
    page = free(360).new_page()
    page.goto(site.as_uri() + f"/{address}")
    page.locator(shown).wait_for(state="attached")
    page.evaluate(LONG)
    assert page.get_by_text("x" * 60).count() > 0
    assert page.evaluate("document.documentElement.scrollWidth") <= 360


def test_axe_is_awake(free, site):
    page = free().new_page()
    page.goto((site / "index.html").as_uri())
    page.evaluate("document.querySelector('nav a').innerHTML = ''")
    assert any(one.startswith("link-name") for one in found_on(page))


@pytest.fixture(scope="module")
def pale(site, tmp_path_factory):
    """The site with what its scripts write for a prescription, and nothing else, in a color that can hardly be read."""
    copy = shutil.copytree(site, tmp_path_factory.mktemp("pale") / "site")
    with (copy / "theme/css/site.css").open("a", encoding="utf-8") as sheet:
        sheet.write(".live-board .word, .answer, .card .suits { color: #bbb !important; }\n")
    return copy


@pytest.mark.parametrize(
    ("name", "planted"),
    [
        ("index.html", "answer"),
        ("frames/index.html", "suits"),
        ("frames/cottering/index.html", "word"),
        ("lenses/path18-153-ar/index.html", "answer"),
        ("combinations/index.html", "answer"),
        ("combinations/no-rim-and-a-progressive/index.html", "answer"),
    ],
)
def test_axe_sees_what_the_scripts_answer(free, pale, name, planted):
    """A fault in the answers alone is found where there is a prescription, and only there."""
    page = free().new_page()
    page.goto((pale / name).as_uri())
    assert found_on(page) == []
    page = free().new_page()
    page.goto((pale / name).as_uri() + RX)
    answered(page)
    (found,) = found_on(page)
    assert found.startswith("color-contrast")
    assert planted in found
