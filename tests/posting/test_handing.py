"""Letters handed to a real server on this machine, encrypted and logged in; and a server that misbehaves."""

from dataclasses import replace

import pytest

from quoting.posting.account import Account
from quoting.posting.handing import hand_in
from tests.posting.server import PASSWORD, PATIENCE, USER, port_of_nobody, running

LETTER = b"Subject: A quote\r\nFrom: bench@example.org\r\n\r\n.a point\r\n..two\r\nthe end"
TO = "m@example.org"


@pytest.fixture
def box(tmp_path):
    with running(tmp_path) as found:
        yield found


def account(box, **changes):
    usual = Account("127.0.0.1", box.port, "starttls", USER, PASSWORD, "bench@example.org", box.certificate)
    return replace(usual, **changes)


def hand(box, letter=LETTER, seconds=PATIENCE, **changes):
    """What came of it, and how often the letter was about to go out."""
    begun = []
    outcome = hand_in(account(box, **changes), "bench@example.org", TO, letter, lambda: begun.append(1), seconds)
    return outcome, len(begun)


def test_a_letter_arrives_as_it_is_and_encrypted(box):
    outcome, begun = hand(box)
    assert (outcome.state, outcome.words, begun) == ("sent", "taken", 1)
    assert box.seen == [("MAIL", True, True)]
    assert box.letters == [("bench@example.org", [TO], LETTER + b"\r\n")]


def test_tls_from_the_first_byte_on(tmp_path):
    with running(tmp_path, tls_from_the_start=True) as box:
        outcome, _ = hand(box, security="tls")
        assert outcome.state == "sent"
        assert box.letters[0][2] == LETTER + b"\r\n"


def test_line_ends_of_any_kind_become_those_of_the_net(box):
    hand(box, b"A: b\n\nfirst\rsecond\r\nthird\n")
    assert box.letters[0][2] == b"A: b\r\n\r\nfirst\r\nsecond\r\nthird\r\n"


@pytest.mark.parametrize("changes", [{"password": "wrong"}, {"user": "somebody"}])
def test_a_refused_login_leaves_the_letter_waiting(box, changes):
    outcome, begun = hand(box, **changes)
    assert (outcome.state, begun, box.letters) == ("waiting", 0, [])
    assert "refuses user name or password" in outcome.words


def test_without_a_login_such_a_server_takes_nothing(box):
    outcome, begun = hand(box, user="")
    assert (outcome.state, begun, box.letters) == ("refused", 0, [])


def test_a_server_without_encryption_gets_neither_password_nor_letter(tmp_path):
    with running(tmp_path, encrypts=False) as box:
        outcome, begun = hand(box)
        assert (outcome.state, begun, box.letters, box.seen) == ("waiting", 0, [], [])
        assert "no encryption" in outcome.words


def test_a_certificate_that_nobody_vouches_for_gets_nothing(box):
    outcome, begun = hand(box, trusted=None)
    assert (outcome.state, begun, box.letters, box.seen) == ("waiting", 0, [], [])
    assert "certificate" in outcome.words


def test_a_certificate_for_another_name_gets_nothing(box):
    outcome, begun = hand(box, server="localhost")
    assert (outcome.state, begun, box.letters) == ("waiting", 0, [])


def test_a_refused_recipient_is_refused_for_good(box):
    box.rcpt = ["550 no such person here"]
    outcome, begun = hand(box)
    assert (outcome.state, outcome.words, begun, box.letters) == ("refused", "no such person here", 0, [])


@pytest.mark.parametrize("step", ["mail", "rcpt", "data"])
def test_try_later_means_that_it_waits_and_then_it_goes(box, step):
    setattr(box, step, ["451 try again later"])
    outcome, _ = hand(box)
    assert (outcome.state, outcome.words, box.letters) == ("waiting", "try again later", [])
    outcome, _ = hand(box)
    assert (outcome.state, len(box.letters)) == ("sent", 1)


