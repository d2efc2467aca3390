"""The Spanish pages: they fit narrow screens, take commas and points, and say the numbers that the engine has."""

import re
import shutil
from datetime import date

import pytest
from playwright.sync_api import expect

from quoting.catalog.load import load
from quoting.findings import errors
from quoting.languages import speaking, tongue
from quoting.offers import Ask, Choice, Offers
from quoting.places import shared
from quoting.prescription.model import Distances, EyeRx, Prescription
from quoting.quoted.sealing import unsigned
from quoting.show.amounts import mm, money
from quoting.show.reasons import customer, told_once
from quoting.show.recorded import prescription_of
from quoting.show.text import rx_lines
from quoting.site.build import build
from tests.quoted.quotes import ordinary, plain
from tests.web.answered import answered, quoted
from tests.web.test_access import found_on, free  # noqa: F401

pytestmark = pytest.mark.browser

DAY = date(2026, 11, 25)
RX = "#od=-6.25,-1.25,10&os=-5.75&pd=31,32"
PAGES = [
    "index.html",
    "frames/index.html",
    "frames/cottering/index.html",
    "frames/garrowe/index.html",
    "lenses/index.html",
    "lenses/path18-153-ar/index.html",
]


@pytest.fixture(scope="module")
def shop(tmp_path_factory):
    """The demo shop in Spain, with English beside Spanish."""
    place = tmp_path_factory.mktemp("spain") / "shop"
    shutil.copytree(shared("demo_catalog"), place)
    text = (place / "shop.yaml").read_text(encoding="utf-8")
    for old, new in (("locale: en_US", "locale: es_ES\n  languages: [es, en]"), ("currency: USD", "currency: EUR")):
        assert old in text
        text = text.replace(old, new)
    (place / "shop.yaml").write_text(text, encoding="utf-8")
    return place


@pytest.fixture(scope="module")
def spain(shop):
    output = shop.parent / "site"
    assert errors(build(shop, output, DAY).findings) == []
    return output


@pytest.mark.parametrize("name", PAGES)
def test_nothing_is_wider_than_a_narrow_screen(spain, opened, name):
    """320 CSS pixels (WCAG 2.2, 1.4.10); tables scroll within themselves."""
    page = opened(f"file://{spain}/{name}{RX}", width=320)
    answered(page)
    page.evaluate("document.querySelectorAll('details').forEach((one) => (one.open = true))")
    for late in (".life-front", "#tinted .tint"):  # their scripts come once they are opened
        if page.locator(".life").count():
            page.locator(late).first.wait_for(state="attached")
    assert page.evaluate("document.documentElement.scrollWidth") == 320
    assert opened.wrong == []
    # No word of the page's own parts is cut off, but in what scrolls or is for the ear alone
    cut = """[...document.querySelectorAll("button, label, legend, h1, h2, h3, summary, nav a")].filter((one) =>
      one.checkVisibility() && !one.matches(".sr") &&
      one.scrollWidth > one.clientWidth + 1 && getComputedStyle(one).display !== "inline")
      .map((one) => one.textContent)"""
    assert page.evaluate(cut) == []


def test_the_board_is_as_wide_as_a_desk(spain, opened):
    page = opened(f"file://{spain}/frames/cottering/index.html{RX}")
    page.locator("#live tr[data-package]").first.wait_for()
    francs = "all => all.forEach(one => (one.textContent = '413,00\\u00a0CHF'))"
    page.locator("#live td.is-price b").evaluate_all(francs)
    scroll = page.locator("#live-table .scroll")
    assert "temporal superior" in scroll.inner_text()
    assert scroll.evaluate("one => one.scrollWidth <= one.clientWidth")


@pytest.mark.parametrize("written", ["-6,25", "-6.25", "−6,25"])
def test_the_panel_takes_commas_and_points(spain, opened, written):
    page = opened(f"file://{spain}/index.html")
    page.fill("#rx-right-sphere", written)
    page.fill("#rx-right-pd", "31,5")
    page.press("#rx-right-pd", "Tab")
    expect(page.locator("#rx-right-sphere")).to_have_value("−6,25")
    expect(page.locator("#rx-right-pd")).to_have_value("31,5")
    expect(page.locator("#rx-read")).to_have_text(re.compile(r"^Leído como: OD −6,25 esf\. .*31,5"))
    expect(page).to_have_url(re.compile(r"od=-6\.25&pd=31\.5,"))
    page.press("#rx-right-sphere", "ArrowUp")
    expect(page.locator("#rx-right-sphere")).to_have_value("−6,00")


def test_what_was_not_understood_stands_in_the_quotation_marks_of_the_language(spain, opened):
    page = opened(f"file://{spain}/index.html")
    page.click(".rx-paste > summary")
    page.fill("#rx-slip", "OD -2,25 zzz")
    expect(page.locator("#rx-slip-note")).to_contain_text("No se entiende: «zzz».")


