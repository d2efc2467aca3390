"""The orders of a shop: a folder each in ``private/orders``, and what became of them in the ledger of quotes.

Files of an order are written once and never changed.  A line in the ledger makes them count: what a crash left without
such a line is not there, and the next command writes it anew.  So an order is always as before a step, or as after it.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import shutil
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from quoting.keeping.whole import sync_folder
from quoting.orders.model import DamagedError, Order, read_order
from quoting.quoted.ledger import Row
from quoting.quoted.private import FOLDER, folder, write_new
from quoting.quoted.register import Entry, Register

ORDERS, FILE = "orders", "order.json"
EVENT = "order"
# From which state an order comes to each; a lens may be made anew once the lab has it
STEPS: dict[str, tuple[str, ...]] = {
    "sent": ("draft",),
    "received": ("sent",),
    "verified": ("received",),
    "mounted": ("verified",),
    "shipped": ("mounted",),
    "remade": ("sent", "received", "verified", "mounted", "shipped"),
}
STATES = ("draft", *STEPS)
PASSED = ("verified", "mounted", "shipped")


class OrderError(ValueError):
    """Why something cannot be done with an order, in one sentence."""


@dataclass(frozen=True, slots=True)
class Placed:
    """An order as it stands."""

    id: str
    number: str  # of its quote
    customer: str
    state: str
    rows: tuple[Row, ...]

    @property
    def verified(self) -> Row | None:
        """The last verification."""
        return next((row for row in reversed(self.rows) if "result" in row), None)


class Book:
    """The orders of one shop."""

    def __init__(self, register: Register) -> None:
        self.register = register

    def orders(self) -> dict[str, Placed]:
        """All orders, in the order they were made.   Raises OSError."""
        found: dict[str, Placed] = {}
        for entry in self.register.entries().values():
            found |= _orders_of(entry)
        return found

    def placed(self, wanted: str) -> Placed:
        """One order, whichever letters its number is written in.   Raises OrderError, OSError."""
        known = self.orders()
        found = known.get(wanted.strip().upper())
        if found is None:
            listed = f": there is {', '.join(known)}" if known else ""
            raise OrderError(f"there is no order {wanted}{listed}")
        return found

    def place(self, wanted: str) -> Path:
        """The folder of an order."""
        return self.register.shop / FOLDER / ORDERS / wanted

    def read(self, wanted: str) -> Order:
        """What was ordered.   Raises OrderError where its file is away or damaged."""
        path = self.place(wanted) / FILE
        try:
            return read_order(path.read_bytes())
        except FileNotFoundError as fault:
            raise OrderError(f"the file of order {wanted} is away: {path}") from fault
        except DamagedError as fault:
            raise OrderError(f"{path}: {fault}") from fault

    def make(self, order: Order, files: Mapping[str, bytes]) -> Placed:
        """Put a new order down.   Raises OrderError where it is there already, RegisterError, OSError.

        Its files are laid down while the ledger is held: of two commands that order the same, one finds the other's.
        """

        def first(entry: Entry) -> None:
            if order.id in _orders_of(entry):
                raise OrderError(f"order {order.id} was made already")
            self._lay(order.id, files)

        self.register.note(order.quote, EVENT, first, order=order.id, state="draft")
        return self.placed(order.id)

    def move(self, wanted: str, state: str, **more: object) -> Placed:
        """Enter that an order has come to a state.   Raises OrderError where it cannot from where it is."""
        one = self.placed(wanted)

        def first(entry: Entry) -> None:
            may_move(_orders_of(entry)[one.id], state)

        self.register.note(one.number, EVENT, first, order=one.id, state=state, **more)
        return self.placed(one.id)

    def judge(self, seen: Placed, state: str, files: Mapping[str, bytes], **more: object) -> Placed:
        """Enter a verification with its files.   Raises OrderError where the order is no longer as it was seen."""

        def first(entry: Entry) -> None:
            if _orders_of(entry)[seen.id].rows != seen.rows:
                raise OrderError(f"another command has just changed order {seen.id}: nothing was entered")
            self.add(seen.id, files)

        self.register.note(seen.number, EVENT, first, order=seen.id, state=state, **more)
        return self.placed(seen.id)

    def remake(self, wanted: str, order: Order, files: Mapping[str, bytes], reason: str) -> Placed:
        """Make an order anew under another number: one line ends the old one and begins the new."""
        one = self.placed(wanted)
        may_move(one, "remade")

        def first(entry: Entry) -> None:
            may_move(_orders_of(entry)[one.id], "remade")
            self._lay(order.id, files)

        new = {"new": order.id, "reason": reason}
        self.register.note(one.number, EVENT, first, order=one.id, state="remade", **new)
        return self.placed(order.id)

    def add(self, wanted: str, files: Mapping[str, bytes]) -> None:
        """Files more in the folder of an order, each whole; all are written before any takes its name.

        Those that the ledger names count once it does.   Raises OSError.
        """
        place = self.place(wanted)
        sides = {place / f".{name}.new": (place / name, content) for name, content in files.items()}
        for side, (_, content) in sides.items():
            side.unlink(missing_ok=True)
            write_new(side, content)
        for side, (target, _) in sides.items():
            side.replace(target)
        sync_folder(place)

    def _lay(self, wanted: str, files: Mapping[str, bytes]) -> None:
        """The folder of an order that the ledger does not know yet, whole or not at all."""
        if wanted in self.orders():
            raise OrderError(f"order {wanted} was made already")
        above = folder(self.register.shop, ORDERS)
        side, place = above / f".{wanted}.new", above / wanted
        for left in (side, place):  # what a crash left
            remove_folder(left)
        side.mkdir(mode=0o700)
        for name, content in files.items():
            write_new(side / name, content)
        sync_folder(side)
        side.rename(place)
        sync_folder(above)


def may_move(one: Placed, state: str) -> None:
    """Raises OrderError where an order cannot come to a state from where it is."""
    if one.state not in STEPS.get(state, ()):
        before = " or ".join(STEPS.get(state, ()))
        raise OrderError(f"order {one.id} is {one.state}; {state} comes after {before}")
    if state == "verified" or one.verified is None or state == "remade":
        return
    if state in ("mounted", "shipped") and one.verified["result"] != "pass":
        raise OrderError(f"order {one.id} did not pass its verification")


def may_verify(one: Placed, reason: str) -> None:
    """Raises OrderError where an order cannot be verified; one that passed can with the reason why once more."""
    if one.state in PASSED and not reason:
        raise OrderError(f"order {one.id} is {one.state}; to verify it once more, say why with --again")
    if one.state not in PASSED:
        if reason:
            raise OrderError(f"order {one.id} is {one.state}: --again is for one that passed already")
        may_move(one, "verified")


def remove_folder(place: Path) -> bool:
    """Take a folder away under another name first, so that nobody finds a half of it; whether it was there."""
    if not place.exists():
        return False
    gone = place.with_name(f".{place.name.strip('.')}.gone")
    shutil.rmtree(gone, ignore_errors=True)
    place.rename(gone)
    shutil.rmtree(gone)
    return True


def _orders_of(entry: Entry) -> dict[str, Placed]:
    found: dict[str, Placed] = {}
    for row in entry.events:
        if row["event"] != EVENT:
            continue
        old = found.get(row["order"])
        rows = (*old.rows, row) if old else (row,)
        found[row["order"]] = Placed(row["order"], entry.number, entry.customer, row["state"], rows)
        if "new" in row:
            found[row["new"]] = Placed(row["new"], entry.number, entry.customer, "draft", (row,))
    return found
