"""The outbox: each letter is a file, and what became of it stands in the register before and after each step.

A letter waits until a server has taken (``sent``) or refused it.  Just before a server could deliver it, ``begun`` is
entered; where no answer follows, because the line broke or the machine stopped, nobody can tell: the letter is
``unsure`` and is not sent again by itself.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import hashlib
import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date
from email import message_from_bytes
from email.policy import default
from pathlib import Path

from quoting.posting.account import Account
from quoting.posting.handing import Outcome, hand_in
from quoting.quoted.ledger import Row
from quoting.quoted.private import FOLDER, folder, write_new
from quoting.quoted.register import Entry, Register

if sys.platform != "win32":
    import fcntl

OUTBOX, LOCK = "outbox", ".lock"
# How a quote stands of which no letter goes out any more: it would hold a price that is held no longer
OVER = ("withdrawn", "renewed", "expired")


class SentError(ValueError):
    """The letter went out already, or may have; says so in one sentence."""


class BusyError(ValueError):
    """Another command is sending."""


@dataclass(frozen=True, slots=True)
class Letter:
    """One letter of the outbox."""

    number: str
    file: str
    to: str
    state: str  # waiting, sent, refused, unsure, dropped
    words: str
    at: str


def letters(register: Register) -> list[Letter]:
    """All letters as they stand, in the order they were written."""
    return [one for entry in register.entries().values() for one in _letters_of(entry)]


def _letters_of(entry: Entry) -> list[Letter]:
    found = {row["file"]: _letter(entry, row) for row in entry.events if row["event"] == "letter"}
    return list(found.values())


def _letter(entry: Entry, row: Row) -> Letter:
    state = "unsure" if row["state"] == "begun" else row["state"]
    words = row.get("words", "") or ("the command was cut short" if row["state"] == "begun" else "")
    return Letter(entry.number, row["file"], row["to"], state, words, row["at"])


def put_out(register: Register, entry: Entry, to: str, letter: bytes, again: bool = False) -> Letter:
    """Write a letter down and enter that it waits.   Raises SentError, RegisterError, OSError."""
    file = f"{entry.number}-{hashlib.sha256(to.lower().encode()).hexdigest()[:8]}.eml"
    path = folder(register.shop, OUTBOX) / file

    def write(now: Entry) -> None:
        """While the register is held: so no letter waits that another command has just sent."""
        there = next((one for one in _letters_of(now) if one.file == file), None)
        if there is not None and there.state in ("sent", "unsure") and not again:
            when = there.at[:16].replace("T", " ")
            how = "went out" if there.state == "sent" else "may have gone out"
            raise SentError(f"the letter of {entry.number} to {to} {how} on {when} UTC; --again sends it once more")
        side = path.with_name(f".{file}")
        side.unlink(missing_ok=True)
        write_new(side, letter)
        side.replace(path)

    noted = register.note(entry.number, "letter", write, file=file, to=to, state="waiting")
    return next(one for one in _letters_of(noted) if one.file == file)


def send(
    register: Register, account: Account, day: date, only: str = "", seconds: float = 30.0
) -> list[tuple[Letter, Outcome]]:
    """Hand in all letters that wait, or those of one quote; of quotes that are over on that day none goes out.

    Raises BusyError, OSError.
    """
    with _alone(register.shop):
        waiting = [one for one in letters(register) if one.state == "waiting" and only in ("", one.number)]
        return [(one, _send(register, account, one, day, seconds)) for one in waiting]


def _send(register: Register, account: Account, letter: Letter, day: date, seconds: float) -> Outcome:
    told = {"file": letter.file, "to": letter.to}
    over = register.entry(letter.number).state(day)
    path = register.shop / FOLDER / OUTBOX / letter.file
    if over in OVER or not path.exists():
        why = f"the quote is {over}" if over in OVER else "its file is not in the outbox any more"
        outcome = Outcome("dropped", why)
        _enter(register, letter, {**told, "state": outcome.state, "words": outcome.words})
        return outcome
    raw = path.read_bytes()
    sender = account.sender or sender_of(raw)
    outcome = hand_in(
        account, sender, letter.to, raw, lambda: _enter(register, letter, {**told, "state": "begun"}), seconds
    )
    _enter(register, letter, {**told, "state": outcome.state, "words": outcome.words})
    return outcome


def _enter(register: Register, letter: Letter, row: Row) -> None:
    register.note(letter.number, "letter", **row)


def sender_of(raw: bytes) -> str:
    """The address that a letter says it is from."""
    return str(message_from_bytes(raw, policy=default)["From"].addresses[0].addr_spec)


@contextmanager
def _alone(shop: Path) -> Iterator[None]:
    """Keep other commands from sending at the same time.   Raises BusyError."""
    handle = os.open(folder(shop, OUTBOX) / LOCK, os.O_RDWR | os.O_CREAT, 0o600)
    try:
        if sys.platform != "win32":
            try:
                fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
            except BlockingIOError as fault:
                said = "another command is sending letters just now; what waits then goes with `bevelbook quotes send`"
                raise BusyError(said) from fault
        yield
    finally:
        os.close(handle)
