"""The live board says what the command line says, to the printed digit, and a visitor can reach all of it.

Our own engine stands on both sides here: this is a test of sameness and no authority for the numbers.
"""

import json
import random
import re
from datetime import date

import pytest
from click.testing import CliRunner
from playwright.sync_api import expect

from quoting.catalog.load import load
from quoting.cli import main
from quoting.offers import Ask, Choice, Measures, Offers
from quoting.places import shared
from quoting.prescription.model import Distances, EyeRx, Prescription
from quoting.prescription.wishes import Wishes
from quoting.show.amounts import mm, money, power
from quoting.show.cautions import matters_here
from quoting.show.reasons import customer, told_once
from tests.web.answered import answered, becomes, quoted, within

DAY = date(2026, 11, 25)
WORDS = {"fits": "fits", "caution": "fits, with a caution", "no": "does not fit"}
# Every row of the board as texts; the address is changed as a visitor's link would change it
ROWS = """fragment => {
  history.replaceState(null, "", fragment);
  dispatchEvent(new HashChangeEvent("hashchange", { oldURL: location.href })); // or the page would be opened anew
  return [...document.querySelectorAll("#live tr[data-package]")].map(row => {
    const text = selector => row.querySelector(selector)?.textContent ?? "";
    return [row.dataset.package, text(".word"), text(".is-price"), text(".is-edge"), text(".is-center"),
            text(".is-weight"), [...row.querySelectorAll(".why")].map(why => why.textContent)];
  });
}"""


@pytest.fixture(scope="module")
def offers():
    catalog, _ = load(shared("demo_catalog"))
    return Offers(catalog, DAY)


@pytest.fixture
def live(browser, site):
    """A page of a frame on the day of the tests, and what went wrong in it."""
    contexts = []

    def opened(frame, fragment="", width=1280, **settings):
        context = browser.new_context(viewport={"width": width, "height": 900}, **settings)
        contexts.append(context)
        page = context.new_page()
        page.clock.set_fixed_time(f"{DAY}T12:00:00")
        page.wrong = []
        page.on("pageerror", lambda error: page.wrong.append(str(error)))
        page.on("console", lambda said: said.type in ("error", "warning") and page.wrong.append(said.text))
        page.goto((site / f"frames/{frame}/index.html").as_uri() + fragment)
        if fragment:  # the first answers come in pieces
            page.locator("#live tr[data-package]").first.wait_for()
        return page

    yield opened
    for context in contexts:
        context.close()


def random_eye(dice, near):
    sphere = dice.choice([dice.randrange(-44, 28), dice.randrange(-20, 12)]) / 4
    cylinder = dice.choice([0, 0, dice.randrange(-14, 13)]) / 4
    axis = dice.randrange(1, 181) if cylinder else 180
    prism = dice.choice([0, 0, 0, 0, 1.5, -2.0])
    return EyeRx(sphere, cylinder, axis, near, prism, dice.choice([0, 0, 0, 0, 0.5]) if prism else 0.0)


def random_ask(dice):
    near = dice.choice([0.0, 0.0, 1.0, 2.0, 2.5])
    right = random_eye(dice, near)
    left = random_eye(dice, near) if dice.random() < 0.93 else None
    if left and dice.random() < 0.08:
        right = None
    halves = Distances(None, dice.randrange(52, 70) / 2, dice.randrange(52, 70) / 2)
    pd = dice.choice([halves, Distances(float(dice.randrange(54, 74))), Distances()])
    height = dice.choice([None, None, dice.randrange(28, 44) / 2])
    measures = Measures(height, dice.choice([None, height]), child=dice.random() < 0.1)
    return Ask(Prescription(right, left, pd, source="test"), measures, dice.choice(["", "", "inland", "abroad"]))


def fragment_of(ask):
    """The address that says the same."""

    def eye(one):
        return f"{one.sphere},{one.cylinder},{one.axis},{one.add},{one.prism_in},{one.prism_up}"

    def known(value):
        return "" if value is None else str(value)

    rx, measures = ask.rx, ask.measures
    parts = [f"{name}={eye(one)}" for name, one in (("od", rx.right), ("os", rx.left)) if one]
    if rx.pd.binocular is not None:
        parts.append(f"pd={rx.pd.binocular}")
    elif rx.pd.right is not None:
        parts.append(f"pd={rx.pd.right},{rx.pd.left}")
    if measures.height_right is not None or measures.height_left is not None:
        parts.append(f"h={known(measures.height_right)},{known(measures.height_left)}")
    parts += ["age=child"] if measures.child else []
    parts += [f"to={ask.region}"] if ask.region else []
    return "#" + "&".join(parts)


