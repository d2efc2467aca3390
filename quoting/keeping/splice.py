"""New numbers in a YAML file, every other byte as it was: comments, order, quotes, blanks, line ends, byte order mark.

>>> from quoting.nodes import read_text
>>> raw = b'prices: # per lens\\r\\n  - {from: -2.00, lens:  "24.00"} # old\\r\\n'
>>> (row,) = read_text(raw.decode(), "a.yaml").records("prices", "this price")
>>> spliced(raw, [(row.mark("lens"), 2550)])
b'prices: # per lens\\r\\n  - {from: -2.00, lens:  "25.50"} # old\\r\\n'
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import codecs
import re
from collections.abc import Iterable

from quoting.findings import Mark
from quoting.money import AMOUNT, written
from quoting.written.refusals import BREAK

TOKEN = re.compile(rf"(?P<open>[\"']?)\s*(?P<amount>{AMOUNT.pattern})\s*(?P=open)\s*", re.ASCII)


class NotPlainError(ValueError):
    """A number that does not stand as such where it is marked: broken over lines, say, or written with escapes."""

    def __init__(self, mark: Mark) -> None:
        super().__init__(f"{mark}: no plain amount stands here")
        self.mark = mark


def spliced(raw: bytes, edits: Iterable[tuple[Mark, int]]) -> bytes:
    """The file with amounts (cents) in place of those at the marks.   Raises NotPlainError."""
    text, starts = _text(raw)
    tokens = ((mark, cents, _token(text, starts, mark)) for mark, cents in edits)
    return replaced(raw, [(mark, amount_like(token, cents, mark)) for mark, cents, token in tokens])


def replaced(raw: bytes, edits: Iterable[tuple[Mark, str]]) -> bytes:
    """The file with texts in place of what the marks underline; marks that overlap raise ValueError."""
    text, starts = _text(raw)
    places = sorted((starts[mark.line - 1] + mark.column - 1, mark.length, new) for mark, new in edits)
    parts, done = [], 0
    for start, length, new in places:
        if start < done:
            raise ValueError("two changes of one place")
        parts += [text[done:start], new]
        done = start + length
    first = codecs.BOM_UTF8 if raw.startswith(codecs.BOM_UTF8) else b""
    return first + "".join([*parts, text[done:]]).encode("utf-8")


def token_at(raw: bytes, mark: Mark) -> str:
    """What a mark underlines."""
    return _token(*_text(raw), mark)


def amount_like(token: str, cents: int, mark: Mark) -> str:
    """The token with another amount, written like the old one.   Raises NotPlainError."""
    found = TOKEN.fullmatch(token)
    if found is None:
        raise NotPlainError(mark)
    return token[: found.start("amount")] + styled(found["amount"], cents) + token[found.end("amount") :]


def styled(old: str, cents: int) -> str:
    """An amount with as many decimals as the old one has, or more where it needs them.

    >>> styled("24.00", 2500), styled("24", 2500), styled("24", 2550), styled("24.5", 2550), styled("+24.5", 2555)
    ('25.00', '25', '25.50', '25.5', '+25.55')
    """
    decimals = len(old.partition(".")[2])
    new = written(cents)
    if decimals == 0:
        new = new.removesuffix(".00")
    elif decimals == 1:
        new = new.removesuffix("0") if cents % 10 == 0 else new
    return ("+" if old.startswith("+") else "") + new


def _token(text: str, starts: list[int], mark: Mark) -> str:
    start = starts[mark.line - 1] + mark.column - 1
    return text[start : start + mark.length]


def _text(raw: bytes) -> tuple[str, list[int]]:
    """The text without byte order mark, and where each of its lines begins; lines end as editors have it."""
    text = raw.removeprefix(codecs.BOM_UTF8).decode("utf-8")
    return text, [0, *(found.end() for found in BREAK.finditer(text))]
