"""The front of a frame, drawn to scale from A, B, DBL, ED and its shape family, in a colorway's colors.

Seen as the customer sees it on a face: the right eye's lens is at the observer's left.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from functools import lru_cache
from html import escape
from typing import Any, NamedTuple

from quoting.catalog.model import Colorway, Family, Frame, Mounting, Size
from quoting.languages import Tongue, spoken
from quoting.remembered import recalled
from quoting.show.dimensions import ABOVE, BELOW, MARGIN, box_dimensions, check_line, grid
from quoting.show.half import Ring, lens_ring
from quoting.show.pen import Point, drawing, element, polyline
from quoting.show.rims import METAL_END, PLASTIC_END, Paint, both, drilled, full_metal, plastic, semi

# Room around the front within its drawing, mm
ROOM = 2.5
# What a temple's end adds beyond the endpiece
TEMPLE = 2.0

# How strongly glass is tinted where no style sheet is, for clear and for sun lenses
LIGHT, DARK = 0.06, 0.5

# What stands for a colorway's colors in a drawing that is made once for all of them; no text of a shop can hold these
ANY = Paint("\x0e", "\x0f")


def reach(mounting: Mounting, size: Size, rim: float) -> float:
    """How far the front goes to each side of the middle, endpieces and temples included."""
    out = PLASTIC_END[0] if mounting == "full-rim-plastic" else METAL_END[0]
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


def held(family: Family, mounting: Mounting, lens: Ring, rim: float, paint: Paint) -> str:
    """What holds the lenses."""
    if mounting == "full-rim-plastic":
        return plastic(lens, rim, paint)
    if mounting == "full-rim-metal":
        return full_metal(lens, rim, paint, family == "pilot")
    if mounting == "semi-rimless":
        return semi(lens, rim, paint)
    return drilled(lens, paint)


class Sheet(NamedTuple):
    """A drawing without its colors, and the window it needs, mm."""

    body: str
    left: float
    top: float
    right: float
    bottom: float


def in_front(shape: tuple[Family, Mounting, bool], size: Size, rim: float) -> tuple[str, float]:
    """Lenses and what holds them, with ANY in place of the colors; and how far the lenses go to each side, mm."""
    box = (size.a, size.b, size.dbl, size.ed, size.outline)
    body, out = recalled(("front", shape, box, rim), _is_front, lambda: _in_front(shape, size, rim))
    return body, out


@lru_cache(maxsize=32)
def _in_front(shape: tuple[Family, Mounting, bool], size: Size, rim: float) -> list[str | float]:
    family, mounting, sun = shape
    lens = lens_ring(size, family)
    body = [held(family, mounting, lens, rim, ANY), glass(lens, sun)]
    if mounting != "full-rim-plastic":
        body.reverse()
    return ["".join(body), max(u for u, _ in lens.points)]


def _is_front(kept: Any) -> bool:
    return isinstance(kept, list) and [type(one) for one in kept] == [str, float] and kept[0][:1] == "<"


def uncolored(
    shape: tuple[Family, Mounting, bool],
    size: Size,
    rim: float,
    dimensions: bool,
    least: tuple[float, float],
) -> Sheet:
    """The drawing with ANY in place of the colors; ``shape`` is family, mounting, and whether its lenses are for sun.

    All colorways of a size are this one drawing: it is made once for as long as the pages of a frame are, in each
    language that is spoken, since its dimensions are numbers.
    """
    return _uncolored(shape[1], size, rim, dimensions, least, in_front(shape, size, rim), spoken())


@lru_cache(maxsize=32)
def _uncolored(
    mounting: Mounting,
    size: Size,
    rim: float,
    dimensions: bool,
    least: tuple[float, float],
    front: tuple[str, float],
    _: Tongue,
) -> Sheet:
    body, out = front
    side = max(least[0], reach(mounting, size, rim)) + ROOM
    top, bottom = -max(least[1], size.b / 2 + rim * 1.3) - ROOM, max(least[1], size.b / 2 + rim) + ROOM
    if not dimensions:
        return Sheet(body, -side, top, side, bottom)
    right, top, bottom = side + MARGIN, top - ABOVE, bottom + BELOW
    measures = box_dimensions(size, out, rim) + check_line(bottom)
    groups = element("g", body, class_="frame") + element("g", measures, class_="measures")
    return Sheet(grid(-side, right, top, bottom) + groups, -side, top, right, bottom)


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
    shape = (frame.family, frame.mounting, color.sun)
    body, left, top, right, bottom = uncolored(shape, size, rim, dimensions, sheet)
    name = f"drawing front{' measured' if dimensions else ''}"
    body = body.replace(ANY.front, escape(color.front)).replace(ANY.temples, escape(color.temples))
    return drawing(body, label, left, top, right - left, bottom - top, name)


def alone(svg: str, style: str = "") -> str:
    """A drawing as a file of its own, which browsers show and print at life size.   ``style``: a sheet that it has.

    >>> alone('<svg class="drawing" width="50mm"/>')
    '<svg xmlns="http://www.w3.org/2000/svg" font-family="sans-serif" class="drawing" width="50mm"/>'
    """
    whole = str(svg).replace("<svg ", '<svg xmlns="http://www.w3.org/2000/svg" font-family="sans-serif" ', 1)
    return whole.replace(">", f"><style>{style}</style>", 1) if style else whole
