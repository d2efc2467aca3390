"""``groove`` of a semi-rimless frame and ``holes`` of a drilled one's size; either may be left out."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.catalog import checks
from quoting.catalog.fastening import Groove, Hole
from quoting.nodes import Record

GROOVE = "{width: 0.6, depth: 0.4}"
HOLE = "{in: 21.0, up: 3.5, diameter: 1.4}"
# Beyond these nobody grooves or drills a lens (practice), mm
WIDTHS, DEPTHS, DIAMETERS = (0.2, 2.0), (0.1, 2.0), (0.6, 4.0)


def read_groove(frame: Record, mounting: str) -> Groove | None:
    """The groove that the frame's cord needs; none where it is not written."""
    if mounting != "semi-rimless":
        if mounting:
            checks.absent(frame, "groove", "semi-rimless frames")
        return None
    if not frame.has("groove"):
        return None
    part = frame.record("groove", "this groove", example=GROOVE)
    groove = Groove(part.length("width", *WIDTHS, example="0.6"), part.length("depth", *DEPTHS, example="0.4"))
    part.close()
    return groove


def read_holes(size: Record, mounting: str, a: float, b: float) -> tuple[Hole, ...]:
    """The holes of one lens of this size; none where they are not written."""
    if mounting != "drilled":
        if mounting:
            checks.absent(size, "holes", "sizes of drilled frames")
        return ()
    if not size.has("holes"):
        return ()
    holes = []
    for part in size.records("holes", "this hole", example=HOLE):
        hole = Hole(
            part.number("in", -40, 40, example="21.0"),
            part.number("up", -40, 40, example="3.5"),
            part.length("diameter", *DIAMETERS, example="1.4"),
        )
        for name, off, side, most in (("in", hole.inward, "a", a), ("up", hole.up, "b", b)):
            if part.sound(name) and size.sound(side) and abs(off) >= most / 2:
                where = f"{abs(off):g} mm from the middle of the box"
                said = f"this hole lies {where}, outside of the lens (`{side}` {most:g})"
                part.fault(name, "out-of-range", said, "measure from the middle of the lens's box; minus: out, or down")
        part.close()
        holes.append(hole)
    return tuple(holes)
