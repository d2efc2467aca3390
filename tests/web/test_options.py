"""What is added to a chosen lens: offered where lens and price list have it, billed as the command bills it, kept."""

import json
from datetime import date
from urllib.parse import parse_qs

import pytest
from click.testing import CliRunner
from playwright.sync_api import expect

from quoting.cli import main
from quoting.quoted.sealing import opened as opened_here
from quoting.show.amounts import money
from tests.web.answered import becomes, until
from tests.web.test_live import live, offers  # noqa: F401

DAY = date(2026, 11, 25)
RX = "OD -2.25 -0.75 x 090 add +2.00 / OS -4.50 DS add +2.00 / PD 31/32"
EYES = "#od=-2.25,-0.75,90,2&os=-4.5,0,180,2&pd=31,32"


def billed(page):
    """The lines of the bill as the page shows them."""
    page.locator("#live-quote .options").wait_for()
    return page.locator("#live-quote .bill tr").evaluate_all(
        "rows => rows.map(row => [...row.cells].map(cell => cell.textContent))"
    )


def quoted(package, *more):
    """The same as the command says it."""
    asked = ["quote", "cottering", package, "--size", "52-18", "--color", "black", "--rx", RX, "--on", str(DAY)]
    said = json.loads(CliRunner().invoke(main, [*asked, "--json", *more]).stdout)["offer"]
    amount = lambda cents: money(cents, "USD", "en_US")  # noqa: E731
    lines = [[line["text"], amount(line["cents"])] for line in said["lines"]]
    return [*lines, ["Total", amount(said["total_cents"])]], said


@pytest.mark.parametrize(
    ("package", "chosen", "more"),
    [
        ("path18-153-ar", "tint-75,gradient,rush", ("--tint", "75 gradient", "--wish", "rush")),
        ("path18-153-ar", "slab_off", ("--wish", "slab-off")),
        ("shade-159-polar", "mirror", ("--wish", "mirror")),
    ],
)
def test_what_is_added_is_billed_as_the_command_bills_it(live, package, chosen, more):  # noqa: F811
    page = live("cottering", f"{EYES}&lens={package}&with={chosen}")
    lines, said = quoted(package, *more)
    becomes(lambda: billed(page), lines)
    assert lines != quoted(package)[0]
    expect(page.locator(f"#live-quote .verdict.{said['verdict']}")).to_have_count(1)
    assert page.wrong == []


def test_each_choice_says_what_it_adds_to_the_total_and_does(live):  # noqa: F811
    page = live("cottering", f"{EYES}&lens=path18-153-ar")
    plain = billed(page)[-1][1]
    for choose in (
        lambda: page.locator("#with-rush").focus() or page.keyboard.press("Space"),
        lambda: page.locator("#with-tint").select_option("50"),
    ):
        label = page.evaluate("""() => [document.querySelector("#with-rush").parentNode.textContent,
          document.querySelector("#with-tint option[value='50']").textContent]""")
        before = billed(page)[-1][1]
        choose()
        until(page, "before => document.querySelector('.bill .sum td').textContent !== before", before)
        added = float(billed(page)[-1][1].strip("$")) - float(before.strip("$"))
        assert any(f"(+${added:.2f})" in text for text in label), (label, added)
    assert page.evaluate("location.hash").endswith("&with=rush,tint-50")
    expect(page.locator("#with-rush")).to_be_checked()
    total = billed(page)[-1][1]
    assert total != plain
    again = live("cottering", page.evaluate("location.hash"))
    becomes(lambda: billed(again)[-1][1], total)
    expect(again.locator("#live-quote .notes")).to_contain_text("not for driving at night")
    link = again.locator('#live-quote .share a[href*="quote%2Findex.html%23"]')
    link.wait_for()
    body = again.evaluate(
        "new URLSearchParams(document.querySelector('#live-quote .share a').href.split('?')[1]).get('body')"
    )
    again.goto(body.split()[-1])
    expect(again.locator("#quote")).to_contain_text(total)
    assert page.wrong == []


