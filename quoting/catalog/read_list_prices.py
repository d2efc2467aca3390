"""What a price list says of single lenses and frames: prices from its day on, in place of those that stood before."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Sequence

from quoting.catalog import steps
from quoting.catalog.model import Frame, Package, PriceBand
from quoting.catalog.shop import FramePrices, LensPrices
from quoting.catalog.steps import Span, power
from quoting.catalog.table import Table, listing
from quoting.money import basis_points_from_text
from quoting.nodes import Record
from quoting.written.kinds import meant_hint

# One or two digits: a price that doubles, or falls to nothing, is a slip
# Below 100 %: what costs twice as much is written as a price
CHANGE = r"[-+][0-9]{1,2}(?:\.[0-9]{1,2})? ?%"
ROWS = "{from: -6.00, to: +4.00, lens: 25.00}"
LENSES = "{plain-150: +4 %}"
FRAMES = "{tarn: {slate: 135.00}}"


def read_lens_prices(root: Record, packages: Table[Package]) -> tuple[LensPrices, ...]:
    """The part ``lenses`` of a price list: by package rows as there, or a change of all its rows."""
    if not root.has("lenses"):
        return ()
    part = root.record("lenses", "`lenses`", example=LENSES)
    found = [read_lens(part, name, packages) for name in part.names()]
    part.close()
    return tuple(found)


def read_lens(part: Record, name: str, packages: Table[Package]) -> LensPrices:
    """One package."""
    package = packages.keyed(part, name)
    mark = part.mark(name)
    if not part.is_list(name):
        change = read_change(part, name, f"rows of prices, or a change such as +4 %; for rows write [{ROWS}]")
        return LensPrices(name, (), change, mark)
    bands, spans = [], []
    for record in part.records(name, "this price", example=ROWS):
        span = steps.read_span(record)
        bands.append(PriceBand(span.low, span.high, record.money("lens", example="25.00"), record.mark()))
        spans.append(span)
        record.close()
    if package is not None and steps.readable(part, name, spans) and steps.contiguous(name, spans):
        as_wide(spans, package)
    return LensPrices(name, tuple(sorted(bands, key=lambda band: band.low)), 0, mark)


def as_wide(spans: Sequence[Span], package: Package) -> None:
    """The rows must hold every power the package comes in; they are in another file, so it is told at the row."""
    first, last = min(spans, key=lambda span: span.low), max(spans, key=lambda span: span.high)
    low, high = min(part.low for part in package.ranges), max(part.high for part in package.ranges)
    for field, short, row, end in (
        ("from", first.low > low, first, low),
        ("to", last.high < high, last, high),
    ):
        if short:
            said = f"`{package.id}` comes in {power(low)} to {power(high)}, but its rows here end at {row}"
            row.record.fault(field, "not-covered", said, f"write {field}: {power(end)}, or add a row")
    for span in spans:
        if span.high < low or span.low > high:
            said = f"`{package.id}` comes in no power of the row {span}: it is never used"
            span.record.fault("from", "never-used", said, "delete it, or correct it", "warning")


def read_frame_prices(root: Record, frames: Table[Frame]) -> tuple[FramePrices, ...]:
    """The part ``frames`` of a price list: by frame the prices of colorways, or a change of all of them."""
    if not root.has("frames"):
        return ()
    part = root.record("frames", "`frames`", example=FRAMES)
    found = [read_frame(part, name, frames) for name in part.names()]
    part.close()
    return tuple(found)


def read_frame(part: Record, name: str, frames: Table[Frame]) -> FramePrices:
    """One frame."""
    frame = frames.keyed(part, name)
    mark = part.mark(name)
    if not part.is_mapping(name):
        change = read_change(part, name, "prices of colorways, such as {slate: 135.00}, or a change such as +4 %")
        return FramePrices(name, {}, change, mark)
    record = part.record(name, f"`{name}`", example="{slate: 135.00}")
    prices = {color: record.money(color, example="135.00") for color in record.names()}
    known = [one.id for one in frame.colorways] if frame is not None else list(prices)
    for color in prices:
        if color not in known:
            hint = meant_hint(color, known) or listing(known)
            record.key_fault(color, "unknown-id", f"the frame `{name}` has no colorway `{color}`", hint)
    if not prices and record.readable:
        record.fault("", "empty-value", f"no colorway of `{name}` stands here", "write one, or delete the line")
    record.close()
    return FramePrices(name, prices, 0, mark)


def read_change(part: Record, name: str, meant: str) -> int:
    """A change in percent, as basis points."""
    meant = f"{meant}, less than 100 %"
    text = part.form(name, CHANGE, meant, "+4 %")
    return basis_points_from_text(text.removesuffix("%").strip()) if part.sound(name) and text else 0