def expected_row(offer, shop):
    reasons = [customer(one, offer.choice.package) for one in told_once(offer.fit["reasons"])]
    lenses = offer.lenses()
    made = not any(lens["fault"] for lens in lenses)
    ask_us = "ask us" if made else ""
    thickest = max(lenses, key=lambda lens: lens["edge_max"])
    return [
        offer.choice.package.id,
        WORDS[offer.fit["verdict"]],
        money(offer.lenses_cents, shop.currency, shop.locale) if offer.bill["priced"] else ask_us,
        f"{mm(thickest['edge_max'])} mm{thickest['edge_max_at']}" if made else "",
        f"{mm(max(lens['center'] for lens in lenses))} mm" if made else "",
        f"{offer.weight:.1f} g" if made else "",
        reasons,
    ]


@pytest.mark.parametrize(("frame", "seed"), [("cottering", 1), ("ossgill", 2), ("padstrow", 3), ("eskerby", 4)])
def test_the_board_says_what_the_command_line_says(live, offers, frame, seed):
    """130 prescriptions a frame, 520 in all, each in every package."""
    dice = random.Random(seed)
    page, chosen = live(frame), offers.catalog.frames[frame]
    size, color = chosen.sizes[0], chosen.colorways[0]
    seen = set()
    for _ in range(130):
        ask = random_ask(dice)
        told = sorted(page.evaluate(ROWS, fragment_of(ask)))
        found = [offers.offer(Choice(chosen, size, color, one), ask) for one in offers.catalog.packages.values()]
        assert told == sorted(expected_row(one, offers.catalog.shop) for one in found), fragment_of(ask)
        seen |= {one.fit["verdict"] for one in found}
    assert seen >= {"no"}
    assert page.wrong == []


def test_the_bill_of_the_page_is_the_bill_of_the_command(live):
    rx = "OD -6.25 -1.25 x 010 / OS -5.75 DS / PD 31/32"
    page = live("cottering", "#od=-6.25,-1.25,10&os=-5.75&pd=31,32")
    asked = ["fit", "cottering", "--size", "52-18", "--color", "black", "--rx", rx, "--on", str(DAY), "--json"]
    said = json.loads(CliRunner().invoke(main, asked).stdout)
    best = next(one for one in said["packages"] if one["verdict"] == "fits")
    page.locator(f'#live input[type="radio"][value="{best["package"]}"]').check()
    expected = [[line["text"], money(line["cents"], "USD", "en_US")] for line in best["lines"]]
    becomes(lambda: bill_of(page), [*expected, ["Total", money(best["total_cents"], "USD", "en_US")]])
    assert page.wrong == []


def bill_of(page):
    """The lines of the bill as the page shows them."""
    return page.locator("#live-quote .bill tr").evaluate_all(
        "rows => rows.map(row => [...row.cells].map(cell => cell.textContent))"
    )


def said_of(frame, color, package, rx="OD -2.00 DS / OS -2.25 DS / PD 31/32"):
    """What the command quotes, as JSON."""
    asked = ["quote", frame, package, "--size", "54-16", "--color", color, "--rx", rx, "--on", str(DAY), "--json"]
    return json.loads(CliRunner().invoke(main, asked).stdout)


def test_a_sun_version_is_priced_with_its_frame_and_leads_to_the_optical_one(live):
    page = live("garrowe", "#od=-2&os=-2.25&pd=31,32&lens=bench-159-ar")
    expect(page.locator("#live-colors label")).to_have_text(["Gold", "Gold, sun version", "Bronze, sun version"])
    version = page.locator("#live-version")
    expect(version).to_have_text("The sun version of Gold costs $184.00 without lenses. Show it")
    page.get_by_role("button", name="Show it").click()
    sun, optical = (said_of("garrowe", color, "bench-159-ar") for color in ("gold-sun", "gold"))
    amount = lambda said: money(said["offer"]["total_cents"], "USD", "en_US")  # noqa: E731
    becomes(lambda: bill_of(page)[-1:], [["Total", amount(sun)]])
    (first, _), *_ = bill_of(page)
    assert first == sun["offer"]["lines"][0]["text"]
    assert "its original lenses come in the parcel" in first
    told = "The optical version of Gold costs $172.00 without lenses"
    expect(page.locator("#live-quote")).to_contain_text(f"{told}, and {amount(optical)} in all with these.")
    expect(version).to_have_text(
        f"Gold is the sun version: your lenses go into it; its original lenses come in the parcel. {told}. Show it"
    )
    expect(page).to_have_url(re.compile("color=gold-sun"))
    page.get_by_role("button", name="Show it").press("Enter")
    expect(page.locator("#live-colors input[value=gold]")).to_be_focused()
    becomes(lambda: bill_of(page)[-1:], [["Total", amount(optical)]])
    assert page.wrong == []


