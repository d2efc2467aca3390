"""Tints in the page: the bits of the build, a mix in its link, states by keyboard, and nothing silent below 8 %."""

import random
import re
from datetime import date

import pytest
from playwright.sync_api import expect

from quoting.catalog.load import load
from quoting.kernel.consequences import consequences
from quoting.kernel.filters import filters
from quoting.light.glass import glass_of, states
from quoting.places import shared
from quoting.show.lens_paint import paint_of
from quoting.show.tint_words import sentence
from tests.web.answered import until

pytestmark = pytest.mark.browser

MIX = "tints/index.html#tint=brown~2+rose~1,80,10,10,80&name=Evening%20walk&lens=plain-150-hard"
HEIGHTS = [0.0, 0.3, 0.5, 1.0]
ASK = """([mix, lens, state, mirror, heights]) => {
  const { tinge } = bevelbook;
  const one = bevelLight.lenses.find((found) => found.id === lens);
  return tinge.seen(tinge.glassOf(one, state, mirror), mix, heights);
}"""

PAINT = """([mix, lens, state, mirror]) => {
  const { tinge } = bevelbook;
  return tinge.paint(bevelLight.lenses.find((one) => one.id === lens), tinge.fromText(mix), state, mirror);
}"""


@pytest.fixture(scope="module")
def catalog():
    return load(shared("demo_catalog"), date(2026, 11, 25))[0]


@pytest.fixture
def mixing(opened, site):
    page = opened((site / MIX.split("#")[0]).as_uri() + "#" + MIX.split("#")[1])
    page.locator("#mixing table").wait_for()
    return page


def test_the_page_gives_the_same_bits_as_the_build(mixing, catalog):
    """300 mixes on lenses of all kinds, in all states, mirrored or not, of the curves that the page was given."""
    seeded = random.Random("tints in the page")
    for _ in range(300):
        package = seeded.choice(list(catalog.packages.values()))
        state = seeded.choice(states(catalog, package))
        mirror = seeded.choice(["", *catalog.tints.mirrors])
        dyes = seeded.sample(list(catalog.tints.dyes), 3)
        top = seeded.randint(1, 97)
        ends = {"top": top, "bottom": seeded.choice([top, seeded.randint(0, 97)]), "from": 15, "to": 85}
        mix = {"id": "", "name": "", "parts": {dye: seeded.randint(1, 6) for dye in dyes}, **ends}
        tint = {
            "dyes": [list(catalog.tints.dyes[dye].passes) for dye in dyes],
            "parts": [float(mix["parts"][dye]) for dye in dyes],
            "top": float(top),
            "bottom": float(mix["bottom"]),
            "fade_from": 0.15,
            "fade_to": 0.85,
        }
        ours = filters(glass_of(catalog, package, state, mirror).glass, tint, HEIGHTS, 8.0, 75.0)
        assert mixing.evaluate(ASK, [mix, package.id, state, mirror, HEIGHTS]) == ours


def test_the_page_paints_lenses_as_the_build_does(mixing, catalog):
    """Every mix of the book on ten lenses, in all states, mirrored or not."""
    seeded = random.Random("paint in the page")
    for mix in [None, *catalog.tints.mixes.values()]:
        for package in seeded.sample(list(catalog.packages.values()), 10):
            state = seeded.choice(states(catalog, package))
            mirror = seeded.choice(["", *catalog.tints.mirrors])
            ours = [list(one) for one in paint_of(catalog, package, mix, mirror, state)]
            asked = [mix.id if mix else "", package.id, state, mirror]
            assert mixing.evaluate(PAINT, asked) == ours


def test_a_mix_in_a_link_is_shown_and_told(mixing, catalog):
    assert mixing.locator("#mix-dye1").input_value() == "brown"
    assert mixing.locator("#mix-name").input_value() == "Evening walk"
    text = mixing.locator("#mixing").inner_text()
    assert "2 Brown, 1 Rose; takes 80 % of the light above, 10 % below" in text
    tint = {
        "dyes": [list(catalog.tints.dyes[dye].passes) for dye in ("brown", "rose")],
        "parts": [2.0, 1.0],
        "top": 80.0,
        "bottom": 10.0,
        "fade_from": 0.1,
        "fade_to": 0.8,
    }
    glass = glass_of(catalog, catalog.packages["plain-150-hard"]).glass
    found = filters(glass, tint, [0.0, 0.5, 1.0], 8.0, 75.0)
    rows = mixing.locator("#mixing tbody tr").all_inner_texts()
    assert [row.split("\t")[1] for row in rows] == [f"{one['percent']:.1f} %" for one in found]
    wanted = [sentence(one) for one in consequences(found[0], [], [], 8.0, True)]
    assert mixing.locator("#mixing li").all_inner_texts() == wanted


