"""How much a table may hold: a file may be small and unpack to more than a machine has, or take hours to read.

A list of 10,000 frames has some 250,000 cells and 15 MB of XML (measured on workbooks that openpyxl wrote).
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import io
import re
import zipfile

MOST_BYTES = 20_000_000  # of a file
MOST_UNPACKED = 60_000_000  # what a workbook may unpack to, pictures included
MOST_PARTS = 5_000
MOST_ROWS, MOST_COLUMNS, MOST_CELLS = 100_000, 1_000, 500_000
MOST_NUMBERED = 1_048_576  # rows that a tab can have (ECMA-376); formats often reach to the last
MOST_PADDED = 2_000_000  # cells between the first and the last of each row, filled or not
MOST_TABS = 300
MOST_TAGS = 250_000  # in a part that holds neither cells nor texts: styles, names
CELL, TEXT, TAB = (re.compile(rb"<(?:\w+:)?" + name + rb"[\s/>]") for name in (b"c", b"si", b"sheet"))
LARGE = re.compile(rb"<(?:\w+:)?(?:sheetData|sst)[\s/>]")
FORMULA = re.compile(rb"<(?:\w+:)?f[\s/>]")


class TooLargeError(ValueError):
    """More than we take; the sentence says of what."""


def seen_through(raw: bytes) -> bool:
    """Look at all parts of a workbook before any is understood: whether there are formulas in it.

    Raises TooLargeError, and zipfile.BadZipFile and the like for what is no workbook.
    """
    formulas = False
    with zipfile.ZipFile(io.BytesIO(raw)) as packed:
        parts = packed.infolist()
        if len(parts) > MOST_PARTS or sum(part.file_size for part in parts) > MOST_UNPACKED:
            raise TooLargeError(f"this workbook unpacks to more than {MOST_UNPACKED:,} bytes")
        for part in parts:
            held = packed.read(part)
            _bounded(held)
            formulas = formulas or FORMULA.search(held) is not None
    return formulas


def _bounded(part: bytes) -> None:
    """Raises TooLargeError for a part with more in it than could be understood in seconds."""
    for pattern, most, what in ((CELL, MOST_CELLS, "cells"), (TEXT, MOST_CELLS, "texts"), (TAB, MOST_TABS, "tabs")):
        if sum(1 for _ in pattern.finditer(part)) > most:
            raise TooLargeError(f"this workbook has more than {most:,} {what}")
    if part.count(b"<") > MOST_TAGS and not LARGE.search(part):
        raise TooLargeError("this workbook has more styles and names than a list needs")


def bounded_text(text: str, signs: str) -> None:
    """Raises TooLargeError for a delimited text with more rows or cells than we take."""
    rows = text.count("\n") + text.count("\r") - text.count("\r\n")
    if rows > MOST_ROWS:
        raise TooLargeError(f"this file has more than {MOST_ROWS:,} rows")
    if any(text.count(sign) > 2 * MOST_CELLS for sign in signs):
        raise TooLargeError(f"this file has more than {2 * MOST_CELLS:,} cells")
