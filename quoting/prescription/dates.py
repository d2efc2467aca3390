"""Days as people write them; where day and month could change places, nobody guesses.

>>> day("2026-05-04"), day("4th May 2026"), day("14/05/2026")
(datetime.date(2026, 5, 4), datetime.date(2026, 5, 4), datetime.date(2026, 5, 14))
>>> day("03/04/2026").code, day("30 Feb 2026").code
('date-ambiguous', 'date-impossible')
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
from calendar import monthrange
from datetime import date

from quoting.written.kinds import Fault

MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")


def day(plain: str) -> date | Fault:
    """The day meant by ISO, numeric or English text."""
    name = re.search(r"[a-z]{3,}", plain.lower())
    numbers = [int(digits) for digits in re.findall(r"[0-9]+", plain)]
    if name is not None:
        return _calendar(numbers[1], MONTHS.index(name.group()[:3]) + 1, numbers[0])
    if plain[:4].isdigit():  # year first
        return _calendar(*numbers)
    first, second, year = numbers
    if year < 100:
        return _ambiguous("gives the year in two digits", year + 2000, first, second)
    days = [(month, number) for month, number in ((first, second), (second, first)) if month <= 12]
    if len(set(days)) == 2:
        return _ambiguous("can be read in two ways", year, first, second)
    if not days:
        return _calendar(year, first, second)
    return _calendar(year, *days[0])


def months_later(start: date, months: int) -> date:
    """The same day so many months later; the month's last day where it has no such day.

    >>> months_later(date(2024, 2, 29), 12)
    datetime.date(2025, 2, 28)
    """
    year, month = divmod(start.year * 12 + start.month - 1 + months, 12)
    if year > 9999:
        return date.max
    return date(year, month + 1, min(start.day, monthrange(year, month + 1)[1]))


def _calendar(year: int, month: int, number: int) -> date | Fault:
    try:
        return date(year, month, number)
    except ValueError:
        return Fault("date-impossible", "is no day of the calendar", "write it as year-month-day: 2026-09-01")


def _ambiguous(said: str, year: int, first: int, second: int) -> Fault:
    read = (_calendar(year, first, second), _calendar(year, second, first))
    options = sorted({str(option) for option in read if isinstance(option, date)})
    return Fault("date-ambiguous", said, "write " + " or ".join([*options, "the month as a word"]))