def test_a_color_that_is_sold_as_a_sun_version_only_says_so(live):
    page = live("garrowe", "#od=-2&os=-2.25&pd=31,32&lens=bench-159-ar&color=bronze")
    said = "Bronze is sold as a sun version only: your lenses go into it; its original lenses come in the parcel."
    expect(page.locator("#live-version")).to_have_text(said)
    expect(page.locator("#live-version button")).to_have_count(0)
    assert page.wrong == []


def test_a_color_that_is_sold_out_says_so_beside_the_choice_and_in_the_quote(live):
    page = live("dunvaire", "#od=-2&os=-2.25&pd=31,32&lens=bench-159-ar&color=rose-crystal")
    said = "Rose crystal is sold out at present."
    expect(page.locator("#live-version")).to_have_text(said)
    expect(page.locator("#live-quote").get_by_text(said)).to_be_visible()
    assert page.wrong == []


def test_a_color_that_is_sold_out_is_not_chosen_first(live, site):
    page = live("cottering")
    name = "frames/cottering/index.html"
    text = (site / name).read_text(encoding="utf-8")
    black = '{"id":"black","name":"Black",'
    assert text.count(black) == 1
    text = text.replace(black, f'{black}"stock":"sold-out",')
    page.route(f"**/{name}", lambda route: route.fulfill(body=text, content_type="text/html"))
    page.goto((site / name).as_uri() + RX)
    page.reload()
    answered(page)
    expect(page.locator("#live-colors input[value=dark-tortoise]")).to_be_checked()
    expect(page.locator("#live-version")).to_be_hidden()
    assert "color=" not in page.evaluate("location.hash")
    page.locator("#live-colors input[value=black]").check(force=True)
    expect(page.locator("#live-version")).to_have_text("Black is sold out at present.")
    expect(page).to_have_url(re.compile("color=black"))


def test_of_an_optical_color_alone_nothing_is_said_and_no_part_of_a_quote_is_the_word_null(live):
    page = live("cottering", "#od=-2&os=-2.25&pd=31,32&lens=bench-159-ar")
    expect(page.locator("#live-quote .share a")).to_be_visible()
    expect(page.locator("#live-version")).to_be_hidden()
    assert "null" not in page.locator("#live-quote").inner_text()


@pytest.mark.parametrize("width", [1280, 360])
def test_what_was_picked_stays_in_sight_and_leads_to_what_it_costs(live, width):
    page = live("cottering", "#od=-2.25&os=-2&pd=31,32", width=width)
    answered(page)
    bar = page.locator("#live-bar")
    expect(bar).to_be_hidden()
    page.locator("#live tr[data-package='bench-159-ar'] input[type=radio]").check()
    expect(bar).to_be_visible()
    within(lambda: 0 <= (box := bar.bounding_box())["y"] <= 900 - box["height"])
    expect(bar.locator("b")).to_have_text(page.locator("#live-quote .bill .sum td").inner_text())
    page.keyboard.press("Tab")
    bar.get_by_role("button", name="See what it costs").press("Enter")
    expect(page.locator("#live-quote")).to_be_focused()
    within(lambda: 0 <= page.locator("#live-quote h3").bounding_box()["y"] < 200)
    for name in ("bench-159-ar", "plain-150-ar"):
        page.locator(f"#live tr[data-package='{name}'] input[type=checkbox]").check()
    expect(bar.get_by_role("button")).to_have_text(["See what it costs", "See the 2 side by side"])
    assert page.wrong == []


