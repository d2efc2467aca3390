"""The register: what was issued to whom, and what became of it."""

import shutil
from datetime import date, timedelta
from pathlib import Path

import pytest

from quoting.posting.outbox import letters
from quoting.quoted.armor import address
from quoting.quoted.register import Register, RegisterError
from quoting.quoted.sealing import sealed
from tests.quoted.quotes import DAY, KEY, LAST, ordinary, plain

CORNER = Path(__file__).parents[1] / "shops" / "corner"
NUMBERS = ("261125-AAAAA", "261125-BBBBB", "261125-CCCCC")


@pytest.fixture
def register(tmp_path):
    return Register(Path(shutil.copytree(CORNER, tmp_path / "corner")))


def link_of(quote):
    return lambda number: address("https://shop.example", sealed({**quote, "number": number}, KEY.id, KEY.sign))


def issue(register, customer="Ms. Marrable", quote=None, email="m@example.org", instead_of=""):
    return register.issue(customer, email, NUMBERS, link_of(quote or plain()), instead_of)


def test_what_was_issued_is_there_with_all_that_its_link_holds(register):
    entry = issue(register)
    assert (entry.number, entry.customer, entry.email) == ("261125-AAAAA", "Ms. Marrable", "m@example.org")
    assert entry.quote == {**plain(), "number": "261125-AAAAA"}
    assert register.entries() == {"261125-AAAAA": entry}
    assert register.entry(" 261125-aaaaa ") == entry
    assert (entry.state(DAY), entry.state(LAST), entry.state(LAST + timedelta(days=1))) == (
        "issued",
        "issued",
        "expired",
    )


def test_the_same_for_the_same_customer_is_entered_once(register):
    """A command that was cut short after it had entered the quote may be given again."""
    assert issue(register) == issue(register)
    assert len(register.entries()) == 1
    assert register.path.read_bytes().count(b"\n") == 1


def test_no_two_quotes_have_one_number(register):
    assert issue(register, "Ms. Marrable").number == "261125-AAAAA"
    assert issue(register, "Mr. Quill").number == "261125-BBBBB"
    assert issue(register, "Ms. Marrable", ordinary()).number == "261125-CCCCC"
    assert issue(register, "Mr. Quill").number == "261125-BBBBB"
    with pytest.raises(RegisterError, match="no number is free"):
        issue(register, "Mr. Nobody")
    assert len(register.entries()) == 3


def test_what_is_over_is_not_issued_again_under_its_number(register):
    first = issue(register)
    register.note(first.number, "withdrawn", reason="a slip of mine")
    assert issue(register).number == "261125-BBBBB"


@pytest.mark.parametrize("event", ["accepted", "withdrawn", "renewed"])
def test_what_is_over_stays_over(register, event):
    number = issue(register).number
    entry = register.note(number, event, reason="words")
    assert entry.state(DAY) == event
    assert entry.state(date(2099, 1, 1)) == event
    for other in {"accepted", "withdrawn", "renewed"} - ({"withdrawn"} if event == "renewed" else set()):
        with pytest.raises(RegisterError, match=f"{number} was {event} on 20"):
            register.note(number, other)
    assert register.entry(number).events == entry.events


def test_what_was_renewed_may_be_withdrawn_once(register):
    number = issue(register).number
    register.note(number, "renewed", new="261125-BBBBB")
    assert register.note(number, "withdrawn").state(DAY) == "withdrawn"
    with pytest.raises(RegisterError, match="was withdrawn on"):
        register.note(number, "withdrawn")


def test_one_quote_takes_the_place_of_another_in_one_step(register):
    """So no command that is cut short, or another one meanwhile, leaves both open."""
    old = issue(register, "Mr. Quill")
    new = issue(register, instead_of=old.number)
    assert new.number != old.number
    assert register.entry(old.number).state(DAY) == "renewed"
    assert register.entry(old.number).events[-1]["new"] == new.number
    with pytest.raises(RegisterError, match="was renewed on"):
        issue(register, "Ms. Tarn", instead_of=old.number)
    assert list(register.entries()) == [old.number, new.number]


def test_what_was_accepted_meanwhile_is_not_renewed(register):
    old = issue(register, "Mr. Quill")
    register.note(old.number, "accepted", alternative="A")
    before = register.path.read_bytes()
    with pytest.raises(RegisterError, match="was accepted on"):
        issue(register, instead_of=old.number)
    assert register.path.read_bytes() == before


def test_a_quote_does_not_take_its_own_place(register):
    old = issue(register)
    with pytest.raises(RegisterError, match="nothing to renew"):
        issue(register, instead_of=old.number)
    assert register.entry(old.number).state(DAY) == "issued"


def test_a_letter_is_noted_and_a_sent_one_shows(register):
    number = issue(register).number
    letter = {"file": "a.eml", "to": "m@example.org"}
    assert register.note(number, "letter", **letter, state="waiting").state(DAY) == "issued"
    assert register.note(number, "letter", **letter, state="sent").state(DAY) == "sent"
    assert register.note(number, "accepted", alternative="A").state(DAY) == "accepted"


def test_what_is_not_there_is_told(register):
    for act in (lambda: register.entry("261125-ZZZZZ"), lambda: register.note("261125-ZZZZZ", "accepted")):
        with pytest.raises(RegisterError, match="there is no quote 261125-ZZZZZ"):
            act()
    assert not register.path.exists() or register.path.read_bytes() == b""


def test_lines_that_are_no_entries_do_no_harm(register):
    issue(register)
    with register.path.open("ab") as file:
        file.write(b'{"event":"issued","number":"X"}\n{"event":"accepted","number":"261125-ZZZZZ"}\n{}\n')
        file.write(b'{"event":"accepted","number":"261125-AAAAA"}\n{"event":"letter","at":"2026","number":"261125-AAAAA"}\n')
        link = link_of(plain())("261125-DDDDD")
        file.write(f'{{"event":"issued","number":"261125-DDDDD","link":"{link}"}}\n{{"event":"iss'.encode())
    assert list(register.entries()) == ["261125-AAAAA"]
    assert [found.code for found in register.findings()] == ["cut-short"]
    assert letters(register) == []
    assert register.note("261125-AAAAA", "accepted").state(DAY) == "accepted"
