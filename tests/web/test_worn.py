"""Once somebody has chosen a tint, every front of a frame's page wears it, and a street is seen through it."""

from datetime import date

import pytest
from playwright.sync_api import expect

from quoting.catalog.load import load
from quoting.kernel.coated import transmitted
from quoting.kernel.scene import scene
from quoting.kernel.tinting import dye_layers
from quoting.light.glass import glass_of, tint_of
from quoting.light.lens_worn import sun_lens
from quoting.places import shared
from quoting.show.lens_paint import paint_of, paint_worn
from quoting.show.looks import hexed
from tests.web.answered import until

pytestmark = pytest.mark.browser

# What the lenses of a drawing wear: stops of a gradient, or one color; null where it is glass
WORN = """(svg) => {
  const lens = svg.querySelector(".tint");
  if (!lens) return null;
  const id = /^url\\(#(.+)\\)$/.exec(lens.getAttribute("fill"))?.[1];
  if (!id) return [[0, lens.getAttribute("fill"), Number(lens.getAttribute("fill-opacity"))]];
  return [...document.getElementById(id).children].map((one) =>
    [Number(one.getAttribute("offset")), one.getAttribute("stop-color"), Number(one.getAttribute("stop-opacity"))]);
}"""
CARDS = "section[aria-labelledby=colors] .card .front"
RX = "od=-2.25&os=-1.75&pd=31,32"


@pytest.fixture(scope="module")
def catalog():
    return load(shared("demo_catalog"), date(2026, 11, 25))[0]


@pytest.fixture
def frame(opened, site):
    """The page of a frame with its tints open."""

    def shown(name, fragment=""):
        page = opened((site / f"frames/{name}/index.html").as_uri() + fragment)
        if "tint=" not in fragment:
            page.locator("#tinted summary").click()
        page.locator("#tinted .street").wait_for()
        return page

    return shown


def worn(page, place):
    """What each of these drawings wears."""
    return [one.evaluate(WORN) for one in page.locator(place).all()]


def paint(catalog, package, mix="", mirror="", state="clear"):
    stops = paint_of(catalog, catalog.packages[package], catalog.tints.mixes.get(mix), mirror, state)
    return [list(one) for one in stops]


def own(catalog, name):
    """What the colorways of a frame are drawn with anyway."""
    colors = catalog.frames[name].colorways
    found = [[list(stop) for stop in paint_worn(catalog, sun_lens(catalog, color))] or None for color in colors]
    return found, found[colors.index(catalog.frames[name].shown_first)]


def test_to_open_it_changes_nothing_and_to_choose_dresses_every_front_of_the_page(frame, catalog, opened):
    page = frame("garrowe")
    cards, first = own(catalog, "garrowe")
    assert any(cards)
    assert worn(page, CARDS) == cards
    assert "tint=" not in page.url
    page.locator("#tinted-lens").select_option("plain-150-hard")
    for mix in ("dusk", "kelp", "deep-sea"):
        page.locator("#tinted-mix").select_option(mix)
        until(page, f"location.hash.includes('tint={mix}')")
        wanted = paint(catalog, "plain-150-hard", mix)
        assert worn(page, CARDS) == [wanted] * len(cards)
        assert worn(page, "figure.plate > .measured") == [wanted]
        expect(page.locator("#tinted .mix-told")).to_contain_text("Every front of this page is drawn with it now.")
        expect(page.locator(f"{CARDS} >> nth=0")).to_be_visible()
        assert page.locator("[data-own]:visible").count() == 0
    page.locator("#tinted-mix").select_option("")
    until(page, "!location.hash.includes('tint=')")
    assert worn(page, CARDS) == cards
    assert worn(page, "figure.plate > .measured") == [first]
    assert page.locator("[data-own]:visible").count() == sum(one.sun for one in catalog.frames["garrowe"].colorways)
    ids = page.evaluate("[...document.querySelectorAll('[id]')].map((one) => one.id)")
    assert len(ids) == len(set(ids))
    assert opened.wrong == []


