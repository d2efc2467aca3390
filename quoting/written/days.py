"""The ISO day that a date written in another way can mean: proposed, never taken.

>>> meant("1.9.2026"), meant("Sep 1, 2026"), meant("2026/9/1")
(['2026-09-01'], ['2026-09-01'], ['2026-09-01'])
>>> meant("9/1/2026"), meant("14/5/26"), meant("31.11.2026"), meant("soon")
(['2026-01-09', '2026-09-01'], ['2026-05-14'], [], [])
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
from datetime import date

MONTHS = (
    "january", "february", "march", "april", "may", "june",
    "july", "august", "september", "october", "november", "december",
)  # fmt: skip
YEAR_FIRST = re.compile(r"([0-9]{4})[-./ ]([0-9]{1,2})[-./ ]([0-9]{1,2})|([0-9]{4})([0-9]{2})([0-9]{2})", re.ASCII)
WITH_TIME = re.compile(r"([0-9]{4}-[0-9]{2}-[0-9]{2})[T ][0-9:.Z+-]+", re.ASCII)  # ISO 8601, date and time of day
YEAR_LAST = re.compile(r"([0-9]{1,2})\s?([-./])\s?([0-9]{1,2})\s?\2\s?([0-9]{4}|[0-9]{2})", re.ASCII)
ORDINAL = re.compile(r"(?<=[0-9])(?:st|nd|rd|th)\b")
NAMED = re.compile(r"(?:([0-9]{1,2}) ([a-z]{3,9})|([a-z]{3,9}) ([0-9]{1,2})) ([0-9]{4})", re.ASCII)
CENTURY = 2000  # of years in two digits: price lists and offers are of today


def meant(said: str) -> list[str]:
    """The days it can mean, as year-month-day, the earlier first; none where it is no date, or no day of a calendar.

    With points between its numbers the day comes first (practice, wherever dates have points); with slashes or
    hyphens either may.
    """
    text = " ".join(said[:40].lower().replace(",", " ").split())
    if (timed := WITH_TIME.fullmatch(said[:40])) is not None:
        return _days([(int(timed[1][:4]), int(timed[1][5:7]), int(timed[1][8:]))])
    if (found := YEAR_FIRST.fullmatch(text)) is not None:
        year, month, day = (int(one) for one in found.groups() if one is not None)
        return _days([(year, month, day)])
    if (found := YEAR_LAST.fullmatch(text)) is not None:
        first, second, year = int(found[1]), int(found[3]), int(found[4])
        year += CENTURY if len(found[4]) == 2 else 0
        return _days([(year, second, first)] + ([(year, first, second)] if found[2] != "." else []))
    return _named(ORDINAL.sub("", text).replace(".", " "))


def _named(text: str) -> list[str]:
    """With the month as an English word."""
    found = NAMED.fullmatch(" ".join(text.split()))
    if found is None:
        return []
    word, day = found[2] or found[3], int(found[1] or found[4])
    months = [at for at, name in enumerate(MONTHS, 1) if word in (name, name[:3], name[:4])]
    return _days([(int(found[5]), month, day) for month in months])


def _days(read: list[tuple[int, int, int]]) -> list[str]:
    found = set()
    for year, month, day in read:
        try:
            found.add(date(year, month, day).isoformat())
        except ValueError:
            continue
    return sorted(found)