@pytest.mark.parametrize("width", [1280, 360])
def test_by_keyboard_what_a_picked_lens_costs_is_a_few_tabs_away_and_so_is_the_way_back(live, width):
    page = live("cottering", "#od=-2.25&os=-2&pd=31,32", width=width)
    answered(page)
    radio = page.locator("#live tr[data-package='bench-159-ar'] input[type=radio]")
    radio.focus()
    page.keyboard.press("Space")
    quoted(page)
    on, back = page.locator("#live-table .past"), page.locator("#live-quote .past")
    expect(on).to_have_count(1)
    for _ in range(3):
        page.keyboard.press("Tab")
        if on.evaluate("on => on === document.activeElement"):
            break
    expect(on).to_be_focused()
    within(lambda: 0 <= (box := on.bounding_box())["x"] <= width - box["width"])
    page.keyboard.press("Enter")
    expect(page.locator("#live-quote")).to_be_focused()
    page.keyboard.press("Tab")
    expect(back).to_be_focused()
    within(lambda: 0 <= (box := back.bounding_box())["x"] <= width - box["width"])
    page.keyboard.press("Enter")
    expect(radio).to_be_focused()
    other = page.locator("#live tr[data-package='plain-150-ar']")
    other.locator("input[type=radio]").check()
    expect(other.locator(".past")).to_have_count(1)  # it goes along
    expect(on).to_have_count(1)
    assert page.wrong == []


def test_of_each_design_the_lenses_that_fit_come_first(live):
    page = live("cottering", "#od=-6.25,-1.25,10&os=-5.75&pd=31,32")
    groups = page.evaluate("""() => [...document.querySelectorAll("#live tbody")].map(body =>
      [...body.querySelectorAll("tr[data-package] .word")].map(word => word.textContent.trim()))""")
    assert any(len(set(words)) > 1 for words in groups)
    for words in groups:
        misfits = [WORDS["no"] in word for word in words]
        assert misfits == sorted(misfits)


def test_an_example_in_a_field_is_gone_once_a_power_stands_beside_it(live):
    shown = """id => Number(getComputedStyle(document.getElementById(id), "::placeholder").opacity)"""
    page = live("cottering")
    assert page.evaluate(shown, "rx-left-axis") > 0.4
    page.fill("#rx-left-sphere", "-2")
    for field in ("rx-left-axis", "rx-right-sphere"):
        becomes(lambda field=field: page.evaluate(shown, field), 0)


def test_the_range_that_fits_is_the_engines(live, offers):
    page = live("cottering", "#od=-6.25,-1.25,10&os=-5.75&pd=31,32")
    chosen = offers.catalog.frames["cottering"]
    ask = Ask(Prescription(EyeRx(-6.25, -1.25, 10), EyeRx(-5.75), Distances(None, 31.0, 32.0), source="test"))
    page.locator("#live tr[data-package]:last-child .is-range small").last.wait_for()
    for package in list(offers.catalog.packages.values())[::4]:
        spans = offers.range(Choice(chosen, chosen.sizes[0], chosen.colorways[0], package), ask)
        told = [span for span in spans if span["verdict"] == "fits"] or spans
        words = [
            power(span["low"]) if span["low"] == span["high"] else f"{power(span['low'])} … {power(span['high'])}"
            for span in told
        ]
        cell = page.locator(f'#live tr[data-package="{package.id}"] .is-range small')
        cell.wait_for()
        assert cell.inner_text() == (", ".join(words) or "none")
    assert page.wrong == []


RX = "#od=-2.25,-0.75,90,2&os=-2.5,0,180,2&pd=31,32"


def shown_in(page):
    return page.locator("#live tr[data-package]").evaluate_all("rows => rows.map(row => row.dataset.package)")


# Every row of the board with its drawing but without its range, which comes last; and what was told of them all
BOARD = """() => [document.getElementById("live-status").textContent,
  ...[...document.querySelectorAll("#live tr[data-package]")].map(row => row.className + row.outerHTML
    .replace(/<details.*?<.details>/s, "").replace(/(<td class="is-range">).*?(?=<.td>)/s, "$1"))]"""


@pytest.mark.parametrize("sort", ["design", "thinnest"])
@pytest.mark.parametrize("place", ["#rx-right-sphere", "#live-status"])
def test_whoever_types_quickly_finds_the_board_of_a_link_with_that_power(live, sort, place):
    """At the panel no row is in sight, at the status the first ones are: both are answered in an order of their own."""
    rest = f"&os=-2.5,-1.25,165&pd=31,32&sort={sort}&lens=plain-150-ar"
    typed = live("cottering", f"#od=-3.25,-0.75,20{rest}")
    linked = live("cottering", f"#od=-5.75,-0.75,20{rest}")
    typed.locator("#rx-right-sphere").focus()
    typed.locator(place).evaluate("one => one.scrollIntoView()")
    for _ in range(10):
        typed.keyboard.press("ArrowDown")
    answered(linked)
    linked_to = linked.evaluate(BOARD)
    linked.close()
    becomes(lambda: typed.evaluate(BOARD), linked_to)
    assert typed.wrong == []