def test_photochromic_states_and_mirrors_are_worn_too(frame, catalog):
    page = frame("cottering")
    page.locator("#tinted-mix").select_option("")
    page.locator("#tinted-lens").select_option("plain-156-photo")
    for state in ("23", "5", "clear"):
        page.locator(f"#tinted input[value='{state}']").check(force=True)
        assert worn(page, CARDS)[0] == paint(catalog, "plain-156-photo", state=state)
    page.locator("#tinted-lens").select_option("shade-159-polar")
    page.locator("#tinted-mirror").select_option("ember")
    assert worn(page, CARDS)[0] == paint(catalog, "shade-159-polar", mirror="ember")


def test_what_the_lens_does_not_take_is_told_and_not_worn(frame, catalog):
    page = frame("garrowe")
    page.locator("#tinted-lens").select_option("plain-156-ar")
    page.locator("#tinted-mix").select_option("slate-water")
    expect(page.locator("#tinted .mix-told")).to_contain_text("deeper than Resin 1.56 takes: 75 %")
    expect(page.locator("#tinted .mix-told")).not_to_contain_text("Every front")
    assert worn(page, CARDS) == own(catalog, "garrowe")[0]
    page.locator("#tinted-mix").select_option("dusk")
    assert worn(page, CARDS)[0] == paint(catalog, "plain-156-ar", "dusk")
    page.locator("#tinted-mirror").select_option("silver")
    expect(page.locator("#tinted .mix-told")).to_contain_text("This lens does not take it: no mirror on this lens.")
    assert worn(page, CARDS) == own(catalog, "garrowe")[0]


def test_a_chosen_lens_and_the_true_size_wear_it_with_marks_that_are_seen(frame, catalog, opened):
    fragment = f"#{RX}&size=51-20&color=tortoise-sun&lens=plain-150-ar&tint=dusk"
    page = frame("lissoway", fragment)
    page.locator(".sitting-front .tint").wait_for()
    assert worn(page, ".sitting-front") == [paint(catalog, "plain-150-ar", "dusk")]
    assert page.locator(".sitting-front .rim").count() == 2
    assert page.locator(".sitting-clear:visible").count() == 0
    page.locator("#tinted-mix").select_option("slate-water")
    expect(page.locator(".sitting-front linearGradient")).to_have_count(0)
    assert worn(page, ".sitting-front") == [paint(catalog, "plain-150-ar", "slate-water")]
    page.locator(".life summary").click()
    page.locator(".life-front").wait_for()
    assert worn(page, ".life-front") == [paint(catalog, "plain-150-ar", "slate-water")]
    page.locator("#tinted-mix").select_option("")
    expect(page.locator(".sitting-front .rim")).to_have_count(0)
    assert worn(page, ".sitting-front") == [None]
    assert page.locator(".sitting-clear:visible").count() == 1
    sun = sun_lens(catalog, catalog.frames["lissoway"].colorways[2])
    assert worn(page, ".life-front") == [[list(one) for one in paint_worn(catalog, sun)]]
    assert opened.wrong == []


def street(page):
    return page.locator("#tinted .street [data-part]").evaluate_all(
        "all => all.map((one) => [Number(one.dataset.part), one.getAttribute('fill')])"
    )


def through(catalog, package, mix, height):
    layer = dye_layers(tint_of(catalog, catalog.tints.mixes[mix]), [height])[0]
    return [hexed(one) for one in scene(transmitted(glass_of(catalog, catalog.packages[package]).glass, layer))]


def test_the_street_is_seen_through_the_lens_and_of_a_gradient_through_each_place_by_keyboard(frame, catalog):
    page = frame("cottering", "#tint=dusk")
    page.locator("#tinted-lens").select_option("plain-150-hard")
    page.locator("#tinted input[name=tinted-place]:checked").focus()
    for key, height in (("", 0.5), ("ArrowRight", 1.0), ("ArrowRight", 0.0)):
        if key:
            page.keyboard.press(key)
        wanted = through(catalog, "plain-150-hard", "dusk", height)
        assert street(page) == [[part, wanted[part]] for part, _ in street(page)]
    said = "A drawn street with signal lights, seen through Dusk"
    expect(page.locator("#tinted .street")).to_have_attribute("aria-label", said)
    page.locator("#tinted-mix").select_option("kelp")
    expect(page.locator("#tinted input[name=tinted-place]:visible")).to_have_count(0)
    wanted = through(catalog, "plain-150-hard", "kelp", 0.5)
    assert street(page) == [[part, wanted[part]] for part, _ in street(page)]


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_on_a_phone_nothing_is_wider_than_the_page(frame, scheme):
    page = frame("lissoway", "#tint=dusk")
    page.emulate_media(color_scheme=scheme, reduced_motion="reduce")
    page.set_viewport_size({"width": 360, "height": 740})
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    box = page.locator("#tinted .street").bounding_box()
    assert 200 < box["width"] <= 360


