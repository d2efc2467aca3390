"""The pieces of a typed slip: numbers, words, dates, symbols, each with its place.  Nothing is understood here.

>>> [lexeme.plain for lexeme in lexemes(Slip("OD −2,25-0.75x90"))]
['OD', '-2,25', '-0.75', 'x', '90']
>>> [lexeme.kind for lexeme in lexemes(Slip("PD 31.5/32, 4 May 2026"))]
['word', 'number', 'symbol', 'number', 'symbol', 'date']
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
from bisect import bisect_right
from dataclasses import dataclass, field
from typing import Literal

from quoting.findings import Mark

Kind = Literal["number", "broken", "date", "acuity", "word", "symbol", "break"]

# What mail programs and telephones make of a minus, a times, a degree or a prism sign (Unicode names).
# Every entry is one character for one character, so that places stay true.
PLAIN = str.maketrans(
    {
        **dict.fromkeys("−–—‐‑‒﹣－", "-"),
        **dict.fromkeys("＋﬩", "+"),
        **dict.fromkeys("×✕✖╳⨯", "x"),
        **dict.fromkeys("º˚", "°"),
        **dict.fromkeys("Δ∆△", "^"),
        **dict.fromkeys("\u00a0\u2007\u2008\u2009\u200a\u200b\u202f\u2060\u3000\ufeff", " "),
    }
)

MONTH = (
    r"(?:jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?"
    r"|sept?(?:ember)?|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?)"
)

# One pass, one alternative after the other; no repetition stands inside another, so the time is linear.
PIECE = re.compile(
    rf"""
    (?P<break>\r\n|\r|\n)
  | (?P<space>[^\S\r\n]+)
  | (?P<date>(?<![0-9.,+/-])(?:
        [0-9]{{4}}(?P<a>[-/])[0-9]{{1,2}}(?P=a)[0-9]{{1,2}}
      | [0-9]{{1,2}}(?P<b>[-/.])[0-9]{{1,2}}(?P=b)[0-9]{{4}}
      | [0-9]{{1,2}}(?P<c>[-/])[0-9]{{1,2}}(?P=c)[0-9]{{2}}
      | [0-9]{{1,2}}(?:st|nd|rd|th)?[ .-]{{1,2}}{MONTH}\.?,?[ -]{{1,2}}[0-9]{{4}}
      )(?![0-9]) | \b{MONTH}\.?\ {{1,2}}[0-9]{{1,2}}(?:st|nd|rd|th)?,?\ {{1,2}}[0-9]{{4}}(?![0-9]))
  | (?P<acuity>(?<![0-9.,+/-])(?:20/[1-9][0-9]{{1,2}}|6/[0-9]{{1,2}})(?![0-9.,/]))
  | (?P<broken>[+-]?(?:[0-9]+(?:\.[0-9]+){{2,}}|[0-9]+,[0-9]+\.[0-9]+))
  | (?P<number>[+-]?(?:[0-9]+(?:[.,][0-9]+)?|(?<![0-9])\.[0-9]+|(?<=[+-]),[0-9]+))
  | (?P<word>(?:dc|ds|cyl|d)(?=x\ ?[0-9])|[^\W\d_](?:\.[^\W\d_]){{1,3}}(?![^\W\d_])\.?|[^\W\d_]+(?:['’][^\W\d_]+)*)
  | (?P<symbol>.)
    """,
    re.VERBOSE | re.IGNORECASE | re.DOTALL,
)
LINE_END = re.compile(r"\r\n|\r|\n")


@dataclass(frozen=True, slots=True)
class Lexeme:
    """One piece of a slip.  ``text`` as written, ``plain`` with ordinary signs, ``role`` once its meaning is known."""

    kind: Kind
    text: str
    plain: str
    start: int
    end: int
    role: str = ""

    def touches(self, other: Lexeme | None) -> bool:
        """Whether no space stands between the two."""
        return other is not None and (other.start == self.end or other.end == self.start)


@dataclass(slots=True)
class Slip:
    """A typed text, with line and column of every place in it."""

    text: str
    name: str = "slip"
    lines: list[str] = field(init=False)
    starts: list[int] = field(init=False)

    def __post_init__(self) -> None:
        self.lines = LINE_END.split(self.text)
        self.starts = [0, *(found.end() for found in LINE_END.finditer(self.text))]

    def line_of(self, place: int) -> int:
        """The line of a place, from 0."""
        return bisect_right(self.starts, place) - 1

    def mark(self, start: int, end: int) -> Mark:
        """The mark of a part of the text; of a part over several lines, its first line."""
        line = self.line_of(start)
        shown = self.lines[line]
        column = start - self.starts[line]
        return Mark(self.name, line + 1, column + 1, shown, max(1, min(end - start, len(shown) - column)))


def lexemes(slip: Slip) -> list[Lexeme]:
    """All pieces but the spaces, in order."""
    plain = slip.text.translate(PLAIN)
    pieces: list[Lexeme] = []
    for found in PIECE.finditer(plain):
        kind = found.lastgroup
        if kind == "space":
            continue
        start, end = found.span()
        pieces.append(Lexeme(_kind(kind, found.group()), slip.text[start:end], found.group(), start, end))
    return pieces


def _kind(group: str | None, plain: str) -> Kind:
    """The group's name; digits of other scripts, fractions and raised digits are numbers nobody can be sure of."""
    if group in ("word", "symbol") and any(char.isnumeric() for char in plain):
        return "broken"
    kinds: dict[str | None, Kind] = {
        "number": "number",
        "broken": "broken",
        "date": "date",
        "acuity": "acuity",
        "word": "word",
        "break": "break",
    }
    return kinds.get(group, "symbol")
