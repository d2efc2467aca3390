"""A drawn street with signal lights: each piece is filled with the color of its part, plain or through a filter.

The parts and their colors are those of quoting/kernel/scene.py; a script colors the same pieces anew.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Sequence

from quoting.show.looks import hexed
from quoting.show.pen import element

WIDE, HIGH = 96.0, 54.0
SKY, WHITE, BRICK, PLASTER, LEAVES, ROAD, PAVEMENT, CAR, SIGN, DARK, COAT, RED, YELLOW, GREEN, BLUE = range(15)


def disc(u: float, v: float, r: float) -> str:
    """The path of a disc.

    >>> disc(65.0, 12.0, 2.0)
    'M63 12a2 2 0 1 0 4 0a2 2 0 1 0-4 0z'
    """
    return f"M{u - r:g} {v:g}a{r:g} {r:g} 0 1 0 {2 * r:g} 0a{r:g} {r:g} 0 1 0-{2 * r:g} 0z"


# (part, path), from what lies behind to what lies before
PIECES = (
    (SKY, "M0 0h96v38H0z"),
    (WHITE, "M8 9c1-4 7-4 8-1 3-2 7 0 6 3H7c-2 0-1-2 1-2zM56 6c1-3 6-3 7-1 3-1 5 0 5 3H55c-1 0-1-2 1-2z"),
    (PLASTER, "M0 12h20v26H0z"),
    (BRICK, "M20 17h18v21H20zM72 10h24v28H72z"),
    (DARK, "M4 16h4v6H4zM12 16h4v6h-4zM4 26h4v6H4zM24 21h4v5h-4zM31 21h4v5h-4zM24 30h4v5h-4z"),
    (WHITE, "M77 14h5v6h-5zM87 14h5v6h-5zM77 25h5v6h-5zM87 25h5v13h-5z"),
    (DARK, "M49 26h2v12h-2z"),
    (LEAVES, disc(50, 20, 7) + disc(45, 23, 4.5) + disc(55, 23, 4.5)),
    (PAVEMENT, "M0 36h96v4H0z"),
    (ROAD, "M0 40h96v14H0z"),
    (WHITE, "M6 48.5h12v1.4H6zM28 48.5h12v1.4H28zM50 48.5h12v1.4H50zM72 48.5h12v1.4H72z"),
    (CAR, "M22 44c0-2 1-4 3-4l4-4h10l4 4c4 0 6 1 6 4v1H22z"),
    (WHITE, "M30 37h3.6v3h-6zM35 37h3.4l2.6 3h-6z"),
    (BLUE, "M32.5 34.6h3.4V36h-3.4z"),
    (DARK, disc(27.5, 45, 2.4) + disc(43, 45, 2.4)),
    (DARK, "M64.4 14h1.2v24h-1.2zM61 7h8v20h-8z"),
    (RED, disc(65, 11, 2.3)),
    (YELLOW, disc(65, 17, 2.3)),
    (GREEN, disc(65, 23, 2.3)),
    (DARK, "M11.6 24h.8v14h-.8z"),
    (SIGN, disc(12, 21.5, 3.6)),
    (WHITE, disc(12, 21.5, 2.2)),
    (COAT, "M80 30.6c2 0 3 1 3 3v5h-6v-5c0-2 1-3 3-3z"),
    (DARK, disc(80, 28.6, 1.9) + "M78 38.6h1.7v5H78zM80.4 38.6h1.7v5h-1.7z"),
)


def street(colors: Sequence[Sequence[float]], label: str) -> str:
    """The drawing in these colors, one for each part."""
    pieces = "".join(element("path", d=path, fill=hexed(colors[part]), data_part=str(part)) for part, path in PIECES)
    box = f"0 0 {WIDE:g} {HIGH:g}"
    return element("svg", pieces, class_="drawing street", viewBox=box, role="img", aria_label=label, stroke="none")