def test_a_mix_that_is_added_to_the_chosen_lens_is_worn_where_the_eyes_sit(opened, site, catalog):
    """Also where the part that shows tints on fronts was never opened; the other fronts stay as they are."""
    place = (site / "frames/cottering/index.html").as_uri()
    page = opened(f"{place}#{RX}&size=52-18&lens=plain-150-ar")
    page.locator("#with-tint option[value='mix:dusk']").wait_for(state="attached")
    page.locator("#with-tint").select_option("mix:dusk")
    page.locator(".sitting-front .tint").wait_for()
    assert worn(page, ".sitting-front") == [paint(catalog, "plain-150-ar", "dusk")]
    assert page.locator(".sitting-front .rim").count() == 2
    assert worn(page, CARDS) == own(catalog, "cottering")[0]
    page.locator("#with-tint").select_option("")
    page.locator(".sitting-front .glass").wait_for()
    assert worn(page, ".sitting-front") == [None]
    assert page.locator(".sitting-front .rim").count() == 0
    assert opened.wrong == []


@pytest.mark.parametrize(
    ("package", "light"),
    [("steady-160-polar", "polarized brown, 11.8 % of the light"), ("plain-156-photo", "clear, 93.0 % of the light")],
)
def test_a_chosen_lens_that_has_a_color_by_itself_is_worn_where_the_eyes_sit(opened, site, catalog, package, light):
    """Also where the part that shows tints was never opened; a photochromic lens as it is indoors, and that is said."""
    page = opened((site / "frames/cottering/index.html").as_uri() + f"#{RX}&size=52-18&lens={package}")
    page.locator(".sitting-front .tint").first.wait_for()
    assert worn(page, ".sitting-front") == [paint(catalog, package)]
    assert page.locator(".sitting-front .rim").count() == 2
    said = page.locator(".sitting figcaption")
    expect(said).to_contain_text("The lenses are drawn as they look:")
    expect(said).to_contain_text(light)
    page.locator("#tinted summary").click()
    page.locator("#tinted .street").wait_for()
    assert worn(page, ".sitting-front") == [paint(catalog, package)]
    page.locator("#tinted-mirror").select_option("ember")
    expect(said).to_contain_text("The lenses are drawn as they look:" if package == "plain-156-photo" else "squares")
    mirror = "ember" if catalog.packages[package].treatments.mirror else ""
    until(page, "location.hash.includes('lens=')")
    assert worn(page, ".sitting-front") == [paint(catalog, package, mirror=mirror)]
    assert opened.wrong == []


# Marks over the lenses with the width of their lines, and that of what lies behind each
WIDTHS = """() => [...document.querySelectorAll(".sitting .eye")].flatMap((eye) => {
  const width = (one) => Number.parseFloat(getComputedStyle(one).strokeWidth);
  const rim = eye.previousElementSibling.children;
  return [...eye.children].map((one, at) =>
    [one.getAttribute("class"), one.matches(".size, .pupil, .reference") ? 0 : width(one), width(rim[at])]);
})"""


@pytest.mark.parametrize("screen", [1280, 360])
def test_marks_over_a_dark_lens_have_a_rim_that_is_seen_at_any_width(opened, site, screen):
    """Each is 0.4 mm wider on both sides, the cross of the center and the fitting cross too."""
    page = opened((site / "frames/cottering/index.html").as_uri())
    page.set_viewport_size({"width": screen, "height": 800})
    place = (site / "frames/cottering/index.html").as_uri()
    seen = set()
    for package in ("steady-160-polar", "round17-159-polar", "plain-150-polar"):
        page.goto("about:blank")
        page.goto(f"{place}#od=2.25,-0.75,100,2&os=3,-0.5,80,2&pd=63&size=54-18&lens={package}")
        page.locator(".sitting .rim").first.wait_for()
        for name, line, rim in page.evaluate(WIDTHS):
            assert rim >= line + 0.79, name
            seen |= set(name.split())
    assert {"center", "cross", "iris", "near", "corridor"} <= seen