def test_what_is_mixed_stands_in_the_address_and_opens_as_the_same(mixing, opened):
    mixing.locator("#mix-dye3").select_option("amber")
    mixing.locator("#mix-part3").fill("1.5")
    mixing.locator("#mix-lens").select_option("plain-150-ar")
    mixing.locator("#mix-mirror").select_option("ember")
    mixing.locator("#mix-ground").select_option("white")
    mixing.locator("#mix-name").fill("Tea & <b>")
    until(mixing, "location.hash.includes('amber~1.5') && location.hash.includes('%3Cb%3E')")
    again = opened(mixing.evaluate("location.href"))
    again.locator("#mixing table").wait_for()
    for place in ("#mixing table", "#mixing ul", "#mixing p b"):
        assert again.locator(place).inner_text() == mixing.locator(place).inner_text()
    assert again.locator("#mixing-look linearGradient").inner_html() == (
        mixing.locator("#mixing-look linearGradient").inner_html()
    )
    assert again.locator("#mixing p b").inner_text() == "Tea & <b>"
    assert opened.wrong == []


def test_the_shop_is_asked_with_recipe_and_link(mixing):
    href = mixing.locator("#mixing a.button").get_attribute("href")
    assert href.startswith("mailto:bench@ottersea.example.org?subject=A%20tint%3A%20Evening%20walk&body=")
    assert "2%20Brown%2C%201%20Rose" in href
    assert "brown~2" in href


@pytest.mark.parametrize("top", ["93", "97"])
def test_what_leaves_eight_percent_or_less_is_told(mixing, top):
    mixing.locator("#mix-top").fill(top)
    mixing.locator("#mixing li", has_text="nobody may drive").wait_for()
    mixing.locator("#mixing .mix-warning", has_text="does not take it").wait_for()
    expect(mixing.locator("#mixing tbody tr").first).to_contain_text("never")


@pytest.mark.parametrize(
    "fragment",
    ["tint=", "tint=nothing", "tint=brown~x,20", "tint=brown~2,20,30", "tint=%E0%A4%A", "tint=brown~2,200", "name=%E0"],
)
def test_what_cannot_be_read_in_an_address_is_not_read_at_all(opened, site, fragment):
    page = opened((site / "tints/index.html").as_uri() + f"#{fragment}")
    page.locator("#mix").scroll_into_view_if_needed()
    page.locator("#mixing table").wait_for()
    assert page.locator("#mixing p b").inner_text() == "Slate water" or "1 Gray" in page.locator("#mixing").inner_text()
    assert opened.wrong == []


def test_a_mix_of_the_book_is_a_beginning(mixing):
    mixing.locator("#kelp button").click()
    mixing.locator("#mixing", has_text="2 Green, 1 Gray, 1 Brown").wait_for()
    expect(mixing.locator("#mix-dye1")).to_be_focused()


def test_a_gradient_is_darker_above(mixing):
    stops = mixing.locator("#mixing-look linearGradient stop").evaluate_all(
        "all => all.map((one) => one.getAttribute('stop-color'))"
    )
    light = [sum(int(color[i : i + 2], 16) for i in (1, 3, 5)) for color in stops]
    assert light == sorted(light)
    assert light[0] < light[-1] - 100


def test_no_dye_is_no_error(mixing, opened):
    for number in (1, 2):
        mixing.locator(f"#mix-dye{number}").select_option("")
    mixing.locator(".mix-told", has_text="Choose a dye").wait_for()
    assert opened.wrong == []


def test_a_frame_wears_a_tint_and_darkens_by_keyboard(opened, site):
    page = opened((site / "frames/cottering/index.html").as_uri())
    page.locator("#tinted summary").focus()
    page.keyboard.press("Enter")
    page.locator("#tinted .tint").first.wait_for()
    page.locator("#tinted-mix").select_option("")
    page.locator("#tinted-lens").select_option("plain-156-photo")
    page.locator("#tinted input[type='radio'][value='clear']").focus()
    seen = [page.locator("#tinted stop").first.get_attribute("stop-color")]
    for state in ("5", "23", "35"):
        page.keyboard.press("ArrowRight")
        page.locator(f"#tinted input[value='{state}']:checked").wait_for()
        seen.append(page.locator("#tinted stop").first.get_attribute("stop-color"))
    light = [int(color[3:5], 16) for color in seen]
    assert light[1] < light[2] < light[3] < light[0]
    expect(page.locator("#tinted .mix-told")).to_contain_text("category 2")
    assert opened.wrong == []


def test_a_tint_in_the_address_of_a_frame_stays_there(opened, site):
    rx = "od=-2.25&os=-1.75&pd=31,32"
    page = opened((site / "frames/cottering/index.html").as_uri() + f"#{rx}&tint=brown~2+rose~1,40")
    page.locator("#tinted .tint").first.wait_for()
    expect(page.locator("#tinted-mix")).to_have_value("own")
    page.locator('#live tr:is(.fits, .caution) input[type="radio"]').first.check()
    until(page, "location.hash.includes('lens=')")
    expect(page).to_have_url(re.compile(r"od=-2\.25.*[#&]tint=brown~2\+rose~1,40"))
    page.locator("#tinted-mix").select_option("dusk")
    until(page, "location.hash.includes('tint=dusk')")
    expect(page).to_have_url(re.compile("lens="))
    assert opened.wrong == []


def test_without_script_the_book_stands_all_the_same(browser, site):
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto((site / "tints/index.html").as_uri())
    assert page.locator("#dusk stop").count() == 22
    assert "27.6 %" in page.locator("#dusk table").inner_text().replace("\u00a0", " ")
    assert page.locator("#mixing", has_text="Mixing needs script").is_visible()
    context.close()