def test_the_board_says_what_the_engine_answers_as_spain_writes_it(shop, spain, opened):
    page = opened(f"file://{spain}/frames/cottering/index.html{RX}")
    answered(page)
    catalog = load(shop, DAY)[0]
    offers, frame = Offers(catalog, DAY), catalog.frames["cottering"]
    ask = Ask(Prescription(EyeRx(-6.25, -1.25, 10), EyeRx(-5.75), pd=Distances(right=31, left=32)))
    rows = page.evaluate(
        """Object.fromEntries([...document.querySelectorAll("#live tr[data-package]")].map((row) =>
        [row.dataset.package, Object.fromEntries([...row.cells].map((cell) => [cell.className, cell.innerText]))]))"""
    )
    assert rows.keys() == catalog.packages.keys()
    with speaking(tongue("es_ES")):
        for package in catalog.packages.values():
            offer = offers.offer(Choice(frame, frame.sizes[0], frame.colorways[0], package), ask)
            row, fits = rows[package.id], offer.fit["verdict"] != "no"
            words = {"fits": "apta", "caution": "apta, con reservas", "no": "no apta"}[offer.fit["verdict"]]
            assert words == row["is-verdict"].split("\n")[0][1:]
            for reason in told_once(offer.fit["reasons"])[:1]:
                assert customer(reason, package) in row["is-verdict"]
            if fits:
                assert row["is-price"] == money(offer.lenses_cents, "EUR", "es_ES")
                assert row["is-edge"].startswith(f"{mm(offer.thickest)} mm")
                assert row["is-weight"] == f"{mm(offer.weight)} g"


def test_a_prescription_goes_along_to_the_other_language(spain, opened):
    page = opened(f"file://{spain}/frames/cottering/index.html{RX}")
    page.click(".tongues a")
    page.wait_for_url(f"**/en/frames/cottering/index.html{RX}")
    expect(page.locator("#rx-read")).to_have_text("Read as: OD −6,25 −1,25 × 010 / OS −5,75 DS / PD 31/32")
    assert page.evaluate("document.documentElement.lang") == "en"


def test_what_was_picked_goes_along_to_the_other_language(spain, opened):
    picked = f"{RX}&size=54-18&lens=bench-159-ar"
    page = opened(f"file://{spain}/frames/cottering/index.html{picked}")
    answered(page)
    page.click(".tongues a")
    page.wait_for_url(f"**/en/frames/cottering/index.html{picked}")
    expect(page.locator("#live-quote .bill")).to_contain_text("54□18")


CHANGES = [{}, {"left": None}, {"pd_right": None, "pd_near": None}, {"pd": 6300, "pd_left": None}]


@pytest.mark.parametrize("changes", CHANGES)
def test_a_quote_says_eyes_as_the_letter_does(opened, spain, changes):
    quote = {**ordinary(), "prescriptions": [{**ordinary()["prescriptions"][0], **changes}]}
    page = opened(f"{(spain / 'quote/index.html').as_uri()}#{unsigned(quote)}")
    page.evaluate("bevelbook.quoteShown")
    body = " ".join(page.inner_text("main").split())
    with speaking(tongue("es_ES")):
        rows = rx_lines(prescription_of(quote["prescriptions"][0]))
    assert rows[0].startswith("OD")
    assert rows[1].startswith("OI")
    for row in rows:
        assert " ".join(row.split()) in body


def test_a_quote_without_cylinders_says_so_in_spanish(opened, spain):
    page = opened(f"{(spain / 'quote/index.html').as_uri()}#{unsigned(plain())}")
    page.evaluate("bevelbook.quoteShown")
    assert "OI −2,25 esf." in page.inner_text("main")


@pytest.mark.parametrize("fragment", ["", RX + "&lens=bench-159-ar"], ids=["nothing asked", "a chosen lens"])
@pytest.mark.parametrize("width", [1280, 360])
def test_axe_finds_nothing_in_spanish_either(free, spain, width, fragment):  # noqa: F811
    context, wrong = free(width), {}
    for name in PAGES:
        page = context.new_page()
        page.goto(f"file://{spain}/{name}{fragment}")
        if fragment:
            answered(page)
        if "lens=" in fragment and page.locator("#live").count():
            quoted(page)
        for scheme in ("light", "dark"):
            page.emulate_media(color_scheme=scheme)
            if found := found_on(page):
                wrong[name, scheme] = found
        page.close()
    assert wrong == {}


def test_the_keyboard_alone_picks_a_lens_and_what_is_added_and_paper_speaks_spanish(spain, opened):
    page = opened(f"file://{spain}/frames/cottering/index.html")
    page.locator("#rx-right-sphere").focus()
    for text in ("-2,25", "-0,75", "90", "", "31", "", "-2,5", "", "", "", "32"):
        page.keyboard.type(text)
        page.keyboard.press("Tab")
    expect(page.locator("#rx-read")).to_have_text("Leído como: OD −2,25 −0,75 × 090 / OI −2,50 esf. / DIP 31/32")
    answered(page)
    page.locator("#live tr[data-package='bench-159-ar'] input[type=radio]").focus()
    page.keyboard.press("Space")
    page.locator("#with-rush").focus()
    page.keyboard.press("Space")
    page.locator("#live-quote .bill").get_by_text("Made within three days").wait_for()  # a text of the shop
    expect(page.locator(".options legend")).to_contain_text("Qué se puede añadir")
    expect(page.locator(".options")).to_contain_text("(+22,50")
    quoted(page)
    page.emulate_media(media="print")
    paper = page.locator("body").inner_text()
    for said in ("Leído como: OD −2,25 −0,75 × 090", "Cuánto cuesta", "Total"):
        assert said in paper, said
    expect(page.locator(".options")).to_be_hidden()
    for english in ("What it costs", "Read as", "Pair of lenses", "fits"):
        assert english not in paper, english
