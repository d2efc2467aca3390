"""Whether a lens that was cut for one frame goes into another: outlines, circumference, curve and mounting compared."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from quoting.catalog.fastening import Hole
from quoting.catalog.model import Frame, Outline, Size
from quoting.kernel import swap, swap_held
from quoting.tables import size_outline

# A box that differs by more is never moved into place (practice: twice the gap that is too far): mm
FAR_BOX_MM = 3.0


@dataclass(frozen=True, slots=True)
class Swap:
    """One comparison: a lens of the one frame in the rim of the other.  Lengths mm, curves D."""

    verdict: str  # yes, maybe, no
    gap: float  # the largest radial gap after the best shift
    shift_in: float  # by which the lens moves in its rim, and its optical center with it
    shift_up: float
    longer: float  # the rim's circumference less the lens's
    curve: float  # the rim's curve less the lens's frame's
    dbl: float  # the other bridge less this one
    held: str  # what the mountings say
    traced: bool  # whether both outlines were traced
    parts: dict[str, str]  # what each of the numbers says by itself
    groove: float | None = None  # the greatest difference of the grooves; None where one is not stated
    holes: float | None = None  # how far a hole lies from where the other frame wants it; None as above
    bore: float | None = None  # the greatest difference of their diameters


def compared(frame: Frame, size: Size, other: Frame, other_size: Size) -> Swap:
    """The lens of a size of one frame in a size of another."""
    lens, rim = outlines(frame, size, other, other_size)
    gap, inward, upward = swap.aligned(*_lists(lens), *_lists(rim))
    longer = swap.circumference_gap(*_lists(lens), *_lists(rim))
    curve = other.curve - frame.curve
    groove, holes, bore = grooves(frame, other), *bored(size, other_size, inward, upward)
    parts = {
        "gap": swap.judged(gap, swap.GAP_MM, swap.FAR_GAP_MM),
        "circumference": swap.judged(abs(longer), swap.CIRCUMFERENCE_MM, swap.FAR_CIRCUMFERENCE_MM),
        "curve": swap.judged(abs(curve), swap.CURVE_D, swap.FAR_CURVE_D),
        "mounting": held_alike(frame, size, other, other_size),
    }
    if groove is not None:
        parts["groove"] = swap.judged(groove, swap_held.GROOVE_MM, swap_held.FAR_GROOVE_MM)
    if holes is not None and bore is not None:
        parts["holes"] = swap.judged(holes, swap_held.HOLE_MM, swap_held.FAR_HOLE_MM)
        parts["hole diameter"] = swap.judged(bore, swap_held.HOLE_MM, swap_held.FAR_HOLE_MM)
    held = parts["mounting"]
    for name in ("groove", "holes", "hole diameter"):
        held = swap.worse(held, parts.get(name, "yes"))
    traced = size.outline is not None and other_size.outline is not None
    return Swap(
        swap.verdict(gap, longer, curve, traced, held),
        gap,
        inward,
        upward,
        longer,
        curve,
        other_size.dbl - size.dbl,
        parts["mounting"],
        traced,
        parts,
        groove,
        holes,
        bore,
    )


def held_alike(frame: Frame, size: Size, other: Frame, other_size: Size) -> str:
    """What the mountings say; where the holes of both drilled frames are stated, these decide instead."""
    said = swap.held_alike(frame.mounting, other.mounting)
    return "yes" if said == "maybe" and size.holes and other_size.holes else said


def grooves(frame: Frame, other: Frame) -> float | None:
    """By how much two grooves differ at most, mm; None where one is not stated."""
    if frame.groove is None or other.groove is None:
        return None
    one, two = frame.groove, other.groove
    return swap_held.groove_gap(one.width, one.depth, two.width, two.depth)


def bored(size: Size, other: Size, inward: float, upward: float) -> tuple[float | None, float | None]:
    """How far holes lie from those of the other frame once the lens is moved, and how far diameters differ, mm."""
    if not size.holes or not other.holes:
        return None, None
    moved = [Hole(one.inward + inward, one.up + upward, one.diameter) for one in size.holes]
    one, two = _places(moved), _places(other.holes)
    return swap_held.hole_gap(one[0], one[1], two[0], two[1]), swap_held.bore_gap(one, two)


def _places(holes: Iterable[Hole]) -> list[list[float]]:
    each = list(holes)
    return [[one.inward for one in each], [one.up for one in each], [one.diameter for one in each]]


def outlines(frame: Frame, size: Size, other: Frame, other_size: Size) -> tuple[Outline, Outline]:
    """What is laid over each other: two traces, else the estimates of both, as a trace beside an estimate shows by how
    much the estimate is off and not by how much the frames differ."""
    if size.outline is None or other_size.outline is None:
        size, other_size = replace(size, outline=None), replace(other_size, outline=None)
    return size_outline(size, frame.family), size_outline(other_size, other.family)


def far_apart(size: Size, other: Size) -> bool:
    """Whether the boxes alone say no, so that outlines need not be laid over each other."""
    return abs(size.a - other.a) > FAR_BOX_MM or abs(size.b - other.b) > FAR_BOX_MM


def _lists(outline: Outline) -> tuple[list[float], list[float]]:
    return list(outline[0]), list(outline[1])
