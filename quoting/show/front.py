"""The front of a frame, drawn to scale from A, B, DBL, ED and its shape family, in a colorway's colors.

Seen as the customer sees it on a face: the right eye's lens is at the observer's left.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.catalog.model import Colorway, Frame, Size
from quoting.show.dimensions import ABOVE, MARGIN, box_dimensions, grid
from quoting.show.half import Ring, lens_ring
from quoting.show.pen import Point, drawing, element, polyline
from quoting.show.rims import METAL_END, PLASTIC_END, both, drilled, full_metal, plastic, semi

# Room around the front within its drawing, mm
ROOM = 2.5
# What a temple's end adds beyond the endpiece
TEMPLE = 2.0

# How strongly glass is tinted where no style sheet is, for clear and for sun lenses
LIGHT, DARK = 0.06, 0.5


def reach(frame: Frame, size: Size, rim: float) -> float:
    """How far the front goes to each side of the middle, endpieces and temples included."""
    out = PLASTIC_END[0] if frame.mounting == "full-rim-plastic" else METAL_END[0]
    return size.dbl / 2 + size.a + rim + out + TEMPLE


def glass(lens: Ring, sun: bool) -> str:
    """Both lenses, with the short strokes by which a drawing tells glass."""
    tint, name = (DARK, "glass sun") if sun else (LIGHT, "glass")
    body = both(lens.points, class_=name, fill="currentColor", fill_opacity=tint)
    return body + element("path", d="".join(polyline(one, closed=False) for one in strokes(lens)), class_="gleam")


def strokes(lens: Ring) -> list[list[Point]]:
    """Three slanting strokes in the upper corner of each lens, to the observer's left of its middle."""
    found = []
    for side in (1, -1):
        middle = (lens.points[lens.nasal][0] + lens.points[lens.temporal][0]) / 2 * side
        high = lens.points[lens.top][1] - lens.points[lens.bottom][1]
        wide = lens.points[lens.temporal][0] - lens.points[lens.nasal][0]
        for step, long in ((0, 0.2), (1, 0.13), (2, 0.2)):
            u, v = middle - wide * (0.3 - 0.055 * step), high * (0.1 - 0.02 * step)
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
    frame: Frame,
    size: Size,
    color: Colorway,
    rim: float,
    label: str,
    dimensions: bool = True,
    sheet: tuple[float, float] = (0.0, 0.0),
) -> str:
    """The drawing, with its dimension lines on a grid of 10 mm if wanted.

    ``sheet``: least half width and half height, mm; the same sheet makes drawings that can be compared at sight.
    """
    lens = lens_ring(size, frame.family)
    body = [held(frame, lens, rim, color), glass(lens, color.sun)]
    if frame.mounting != "full-rim-plastic":
        body.reverse()
    side = max(sheet[0], reach(frame, size, rim)) + ROOM
    top, bottom = -max(sheet[1], size.b / 2 + rim * 1.3) - ROOM, max(sheet[1], size.b / 2 + rim) + ROOM
    if dimensions:
        side, top, bottom = side + MARGIN, top - ABOVE, bottom + MARGIN
        body = [grid(side, top, bottom), *body, box_dimensions(size, lens, rim)]
    name = f"drawing front{' measured' if dimensions else ''}"
    return drawing("".join(body), label, -side, top, 2 * side, bottom - top, name)