def test_the_keyboard_stays_where_it_was(live):  # noqa: F811
    page = live("cottering", f"{EYES}&lens=path18-153-ar")
    page.locator("#with-rush").focus()
    for checked in (True, False):
        page.keyboard.press("Space")
        until(page, "checked => document.getElementById('with-rush').checked === checked", checked)
        expect(page.locator("#with-rush")).to_be_focused()


def test_a_clash_is_told_before_it_is_chosen(live):  # noqa: F811
    page = live("cottering", "#od=-2.25&os=-2.25&pd=31,32")
    # As if this package were listed with a mirror
    page.evaluate("""() => Object.assign(bevelShop.packages.find(({ id }) => id === "plain-150-ar").table,
      { mirror: true, back_ar: true, double_use: true })""")
    page.locator("#live tr[data-package='plain-150-ar'] input[type=radio]").check()
    page.locator("#with-mirror").wait_for()
    told = page.locator("#against-mirror")
    expect(told).to_have_text("A mirror needs a tint below it; choose one.")
    expect(page.locator("#with-mirror")).to_have_attribute("aria-describedby", "against-mirror")
    page.locator("#with-tint").select_option("75")
    told.wait_for(state="detached")
    page.locator("#with-mirror").check()
    page.locator(".bill").get_by_text("Mirror").wait_for()
    expect(page.locator("#live-quote .verdict")).to_contain_text("fits")


@pytest.mark.parametrize("strange", ["tint-999", "tint-0,<b>", "mirror", "nothing", "slab_off"])
def test_what_a_lens_does_not_take_is_not_added(live, strange):  # noqa: F811
    page = live("cottering", f"#od=-2.25&os=-2.25&pd=31,32&lens=plain-150-ar&with={strange}")
    lines = billed(page)
    bare = billed(live("cottering", "#od=-2.25&os=-2.25&pd=31,32&lens=plain-150-ar"))
    assert lines == bare
    assert page.wrong == []


@pytest.mark.parametrize(
    ("package", "chosen", "said"),
    [
        ("plain-150-ar", "mirror", "Not for this lens: Mirror."),
        ("shade-159-polar", "tint-50,mirror", "Not for this lens: Tint."),
        ("round-153-photo", "mix,mirror-silver&tint=dusk", "Not for this lens: Tint, Mirror."),
        ("bench-159-ar", "tint-75", "This lens takes a tint up to 50 %; you asked for 75 %."),
    ],
)
def test_what_was_chosen_and_this_lens_does_not_take_is_told(live, package, chosen, said):  # noqa: F811
    """As where somebody chooses a tint, and then another lens."""
    page = live("cottering", f"#od=-2.25&os=-2.25&pd=31,32&lens={package}&with={chosen}")
    expect(page.locator("#live-quote .not-taken")).to_have_text(said)
    page.locator('#live input[name="chosen"][value="bench-150-ar"]').check()
    expect(page.locator("#live-quote .not-taken")).to_have_count(1 if "mirror" in chosen else 0)


def linked(page):
    """What the link of the letter to the shop holds, and the letter."""
    link = page.locator('#live-quote .share a[href*="quote%2Findex.html%23"]')
    link.wait_for()
    body = parse_qs(link.get_attribute("href").partition("?")[2])["body"][0]
    return opened_here(body).quote, body


@pytest.mark.parametrize(
    ("package", "chosen", "tint", "more"),
    [
        ("bench-150-ar", "mix", "dusk", ("--tint", "dusk")),
        ("bench-150-ar", "mix,rush", "kelp", ("--tint", "W 3", "--wish", "rush")),
        ("bench-150-ar", "mix", "brown~2+rose~1,71.5,12,10,80", ("--tint", "brown~2+rose~1,71.5,12,10,80")),
        ("path18-150-ar", "mix", "gray~1.5,62.5", ("--tint", "gray~1.5,62.5")),
        ("shade-159-polar", "mirror-silver", "", ("--mirror", "silver")),
    ],
)
def test_a_mix_is_billed_and_linked_as_the_command_does(live, package, chosen, tint, more):  # noqa: F811
    """Recipe, light, category, driving and paint, to the last digit of the form; and the same bill."""
    page = live("cottering", f"{EYES}&lens={package}&with={chosen}&tint={tint}")
    lines, said = quoted(package, *more)
    assert billed(page) == lines
    quote, letter = linked(page)
    (pair,) = quote["alternatives"][0]
    assert (quote["tints"] or [None])[0] == said["tint"]
    assert (pair["mirror"], pair["passed"]) == (said["mirror"], said["passed"])
    assert pair["verdict"] == said["verdict"]
    told = page.locator("#live-quote .picked-tint").inner_text()
    assert "driving" in told
    name = {"dusk": "Dusk (W 5)", "kelp": "Kelp (W 3)", "": "Silver"}.get(tint, "my own mix")
    assert name in letter
    assert f"category {max(one['category'] for one in pair['passed'])}" in letter
    assert page.wrong == []


