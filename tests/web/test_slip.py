"""A slip pasted into the panel: the fields fill, each piece stands beside how it was read, nothing unread is hidden."""

import re

import pytest
from playwright.sync_api import expect

from tests.web.answered import becomes, within
from tests.web.test_panel import field, visit  # noqa: F401

SLIP = "OD −2.25 −0.75 × 090 add 2.00\nOS -2,50 DS add 2.00 1.5Δ base up\nPD 31.5/32"


def pasted(page, text):
    if not page.locator("#rx-slip").is_visible():
        page.get_by_text("Paste it as text").click()
        within(lambda: page.evaluate("() => bevelbook.readSlip !== undefined"))
    page.locator("#rx-slip").fill(text)


def pieces(page, which="li"):
    return [line.replace("\u00a0", " ") for line in page.locator(f"#rx-slip-pieces {which}").all_inner_texts()]


def test_a_pasted_slip_fills_the_fields_and_shows_how_each_piece_was_read(visit):  # noqa: F811
    page = visit()
    pasted(page, SLIP)
    filled = {
        ("right", "sphere"): "−2.25",
        ("right", "cylinder"): "−0.75",
        ("right", "axis"): "090",
        ("right", "add"): "+2.00",
        ("right", "pd"): "31.5",
        ("left", "sphere"): "−2.50",
        ("left", "cylinder"): "",
        ("left", "prism_up"): "1.5",
        ("left", "pd"): "32",
    }
    becomes(lambda: {key: field(page, *key).input_value() for key in filled}, filled)
    assert pieces(page) == [
        "OD → Right eye",
        "−2.25 → Right eye, sphere −2.25",
        "−0.75 → Right eye, cylinder −0.75",
        "× 090 → Right eye, axis 090°",
        "add 2.00 → Right eye, addition +2.00",
        "OS → Left eye",
        "-2,50 → Left eye, sphere −2.50",
        "DS → The unit of what stands before it",
        "add 2.00 → Left eye, addition +2.00",
        "1.5Δ base up → Left eye, prism 1.5 base up",
        "PD 31.5/32 → Right half of the PD 31.5 mm; left half of the PD 32 mm",
    ]
    assert pieces(page, ".unread") == []
    assert page.locator("#rx-slip-note").inner_text() == "Read. Please compare it with your slip."
    expect(page.locator("#rx-read")).to_contain_text("OD −2.25 −0.75 × 090 add +2.00")
    expect(page.locator("#live-status")).to_contain_text("lens packages")


def test_the_reader_of_slips_comes_when_its_box_is_opened_and_reads_what_stands_there_by_then(visit, address):  # noqa: F811
    page = visit()
    page.goto(f"{address}/frames/cottering/index.html")
    held = []
    page.route("**/slip.js", lambda route: held.append(route))
    assert [url for url in page.asked if url.endswith("slip.js")] == []
    page.get_by_text("Paste it as text").click()
    page.locator("#rx-slip").fill(SLIP)
    within(lambda: held, page)
    assert pieces(page) == []
    held[0].continue_()
    page.locator("#rx-slip-pieces li").first.wait_for()
    expect(field(page, "right", "sphere")).to_have_value("−2.25")
    assert len(held) == 1


def test_where_the_reader_of_slips_does_not_arrive_that_is_said_and_it_is_asked_for_again(visit, address):  # noqa: F811
    page = visit()
    page.goto(f"{address}/frames/cottering/index.html")
    page.route("**/slip.js", lambda route: route.abort())
    page.get_by_text("Paste it as text").click()
    page.locator("#rx-slip-note", has_text="did not arrive").wait_for()
    page.unroute("**/slip.js")
    page.get_by_text("Paste it as text").click()
    pasted(page, SLIP)
    page.locator("#rx-slip-pieces li").first.wait_for()
    assert "OD → Right eye" in pieces(page)


def test_what_was_not_understood_stands_out_and_is_asked_for_before_anything_is_computed(visit):  # noqa: F811
    page = visit()
    pasted(page, "OD -2.25 -0.75 x 9O\nOS -250 DS")
    page.locator("#rx-slip-pieces li").first.wait_for()
    assert pieces(page, ".unread") == [
        "-0.75 → A cylinder without its axis",
        "x → Not understood",
        "9O → Not understood",
        "-250 → Without its point or comma",
    ]
    expect(page.locator("#rx-slip-note")).to_contain_text("“9O”")
    expect(page.locator("#rx-slip")).to_have_accessible_description(re.compile("“9O”"))  # WCAG 2.2, 3.3.1
    for side, name in (("right", "axis"), ("left", "sphere")):
        expect(field(page, side, name)).to_have_value("?")
    expect(page.locator("#rx-read")).to_contain_text("to mend before anything is worked out")
    page.locator("#rx-slip").fill("")  # taken away, it leaves nothing of its own to be mended
    for side, name in (("right", "axis"), ("left", "sphere")):
        expect(field(page, side, name)).to_have_value("")
    field(page, "right", "axis").fill("90")
    field(page, "left", "sphere").fill("-2.50")
    page.locator("#rx-read", has_text="Read as").wait_for()


def test_a_slip_of_contact_lenses_is_refused_by_name_and_changes_nothing(visit):  # noqa: F811
    page = visit(fragment="#od=-6.25,-1.25,10&os=-5.75&pd=31,32")
    pasted(page, "OD -2.25 BC 8.6 DIA 14.2\nOS -2.50 BC 8.6 DIA 14.2")
    page.locator("#rx-slip-pieces li").first.wait_for()
    assert pieces(page, ".unread")[:2] == [
        "BC → Of contact lenses: their powers are not those of glasses",
        "DIA → Of contact lenses: their powers are not those of glasses",
    ]
    expect(field(page, "right", "sphere")).to_have_value("−6.25")


def test_what_a_slip_does_not_say_stays_as_it_was_typed(visit):  # noqa: F811
    page = visit()
    field(page, "right", "pd").fill("31")
    field(page, "left", "pd").fill("32")
    field(page, "right", "height").fill("21")
    page.locator("#rx-read").wait_for()
    field(page, "left", "sphere").focus()
    page.evaluate("() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))")
    pasted(page, "OD -2.25 OS -2.50 PD 63")
    becomes(lambda: [field(page, "right", name).input_value() for name in ("pd", "height")], ["63", "21"])
    pasted(page, "OD -2.25 OS -2.50")
    becomes(lambda: [field(page, side, "pd").input_value() for side in ("right", "left")], ["31", "32"])


@pytest.mark.parametrize("text", ["<b>OD</b> -2.25 <img src=x onerror=alert(1)>", "\U0001f453 OD ½", "‮OD -2.25"])
def test_text_stays_text_whatever_is_pasted(visit, text):  # noqa: F811
    page = visit()
    pasted(page, text)
    page.locator("#rx-slip-pieces .unread").first.wait_for()
    assert page.locator("#rx-slip-pieces img, #rx-slip-pieces b").count() == 0


def test_clear_takes_the_list_away(visit):  # noqa: F811
    page = visit()
    pasted(page, SLIP)
    page.locator("#rx-slip-pieces li").first.wait_for()
    page.get_by_role("button", name="Clear").click()
    expect(page.locator("#rx-slip-pieces li")).to_have_count(0)
    expect(page.locator("#rx-slip-note")).to_be_empty()
