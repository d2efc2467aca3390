"""One order: everything that lab and bench need, as it was when it was made; whatever the shop changes afterwards.

Powers D, prism in prism diopters (base in and up positive), lengths mm, angles degrees, weights g.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import json
from dataclasses import asdict, dataclass, fields
from typing import Any, TypeVar

FORM = 1

T = TypeVar("T")


class DamagedError(ValueError):
    """A file of an order that is not as it was written."""


@dataclass(frozen=True, slots=True)
class Measured:
    """What was measured on the wearer in this frame, and by whom; ``vertex`` from back of lens to cornea."""

    pd_right: float  # of a job for one eye both have what was measured of the one
    pd_left: float
    height_right: float  # of the pupil above the lowest point of the box
    height_left: float
    vertex: float
    tilt: float
    wrap: float
    by: str
    usual: tuple[str, ...] = ()  # which of vertex, tilt, wrap were not measured but taken as usual


@dataclass(frozen=True, slots=True)
class Side:
    """One lens as ordered and as it was worked out."""

    sphere: float
    cylinder: float
    axis: int
    add: float
    prism_in: float
    prism_up: float
    pd: float
    reference: float  # height of the optical center, or of the reference point of a progressive
    fitting: float  # height of the fitting cross or of the segment's top; of the pupil for others
    base: float
    center: float
    edge_max: float
    edge_max_at: str
    edge_min: float
    edge_min_at: str
    blank: float
    blank_largest: float
    decentration_in: float
    decentration_up: float
    weight: float
    worn: tuple[float, float, float] | None = None  # what the eye meets through it in this tilt and wrap
    compensated: tuple[float, float, float] | None = None  # what would have to be ground so that it meets the order


@dataclass(frozen=True, slots=True)
class OrderedFrame:
    id: str
    maker: str
    name: str
    mounting: str
    material: str
    color: str
    size: str
    a: float
    b: float
    dbl: float
    ed: float
    temple: float
    curve: float
    traced: bool
    sun: bool  # its original lenses go into the parcel
    family: str = ""  # of its shape; "" in orders that were made before it was noted
    groove: tuple[float, float] | None = None  # width and depth, mm; None: not stated
    holes: tuple[tuple[float, float, float], ...] = ()  # each in, up, diameter, mm, from the middle of the box


@dataclass(frozen=True, slots=True)
class OrderedLens:
    id: str
    maker: str
    name: str
    design: str
    kind: str
    material: str
    index: float
    light: str
    coating: str
    finished: bool
    position_of_wear: bool
    impact_resistant: bool
    transmittance: float  # percent; 0: not stated


@dataclass(frozen=True, slots=True)
class Tint:
    """A tint that was ordered; ``recipe`` is the code by which the dyer finds it again, "" where nobody wrote one."""

    depth: float  # percent of the light that it takes at its darkest
    gradient: bool
    recipe: str = ""
    mix: str = ""  # what is in it, where the quote or the tint book says it
    id: str = ""  # in the tint book
    name: str = ""
    top: float = 0.0  # percent of the light that the dye takes there; both 0 where the depth alone is known
    bottom: float = 0.0
    fade_from: float = 0.0  # shares of the height of the box, from its top
    fade_to: float = 1.0
    mirror: str = ""
    through: float = 0.0  # percent of the light through lens and tint where it is darkest, as quoted; 0: not worked out
    category: int = -1  # of that; -1: not worked out
    driving: int = -1  # as a quote has it (quoting/quoted/form.py); -1: not worked out


@dataclass(frozen=True, slots=True)
class Told:
    """A reason of the fit, in the optician's words."""

    code: str
    verdict: str
    eye: str
    text: str


@dataclass(frozen=True, slots=True)
class Changed:
    """What differs between quote and order."""

    what: str
    quoted: str
    ordered: str


@dataclass(frozen=True, slots=True)
class Order:
    form: int
    id: str
    quote: str
    letter: str  # which alternative of the quote
    pair: int  # which pair of it, from 1
    day: str
    customer: str
    frame: OrderedFrame
    lens: OrderedLens
    right: Side | None
    left: Side | None
    written: str  # the day of the prescription, "" where it has none
    measured: Measured
    verdict: str
    reasons: tuple[Told, ...]
    overruled: str  # why it is made though it does not fit
    wishes: tuple[str, ...]
    tint: Tint | None
    standard: str  # ansi or iso, by which it will be verified
    note: str
    changes: tuple[Changed, ...]
    remake_of: str = ""
    remake_reason: str = ""

    def sides(self) -> list[tuple[str, Side]]:
        """The lenses that are made, right before left."""
        return [(name, side) for name, side in (("R", self.right), ("L", self.left)) if side is not None]


PARTS: dict[str, Any] = {
    "frame": OrderedFrame, "lens": OrderedLens, "right": Side, "left": Side, "measured": Measured, "tint": Tint,
}  # fmt: skip
LISTS: dict[str, Any] = {"reasons": Told, "changes": Changed}


def written_order(order: Order) -> bytes:
    """The order as its file holds it."""
    return (json.dumps(asdict(order), indent=1, ensure_ascii=False) + "\n").encode("utf-8")


def read_order(raw: bytes) -> Order:
    """The order of a file.   Raises DamagedError."""
    try:
        found = json.loads(raw)
        if found["form"] != FORM:
            raise DamagedError(f"this order is written in form {found['form']}, and {FORM} is read here")
        for name, kind in PARTS.items():
            found[name] = None if found[name] is None else _made(kind, found[name])
        for name, kind in LISTS.items():
            found[name] = tuple(_made(kind, one) for one in found[name])
        return _made(Order, found)
    except (ValueError, TypeError, KeyError, AttributeError) as fault:
        raise DamagedError(f"this file of an order is damaged: {fault}") from fault


def _made(kind: type[T], values: dict[str, Any]) -> T:
    known = {one.name for one in fields(kind)}  # type: ignore[arg-type]
    unknown = set(values) - known
    if unknown:
        raise DamagedError(f"unknown: {', '.join(sorted(unknown))}")
    return kind(**{name: _tuples(value) for name, value in values.items()})


def _tuples(value: Any) -> Any:
    return tuple(_tuples(one) for one in value) if isinstance(value, list) else value
