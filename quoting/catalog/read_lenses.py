"""Lenses: materials and designs, which all files share."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from typing import cast

from quoting.catalog import checks
from quoting.catalog.model import KINDS, Design, Kind, Material
from quoting.catalog.table import Table
from quoting.nodes import Record

MATERIAL = "{id: r150, name: Hard resin 1.50, index: 1.498, abbe: 58, density: 1.32, ...}"
DESIGN = "{id: sv, name: Plain, kind: single-vision, base: {from: 0.5, to: 8.0}, about: ...}"
FITTED = ("progressive", "anti-fatigue", "bifocal")  # the kinds that need height: something lies below the pupil


def read_materials(root: Record, materials: Table[Material]) -> None:
    """Enter the materials of one file.

    The limits of index, Abbe number and density are wider than what lens materials have:
    ophthalmic resins and glasses lie at 1.49 to 1.9, 25 to 60 and 1.1 to 4.1 (practice).
    """
    for record in materials.listed(root, "materials", MATERIAL):
        material = Material(
            id=record.word("id", example="r150"),
            name=record.text("name", most=80, example="Hard resin 1.50"),
            index=record.number("index", 1.4, 2.0, example="1.498"),
            abbe=record.number("abbe", 15, 95, example="58"),
            density=record.number("density", 0.8, 6, example="1.32"),
            min_center=record.length("min_center", 0.5, 6, example="2.0"),
            impact_resistant=record.flag("impact_resistant"),
            drillable=record.flag("drillable"),
            tint_depth=record.whole("tint_depth", 0, 100, example="85"),
            mark=record.mark("id"),
        )
        materials.enter(record, material.id, material)


def read_designs(root: Record, designs: Table[Design]) -> None:
    """Enter the designs of one file."""
    for record in designs.listed(root, "designs", DESIGN):
        design = read_design(record)
        designs.enter(record, design.id, design)


def read_design(record: Record) -> Design:
    """One design; which heights it needs depends on its kind."""
    kind = record.choice("kind", KINDS)
    known = kind if record.sound("kind") else ""
    segment = segment_width(record, known)
    base = record.record("base", "this base", example="{from: 0.5, to: 8.0}")
    design = Design(
        id=record.word("id", example="sv"),
        name=record.text("name", most=80, example="Plain"),
        kind=cast(Kind, kind),
        min_height=height(record, "min_height", known, "18"),
        min_above=height(record, "min_above", known, "10"),
        boost=boost(record, known),
        segment_width=segment,
        conic=record.number("conic", -10, 10, default=0.0, example="-1.5"),
        base_from=base.number("from", 0, 16, example="0.5"),
        base_to=base.number("to", 0, 16, example="8.0"),
        position_of_wear=record.flag("position_of_wear", default=False),
        wrap=record.flag("wrap", default=False),
        about=record.prose("about", example="One power over the whole lens."),
        mark=record.mark("id"),
        near_below=near_below(record, known),
        segment_depth=segment_depth(record, known, segment),
    )
    checks.rising(base, "from", "to", (design.base_from, design.base_to))
    base.close()
    return design


def height(record: Record, name: str, kind: str, example: str) -> float:
    """A least height, required where something lies below the pupil; others may have one, else 0."""
    if kind in FITTED or (record.has(name) and kind):
        return record.length(name, 0, 40, example=example)
    record.has(name)
    return 0.0


def boost(record: Record, kind: str) -> float:
    """The fixed near plus of an anti-fatigue design, in diopters; trade lists have 0.40 to 1.00 (practice)."""
    if kind == "anti-fatigue":
        return record.number("boost", 0.1, 2.0, example="0.75")
    if kind:
        checks.absent(record, "boost", "anti-fatigue designs")
    record.has("boost")
    return 0.0


def segment_width(record: Record, kind: str) -> float:
    """The width of a bifocal's segment; a segment as wide as the lens is written with the blank's width."""
    if kind == "bifocal":
        return record.length("segment_width", 15, 90, example="28")
    if kind:
        checks.absent(record, "segment_width", "bifocal designs")
    record.has("segment_width")
    return 0.0


def near_below(record: Record, kind: str) -> float:
    """How far under a progressive's fitting cross its near reference point lies, as its maker states it; else 0."""
    if kind and kind != "progressive":
        checks.absent(record, "near_below", "progressive designs")
    if kind == "progressive" and record.has("near_below"):
        return record.length("near_below", 5, 30, example="14")
    record.has("near_below")
    return 0.0


def segment_depth(record: Record, kind: str, width: float) -> float:
    """How deep a bifocal's segment is, from its top; else 0.

    Below half of its width no segment is as wide as it says, above its width there is no more circle (kernel/segment).
    """
    if kind and kind != "bifocal":
        checks.absent(record, "segment_depth", "bifocal designs")
    if kind == "bifocal" and record.has("segment_depth"):
        least, most = (width / 2, width) if record.sound("segment_width") else (7.5, 90.0)
        return record.length("segment_depth", least, most, example="19")
    record.has("segment_depth")
    return 0.0
