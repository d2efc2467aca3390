"""The front of a frame, drawn to scale in mm from its outline, as seen when facing the wearer."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math

from markupsafe import escape

from quoting.catalog.model import Colorway, Frame, Size
from quoting.tables import outline_of

# Room around the front for temples and dimension lines, mm
SIDE = 12.0
ABOVE = 8.0
BELOW = 14.0


def path(points: list[tuple[float, float]], closed: bool = True) -> str:
    """SVG path data; y points up in the outline and down on the page."""
    steps = " ".join(f"{x:.2f} {-y:.2f}" for x, y in points)
    return f"M{steps}{'Z' if closed else ''}"


def widened(points: list[tuple[float, float]], by: float) -> list[tuple[float, float]]:
    """The outline moved outward along its normals."""
    moved = []
    for i, (x, y) in enumerate(points):
        before, after = points[i - 1], points[(i + 1) % len(points)]
        dx, dy = after[0] - before[0], after[1] - before[1]
        length = math.hypot(dx, dy) or 1.0
        moved.append((x + dy / length * by, y - dx / length * by))
    return moved


def rim_marks(frame: Frame, points: list[tuple[float, float]], rim: float, color: str) -> str:
    """What holds the lens: a rim all around, the upper half of one, or two screws."""
    if frame.mounting == "drilled":
        nasal = max(x for x, _ in points) - 3.0
        temporal = min(x for x, _ in points) + 3.0
        height = points[0][1]
        return "".join(f'<circle cx="{x:.2f}" cy="{-height:.2f}" r="0.8" fill="{color}"/>' for x in (nasal, temporal))
    if frame.mounting == "semi-rimless":
        upper = [point for point in points[: len(points) // 2 + 1]]
        return f'<path d="{path(upper, closed=False)}" fill="none" stroke="{color}" stroke-width="{rim:.1f}"/>'
    outer = path(widened(points, rim))
    return f'<path d="{outer} {path(points[::-1])}" fill="{color}" fill-rule="evenodd"/>'


def dimension(x1: float, y1: float, x2: float, y2: float, text: str) -> str:
    """A dimension line with its figure; y downward, as on the page."""
    turn = f' transform="rotate(-90 {x1 - 1:.2f} {(y1 + y2) / 2:.2f})"' if x1 == x2 else ""
    at_x, at_y = (x1 - 1, (y1 + y2) / 2) if x1 == x2 else ((x1 + x2) / 2, y1 - 1)
    return (
        f'<path class="dimension" d="M{x1:.2f} {y1:.2f}L{x2:.2f} {y2:.2f}"/>'
        f'<text class="dimension" x="{at_x:.2f}" y="{at_y:.2f}" font-size="3.2" text-anchor="middle"{turn}>{text}</text>'
    )


def dimensions_of(size: Size, middle: float) -> str:
    """A, B, DBL and the effective diameter."""
    low = size.b / 2 + 9.0
    return (
        dimension(-middle - size.a / 2, low, -middle + size.a / 2, low, f"A {size.a:g}")
        + dimension(-size.dbl / 2, low, size.dbl / 2, low, f"DBL {size.dbl:g}")
        + dimension(middle - size.a / 2, low, middle + size.a / 2, low, f"ED {size.ed:g}")
        + dimension(-middle - size.a / 2 - 8, size.b / 2, -middle - size.a / 2 - 8, -size.b / 2, f"B {size.b:g}")
        + f'<circle class="hairline" cx="{middle:.2f}" cy="0" r="{size.ed / 2:.2f}"/>'
    )


def front_svg(frame: Frame, size: Size, colorway: Colorway, rim: float, title: str, dimensions: bool = True) -> str:
    """Inline SVG of the whole front; the right eye's lens lies at the observer's left."""
    xs, ys = outline_of(size.a, size.b, size.ed, frame.family)
    points = list(zip(xs, ys, strict=True))
    middle = (size.a + size.dbl) / 2
    top, level = size.b / 2 + rim, -points[0][1]
    wide = middle + size.a / 2 + SIDE
    glass = "glass sun" if colorway.version == "sun" else "glass"
    thick = max(rim, 1.2)
    bow = level - max(size.b * 0.14, 3.0)
    half = size.dbl / 2 - (0 if frame.mounting != "drilled" else -3.0)
    bridge = f'<path d="M{-half:.2f} {level:.2f}Q0 {bow:.2f} {half:.2f} {level:.2f}" fill="none" stroke="{colorway.front}" stroke-width="{thick:.1f}"/>'
    end = -(middle + size.a / 2 + rim / 2)
    stub = f'<path d="M{end + rim:.2f} {level:.2f}L{end - 5:.2f} {level - 1:.2f}" stroke="{colorway.temples}" stroke-width="{thick + 1:.1f}"/>'
    lens = f'<path class="{glass}" d="{path(points)}"/>{rim_marks(frame, points, rim, colorway.front)}'
    one = f'<g transform="translate({-middle:.2f} 0)">{lens}</g>{stub}'
    box = f"{-wide:.2f} {-top - ABOVE:.2f} {2 * wide:.2f} {2 * top + ABOVE + BELOW:.2f}"
    drawn = f'{one}<g transform="scale(-1 1)">{one}</g>{bridge}{dimensions_of(size, middle) if dimensions else ""}'
    return f'<svg class="drawing" viewBox="{box}" role="img" aria-label="{escape(title)}">{drawn}</svg>'
