"""A customer taken out of everything that the shop keeps: orders, letters, quotes and what became of them.

Folders and letters go first and the register last: it alone knows whose they are, so that a command that was cut short
can be called again and finds the rest.  An issued link that is in other hands still opens: it holds no name.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from quoting.orders.book import ORDERS, Book, remove_folder
from quoting.posting.outbox import OUTBOX
from quoting.quoted.private import FOLDER
from quoting.quoted.register import Entry, Register


@dataclass(frozen=True, slots=True)
class Known:
    """What there is of a customer."""

    quotes: tuple[Entry, ...]
    orders: tuple[str, ...]
    folders: tuple[Path, ...]  # of orders, and what is left of such a folder
    letters: tuple[Path, ...]


def plain(name: str) -> str:
    """A name as it is compared: upper case, lower case and blanks do not count."""
    return " ".join(name.split()).casefold()


def known(register: Register, customer: str, email: str) -> Known:
    """Everything of who is called so, or has this address; with both, of who has both.   Raises OSError."""
    wanted = plain(customer)
    quotes = [
        entry
        for entry in register.entries().values()
        if wanted in (plain(entry.customer), plain(entry.email)) and plain(email) in ("", plain(entry.email))
    ]
    numbers = {entry.number for entry in quotes}
    orders = [one.id for one in Book(register).orders().values() if one.number in numbers]
    folders = _of(register.shop / FOLDER / ORDERS, "", [*numbers, *orders])
    letters = _of(register.shop / FOLDER / OUTBOX, ".eml", numbers)
    return Known(tuple(quotes), tuple(orders), tuple(folders), tuple(letters))


def _of(place: Path, ending: str, numbers: Iterable[str]) -> list[Path]:
    """What lies there of these quotes and orders, also what a crash left and no line of the register names."""
    found = sorted(place.iterdir()) if place.is_dir() else []
    heads = tuple(f"{number}{end}" for number in numbers for end in "-.")
    return [path for path in found if path.name.endswith(ending) and f"{path.name.lstrip('.')}.".startswith(heads)]


def addresses(found: Known) -> list[str]:
    """The different mail addresses among the quotes: several may be several people of one name."""
    return sorted({plain(entry.email) for entry in found.quotes if entry.email})


def forget(register: Register, found: Known) -> None:
    """Take all of it away.   Raises OSError; then the same command takes away what is left."""
    for place in found.folders:
        remove_folder(place)
    for path in found.letters:
        path.unlink(missing_ok=True)
    register.forget(entry.number for entry in found.quotes)
