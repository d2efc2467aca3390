"""The front of a frame, drawn to scale from A, B, DBL, ED and its shape family, in a colorway's colors.

Seen as the customer sees it on a face: the right eye's lens is at the observer's left.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.catalog.model import Colorway, Frame, Size
from quoting.show.dimensions import MARGIN, box_dimensions
from quoting.show.half import Ring, lens_ring
from quoting.show.pen import Point, drawing, element, polyline
from quoting.show.rims import METAL_END, PLASTIC_END, both, drilled, full_metal, plastic, semi

# Room around the front within its drawing, mm
ROOM = 2.5
# What a temple's end adds beyond the endpiece
TEMPLE = 2.0


def reach(frame: Frame, size: Size, rim: float) -> float:
    """How far the front goes to each side of the middle, endpieces and temples included."""
    out = PLASTIC_END[0] if frame.mounting == "full-rim-plastic" else METAL_END[0]
    return size.dbl / 2 + size.a + rim + out + TEMPLE


def glass(lens: Ring, sun: bool) -> str:
    """Both lenses, with the short strokes by which a drawing tells glass."""
    body = both(lens.points, class_="glass sun" if sun else "glass")
    return body + element("path", d="".join(polyline(one, closed=False) for one in strokes(lens)), class_="gleam")


def strokes(lens: Ring) -> list[list[Point]]:
    """Three slanting strokes in the upper corner of each lens, to the observer's left of its middle."""
    found = []
    for side in (1, -1):
        middle = (lens.points[lens.nasal][0] + lens.points[lens.temporal][0]) / 2 * side
        high = lens.points[lens.top][1] - lens.points[lens.bottom][1]
        wide = lens.points[lens.temporal][0] - lens.points[lens.nasal][0]
        for step, long in ((0, 0.2), (1, 0.13), (2, 0.2)):
            u, v = middle - wide * (0.3 - 0.055 * step), high * (0.1 - 0.02 * step) + 0.0
            run = long * -high
            found.append([(u, v), (u + run * 0.7, v - run * 0.7)])
    return found


def held(frame: Frame, lens: Ring, rim: float, color: Colorway) -> str:
    """What holds the lenses."""
    if frame.mounting == "full-rim-plastic":
        return plastic(lens, rim, color)
    if frame.mounting == "full-rim-metal":
        return full_metal(lens, rim, color, frame.family == "pilot")
    if frame.mounting == "semi-rimless":
        return semi(lens, rim, color)
    return drilled(lens, color)


def front_svg(
    frame: Frame, size: Size, color: Colorway, rim: float, label: str, dimensions: bool = True, half: float = 0.0
) -> str:
    """The drawing, with its dimension lines if wanted; ``half`` is the least half width of the sheet, mm.

    The same ``half`` and the same height on a page make drawings that can be compared.
    """
    lens = lens_ring(size, frame.family)
    body = [held(frame, lens, rim, color), glass(lens, color.version == "sun")]
    if frame.mounting != "full-rim-plastic":
        body.reverse()
    side = max(half, reach(frame, size, rim)) + ROOM
    top, bottom = -size.b / 2 - rim * 1.3 - ROOM, size.b / 2 + rim + ROOM
    if dimensions:
        body.append(box_dimensions(size, lens, rim))
        side, top, bottom = side + MARGIN, top - MARGIN * 0.55, bottom + MARGIN
    name = f"drawing front{' measured' if dimensions else ''}"
    return drawing("".join(body), label, -side, top, 2 * side, bottom - top, name)
