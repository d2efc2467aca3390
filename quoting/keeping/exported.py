"""All prices of a day as a table, to look at, change and take in again: to import it unchanged changes nothing."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import csv
import io
from collections.abc import Iterable
from decimal import Decimal

from quoting.catalog.steps import power
from quoting.keeping.sheet import workbook
from quoting.keeping.standing import Spot
from quoting.money import written

HEADINGS = ("kind", "maker", "id", "colorway", "name", "from", "to", "price")
TAB = "prices"


def as_csv(spots: Iterable[Spot]) -> bytes:
    """As text: UTF-8 with byte order mark, by which spreadsheets know it; commas; a point before hundredths."""
    held = io.StringIO(newline="")
    writer = csv.writer(held, lineterminator="\r\n")
    writer.writerow(HEADINGS)
    for spot in spots:
        low, high = (power(spot.low), power(spot.high)) if spot.kind == "lens" else ("", "")
        writer.writerow([*_names(spot), low, high, written(spot.cents)])
    return held.getvalue().encode("utf-8-sig")


def as_workbook(spots: Iterable[Spot]) -> bytes:
    """As a workbook, powers and prices as numbers."""
    rows: list[list[str | Decimal]] = [list(HEADINGS)]
    for spot in spots:
        ends: list[str | Decimal] = ["", ""]
        if spot.kind == "lens":
            ends = [Decimal(str(spot.low)), Decimal(str(spot.high))]
        rows.append([*_names(spot), *ends, Decimal(spot.cents) / 100])
    return workbook(rows, TAB)


def _names(spot: Spot) -> list[str]:
    return [spot.kind, _harmless(spot.maker), spot.id, spot.colorway, _harmless(spot.name)]


def _harmless(text: str) -> str:
    """A name that a spreadsheet does not take for a formula; names are not read again.

    >>> _harmless("=1+1"), _harmless("Plain")
    ("'=1+1", 'Plain')
    """
    return f"'{text}" if text.startswith(("=", "+", "-", "@")) else text
