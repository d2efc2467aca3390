"""What would make it fit: the page says what the command says, and leads there.

Our own engine stands on both sides: a test of sameness; that the claims hold is tested in tests/kernel/test_remedies.py
and tests/test_remedies.py.
"""

import random
import re

import pytest
from playwright.sync_api import expect

from quoting.offers import Ask, Choice
from quoting.prescription.model import Distances, EyeRx, Prescription
from quoting.show.text import help_lines
from tests.web.answered import answered
from tests.web.test_live import fragment_of, live, offers, random_ask  # noqa: F401

# Package -> the lines about it, for what an address says, in the frame's first size and colorway
LINES = """fragment => {
  const frame = JSON.parse(document.getElementById("frame-data").textContent);
  const { fromText, offer, remedies, shop } = bevelbook;
  const ask = fromText(fragment);
  const all = shop.packages.map(pack => offer(frame, frame.sizes[0], frame.colors[0], pack, ask));
  return Object.fromEntries(all.map(found => [found.pack.id, remedies(found, all).map(one => one.text)]));
}"""
# Sizes differ, and nearly nothing fits -9.75 in the larger one
RX = "#od=-9.75,0,180,2&os=-9.5,0,180,2&pd=31,32"


@pytest.mark.parametrize(("frame", "seed"), [("cottering", 1), ("ossgill", 2), ("padstrow", 3), ("brandlow", 4)])
def test_the_page_says_what_the_command_says(live, offers, frame, seed):  # noqa: F811
    dice, page, chosen = random.Random(f"remedies {seed}"), live(frame, RX), offers.catalog.frames[frame]
    first_told(page)  # the scripts come once something does not fit
    count = 0
    for _ in range(12):
        ask = random_ask(dice)
        told = page.evaluate(LINES, fragment_of(ask))
        for package in offers.catalog.packages.values():
            offer = offers.offer(Choice(chosen, chosen.sizes[0], chosen.colorways[0], package), ask)
            assert told[package.id] == help_lines(offer, ask, offers), (package.id, fragment_of(ask))
            count += bool(told[package.id])
    assert count > 50
    assert page.wrong == []


def first_told(page):
    """The first row that does not fit, once what would make it fit stands in it."""
    row = page.locator("#live tr.no").first
    row.locator(".mend").wait_for(state="attached")
    return row


def test_a_row_that_does_not_fit_tells_what_would_and_opens_to_all_of_it(live, offers):  # noqa: F811
    page, chosen = live("cottering", RX), offers.catalog.frames["cottering"]
    row = first_told(page)
    package = offers.catalog.packages[row.get_attribute("data-package")]
    eyes = EyeRx(-9.75, add=2.0), EyeRx(-9.5, add=2.0)
    ask = Ask(Prescription(*eyes, Distances(None, 31.0, 32.0), source="test"))
    lines = help_lines(offers.offer(Choice(chosen, chosen.sizes[0], chosen.colorways[0], package), ask), ask, offers)
    summary = row.locator("summary")
    assert lines[0] in summary.text_content()
    summary.focus()
    page.keyboard.press("Enter")
    shown = row.locator(".mend li").all_text_contents()
    assert [text.removesuffix(" show") for text in shown[:-1]] == lines
    row.locator(".mend button").first.press("Enter")
    name = lines[0].partition(", same design")[0].partition(" instead")[0]
    expect(page.locator("#live-quote h3")).to_have_text(re.compile(re.escape(name) + "$"))
    expect(page.locator("#live input[name=chosen]:checked")).to_be_focused()
    assert page.wrong == []


def test_no_row_moves_when_what_would_make_it_fit_arrives(live):  # noqa: F811
    page = live("cottering")
    heights = "[...document.querySelectorAll('#live tr[data-package]')].map(row => row.getBoundingClientRect().height)"
    asked = f"""fragment => {{
      history.replaceState(null, "", fragment);
      dispatchEvent(new HashChangeEvent("hashchange"));
      return {heights};
    }}"""
    before = page.evaluate(asked, RX)
    answered(page)
    expect(page.locator("#live tr.no:not(:has(.mend))")).to_have_count(0)
    after = page.evaluate(heights)
    assert len(before) == len(after) > 0
    assert before == after


def test_a_frame_that_would_do_is_looked_for_in_the_list_with_the_same_prescription(live):  # noqa: F811
    page = live("cottering", "#od=-2,0,180,2&os=-2,0,180,2&pd=31,32&h=13")
    links = page.locator('.mend a[href*="index.html#b="]')
    links.first.wait_for(state="attached")
    page.locator("#live tr.no", has=links).first.locator("summary").click()
    links.first.click()
    expect(page.locator("#find-b")).not_to_have_value("")  # the list's script fills it
    expect(page.locator("#find-kind")).to_have_value(re.compile("^(progressive|bifocal|anti-fatigue)$"))
    expect(page.locator("#rx-right-sphere")).not_to_have_value("")
    assert page.wrong == []
