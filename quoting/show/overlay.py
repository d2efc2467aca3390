"""Two outlines over each other at life size: the lens as a surface, the rim or estimate as a line; one SVG file."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.catalog.model import Outline
from quoting.show.pen import drawing, element, polyline, words

MARGIN, CAPTION = 4.0, 12.0
# Dark on white, apart without color too: the one is filled, the other a broken line
FILLED: dict[str, str | float] = {"fill": "#dce8ef", "stroke": "#1d5b8c", "stroke_width": 0.3}
BROKEN: dict[str, str | float] = {"stroke": "#96292b", "stroke_width": 0.35, "stroke_dasharray": "1.5 1"}


def overlay(first: Outline, second: Outline, names: tuple[str, str], shift: tuple[float, float] = (0.0, 0.0)) -> str:
    """The second over the first, which is moved by ``shift`` (in, up), mm; seen facing the wearer's right eye."""
    moved = [(x + shift[0], -y - shift[1]) for x, y in zip(*first, strict=True)]
    still = [(x, -y) for x, y in zip(*second, strict=True)]
    points = moved + still
    left, right = min(p[0] for p in points) - MARGIN, max(p[0] for p in points) + MARGIN
    top, bottom = min(p[1] for p in points) - MARGIN, max(p[1] for p in points) + MARGIN
    middle = (left + right) / 2
    body = element("rect", x=left, y=top, width=right - left, height=bottom - top + CAPTION, fill="#fff", stroke="none")
    body += element("path", "", d=polyline(moved), **FILLED) + element("path", "", d=polyline(still), **BROKEN)
    body += _caption(names[0], left + MARGIN, bottom + 3.0, FILLED)
    body += _caption(names[1], left + MARGIN, bottom + 8.0, BROKEN)
    body += words("nose →", x=right - 1.0, y=top + 4.0, text_anchor="end", fill="#1c2733")
    body += element("path", d=f"M{middle - 2:.2f} 0h4M{middle:.2f} -2v4", stroke="#1c2733", stroke_width=0.15)
    svg = drawing(body, f"{names[0]} and {names[1]}", left, top, right - left, bottom - top + CAPTION, "overlay")
    return svg.replace("<svg ", '<svg xmlns="http://www.w3.org/2000/svg" ', 1)


def _caption(said: str, x: float, y: float, how: dict[str, str | float]) -> str:
    box: dict[str, str | float | None] = {"x": x, "y": y - 2.4, "width": 5.0, "height": 2.6}
    sample = element("rect", "", **box, **how)
    return sample + words(said, x=x + 6.5, y=y, fill="#1c2733", font_size=2.9)
