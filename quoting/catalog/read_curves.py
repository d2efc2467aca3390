"""Curves of light: values at even steps in the file itself, or the table of nm and percent that an instrument writes.

Both end up as a spectrum of the kernel.  Short of its first value a transmittance counts as clear: nobody measured that
anything is kept there.  Beyond its last value, and at both ends of a reflectance, a curve goes on as it ends.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
from itertools import pairwise

from quoting.catalog.files import Files
from quoting.catalog.tints import Curve
from quoting.kernel.observer import COUNT, FIRST_NM, STEP_NM
from quoting.kernel.spectrum import resampled
from quoting.nodes import Record

EXAMPLE = "{from: 380, step: 20, values: [12, 15, ...]}"
NOTHING: Curve = (1.0,) * COUNT
# Where a curve must begin and end at the latest, nm: beyond them eyes see next to nothing (V(λ) under 0.5 percent)
VISIBLE = (400, 700)
PATH = r"[A-Za-z0-9_-][A-Za-z0-9._-]*(?:/[A-Za-z0-9_-][A-Za-z0-9._-]*)*\.csv"
ROW = re.compile(r"\s*(\d{3}(?:[.,]\d+)?)\s*[;,\t ]\s*(-?\d{1,3}(?:[.,]\d+)?)\s*%?\s*", re.ASCII)
LARGEST = 1_000_000  # bytes; a table by 0.1 nm stays below
Rows = list[tuple[float, float]]
DIGITS = 5  # to a thousandth of a percent; instruments do not say more


def read_curve(record: Record, name: str, files: Files, reflects: bool = False, needed: bool = True) -> Curve:
    """The curve in a field; clear where it cannot be read, and that was told."""
    if not needed and not record.has(name):
        return NOTHING
    part = record.record(name, "this curve", example=EXAMPLE)
    rows = _from_file(part, files) if part.has("file") else _written(part)
    part.close()
    if len(rows) < 2 or not part.sound():
        return NOTHING
    if rows[0][0] > VISIBLE[0] or rows[-1][0] < VISIBLE[1]:
        said = f"this curve goes from {rows[0][0]:g} to {rows[-1][0]:g} nm and not over all visible light"
        part.fault("", "not-a-curve", said, f"give values from {VISIBLE[0]} to {VISIBLE[1]} nm at least")
        return NOTHING
    return spectrum(rows, reflects)


def spectrum(rows: Rows, reflects: bool = False) -> Curve:
    """Rising wavelengths in nm with percents, as a spectrum.

    >>> spectrum([(380.0, 50.0), (780.0, 50.0)])[19:21], spectrum([(380.0, 5.0), (780.0, 5.0)], True)[0]
    ((1.0, 0.5), 0.05)
    """
    steps = {round(after[0] - before[0], 6) for before, after in pairwise(rows)}
    if len(steps) == 1:
        found = resampled(rows[0][0], steps.pop(), [value / 100 for _, value in rows])
    else:
        found = [_between(rows, FIRST_NM + STEP_NM * n) for n in range(COUNT)]
    if not reflects:
        found = [1.0 if FIRST_NM + STEP_NM * n < rows[0][0] else value for n, value in enumerate(found)]
    return tuple(round(value, DIGITS) for value in found)


def _between(rows: Rows, nm: float) -> float:
    """A table of uneven steps, read on a straight line."""
    for (low, before), (high, after) in pairwise(rows):
        if nm <= high:
            share = max(0.0, (nm - low) / (high - low))
            return (before + share * (after - before)) / 100
    return rows[-1][1] / 100


def _written(part: Record) -> Rows:
    first = part.number("from", 200, 700, example="380")
    step = part.number("step", 1, 100, example="20")
    values = part.numbers("values", 0, 100, example="12, 15, 18")
    if part.sound() and len(values) < 2:
        part.fault("values", "not-a-curve", "a curve needs more than one value", f"write for example {EXAMPLE}")
    return [(first + step * n, value) for n, value in enumerate(values)]


def _from_file(part: Record, files: Files) -> Rows:
    """The table in a file of the shop."""
    name = part.form("file", PATH, "the place of a .csv file in the shop's folder", "curves/brown.csv")
    path = files.folder / name
    if not part.sound("file"):
        return []
    if name.startswith("private/"):
        part.fault("file", "no-such-curve", "nothing in private/ is read into a site", "put the file into curves/")
        return []
    home = files.folder.resolve()
    real = path.resolve()
    if not path.is_file() or not real.is_relative_to(home) or real.is_relative_to(home / "private"):
        part.fault("file", "no-such-curve", f"there is no file {name} in the shop", "put it there, or correct the name")
        return []
    try:
        raw = path.read_bytes() if path.stat().st_size <= LARGEST else b""
        text = raw.decode("utf-8-sig")
    except (OSError, UnicodeDecodeError):
        text = ""
    return _table(part, name, text)


def _table(part: Record, name: str, text: str) -> Rows:
    """Rows of two numbers, rising in wavelength; lines before the first of them are its head."""
    rows: Rows = []
    for number, line in enumerate(text.splitlines(), 1):
        match = ROW.fullmatch(line)
        if match is None:
            if rows and line.strip():
                part.fault("file", "not-a-curve", f"line {number} of {name} is no row of nm and percent", HINT)
                return []
            continue
        nm, value = (float(found.replace(",", ".")) for found in match.groups())
        if not 0 <= value <= 100 or (rows and nm <= rows[-1][0]):
            why = "is below the one before it" if 0 <= value <= 100 else "is no share of light in percent"
            part.fault("file", "not-a-curve", f"line {number} of {name} {why}", HINT)
            return []
        rows.append((nm, value))
    if len(rows) < 2:
        part.fault("file", "not-a-curve", f"{name} holds no table of nm and percent", HINT)
        return []
    return rows


HINT = "write one row a line, such as 380;12.5, wavelengths in nm from low to high, light in percent from 0 to 100"
