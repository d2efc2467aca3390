"""Never sent twice, never lost: whatever the server does, and wherever the command is cut short."""

import os
import shutil
import sys
from datetime import timedelta
from pathlib import Path

import pytest

from quoting.posting import outbox
from quoting.posting.account import Account, NoAccountError, read_account
from quoting.posting.outbox import BusyError, SentError, letters, put_out, send
from quoting.quoted.armor import address
from quoting.quoted.private import OpenToOthersError
from quoting.quoted.register import Register
from quoting.quoted.sealing import sealed
from tests.posting.server import PASSWORD, PATIENCE, USER, running
from tests.quoted.quotes import DAY, KEY, LAST, plain

CORNER = Path(__file__).parents[1] / "shops" / "corner"
TO = "m@example.org"
LETTER = b"From: Shop <desk@example.org>\r\nTo: M <m@example.org>\r\nSubject: A quote\r\n\r\nwords\r\n"


@pytest.fixture
def box(tmp_path):
    with running(tmp_path) as found:
        yield found


@pytest.fixture
def register(tmp_path):
    return Register(Path(shutil.copytree(CORNER, tmp_path / "corner")))


def issue(register, customer="Ms. Marrable"):
    def link(number):
        return address("https://shop.example", sealed({**plain(), "number": number}, KEY.id, KEY.sign))

    return register.issue(customer, TO, ("261125-AAAAA", "261125-BBBBB"), link)


def account(box):
    return Account("127.0.0.1", box.port, "starttls", USER, PASSWORD, "", box.certificate)


def states(register):
    return [one.state for one in letters(register)]


def test_a_letter_waits_goes_out_once_and_stays_told(register, box):
    entry = issue(register)
    letter = put_out(register, entry, TO, LETTER)
    path = register.shop / "private/outbox" / letter.file
    assert (letter.state, path.read_bytes()) == ("waiting", LETTER)
    if sys.platform != "win32":
        assert path.stat().st_mode & 0o777 == 0o600
    ((one, outcome),) = send(register, account(box), DAY)
    assert (one.number, outcome.state) == (entry.number, "sent")
    assert states(register) == ["sent"]
    assert register.entry(entry.number).last("letter")["words"] == "taken"
    assert box.letters[0][0] == "desk@example.org"
    assert send(register, account(box), DAY) == []
    assert len(box.letters) == 1


def test_what_went_out_goes_out_again_only_where_asked(register, box):
    entry = issue(register)
    put_out(register, entry, TO, LETTER)
    send(register, account(box), DAY)
    with pytest.raises(SentError, match=r"to m@example.org went out on .*--again"):
        put_out(register, entry, TO, LETTER)
    assert send(register, account(box), DAY) == []
    put_out(register, entry, "other@example.org", LETTER)
    put_out(register, entry, TO, LETTER, again=True)
    assert [outcome.state for _, outcome in send(register, account(box), DAY)] == ["sent", "sent"]
    assert len(box.letters) == 3


def test_later_then_taken(register, box):
    put_out(register, issue(register), TO, LETTER)
    box.rcpt = ["450 try later"]
    assert [outcome.state for _, outcome in send(register, account(box), DAY)] == ["waiting"]
    assert states(register) == ["waiting"]
    assert [outcome.state for _, outcome in send(register, account(box), DAY)] == ["sent"]
    assert len(box.letters) == 1


def test_refused_stays_refused_until_written_anew(register, box):
    entry = issue(register)
    put_out(register, entry, TO, LETTER)
    box.rcpt = ["550 nobody"]
    send(register, account(box), DAY)
    assert (states(register), letters(register)[0].words) == (["refused"], "nobody")
    assert send(register, account(box), DAY) == []
    put_out(register, entry, TO, LETTER)
    assert states(register) == ["waiting"]


@pytest.mark.parametrize("how", ["drop", "slow"])
def test_unsure_is_not_sent_again_by_itself(register, box, how):
    entry = issue(register)
    put_out(register, entry, TO, LETTER)
    setattr(box, how, "end")
    for seconds in (0.5, 5.0, PATIENCE):
        (outcome,) = (outcome for _, outcome in send(register, account(box), DAY, seconds=seconds))
        if box.letters:  # else this machine was slow, and not the server alone: the letter waits
            break
    assert outcome.state == "unsure"
    assert states(register) == ["unsure"]
    setattr(box, how, "")
    assert send(register, account(box), DAY) == []
    with pytest.raises(SentError, match="may have gone out"):
        put_out(register, entry, TO, LETTER)
    assert len(box.letters) == 1


def test_only_the_letters_of_one_quote(register, box):
    one, other = issue(register), issue(register, "Mr. Quill")
    for entry in (one, other):
        put_out(register, entry, TO, LETTER)
    assert [letter.number for letter, _ in send(register, account(box), DAY, other.number)] == [other.number]
    assert states(register) == ["waiting", "sent"]


class CutShortError(BaseException):
    """Stands for the end of the process."""


