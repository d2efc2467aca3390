"""For a frame's page: into which other frames its lenses go, so that who has it may change the frame alone.

Two traced outlines are laid over each other; without traces box, ED and curve decide, and then nothing is sure.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from dataclasses import dataclass
from functools import partial

from quoting.catalog.model import Frame, Size
from quoting.catalog.shop import Catalog
from quoting.kernel.outline import perimeter
from quoting.kernel.swap import FAR_CIRCUMFERENCE_MM, FAR_CURVE_D, judged
from quoting.kernel.swap_held import FAR_GROOVE_MM, FAR_HOLE_MM, GROOVE_MM, HOLE_MM
from quoting.remembered import recalled
from quoting.swapping import bored, compared, grooves, held_alike
from quoting.tables import size_outline

# (practice) estimated outlines of boxes that differ by more hold no lens of each other, mm
NEAR_BOX_MM, NEAR_ED_MM = 1.0, 1.5
# Nobody reads a longer list
MOST = 6


@dataclass(frozen=True, slots=True)
class Taker:
    """A frame that takes the lenses of another one, of this size."""

    frame: Frame
    size: Size
    lens: Size  # the size that the lenses are of
    sure: bool  # both were traced, and every number is within its limit


class _Shelf:
    """All sizes of a shop by their boxes; the last shop's is kept while its pages are made."""

    def __init__(self, catalog: Catalog) -> None:
        self.catalog = catalog
        self.boxes: dict[tuple[int, int], list[tuple[Frame, Size]]] = {}
        for frame in catalog.frames.values():
            for size in frame.sizes:
                self.boxes.setdefault(_box(size), []).append((frame, size))

    def near(self, size: Size) -> list[tuple[Frame, Size]]:
        """Those whose boxes may be near enough."""
        a, b = _box(size)
        around = ((a + i, b + j) for i in (-1, 0, 1) for j in (-1, 0, 1))
        return [one for box in around for one in self.boxes.get(box, ())]


def _box(size: Size) -> tuple[int, int]:
    return int(size.a // NEAR_BOX_MM), int(size.b // NEAR_BOX_MM)


_last: list[_Shelf] = []


def takers(frame: Frame, catalog: Catalog) -> list[Taker]:
    """Other frames that may take lenses of this one, the sure ones and the nearest boxes first."""
    if not _last or _last[0].catalog is not catalog:
        _last[:] = [_Shelf(catalog)]
    found = []
    for size in frame.sizes:
        for other, other_size in _last[0].near(size):
            taker = _taker(frame, size, other, other_size)
            if taker is not None:
                found.append((not taker.sure, _apart(size, other_size), taker))
    found.sort(key=lambda one: one[:2])
    return [taker for _, _, taker in found[:MOST]]


def _apart(size: Size, other: Size) -> float:
    return abs(size.a - other.a) + abs(size.b - other.b) + abs(size.ed - other.ed)


def _taker(frame: Frame, size: Size, other: Frame, other_size: Size) -> Taker | None:
    if other is frame or held_alike(frame, size, other, other_size) != "yes":
        return None
    if _held_apart(frame, size, other, other_size):
        return None
    if abs(frame.curve - other.curve) > FAR_CURVE_D:
        return None
    if size.outline is not None and other_size.outline is not None:
        verdict = compared(frame, size, other, other_size).verdict
        return None if verdict == "no" else Taker(other, other_size, size, verdict == "yes")
    near = abs(size.a - other_size.a) <= NEAR_BOX_MM and abs(size.b - other_size.b) <= NEAR_BOX_MM
    if not near or abs(size.ed - other_size.ed) > NEAR_ED_MM or frame.family != other.family:
        return None
    if around(other, other_size, frame, size) > FAR_CIRCUMFERENCE_MM:
        return None
    return Taker(other, other_size, size, False)


def _held_apart(frame: Frame, size: Size, other: Frame, other_size: Size) -> bool:
    """Whether grooves or holes alone say no."""
    groove, (holes, bore) = grooves(frame, other), bored(size, other_size, 0.0, 0.0)
    wide = groove is not None and judged(groove, GROOVE_MM, FAR_GROOVE_MM) == "no"
    # Without traces the shift is not known, so a hole may lie as much farther off as boxes may differ
    far = holes is not None and judged(holes, HOLE_MM, FAR_HOLE_MM + NEAR_BOX_MM) == "no"
    return wide or far or (bore is not None and judged(bore, HOLE_MM, FAR_HOLE_MM) == "no")


def around(frame: Frame, size: Size, other: Frame, other_size: Size) -> float:
    """By how much the circumferences of two outlines differ, mm."""
    return abs(circumference(size, frame.family) - circumference(other_size, other.family))


def circumference(size: Size, family: str) -> float:
    """The length of an outline, mm."""
    name = ("circumference", size.a, size.b, size.ed, family, size.outline)
    length = partial(_circumference, size, family)
    return float(recalled(name, lambda kept: isinstance(kept, float), length))


def _circumference(size: Size, family: str) -> float:
    return perimeter(*map(list, size_outline(size, family)))
