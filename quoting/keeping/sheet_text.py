"""A price list that is delimited text: which encoding, and by which sign its columns are parted, found by counting.

Each usual sign parts every row into so many fields.  The right one parts most rows into the same number, with a row of
headings (no number in it) first; signs that happen to stand in amounts fail at the headings.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import codecs
import csv
import io
import re
from collections import Counter
from dataclasses import dataclass

from quoting.findings import Finding, Mark
from quoting.keeping.cells import Cell, Row, Sheet
from quoting.keeping.sheet_bounds import TooLargeError, bounded_text
from quoting.written.refusals import BREAK

SIGNS = {";": "semicolons", "\t": "tabs", ",": "commas", "|": "bars"}
FAR_ENOUGH = 0.6  # this part of all rows must have the same number of fields: notes and headings of parts have others
DIGIT = re.compile(r"[0-9]")
TOLD = re.compile(r"sep=(.)\r?\n", re.IGNORECASE)  # a first line that spreadsheets write for each other
ENCODINGS = {"utf-8-sig": "UTF-8", "cp1252": "Windows-1252", "utf-16": "UTF-16"}
UTF_16 = (codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)


@dataclass(frozen=True, slots=True)
class _Parted:
    sign: str
    share: float  # of the rows that have as many fields as most
    width: int
    rows: list[tuple[int, list[str]]]  # with the number of the line each begins in


def read_csv(raw: bytes, shown: str, delimiter: str = "", encoding: str = "") -> Sheet:
    """The rows of a delimited text; what is not given is decided and said."""
    text, how = _decoded(raw, encoding)
    if text is None:
        return _refused(shown, "sheet-encoding", how, "save it as UTF-8 where it was made")
    told = TOLD.match(text)
    sign = delimiter or (told[1] if told else "")
    body, skipped = (text[told.end() :], 1) if told else (text, 0)
    try:
        bounded_text(body, sign or "".join(SIGNS))
        parted = _parted(body, sign, skipped) if sign else _found(body, skipped)
    except TooLargeError as fault:
        return _refused(shown, "sheet-unreadable", str(fault), "take out what is no list")
    except (csv.Error, TypeError, ValueError) as error:
        return _refused(
            shown, "sheet-unreadable", f"this cannot be read as a table: {error}", "save it as .xlsx or .csv"
        )
    if parted is None:
        said = "nobody can tell by which sign the columns of this file are parted"
        return _refused(shown, "sheet-columns", said, "name it with --delimiter, such as --delimiter ';'")
    lines = BREAK.split(text)
    rows = [
        Row(
            number, lines[number - 1] if number <= len(lines) else "", tuple(Cell(" ".join(one.split())) for one in row)
        )
        for number, row in parted.rows
    ]
    said = f"{how}, columns parted by {SIGNS.get(parted.sign, repr(parted.sign))}"
    return Sheet(shown, tuple(row for row in rows if row.filled), (said,))


def _refused(shown: str, code: str, message: str, hint: str) -> Sheet:
    return Sheet(shown, (), (), (Finding(Mark(shown, 1, 1), code, message, hint),))


def _decoded(raw: bytes, encoding: str) -> tuple[str | None, str]:
    """The text and the name of its encoding; or None and what is wrong."""
    names = [encoding] if encoding else ["utf-16"] if raw.startswith(UTF_16) else ["utf-8-sig", "cp1252"]
    for name in names:
        try:
            text = raw.decode(name)
        except (ValueError, LookupError):
            continue
        if "\0" not in text:
            return text, ENCODINGS.get(name, name)
    tried = " nor in ".join(ENCODINGS.get(name, name) for name in names)
    return None, f"the letters of this file are not written in {tried}"


def _parted(text: str, sign: str, skipped: int) -> _Parted:
    """The rows under one sign.   Raises csv.Error."""
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=sign)
    rows, begin = [], 1
    for fields in reader:
        if any(field.strip() for field in fields):
            rows.append((begin + skipped, fields))
        begin = reader.line_num + 1
    counts = Counter(len(fields) for _, fields in rows)
    width, most = max(counts.items(), key=lambda one: (one[1], one[0]), default=(0, 0))
    return _Parted(sign, most / len(rows) if rows else 0.0, width, rows)


def _found(text: str, skipped: int) -> _Parted | None:
    """The rows under the sign that parts them best; None where none does, or two do as well as each other."""
    found = [one for sign in SIGNS if (one := _tried(text, sign, skipped)) is not None]
    found.sort(key=lambda one: (one.share, one.width), reverse=True)
    if not found or (len(found) > 1 and (found[0].share, found[0].width) == (found[1].share, found[1].width)):
        return None
    return found[0]


def _tried(text: str, sign: str, skipped: int) -> _Parted | None:
    try:
        parted = _parted(text, sign, skipped)
    except csv.Error:
        return None
    if parted.width < 2 or parted.share < FAR_ENOUGH:
        return None
    # above the headings there may be lines of a title, with nothing behind their first field
    full = (
        [field.strip() for field in fields if field.strip()] for _, fields in parted.rows if len(fields) == parted.width
    )
    headings = next((filled for filled in full if len(filled) > 1), [])
    has_headings = bool(headings) and not any(DIGIT.match(field.lstrip("+-−")) for field in headings)
    return parted if has_headings else None
