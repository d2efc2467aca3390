"""What a field takes, and how its written text is read; here the kinds that are words.

A `Kind` is asked by the field, never guessed from the text: ``no`` is a text where a text belongs, and a refusal
where a yes or no does not.

>>> flag().read("no"), text().read("no")
(False, 'no')
>>> fault = choice(("oval", "panto")).read("Pantoo")
>>> fault.code, fault.said, fault.hint
('not-a-choice', 'must be one of oval, panto, not `Pantoo`', 'did you mean `panto`?')
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from difflib import get_close_matches
from functools import cache
from typing import Generic, TypeVar

from quoting.written import days

T = TypeVar("T")

WORD = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*", re.ASCII)
COLOR = re.compile(r"#[0-9a-f]{6}", re.ASCII | re.IGNORECASE)
DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", re.ASCII)  # ISO 8601 calendar date, extended format
FLAGS = {"yes": True, "true": True, "no": False, "false": False}
WORD_LENGTH = 60


@dataclass(frozen=True, slots=True)
class Fault:
    """Why a text is not a value of its kind; ``said`` goes on from the field's name."""

    code: str
    said: str
    hint: str = ""


@dataclass(frozen=True, slots=True)
class Kind(Generic[T]):
    """What belongs in a field, in words with an example, and how its text is read."""

    meant: str
    example: str
    placeholder: T  # stands in for a value that could not be read
    read: Callable[[str], T | Fault]


def quoted(said: str, most: int = 40) -> str:
    """What someone wrote, on one line and not too long, between backticks."""
    line = " ".join(said[: most * 4].split())
    return f"`{line}`" if len(line) <= most else f"`{line[: most - 3]}...`"


def refusal(code: str, meant: str, example: str, said: str, hint: str = "") -> Fault:
    """The usual fault: what belongs here, what stands here instead, and what to write."""
    return Fault(code, f"must be {meant}, not {quoted(said)}", hint or f"write for example {example}")


def nearest(said: str, known: Sequence[str]) -> str:
    """The known name that was probably meant, or nothing.

    >>> nearest("Panto", ["oval", "panto"]), nearest("zebra", ["oval", "panto"])
    ('panto', '')
    """
    folded = {name.casefold(): name for name in known}
    found = get_close_matches(said[:80].casefold(), list(folded), n=1, cutoff=0.6)
    return folded[found[0]] if found else ""


def meant_hint(said: str, known: Sequence[str]) -> str:
    """The question whether a known name was meant, or nothing."""
    name = nearest(said, known)
    return f"did you mean `{name}`?" if name else ""


@cache
def flag() -> Kind[bool]:
    """yes or no; true and false are the same."""

    def read(said: str) -> bool | Fault:
        value = FLAGS.get(said.lower())
        return refusal("not-yes-or-no", "yes or no", "yes", said, "write yes or no") if value is None else value

    return Kind("yes or no", "yes", False, read)


@cache
def choice(known: tuple[str, ...]) -> Kind[str]:
    """One of these words."""
    meant = "one of " + ", ".join(known)

    def read(said: str) -> str | Fault:
        if said in known:
            return said
        hint = meant_hint(said, known) or "take one of these words"
        return Fault("not-a-choice", f"must be {meant}, not {quoted(said)}", hint)

    return Kind(meant, known[0], known[0], read)


@cache
def word(example: str = "r150") -> Kind[str]:
    """An id: lower-case letters, digits and single hyphens, at most 60 characters."""
    meant = "lower-case letters a-z, digits and single hyphens"

    def read(said: str) -> str | Fault:
        if WORD.fullmatch(said) and len(said) <= WORD_LENGTH:
            return said
        if len(said) > WORD_LENGTH:
            return Fault("too-long", f"has {len(said)} characters; there is room for {WORD_LENGTH}", "shorten it")
        better = re.sub(r"[^a-z0-9]+", "-", said.lower(), flags=re.ASCII).strip("-")
        return refusal("not-an-id", meant, example, said, f"write {better}" if better else "")

    return Kind(meant, example, "", read)


@cache
def text(most: int = 500, example: str = "a few words") -> Kind[str]:
    """Words for people to read, on one line, at most so many characters."""
    prose = sentences(most, example)

    def read(said: str) -> str | Fault:
        if "\n" in said:
            hint = "write it on one line; in double quotes \\n breaks it too"
            return Fault("line-break", "is broken into lines, and there is room for one", hint)
        return prose.read(said)

    return Kind("text", example, "", read)


@cache
def sentences(most: int = 500, example: str = "a sentence") -> Kind[str]:
    """Words for people to read that may be written on several lines and become one, at most so many characters."""

    def read(said: str) -> str | Fault:
        value = " ".join(said.split())
        if len(value) <= most:
            return value
        return Fault("too-long", f"has {len(value)} characters; there is room for {most}", "shorten it")

    return Kind("text", example, "", read)


@cache
def form(pattern: str, meant: str, example: str) -> Kind[str]:
    """A text that a regular expression describes, such as a currency; at most 200 characters."""
    shape = re.compile(pattern, re.ASCII)

    def read(said: str) -> str | Fault:
        if len(said) <= 200 and shape.fullmatch(said):
            return said
        return refusal("wrong-form", meant, example, said)

    return Kind(meant, example, "", read)


@cache
def color() -> Kind[str]:
    """A color as ``#rrggbb``; comes back in lower case."""
    meant = "a color in quotes, # and six digits or letters a to f"

    def read(said: str) -> str | Fault:
        if COLOR.fullmatch(said):
            return said.lower()
        hint = 'put the # in front: "#' + said + '"' if COLOR.fullmatch("#" + said) else ""
        return refusal("not-a-color", meant, '"#3b2a1e"', said, hint)

    return Kind(meant, '"#3b2a1e"', "#000000", read)


def _day_or_none(said: str) -> date | None:
    try:
        return date.fromisoformat(said) if DAY.fullmatch(said) else None
    except ValueError:
        return None


@cache
def day() -> Kind[date]:
    """A day as year-month-day (ISO 8601)."""
    meant = "a day as year-month-day"

    def read(said: str) -> date | Fault:
        value = _day_or_none(said)
        if value is not None:
            return value
        hint = f"write {' or '.join(meant_days)}" if (meant_days := days.meant(said)) else ""
        hint = "look at a calendar: there is no such day" if DAY.fullmatch(said) else hint
        return refusal("not-a-date", meant, "2026-09-01", said, hint)

    return Kind(meant, "2026-09-01", date.min, read)
