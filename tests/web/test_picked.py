"""A chosen lens on paper: one page, and on it all that a visitor takes along."""

import re

import pytest
from playwright.sync_api import expect

from quoting.catalog.load import load
from quoting.places import shared
from quoting.show.cautions import on_paper
from tests.quoted.quotes import asked
from tests.web.answered import answered, quoted, until
from tests.web.test_live import live, offers  # noqa: F401

PAGE = re.compile(rb"/Type\s*/Page[^s]")
# What is there on paper, as a reader would read it out
TEXT = "() => document.body.innerText.replace(/\\s+/g, ' ')"
EYES = "#od=-5.25,-1.25,10,2.25&os=-4.75,-0.5,20,2.25&pd=31,32"


def picked(live, frame, rest):  # noqa: F811
    page = live(frame, f"{EYES}{rest}")
    answered(page)
    quoted(page)
    return page


@pytest.mark.parametrize(
    ("frame", "rest"),
    [
        ("cottering", "&lens=bench-159-ar"),
        ("cottering", "&lens=top28-150-hard"),
        ("cottering", "&size=54-18&lens=true18-160-ar&age=child&h=21,21"),
        ("cottering", "&lens=plain-150-hard"),
        ("ossgill", "&lens=path18-153-ar&driving=night"),
        ("garrowe", "&lens=true18-167-photo&to=abroad"),
        ("padstrow", "&lens=steady-160-polar"),
        ("cottering", "&lens=path18-150-ar&with=mix,rush&tint=dusk"),
        ("cottering", "&lens=path18-150-ar&with=mix&tint=brown~2+rose~1+gray~0.5,81.5,12.5,15,85"),
    ],
)
def test_it_is_one_page_of_a4_and_of_letter(live, frame, rest):  # noqa: F811
    page = picked(live, frame, rest)
    for paper in ("A4", "Letter"):
        assert len(PAGE.findall(page.pdf(format=paper))) == 1, paper
    assert page.wrong == []


def test_on_it_stand_prescription_bill_cautions_and_link_and_no_board(live):  # noqa: F811
    page, shop = picked(live, "cottering", "&lens=true18-160-ar"), load(shared("demo_catalog"))[0].shop
    screen = page.evaluate(TEXT)
    assert "Read as" in screen  # in the panel
    assert page.evaluate("location.href") not in screen
    total = page.locator("#live-quote .sum td").inner_text()
    page.emulate_media(media="print")
    page.locator("#live-quote .link").wait_for()
    paper = page.evaluate(TEXT)
    words = "OD −5.25 −1.25 × 010 add +2.25 / OS −4.75 −0.50 × 020 add +2.25 / PD 31/32"
    assert page.locator("main").evaluate("main => main.innerText.replace(/\\s+/g, ' ')").count(words) == 1
    frame, lens = "Pellbridge & Daughters Cottering 52□18 145, Black", "Footpath True 18 in 1.60"
    for said in (total, frame, lens, shop.name, shop.email):
        assert said in paper
    assert re.sub(r"\s", "", page.evaluate("location.href")) in re.sub(r"\s", "", paper)
    one = asked("cottering", "true18-160-ar", words)
    here = on_paper(shop, one.offer, one.ask)  # what an issued quote of that lens prints
    assert "measured in the frame you will wear" in " ".join(here)
    for caution in (*here, *(one for sentences in shop.cautions_for.values() for one in sentences)):
        assert paper.count(caution) == (caution in here), caution
    expect(page.locator("#live-quote svg.drawing").first).to_be_visible()
    expect(page.locator("#live-table")).to_be_hidden()
    expect(page.locator("#live-quote button").first).to_be_hidden()
    assert page.wrong == []


def test_there_is_nothing_to_pay_for_what_does_not_fit(live):  # noqa: F811
    """A progressive that is too high for where the pupils sit; its price is known, and it cannot be made like this."""
    page = picked(live, "cottering", "&lens=true18-160-ar&h=12,12")
    quote, bar = page.locator("#live-quote"), page.locator("#live-bar")
    expect(quote.locator(".verdict")).to_contain_text("does not fit")
    expect(quote).to_contain_text("No price: this lens does not fit as asked.")
    assert quote.locator(".bill").count() == 0
    expect(bar).to_contain_text("See what it costs")
    assert "$" not in bar.inner_text()
    page.locator("#rx-right-height").fill("21")
    page.locator("#rx-left-height").fill("21")
    expect(quote.locator(".bill .sum")).to_contain_text("$")
    expect(bar).to_contain_text("Total $")
    assert page.wrong == []


def test_without_a_chosen_lens_the_board_is_printed(live):  # noqa: F811
    page = live("cottering", EYES)
    page.locator("#live tr[data-package]").first.wait_for()
    page.emulate_media(media="print")
    expect(page.locator("#live-table")).to_be_visible()
    expect(page.locator("h1")).to_be_visible()


def test_once_the_prescription_is_cleared_the_page_of_the_frame_is_printed(live):  # noqa: F811
    page = picked(live, "cottering", "&lens=bench-159-ar")
    page.locator("#rx-clear").click()
    page.emulate_media(media="print")
    expect(page.locator("h1")).to_be_visible()
    expect(page.locator(".printed-boards table").first).to_be_visible()


def test_the_link_on_paper_is_the_address_at_that_moment(live):  # noqa: F811
    page = picked(live, "cottering", "&lens=bench-159-ar")
    page.locator("#live-impact").check()
    until(page, "location.href.includes('only=impact')")
    page.evaluate("dispatchEvent(new Event('beforeprint'))")
    expect(page.locator("#live-quote .link")).to_have_text(page.evaluate("location.href"))


def test_a_front_on_the_sheet_is_small_and_has_no_line_to_measure(live):  # noqa: F811
    page = picked(live, "cottering", "&lens=bench-159-ar")
    page.emulate_media(media="print")
    line = page.locator(".sitting-front .check")
    expect(line).to_have_count(1)
    expect(line).to_be_hidden()
    expect(page.locator(".plate")).to_be_hidden()


def test_who_looks_at_the_frame_in_true_size_prints_that(live):  # noqa: F811
    page = picked(live, "cottering", "&lens=bench-159-ar")
    page.locator(".life > summary").click()
    page.locator(".life-front").wait_for()
    page.emulate_media(media="print")
    expect(page.locator(".plate .check")).to_be_visible()
    expect(page.locator(".life-front .check")).to_be_visible()
