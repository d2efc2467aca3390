"""What frames cost the shop: one amount, or by colorway, by size, or by both."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterator, Sequence

from quoting.catalog.model import Frame
from quoting.catalog.table import listing
from quoting.nodes import Record
from quoting.private.model import Cost
from quoting.private.tables import Entries, Known
from quoting.written.kinds import meant_hint

FRAME = "{slate: 48.00, moss: {52-18: 48.00, 54-18: 50.00}}"
Key = tuple[str, str]  # colorway and size, each "" where the cost is for all of them


def read_frames(root: Record, known: Known, entries: Entries) -> None:
    """The frames of one file."""

    def one(part: Record, name: str) -> dict[Key, Cost]:
        frame = known.frames.keyed(part, name)
        return dict(read_frame(part, name, frame))

    entries.read(root, ("frames", "frame", "{tarn: 48.00}"), entries.frames, one)


def read_frame(part: Record, name: str, frame: Frame | None) -> Iterator[tuple[Key, Cost]]:
    """One frame."""
    if not part.is_mapping(name):
        yield ("", ""), Cost(part.money(name, example=f"48.00, or {FRAME}"), part.mark(name))
        return
    record = part.record(name, f"`{name}`", example=FRAME)
    sizes = {size.key for size in frame.sizes} if frame is not None else set()
    by_size = not sizes.isdisjoint(record.names())
    for outer in record.names():
        known = _known(record, outer, frame, by_size)
        if not record.is_mapping(outer):
            yield _key(outer, "", by_size), Cost(record.money(outer, example="48.00"), record.mark(outer))
            continue
        inner = record.record(outer, f"`{outer}`", example="{52-18: 48.00}")
        for other in inner.names():
            _known(inner, other, frame if known else None, not by_size)
            yield _key(outer, other, by_size), Cost(inner.money(other, example="48.00"), inner.mark(other))
        _closed(inner, outer)
    _closed(record, name)


def _key(outer: str, inner: str, by_size: bool) -> Key:
    return (inner, outer) if by_size else (outer, inner)


def _closed(record: Record, name: str) -> None:
    if not record.names() and record.readable:
        record.fault("", "empty-value", f"no cost of `{name}` stands here", "write one, or delete the line")
    record.close()


def _known(record: Record, name: str, frame: Frame | None, size: bool) -> bool:
    """Whether a name is a size where its neighbors are, and else a colorway; without a frame nobody can tell."""
    record.has(name)
    if frame is None:
        return True
    sizes, colorways = [one.key for one in frame.sizes], [one.id for one in frame.colorways]
    meant, other = (sizes, colorways) if size else (colorways, sizes)
    if name in meant:
        return True
    noun = "size" if size else "colorway"
    if name in other:
        said = f"`{name}` is not a {noun} of `{frame.id}`, and a cost here is told by {noun}"
        record.key_fault(name, "does-not-belong", said, f"write one within the other: {_example(meant, other)}")
        return False
    hint = meant_hint(name, meant) or listing(meant)
    record.key_fault(name, "unknown-id", f"the frame `{frame.id}` has no {noun} `{name}`", hint)
    return False


def _example(outer: Sequence[str], inner: Sequence[str]) -> str:
    return f"{{{outer[0]}: {{{inner[0]}: 48.00}}}}"
