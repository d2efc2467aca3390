"""Rows that hold from one power to another: in quarter steps, one after the other, without gap or overlap."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from quoting.nodes import Record
from quoting.written.figures import QUARTER

WEAKEST, STRONGEST = -40.0, 40.0


@dataclass(frozen=True, slots=True)
class Span:
    """The powers of one row, both ends included, and where it is written."""

    record: Record
    low: float
    high: float

    def __str__(self) -> str:
        return power(self.low) if self.low == self.high else f"{power(self.low)} to {power(self.high)}"


def power(value: float) -> str:
    """A power as it is written: signed, two decimals; plano has no sign."""
    return f"{value:+.2f}" if value else "0.00"


def read_span(record: Record) -> Span:
    """``from`` and ``to`` of a row, in quarter diopters, the lower one first."""
    low = record.power("from", WEAKEST, STRONGEST, example="-2.00", step=QUARTER)
    high = record.power("to", WEAKEST, STRONGEST, example="+2.00", step=QUARTER)
    if record.sound("from", "to") and low > high:
        said = f"`from` is {power(low)} and `to` {power(high)}: the lower power comes first"
        record.fault("from", "reversed", said, f"write from: {power(high)}, to: {power(low)}")
    return Span(record, low, high)


def readable(parent: Record, name: str, spans: Sequence[Span]) -> bool:
    """Whether all rows of a list could be read as powers, so that they can be compared."""
    sound = all(span.record.sound("from", "to") for span in spans)
    return sound and 0 < len(spans) == parent.count(name)


def contiguous(name: str, spans: Sequence[Span]) -> bool:
    """Whether each row begins a quarter diopter after the one before it, in order of power; else told."""
    good = True
    first, *others = sorted(spans, key=lambda span: (span.low, span.high, span.record.mark()))
    before = first
    for row in others:
        line = before.record.mark().line
        fitting = power(before.high + QUARTER)
        if row.low <= before.high:
            said = f"the row {row} overlaps the row {before} in line {line}"
            row.record.fault("from", "overlap", said, f"begin it at {fitting}, or end the other one earlier")
            good = False
        elif row.low > before.high + QUARTER:
            missing = str(Span(row.record, before.high + QUARTER, row.low - QUARTER))
            said = f"no row of `{name}` holds {missing}, between this row and the one in line {line}"
            row.record.fault("from", "gap", said, f"begin this row at {fitting}, or add a row")
            good = False
        before = row if row.high >= before.high else before
    return good


def covers(name: str, spans: Sequence[Span], ranges: Sequence[Span]) -> None:
    """The rows must reach as far as the ranges do; where they do not is told at the range."""
    low, high = min(span.low for span in spans), max(span.high for span in spans)
    least, most = min(spans, key=lambda span: span.low), max(spans, key=lambda span: span.high)
    reach = f"`{name}` reach from {power(low)} to {power(high)}"
    for reached in ranges:
        for end, value, short, row in (
            ("from", reached.low, reached.low < low, least),
            ("to", reached.high, reached.high > high, most),
        ):
            if short:
                line = row.record.mark().line
                said = f"the range goes to {power(value)}, but {reach}"
                hint = f"add a row to `{name}` near line {line}, or let the range end sooner"
                reached.record.fault(end, "not-covered", said, hint)
    for span in spans:
        if all(span.high < reached.low or span.low > reached.high for reached in ranges):
            said = f"no range of this package holds any power of the row {span}: it is never used"
            span.record.fault("from", "never-used", said, "delete it, or widen a range", "warning")


def chart(parent: Record, name: str, spans: Sequence[Span], ranges: Sequence[Span]) -> None:
    """A chart over powers: contiguous, and as wide as the ranges of the package (none: not known)."""
    if readable(parent, name, spans) and contiguous(name, spans) and ranges:
        covers(name, spans, ranges)