def test_a_letter_refused_when_it_was_read_is_refused(box):
    box.data = ["554 not such letters"]
    outcome, begun = hand(box)
    assert (outcome.state, outcome.words, begun) == ("refused", "not such letters", 1)


@pytest.mark.parametrize("drop", ["data", "within"])
def test_a_line_that_breaks_before_the_end_leaves_the_letter_waiting(box, drop):
    """The server has not the last line, so it must not deliver (RFC 5321, section 4.1.1.4)."""
    box.drop = drop
    outcome, begun = hand(box, LETTER + b"\r\nx" * 3_000_000)
    assert (outcome.state, begun, box.letters) == ("waiting", 0, [])
    assert "broke before the letter was through" in outcome.words


def test_a_line_that_breaks_after_the_end_is_told_as_unsure(box):
    box.drop = "end"
    outcome, begun = hand(box)
    assert (outcome.state, begun, len(box.letters)) == ("unsure", 1, 1)


@pytest.mark.parametrize("answer", ["ok", "taken", "150 soon", "354 go on", "250 " + "x" * 10_000])
def test_an_answer_that_means_nothing_is_told_as_unsure(box, answer):
    """The server has the whole letter, and may deliver it: it is not for us to send it once more."""
    box.answer["END"] = answer
    outcome, begun = hand(box)
    assert (outcome.state, begun, len(box.letters)) == ("unsure", 1, 1)


@pytest.mark.parametrize("answer", ["250 fine", "150 soon", "what"])
def test_a_server_that_does_not_ask_for_the_letter_does_not_get_it(box, answer):
    """Only 354 does (RFC 5321, section 4.3.2); whatever else it said, it would take the letter for commands."""
    box.answer["DATA"] = answer
    outcome, begun = hand(box)
    assert (outcome.state, begun, box.letters) == ("waiting", 0, [])


@pytest.mark.parametrize("changes", [{"password": "geheimnißvoll"}, {"user": "jörg"}])
def test_a_login_in_other_letters_is_told_and_the_letter_waits(box, changes):
    outcome, begun = hand(box, **changes)
    assert (outcome.state, begun, box.letters) == ("waiting", 0, [])
    assert "ASCII letters only" in outcome.words


def test_an_address_in_other_letters_is_refused_in_words(box):
    outcome = hand_in(account(box), "bench@example.org", "jörg@example.org", LETTER, lambda: None, PATIENCE)
    assert (outcome.state, box.letters) == ("refused", [])
    assert "letters beyond ASCII" in outcome.words


def hand_to_silence(box, slow):
    """Hand a letter to a server that never answers at that step; more patiently where it was slow before, too."""
    box.slow = slow
    for seconds in (0.5, 5.0, PATIENCE):
        outcome, begun = hand(box, seconds=seconds)
        if box.reached:
            break
    return outcome, begun


def test_a_server_too_slow_before_the_letter_leaves_it_waiting(box):
    outcome, begun = hand_to_silence(box, "rcpt")
    assert (outcome.state, begun, box.letters) == ("waiting", 0, [])
    assert "did not answer in time" in outcome.words


def test_a_server_too_slow_after_the_letter_is_told_as_unsure(box):
    outcome, begun = hand_to_silence(box, "end")
    assert (outcome.state, begun, len(box.letters)) == ("unsure", 1, 1)


def test_nobody_at_home_leaves_it_waiting(box):
    with port_of_nobody() as port:
        outcome, begun = hand(box, port=port)
    assert (outcome.state, begun) == ("waiting", 0)
    assert "cannot be reached" in outcome.words
    outcome, _ = hand(box, server="no-such-host.invalid")
    assert outcome.state == "waiting"


def test_where_it_cannot_be_written_down_that_a_letter_goes_out_none_does(box):
    def full():
        raise OSError("no space left")

    with pytest.raises(OSError, match="no space left"):
        hand_in(account(box), "bench@example.org", TO, LETTER, full, 5.0)
    assert box.letters == []


def test_a_password_is_never_shown():
    assert PASSWORD not in repr(Account("a", 1, "tls", USER, PASSWORD))
