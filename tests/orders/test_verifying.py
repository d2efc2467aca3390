"""What a verification needs before it passes, and what is held of one lens alone."""

import json

import pytest

from quoting.orders.book import OrderError
from tests.orders.shops import DAY, PROGRESSIVE, bevelbook, book, good, ordered, quoted, shop_in, state

PRISM_RX = "OD -4.25 -1.25 x 010 prism 2.0 in / OS -3.75 DS / PD 63"
ONE_EYE = "OD -4.25 -1.25 x 010 prism 2.0 in / PD 63"


@pytest.fixture
def shop(tmp_path):
    return shop_in(tmp_path)


def received(shop, rx, package="bench-159-ar"):
    one = ordered(shop, number=quoted(shop, rx=rx, package=package))
    for step in ("sent", "received"):
        good("order", "mark", one, step, "--shop", shop)
    return one


def held(shop, one, *words):
    """Exit code and what was told."""
    told = bevelbook("verify", one, *words, "--shop", shop, *DAY)
    return told.exit_code, told.output


@pytest.mark.parametrize(
    ("package", "rx", "words", "lacks"),
    [
        ("bench-159-ar", "OD -6.25 -1.25 x 010 / OS -5.75 DS / PD 63", ("--left", "-5.75 DS"), "R power"),
        ("bench-159-ar", PRISM_RX, ("--right", "-4.25 -1.25 x 10", "--left", "-3.75"), "R prism"),
        (*PROGRESSIVE, ("--right", "+1.25 -.75 x 170", "--left", "+1.50"), "R addition"),
        (*PROGRESSIVE, ("--right", "+1.25 -.75 x 170 add=2 pd=31.5", "--left", "+1.50 add=2 pd=32"), "R height"),
    ],
)
def test_what_was_not_read_does_not_pass(shop, package, rx, words, lacks):
    one = received(shop, rx, package)
    code, told = held(shop, one, *words)
    assert code == 1
    assert "NOT YET" in told
    assert lacks in told.partition("Not read: ")[2]
    assert state(shop, one) == "received"
    assert not (shop / f"private/orders/{one}/verified-1-note.txt").exists()


@pytest.mark.parametrize(
    ("read", "code", "row"),
    [
        # (Prentice, and the 0.33 prism diopters or 1.0 mm of ANSI Z80.1 at the reference point of one lens)
        ("in=2.4 up=0", 0, "R horizontal prism"),
        ("in=0 up=0", 1, "R horizontal prism"),
        ("in=2 up=0.9", 1, "R vertical prism"),
    ],
)
def test_prism_of_one_lens_alone_is_held(shop, read, code, row):
    one = received(shop, ONE_EYE)
    found, told = held(shop, one, "--right", f"-4.25 -1.25 x 10 {read}")
    assert (found, row in told) == (code, True)


def test_the_center_of_one_lens_alone_is_held(shop):
    one = received(shop, "OD -5.00 DS / PD 63")
    code, told = held(shop, one, "--right", "-5.00 pd=32.6")
    assert code == 1
    assert "R optical center, from the middle  31.5 mm  32.6 mm  ± 0.50Δ" in told
    assert held(shop, one, "--right", "-5.00 pd=32.5")[0] == 0


def test_lenses_in_the_wrong_rims_are_told(shop):
    one = received(shop, "OD -6.25 -1.25 x 010 / OS -5.75 DS / PD 63")
    assert "exchanged" in held(shop, one, "--right", "-5.75", "--left", "-6.25 -1.25 x 10")[1]
    assert "exchanged" not in held(shop, one, "--right", "-5.00", "--left", "-5.75")[1]


def test_a_value_that_is_written_twice_is_not_taken(shop):
    one = received(shop, ONE_EYE)
    code, told = held(shop, one, "--right", "-4.25 -1.25 x 10 pd=31 pd=32")
    assert (code, "pd is written twice" in told) == (2, True)


