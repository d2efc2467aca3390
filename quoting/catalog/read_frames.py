"""Frames: one maker a file, each frame with its sizes and its colorways."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from typing import cast, get_args

from quoting.catalog import checks
from quoting.catalog.model import FAMILIES, MOUNTINGS, Colorway, Family, Frame, Mounting, Size, Stock, Version
from quoting.catalog.read_fastening import read_groove, read_holes
from quoting.catalog.read_photos import read_photos
from quoting.catalog.read_traces import Traces
from quoting.catalog.read_wears import Worn, read_wears
from quoting.catalog.table import Table
from quoting.nodes import Record

VERSIONS: tuple[str, ...] = get_args(Version)
STOCKS: tuple[str, ...] = get_args(Stock)

FRAME = "{id: tarn, name: Tarn, ...}"
SIZE = "{a: 52, b: 38, dbl: 18, ed: 55.0, temple: 145}"
COLORWAY = '{id: slate, name: Slate, version: optical, price: 129.00, front: "#444a52", temples: "#444a52", ...}'


def read_frames(root: Record, frames: Table[Frame], traces: Traces, worn: Worn) -> None:
    """Enter the frames of one file."""
    maker = root.text("maker", most=80, example="Fellmark")
    for record in frames.listed(root, "frames", FRAME, needed=True):
        frame = read_frame(record, maker, traces, worn)
        frames.enter(record, frame.id, frame)
    root.close()


def read_frame(record: Record, maker: str, traces: Traces | None = None, worn: Worn | None = None) -> Frame:
    """One frame; what of it cannot be relied on is marked in the record."""
    family, mounting = record.choice("family", FAMILIES), record.choice("mounting", MOUNTINGS)
    held = mounting if record.sound("mounting") else ""
    return Frame(
        id=record.word("id", example="tarn"),
        name=record.text("name", most=80, example="Tarn"),
        maker=maker,
        family=cast(Family, family),
        mounting=cast(Mounting, mounting),
        material=record.text("material", most=80, example="acetate"),
        curve=record.number("curve", 0, 12, example="4.0"),
        wrap=record.angle("wrap", 0, 40, example="5"),
        tilt=record.angle("tilt", -10, 30, example="8"),
        sizes=read_sizes(record, family if record.sound("family") else "", traces, held),
        colorways=read_colorways(record, worn),
        about=record.prose("about", default=""),
        mark=record.mark("id"),
        photos=read_photos(record),
        groove=read_groove(record, held),
    )


def read_sizes(frame: Record, family: str, traces: Traces | None, mounting: str) -> tuple[Size, ...]:
    """The sizes of a frame, each with another lens width or distance between lenses."""
    records = frame.records("sizes", "this size", example=SIZE)
    sizes = []
    for record in records:
        a, b = record.length("a", 25, 75, example="52"), record.length("b", 15, 75, example="38")
        trace, outline = traces.of(record, a, b) if traces else ("", None)
        size = Size(
            a=a,
            b=b,
            dbl=record.length("dbl", 8, 35, example="18"),
            ed=record.length("ed", *checks.DIAMETERS, example=checks.diameter_example(record, a, b, family)),
            temple=record.length("temple", 80, 180, example="145"),
            weight=record.number("weight", 1, 200, default=0.0, example="24.0"),
            mark=record.mark(),
            trace=trace,
            outline=outline,
            holes=read_holes(record, mounting, a, b),
        )
        checks.effective_diameter(record, size, family)
        checks.wider_than_tall(record, size)
        record.close()
        sizes.append(size)
    checks.distinct_sizes(records, sizes)
    return tuple(sizes)


def read_colorways(frame: Record, worn: Worn | None) -> tuple[Colorway, ...]:
    """The colorways of a frame, each with its own id."""
    records = frame.records("colorways", "this colorway", example=COLORWAY)
    colorways = []
    for record in records:
        version = record.choice("version", VERSIONS)
        colorway = Colorway(
            id=record.word("id", example="slate"),
            name=record.text("name", most=80, example="Slate"),
            version=cast(Version, version),
            price_cents=record.money("price", example="129.00"),
            front=record.color("front"),
            temples=record.color("temples"),
            stock=cast(Stock, record.choice("stock", STOCKS)),
            mark=record.mark("id"),
            photos=read_photos(record),
            wears=read_wears(record, version if record.sound("version") else "", worn),
        )
        record.close()
        colorways.append(colorway)
    checks.distinct_ids(records, [colorway.id for colorway in colorways], "colorway", "of this frame")
    return tuple(colorways)