@pytest.mark.parametrize("step", range(4))
def test_cut_short_at_any_step_a_letter_is_neither_lost_nor_sent_twice(register, box, monkeypatch, step):
    """The register is written to before and after: the process ends before or after each of the two."""
    put_out(register, issue(register), TO, LETTER)
    enter, count = outbox._enter, [0]

    def cut(*words):
        count[0] += 1
        if step == 2 * count[0] - 2:
            raise CutShortError
        enter(*words)
        if step == 2 * count[0] - 1:
            raise CutShortError

    monkeypatch.setattr(outbox, "_enter", cut)
    with pytest.raises(CutShortError):
        send(register, account(box), DAY)
    monkeypatch.undo()
    went_out = len(box.letters)
    state = states(register)[0]
    # Before "begun" stands in the register nothing went out; after it nobody can tell until "sent" stands there
    assert (state, went_out) == [("waiting", 0), ("unsure", 0), ("unsure", 1), ("sent", 1)][step]
    send(register, account(box), DAY)
    assert len(box.letters) == (1 if step != 1 else 0)


@pytest.mark.parametrize(("event", "state"), [("withdrawn", "withdrawn"), ("renewed", "renewed"), ("", "expired")])
def test_of_a_quote_that_is_over_no_letter_goes_out(register, box, event, state):
    """It would hold a price that the shop holds no longer."""
    entry = issue(register)
    put_out(register, entry, TO, LETTER)
    if event:
        register.note(entry.number, event)
    day = DAY if event else LAST + timedelta(days=1)
    ((_, outcome),) = send(register, account(box), day)
    assert (outcome.state, outcome.words, box.letters) == ("dropped", f"the quote is {state}", [])
    assert states(register) == ["dropped"]
    assert send(register, account(box), day) == []


def test_on_its_last_day_a_letter_still_goes(register, box):
    put_out(register, issue(register), TO, LETTER)
    assert [outcome.state for _, outcome in send(register, account(box), LAST)] == ["sent"]


def test_a_letter_whose_file_somebody_took_away_is_told_and_stops_no_other(register, box):
    first = put_out(register, issue(register), TO, LETTER)
    put_out(register, issue(register, "Mr. Quill"), TO, LETTER)
    (register.shop / "private/outbox" / first.file).unlink()
    assert [outcome.state for _, outcome in send(register, account(box), DAY)] == ["dropped", "sent"]


def test_a_letter_that_went_out_while_another_command_wrote_the_same_is_not_sent_twice(register, box, monkeypatch):
    """The other command saw that it waits; before it writes, this one sends it."""
    entry = issue(register)
    put_out(register, entry, TO, LETTER)
    place = outbox.folder

    def meanwhile(*words):
        monkeypatch.setattr(outbox, "folder", place)
        send(register, account(box), DAY)
        return place(*words)

    monkeypatch.setattr(outbox, "folder", meanwhile)
    with pytest.raises(SentError):
        put_out(register, entry, TO, LETTER)
    send(register, account(box), DAY)
    assert len(box.letters) == 1


@pytest.mark.skipif(sys.platform == "win32", reason="Windows keeps no two commands apart")
def test_two_commands_do_not_send_at_the_same_time(register, box):
    put_out(register, issue(register), TO, LETTER)
    with outbox._alone(register.shop), pytest.raises(BusyError, match="another command is sending"):
        send(register, account(box), DAY)
    assert len(send(register, account(box), DAY)) == 1


def write(shop, text, rights=0o600):
    folder = shop / "private"
    folder.mkdir(exist_ok=True)
    path = folder / "mail.yaml"
    path.write_text(text, encoding="utf-8")
    path.chmod(rights)
    return path


def test_the_account_is_read_from_a_file_of_its_own(register):
    write(register.shop, 'server: mail.example.org\nuser: bench\npassword: "a: b"\n')
    found, findings = read_account(register.shop)
    assert findings == []
    assert (found.server, found.port, found.security) == ("mail.example.org", 587, "starttls")
    assert (found.user, found.password, found.sender, found.trusted) == ("bench", "a: b", "", None)
    write(register.shop, "server: m.example\nsecurity: tls\nfrom: a@b.example\ncertificate: server.pem\n")
    found, _ = read_account(register.shop)
    assert (found.port, found.sender, found.trusted) == (465, "a@b.example", register.shop / "private/server.pem")


@pytest.mark.skipif(sys.platform == "win32", reason="Windows has no such rights")
@pytest.mark.parametrize("rights", [0o640, 0o604, 0o644])
def test_an_account_that_others_may_read_is_not_used(register, rights):
    write(register.shop, "server: mail.example.org\n", rights)
    with pytest.raises(OpenToOthersError, match="others may read this file"):
        read_account(register.shop)


def test_no_account_is_told_with_what_to_write(register):
    with pytest.raises(NoAccountError, match="server: mail"):
        read_account(register.shop)


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("user: bench\n", "missing"),
        ("server: not a host\n", "wrong-form"),
        ("server: a.example\nsecurity: none\n", "not-a-choice"),
        ("server: a.example\nport: 70000\n", "out-of-range"),
        ("server: a.example\nfrom: nobody\n", "wrong-form"),
        ("server: a.example\npasword: x\n", "unknown-key"),
    ],
)
def test_faults_of_the_account_are_findings(register, text, code):
    write(register.shop, text)
    found, findings = read_account(register.shop)
    assert found is None
    assert [one.code for one in findings] == [code]
    assert all("private" in one.mark.file for one in findings)
    assert os.sep in findings[0].mark.file
