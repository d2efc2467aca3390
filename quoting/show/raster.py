"""A drawing as a picture of dots, for where no SVG is shown, as in most mail programs: PNG (ISO/IEC 15948).

Each row of dots is crossed by a few fine lines; what part of a dot lies within an area is what the area adds to it.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import struct
import zlib
from collections.abc import Iterator
from itertools import pairwise

from quoting.show.shapes import Color, Ring, Shape, shapes

# Fine lines in each row of dots
FINE = 4
PAPER: Color = (255, 255, 255)
SIGNATURE = b"\x89PNG\r\n\x1a\n"

Edge = tuple[float, float, float, float, int]  # top, bottom, x at the top, x for each y, direction


def png(svg: str, width: int) -> bytes:
    """The drawing so many dots wide, on white.   Raises ValueError where it holds what is not known here."""
    (left, top, wide, high), found = shapes(svg)
    scale = width / wide
    height = max(1, round(high * scale))
    dots = [bytearray(bytes(PAPER) * width) for _ in range(height)]
    for shape in found:
        rings = [[((x - left) * scale, (y - top) * scale) for x, y in ring] for ring in shape.rings]
        _paint(dots, width, rings, shape)
    return encoded(dots, width)


def encoded(rows: list[bytearray], width: int) -> bytes:
    """Rows of red, green and blue as a PNG file."""
    head = struct.pack(">IIBBBBB", width, len(rows), 8, 2, 0, 0, 0)
    body = zlib.compress(b"".join(b"\0" + bytes(row) for row in rows), 9)
    return SIGNATURE + _chunk(b"IHDR", head) + _chunk(b"IDAT", body) + _chunk(b"IEND", b"")


def _chunk(kind: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


def _edges(rings: list[Ring]) -> list[Edge]:
    found = []
    for ring in rings:
        for (x, y), (to_x, to_y) in zip(ring, [*ring[1:], ring[0]], strict=True):
            if y < to_y:
                found.append((y, to_y, x, (to_x - x) / (to_y - y), 1))
            elif y > to_y:
                found.append((to_y, y, to_x, (to_x - x) / (to_y - y), -1))
    return sorted(found)


def _paint(dots: list[bytearray], width: int, rings: list[Ring], shape: Shape) -> None:
    edges = _edges(rings)
    if not edges:
        return
    first, last = max(0, int(edges[0][0])), min(len(dots), int(max(edge[1] for edge in edges)) + 1)
    for row in range(first, last):
        cover = [0.0] * (width + 1)
        here = [edge for edge in edges if edge[0] < row + 1 and edge[1] > row]
        for fine in range(FINE):
            y = row + (fine + 0.5) / FINE
            for start, end in _spans(here, y, shape.even):
                _cover(cover, start, min(end, float(width)), width)
        _mix(dots[row], cover, shape)


def _spans(edges: list[Edge], y: float, even: bool) -> Iterator[tuple[float, float]]:
    """From where to where a line across lies within."""
    crossings = sorted((x + (y - top) * slope, way) for top, bottom, x, slope, way in edges if top <= y < bottom)
    around = 0
    for (x, way), (next_x, _) in pairwise(crossings):
        around += way
        if around % 2 if even else around:
            yield max(0.0, x), next_x


def _cover(cover: list[float], start: float, end: float, width: int) -> None:
    """Add one fine line from ``start`` to ``end`` to the parts of the dots that it covers."""
    if end <= start or start >= width:
        return
    first, last, part = int(start), int(end), 1 / FINE
    if first == last:
        cover[first] += (end - start) * part
        return
    cover[first] += (first + 1 - start) * part
    for at in range(first + 1, last):
        cover[at] += part
    cover[last] += (end - last) * part


def _mix(row: bytearray, cover: list[float], shape: Shape) -> None:
    for at, part in enumerate(cover[:-1]):
        if part:
            much = min(part, 1.0) * shape.opacity
            for channel in range(3):
                under = row[3 * at + channel]
                row[3 * at + channel] = round(under + (shape.color[channel] - under) * much)