def test_a_form_with_a_cylinder_without_axis_is_not_guessed(shop):
    one = received(shop, "OD -6.25 -1.25 x 180 / OS -5.75 DS / PD 63")
    right, left = ({"sphere": -6.25, "cylinder": -1.25, "axis": None}, {"sphere": -5.75, "cylinder": 0, "axis": 180})
    said = {"order": one, "standard": "ansi", "by": "K", "transmittance": None, "found": {"R": right, "L": left}}
    path = shop.parent / "form.json"
    path.write_text(json.dumps(said), encoding="utf-8")
    code, told = held(shop, one, "--from", path)
    assert (code, "a cylinder was read without its axis" in told) == (2, True)


def test_what_did_not_pass_before_must_be_read_again(shop):
    """A PD out of its tolerance is not forgotten by a second verification that leaves it out."""
    one = received(shop, "OD -4.25 -1.25 x 010 / OS -3.75 DS / PD 63")
    powers = ("--right", "-4.25 -1.25 x 10", "--left", "-3.75")
    far = ("--right", "-4.25 -1.25 x 10 pd=34.5", "--left", "-3.75 pd=34.5")
    code, told = held(shop, one, *far)
    assert code == 1
    assert "FAIL" in told
    code, told = held(shop, one, *powers)
    assert code == 1
    assert "NOT YET" in told
    assert "must be read again" in told
    assert state(shop, one) == "received"
    near = ("--right", "-4.25 -1.25 x 10 pd=31.5", "--left", "-3.75 pd=31.5")
    code, told = held(shop, one, *near)
    assert (code, state(shop, one)) == (0, "verified"), told


RX = "OD -4.25 -1.25 x 010 / OS -3.75 DS / PD 63"
GOOD = ("--right", "-4.25 -1.25 x 10", "--left", "-3.75")
BAD = ("--right", "-4.75 -1.25 x 10", "--left", "-3.75")


@pytest.fixture
def passed(shop):
    one = received(shop, RX)
    assert held(shop, one, *GOOD)[0] == 0
    return one


def test_a_wrong_pass_is_held_anew_with_its_reason_and_nothing_is_taken_out(shop, passed):
    ledger = shop / "private/quotes/register.jsonl"
    before = ledger.read_bytes()
    code, told = held(shop, passed, *BAD)
    assert code == 2
    assert "say why with --again" in told
    assert ledger.read_bytes() == before
    good("order", "mark", passed, "mounted", "--shop", shop)
    good("order", "card", passed, "--shop", shop, *DAY)
    before = ledger.read_bytes()
    code, told = held(shop, passed, *BAD, "--again", "those were of another pair")
    assert code == 1
    assert "FAIL" in told
    assert "record card in its folder is of before" in told
    assert state(shop, passed) == "received"
    assert ledger.read_bytes().startswith(before)
    assert "reason those were of another pair" in good("order", "show", passed, "--shop", shop, *DAY).stdout
    assert bevelbook("order", "card", passed, "--shop", shop, *DAY).exit_code == 2
    card = json.loads(good("order", "card", passed, "--unverified", "--shop", shop, *DAY, "--json").stdout)
    assert card["verified"] is None
    assert bevelbook("order", "mark", passed, "mounted", "--shop", shop).exit_code == 2
    # What failed now has to be read again, as always
    assert held(shop, passed, *GOOD)[0] == 0
    assert state(shop, passed) == "verified"


def test_holding_anew_leaves_out_all_that_was_read_before(shop, passed):
    code, told = held(shop, passed, "--left", "-3.75", "--again", "the right one was not read")
    assert (code, state(shop, passed)) == (1, "received")
    assert "Not read: R power" in told


def test_again_is_for_what_passed(shop):
    one = received(shop, RX)
    code, told = held(shop, one, *GOOD, "--again", "why not")
    assert code == 2
    assert "for one that passed already" in told
    assert state(shop, one) == "received"


def test_of_two_verifications_at_once_one_counts(shop):
    """Both have seen the order before either was entered: the second writes nothing, not over the first's file."""
    one = received(shop, RX)
    seen = book(shop).placed(one)
    book(shop).judge(seen, "received", {"verified-1.json": b"first"}, result="part", file="verified-1.json", by="")
    with pytest.raises(OrderError, match="another command"):
        book(shop).judge(seen, "verified", {"verified-1.json": b"second"}, result="pass", file="verified-1.json", by="")
    assert (book(shop).place(one) / "verified-1.json").read_bytes() == b"first"
    assert state(shop, one) == "received"
