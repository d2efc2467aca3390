"""The picture that goes with a link to a page: the front of a frame in its colorway, on squares of 10 mm.

No words stand in it: they go with the link as text.  The same drawing is the same picture, whatever frame it is of.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from hashlib import blake2b
from html import escape
from pathlib import Path
from xml.etree import ElementTree

import quoting
from quoting.catalog.model import Colorway, Frame, Size
from quoting.pictures import PILLOW, Area
from quoting.pictures import painted as picture
from quoting.show.front import ANY, uncolored
from quoting.show.lens_paint import Stops, painted
from quoting.show.pen import element
from quoting.show.shapes import SVG, color_of, shapes

# Open Graph says nothing of sizes; 1200 by 630 is what is shown whole nearly everywhere (practice)
WIDTH, HEIGHT = 1200, 630
# The part of the picture that the front may fill
FILLED = 0.84
GRID_MM = 10.0
# What paints a card: where its text is another one, the pictures are, and so are their names
PAINTERS = ("show/card.py", "show/shapes.py", "show/shading.py", "show/pen.py", "pictures.py")

# How what has a class looks on light paper: as css/tokens.css and css/drawing.css have it, which a test compares
EDGE, GRID = "#2a333b", "#e9edef"
LOOKS: dict[str, dict[str, str]] = {
    "front-piece": {"stroke": EDGE, "stroke-width": "0.3"},
    "wire-edge": {"stroke": EDGE},
    "wire": {},
    "glass": {"fill": "#dce8ef", "fill-opacity": "0.75", "stroke": EDGE, "stroke-width": "0.3"},
    "sun": {"fill": "#75716b", "fill-opacity": "0.85"},
    "tint": {"stroke": EDGE, "stroke-width": "0.3"},
    "paint": {},
    "gleam": {"fill": "none", "stroke": "#b4c7d3", "stroke-width": "0.45"},
    "pad": {"fill": "#eef2f4", "stroke": EDGE, "stroke-width": "0.25"},
    "hole": {"fill": "#ffffff", "stroke": EDGE, "stroke-width": "0.2"},
    "temple": {},
}


def drawn(frame: Frame, size: Size, color: Colorway, rim: float, stops: Stops = ()) -> str:
    """The front as SVG, without its looks; ``stops`` is the paint of its lenses."""
    sheet = uncolored((frame.family, frame.mounting, color.sun), size, rim, False, (0.0, 0.0))
    body = sheet.body.replace(ANY.front, escape(color.front)).replace(ANY.temples, escape(color.temples))
    box = f"{sheet.left} {sheet.top} {sheet.right - sheet.left} {sheet.bottom - sheet.top}"
    return painted(element("svg", body, xmlns=SVG.strip("{}"), viewBox=box), stops, "shade")


@cache
def recipe() -> str:
    """A name for how a card is painted."""
    texts = [(Path(quoting.__path__[0]) / name).read_bytes() for name in PAINTERS]
    return blake2b(b"\0".join([*texts, PILLOW.encode()]), digest_size=8).hexdigest()


def name_of(svg: str) -> str:
    """What the picture of a drawing is called after: what is in it, and how it is made."""
    return blake2b(f"{recipe()} {svg}".encode(), digest_size=8).hexdigest()


def card(svg: str) -> bytes:
    """The picture as PNG.   Raises ValueError for what cannot be painted: a test says that no drawing holds any."""
    root = ElementTree.fromstring(svg)
    for node in root.iter():
        for name in node.get("class", "").split():
            for key, value in LOOKS[name].items():
                node.set(key, value)
    (left, top, wide, high), found = shapes(ElementTree.tostring(root, encoding="unicode"))
    scale = min(WIDTH * FILLED / wide, HEIGHT * FILLED / high)
    x, y = WIDTH / 2 - (left + wide / 2) * scale, HEIGHT / 2 - (top + high / 2) * scale
    front = []
    for one in found:
        rings = [[(x + u * scale, y + v * scale) for u, v in ring] for ring in one.rings]
        front.append(Area(rings, one.color, one.opacity, one.even))
    return picture([*squares(x, y, scale), *front], WIDTH, HEIGHT, "<linearGradient" in svg)


def squares(x: float, y: float, scale: float) -> Iterator[Area]:
    """Fine lines every 10 mm from the middle of the bridge, where the middle is at x and y."""
    half, step = 0.125 * scale, GRID_MM * scale
    ink = color_of(GRID)
    for n in range(-int(x / step), int((WIDTH - x) / step) + 1):
        at = x + n * step
        yield Area([[(at - half, 0), (at + half, 0), (at + half, HEIGHT), (at - half, HEIGHT)]], ink, 1.0, False)
    for n in range(-int(y / step), int((HEIGHT - y) / step) + 1):
        at = y + n * step
        yield Area([[(0, at - half), (WIDTH, at - half), (WIDTH, at + half), (0, at + half)]], ink, 1.0, False)
