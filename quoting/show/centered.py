"""Both lenses of an order at life size, seen facing the wearer: where each is centered in its box (ISO 8624).

What was traced is drawn in a full line, what is estimated from A, B and ED in a broken one.  A cross is where the
fitting cross or the optical center comes to lie, a ring the reference point of a progressive, a line the top of a
segment.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.catalog.model import Outline
from quoting.languages import _
from quoting.orders.model import Order, OrderedFrame, Side
from quoting.show.amounts import plain
from quoting.show.dimensions import across, check_line, line, upright
from quoting.show.pen import drawing, element, polyline, words
from quoting.tables import outline_of

# Room around the boxes, mm: a dimension line with its label at the sides and above, the line to check a print by below
BESIDE, ABOVE, BELOW = 10.0, 9.0, 10.0
BROKEN = "1.2 .8"


def centered_svg(order: Order, traced: Outline | None = None) -> str:
    """The drawing; ``traced`` is the outline of the size in the nasal frame, mm, where there is a trace."""
    frame = order.frame
    half, outer = frame.b / 2, frame.dbl / 2 + frame.a
    body = element("path", d=line(0, -half - 5.0, 0, half), stroke_width=0.15, stroke_dasharray=BROKEN)
    for way, side in ((-1, order.right), (1, order.left)):
        left = way * (frame.dbl + frame.a) / 2 - frame.a / 2
        body += element("rect", x=left, y=-half, width=frame.a, height=frame.b, stroke_width=0.1)
        if side is not None:
            body += rim(frame, traced, way) + mark(order.lens.kind, side, half, way) + centered(side, half, outer, way)
    for way, name in ((-1, "R"), (1, "L")):
        body += words(name, x=way * (outer - 2.0), y=-half - 1.5, text_anchor="middle", font_weight="bold")
    bottom = half + BELOW
    body += check_line(bottom)
    label = _("Both lenses at life size, seen facing the wearer, with distances and heights")
    return drawing(body, label, -outer - BESIDE, -half - ABOVE, 2 * (outer + BESIDE), half + ABOVE + bottom, "centered")


def rim(frame: OrderedFrame, traced: Outline | None, way: int) -> str:
    """The outline of a lens: its trace, or what is estimated where the family of its shape is known."""
    if traced is None and not frame.family:
        return ""
    xs, ys = traced or outline_of(frame.a, frame.b, frame.ed, frame.family)
    middle = (frame.dbl + frame.a) / 2
    points = [(way * (middle - x), -y) for x, y in zip(xs, ys, strict=True)]
    return element("path", d=polyline(points), stroke_width=0.35, stroke_dasharray=None if traced else BROKEN)


def mark(kind: str, side: Side, half: float, way: int) -> str:
    """Where the lens is centered: cross, ring or segment line."""
    x, cross, reference = way * side.pd, half - side.fitting, half - side.reference
    if kind == "bifocal":
        body = element("path", d=line(x - 14.0, cross, x + 14.0, cross), stroke_width=0.35)
        return body + plus(x, reference)
    if kind == "progressive":
        return plus(x, cross) + element("circle", cx=x, cy=reference, r=1.0)
    return plus(x, reference)


def plus(x: float, y: float) -> str:
    """A cross."""
    return element("path", d=line(x - 2.5, y, x + 2.5, y) + line(x, y - 2.5, x, y + 2.5), stroke_width=0.4)


def centered(side: Side, half: float, outer: float, way: int) -> str:
    """The monocular distance above, the height at the side, in mm."""
    level = half - (side.fitting if side.fitting else side.reference)
    u1, u2 = sorted((0.0, way * side.pd))
    beside = way * (outer + 4.5) + 2.0  # a label stands left of its line
    body = across(u1, u2, -half - 3.0, level, plain(side.pd))
    return body + upright(level, half, beside, way * outer, plain(round(half - level, 1)))
