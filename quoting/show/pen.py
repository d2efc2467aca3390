"""Pieces of SVG as text: numbers, elements, paths.  One unit is one millimeter; every value that is written is escaped.

>>> element("path", d="M0 0", class_="lens")
'<path d="M0 0" class="lens"/>'
>>> element("text", number(-0.004), x=1.5, aria_label='a "b" <c>')
'<text x="1.5" aria-label="a &quot;b&quot; &lt;c&gt;">0</text>'
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math
from collections.abc import Sequence
from html import escape
from itertools import pairwise

Point = tuple[float, float]
Points = Sequence[Point]

# What may be left off a curve, mm: a seventh of a fine line, and half the points
UNSEEN = 0.04

# How things look where no style sheet is, as in a feed: thin lines in the color of the text around it
PLAIN: dict[str, str | float] = {"fill": "none", "stroke": "currentColor", "stroke_width": 0.25, "font_size": 3.2}


def number(value: float) -> str:
    """A coordinate to the hundredth of a millimeter, as short as SVG takes it.

    >>> number(0.5), number(-12.0), number(-0.25)
    ('.5', '-12', '-.25')
    """
    said = f"{value:.2f}".rstrip("0").rstrip(".")
    if said in ("-0", "0"):
        return "0"
    return said.replace("0.", ".", 1) if said.startswith(("0.", "-0.")) else said


def element(name: str, body: str = "", **attributes: str | float | None) -> str:
    """One element around a body that is SVG already; attributes of None are left out, ``_`` stands for ``-``."""
    pairs = [(key.rstrip("_").replace("_", "-"), value) for key, value in attributes.items() if value is not None]
    written = "".join(f' {key}="{escape(value) if isinstance(value, str) else number(value)}"' for key, value in pairs)
    return f"<{name}{written}>{body}</{name}>" if body else f"<{name}{written}/>"


def words(said: str, **attributes: str | float | None) -> str:
    """Words in a drawing, escaped: in the color of the text, without an outline."""
    return element("text", escape(said), **{"fill": "currentColor", "stroke": "none", **attributes})


def polyline(points: Points, closed: bool = True, unseen: float = UNSEEN) -> str:
    """Path data through all points that are seen, in steps from rounded place to rounded place: nothing adds up.

    >>> polyline([(0, 0), (1.5, 0), (1.5, -0.25)])
    'M0 0l1.5 0l0-.25z'
    """
    points = thinned(points, unseen)
    at = (round(points[0][0], 2), round(points[0][1], 2))
    parts = [f"M{number(at[0])} {number(at[1])}"]
    for point in points[1:]:
        to = (round(point[0], 2), round(point[1], 2))
        across, down = number(to[0] - at[0]), number(to[1] - at[1])
        parts.append(f"l{across}{'' if down.startswith('-') else ' '}{down}")
        at = to
    return "".join(parts) + ("z" if closed else "")


def thinned(points: Points, unseen: float) -> list[Point]:
    """A line without the points that nobody misses; its ends and what touches its box stay.

    >>> thinned([(0, 0), (1, 0.001), (2, 0), (2, 1)], 0.01)
    [(0, 0), (2, 0), (2, 1)]
    """
    sides = [pick(points, key=lambda p: p[axis]) for axis in (0, 1) for pick in (min, max)]
    ends = sorted({0, len(points) - 1, *(points.index(side) for side in sides)})
    kept = [points[0]]
    for first, last in pairwise(ends):
        kept += needed(points[first : last + 1], unseen)
    return kept


def needed(points: Points, unseen: float) -> list[Point]:
    """The points of a piece of line, without its start, that keep it in place (Douglas and Peucker, 1973)."""
    (u, v), (to_u, to_v) = points[0], points[-1]
    chord = math.hypot(to_u - u, to_v - v)
    off = [abs((p[0] - u) * (to_v - v) - (p[1] - v) * (to_u - u)) for p in points]
    farthest = max(range(len(points)), key=off.__getitem__)
    if off[farthest] <= unseen * chord:
        return [points[-1]]
    return needed(points[: farthest + 1], unseen) + needed(points[farthest:], unseen)


def mirrored(points: Points) -> list[Point]:
    """The same on the other side of the middle."""
    return [(-u, v) for u, v in points]


def curve(start: Point, first: Point, second: Point, end: Point, steps: int = 10) -> list[Point]:
    """Points of a cubic Bézier curve, without its start.

    >>> curve((0, 0), (1, 0), (2, 0), (3, 0), 3)
    [(1.0, 0.0), (2.0, 0.0), (3.0, 0.0)]
    """
    found = []
    for step in range(1, steps + 1):
        t = step / steps
        weights = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3)
        corners = (start, first, second, end)
        u = sum(weight * corner[0] for weight, corner in zip(weights, corners, strict=True))
        v = sum(weight * corner[1] for weight, corner in zip(weights, corners, strict=True))
        found.append((round(u, 9), round(v, 9)))
    return found


def drawing(body: str, label: str, left: float, top: float, width: float, height: float, class_: str) -> str:
    """A whole drawing to scale, at life size where there is room, with a name for who cannot see it."""
    box = " ".join(number(value) for value in (left, top, width, height))
    wide, high = f"{number(width)}mm", f"{number(height)}mm"
    name: dict[str, str | float] = {"class_": class_, "role": "img", "aria_label": label}
    return element("svg", body, **name, viewBox=box, width=wide, height=high, **PLAIN)