def test_a_mix_is_chosen_from_the_list_and_what_the_lens_does_not_take_says_why(live):  # noqa: F811
    page = live("cottering", f"{EYES}&lens=path18-153-ar")  # its urethane takes 75 %
    mixes = page.locator("#with-tint optgroup option")
    mixes.first.wait_for(state="attached")
    deep = page.locator("#with-tint option[value='mix:slate-water']")
    assert "deeper than Urethane 1.53 takes: 75 %" in deep.text_content()
    assert deep.is_disabled()
    before = billed(page)[-1][1]
    page.locator("#with-tint").focus()
    page.locator("#with-tint").select_option("mix:dusk")
    until(page, "before => document.querySelector('.bill .sum td').textContent !== before", before)
    assert page.evaluate("location.hash").endswith("&with=mix&tint=dusk")
    assert "Dusk (W 5): 2 Brown, 1 Rose" in page.locator(".picked-tint").inner_text()
    assert page.evaluate("document.activeElement.id") == "with-tint"
    page.locator("#with-tint").select_option("50")
    page.locator(".picked-tint").wait_for(state="detached")
    assert "with=tint-50" in page.evaluate("location.hash")
    assert page.wrong == []


def test_a_mix_of_the_address_that_is_too_dark_is_told_and_not_driven_behind(live):  # noqa: F811
    page = live("cottering", "#od=-2.25&os=-2.25&pd=31,32&lens=bench-150-ar&with=mix&tint=gray~1,93")
    told = page.locator("#live-quote .picked-tint")
    assert "deeper than Hard resin 1.50 takes: 90 %" in told.inner_text()
    assert "nobody may drive behind it" in told.inner_text()
    assert page.locator("#live-quote .verdict.no").count() == 1


@pytest.mark.parametrize("strange", ["<b>", "brown~x,50", "brown~1", "brown~1,50,1", "nothing", "%E0%A4%A"])
def test_an_address_that_names_no_mix_adds_none(live, strange):  # noqa: F811
    page = live("cottering", f"#od=-2.25&os=-2.25&pd=31,32&lens=bench-150-ar&with=mix&tint={strange}")
    lines = billed(page)
    assert lines == billed(live("cottering", "#od=-2.25&os=-2.25&pd=31,32&lens=bench-150-ar"))
    assert page.locator(".picked-tint").count() == 0
    assert page.wrong == []


def test_the_tint_of_the_fronts_and_that_of_the_lens_are_one(live):  # noqa: F811
    page = live("cottering", f"{EYES}&lens=bench-150-ar&with=mix&tint=dusk")
    panel = page.locator("#tinted-mix")
    panel.wait_for()
    assert panel.input_value() == "dusk"
    page.locator("#with-tint option[value='mix:kelp']").wait_for(state="attached")
    page.locator("#with-tint").select_option("mix:kelp")
    until(page, "() => document.getElementById('tinted-mix').value === 'kelp'")
    panel.select_option("first-light")
    until(page, "() => /First light/.test(document.querySelector('.picked-tint').textContent)")
    assert page.locator("#with-tint").input_value() == "mix:first-light"
    panel.select_option("")
    page.locator(".picked-tint").wait_for(state="detached")
    assert page.locator("#with-tint").input_value() == ""
    assert page.wrong == []