def test_what_is_filtered_sorted_and_laid_side_by_side_stands_in_the_address(live):
    page = live("cottering", RX)
    page.locator("#live-status").get_by_text("packages fit").wait_for()
    page.locator("#live-impact").focus()
    page.keyboard.press("Space")  # a filter is a matter of the keyboard, too
    page.locator("#live-sort").select_option("price")
    page.locator("#live-driving").select_option("night")
    shown = shown_in(page)
    for pack in shown[:2]:
        page.locator(f'#live tr[data-package="{pack}"] .is-compare input').check()
    again = live("cottering", page.evaluate("location.hash"))
    again.locator("#live-compare table").wait_for()
    becomes(lambda: shown_in(again), shown)
    expect(again.locator("#live-impact")).to_be_checked()
    expect(again.locator("#live-driving")).to_have_value("night")
    expect(again.locator("#live-compare thead th")).to_have_count(2)
    assert page.wrong == again.wrong == []


@pytest.mark.parametrize(("driving", "wishes"), [("day", {"driving"}), ("night", {"driving", "night_driving"})])
def test_who_drives_is_told_what_the_command_says_to_that_wish(live, offers, driving, wishes):
    page, chosen = live("cottering"), offers.catalog.frames["cottering"]
    ask = Ask(
        Prescription(EyeRx(-2.25, -0.75, 90, 2.0), EyeRx(-2.5, add=2.0), Distances(None, 31.0, 32.0), source="test"),
        wishes=Wishes(**dict.fromkeys(wishes, True)),
    )
    page.evaluate(ROWS, RX)
    page.locator("#live-driving").select_option(driving)
    told = sorted(page.evaluate(ROWS, f"{RX}&driving={driving}"))
    found = [
        offers.offer(Choice(chosen, chosen.sizes[0], chosen.colorways[0], one), ask)
        for one in offers.catalog.packages.values()
    ]
    assert told == sorted(expected_row(one, offers.catalog.shop) for one in found)
    codes = {reason["code"] for one in found for reason in one.fit["reasons"]}
    assert ("too-dark-at-night" in codes) == (driving == "night")
    assert page.wrong == []


def test_filters_show_the_lenses_that_the_catalog_says(live, offers):
    page, packages = live("cottering", RX), offers.catalog.packages.values()
    page.locator("#live-status").get_by_text("packages fit").wait_for()
    page.locator("#live-tint").check()
    takes = {one.id: one.light == "clear" or one.treatments.tint_over for one in packages if one.material.tint_depth}
    becomes(lambda: set(shown_in(page)), {name for name, is_so in takes.items() if is_so})
    page.locator("#live-tint").uncheck()
    page.locator("#live-category").select_option("3")
    light = {one.id: (one.treatments.transmittance, one.treatments.darkened) for one in packages}
    # ISO 12312-1, from memory: category 3 passes more than 8 and up to 18 percent
    dark = {name for name, passed in light.items() if any(8 < percent <= 18 for percent in passed)}
    assert dark != set()
    becomes(lambda: set(shown_in(page)), dark)


def test_where_filters_leave_no_lens_any_order_says_so(live):
    page = live("cottering")
    page.evaluate("location.hash = '#od=-2&os=-2.25&only=hide,near&sort=price'")  # without an addition
    expect(page.locator("#live-status")).to_contain_text(" 0 of ")
    assert shown_in(page) == []
    page.locator("#live-hide").uncheck()
    within(lambda: shown_in(page) != [])
    assert page.wrong == []


def test_beside_the_chosen_lens_stands_what_the_build_says_of_it(live, offers):
    frame = offers.catalog.frames["cottering"]
    for package, sphere in (("steady-160-photo", -2.0), ("path18-153-ar", 4.5), ("steady-150-ar", 4.0)):
        page = live("cottering", f"#od={sphere},0,180,2&os={sphere},0,180,2&pd=63&lens={package}")
        eye = EyeRx(sphere, add=2.0)
        ask = Ask(Prescription(eye, eye, Distances(63.0), source="test"))
        choice = Choice(frame, frame.sizes[0], frame.colorways[0], offers.catalog.packages[package])
        expect(page.locator("#live-quote ul.columns li")).to_have_text(
            matters_here(offers.catalog.shop, offers.offer(choice, ask), ask)
        )
        assert "null" not in page.locator("#live-quote").inner_text()
        assert page.wrong == []
