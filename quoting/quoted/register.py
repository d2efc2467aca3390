"""The register of a shop's quotes: what was issued to whom, and what became of it.

It lies in ``private/quotes`` and never leaves this machine: names and prescriptions stand there.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field, replace
from datetime import UTC, date, datetime
from pathlib import Path

from quoting.findings import Finding
from quoting.quoted.ledger import Ledger, Row
from quoting.quoted.positional import day_number
from quoting.quoted.private import FOLDER, folder
from quoting.quoted.records import Quote
from quoting.quoted.sealing import opened

QUOTES, FILE = "quotes", "register.jsonl"

# The events after which a quote is over; no other may follow, but that one that was renewed is withdrawn: its link
# still holds its price
OVER = {"accepted", "withdrawn", "renewed"}


class RegisterError(ValueError):
    """Why something cannot be done with a quote, in one sentence."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One quote and what became of it."""

    number: str
    at: str  # when it was issued, UTC
    customer: str
    email: str
    link: str
    quote: Quote
    events: tuple[Row, ...] = field(default=())

    @property
    def text(self) -> str:
        """The text of its link."""
        return self.link.rpartition("#")[2]

    def last(self, *kinds: str) -> Row | None:
        """The last event of these kinds."""
        return next((one for one in reversed(self.events) if one["event"] in kinds), None)

    def state(self, day: date) -> str:
        """``issued``, ``sent``, ``accepted``, ``withdrawn``, ``renewed`` or ``expired``."""
        over = self.last(*OVER)
        if over is not None:
            return str(over["event"])
        if day_number(day) > self.quote["expires"]:
            return "expired"
        letter = self.last("letter")
        return "sent" if letter is not None and letter["state"] == "sent" else "issued"


def now() -> str:
    """The time to the second, UTC, as ISO 8601 has it."""
    return datetime.now(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")


class Register:
    """The quotes of one shop."""

    def __init__(self, shop: Path) -> None:
        self.shop = shop
        self._ledger = Ledger(shop / FOLDER / QUOTES / FILE)

    @property
    def path(self) -> Path:
        return self._ledger.path

    def forget(self, numbers: Iterable[str]) -> None:
        """Take quotes out of the file with all that became of them, names and prescriptions too.   Raises OSError."""
        gone = set(numbers)
        self._ledger.keep(lambda row: str(row.get("number", "")) not in gone)

    def findings(self) -> tuple[Finding, ...]:
        """What is wrong with the file: lines that were cut short."""
        return self._ledger.read().findings

    def entries(self) -> dict[str, Entry]:
        """All quotes by number, in the order they were issued.   Raises OSError."""
        return _entries(self._ledger.read().rows)

    def entry(self, number: str) -> Entry:
        """One quote, whichever letters its number is written in.   Raises RegisterError."""
        return _one(self.entries(), number)

    def issue(
        self, customer: str, email: str, numbers: Iterable[str], link: Callable[[str], str], instead_of: str = ""
    ) -> Entry:
        """Enter a new quote under the first of these numbers that is free; ``link`` makes its link.

        The very same quote for the very same customer is not entered twice while it is not over.  That with the number
        ``instead_of`` is over in the same step.   Raises RegisterError where it cannot be, OSError.
        """
        folder(self.shop, QUOTES)
        found: list[Entry] = []

        def decide(rows: list[Row]) -> list[Row]:
            known = _entries(rows)
            if instead_of:
                _may_follow(_one(known, instead_of), "renewed")
            for number in numbers:
                made = link(number)
                there = known.get(number)
                over = [{"at": now(), "event": "renewed", "number": instead_of, "new": number}] if instead_of else []
                if there is None:
                    row = {"at": now(), "event": "issued", "number": number, "customer": customer, "email": email}
                    found.extend(_entries([{**row, "link": made}]).values())
                    return [{**row, "link": made}, *over]
                if (there.customer, there.link) == (customer, made) and there.last(*OVER) is None:
                    if number == instead_of:
                        raise RegisterError(f"quote {number} is of this very day and these prices: nothing to renew")
                    found.append(there)
                    return over
            raise RegisterError("no number is free for this quote")

        self._ledger.decide(decide)
        return found[0]

    def open_for(self, number: str, event: str) -> None:
        """Raises RegisterError where a quote is over, so that this event cannot follow."""
        _may_follow(self.entry(number), event)

    def note(self, number: str, event: str, first: Callable[[Entry], None] | None = None, **more: object) -> Entry:
        """Enter what became of a quote.   Raises RegisterError where it is over already, OSError.

        ``first`` is called with the quote as it stands while nobody else can enter anything; where it raises,
        nothing is entered.
        """

        def decide(rows: list[Row]) -> list[Row]:
            found = _one(_entries(rows), number)
            _may_follow(found, event)
            if first is not None:
                first(found)
            return [{"at": now(), "event": event, "number": found.number, **more}]

        self.entry(number)
        self._ledger.decide(decide)
        return self.entry(number)


def _may_follow(entry: Entry, event: str) -> None:
    over = entry.last(*OVER)
    allowed = {("renewed", "withdrawn"), ("accepted", "order")}
    if over is not None and event != "letter" and (over["event"], event) not in allowed:
        raise RegisterError(f"{entry.number} was {over['event']} on {over['at'][:10]}")


def _one(entries: dict[str, Entry], number: str) -> Entry:
    found = entries.get(number.strip().upper())
    if found is None:
        raise RegisterError(f"there is no quote {number} in the register")
    return found


# What the lines of an event hold at the least; what somebody wrote by hand without it counts for nothing
HOLDS = {"issued": {"at", "customer", "email", "link"}, "letter": {"at", "file", "to", "state"}}


def _entries(rows: list[Row]) -> dict[str, Entry]:
    found: dict[str, Entry] = {}
    for row in rows:
        number = str(row.get("number", ""))
        if not HOLDS.get(str(row.get("event")), {"at", "event"}) <= row.keys():
            continue
        if row["event"] == "issued":
            quote = opened(str(row.get("link", ""))).quote
            if quote is not None and number not in found:
                found[number] = Entry(number, row["at"], row["customer"], row["email"], row["link"], quote)
        elif number in found:
            found[number] = replace(found[number], events=(*found[number].events, row))
    return found
