"""What holds the lenses of each mounting, drawn for one half of a front and mirrored.

The width of a rim is the shop's ``rim`` of the mounting; bridge, pads and endpieces have the sizes below (ours).
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from quoting.show.half import Ring
from quoting.show.pen import Point, curve, element, mirrored, polyline

# How far an endpiece stands out beyond the rim, and how high its end is: plastic, metal
PLASTIC_END = (5.0, 7.5)
METAL_END = (4.5, 3.2)

# How high a plastic bridge is in the middle, and how thick a metal one is drawn
PLASTIC_BRIDGE = 5.5
METAL_BRIDGE = 1.9


class Paint(NamedTuple):
    """The colors of a colorway: of the front, and of the temples."""

    front: str
    temples: str


def both(points: Sequence[Point], closed: bool = True, *, class_: str, **looks: str | float) -> str:
    """The same line on both sides."""
    data = polyline(points, closed) + polyline(mirrored(points), closed)
    return element("path", "", d=data, class_=class_, **looks)


def toward(start: Point, direction: Point, far: float) -> Point:
    """A point so far from another in a direction."""
    return start[0] + direction[0] * far, start[1] + direction[1] * far


def plastic_half(rim: Ring) -> list[Point]:
    """The silhouette of half a plastic front, from the top of the bridge around to its lower edge."""
    over, under = rim.between(rim.nasal, rim.top, 0.6), rim.between(rim.bottom, rim.nasal, 0.84)
    joint, low = rim.points[over], rim.points[under]
    height = joint[1] + 0.25 * joint[0]
    points: list[Point] = [(0.0, height)]
    points += curve(points[0], (joint[0] * 0.5, height), toward(joint, rim.tangent(over), -0.4 * joint[0]), joint)
    points += endpiece(rim, rim.walk(over, under))
    foot = toward(low, rim.tangent(under), 0.45 * low[0])
    points += curve(low, foot, (low[0] * 0.55, height + PLASTIC_BRIDGE), (0.0, height + PLASTIC_BRIDGE))
    return points


def endpiece(rim: Ring, way: list[int]) -> list[Point]:
    """The rim along ``way`` with its endpiece in the upper temporal corner."""
    leave, back = rim.between(rim.top, rim.temporal, 0.34), rim.between(rim.top, rim.temporal, 0.98)
    out, high = PLASTIC_END
    start, end = rim.points[leave], rim.points[back]
    side = rim.points[rim.temporal][0] + out
    top = start[1] + 0.1 * (end[1] - start[1])
    foot = min(top + high, end[1] - 1.0)
    points = [rim.points[i] for i in way[: way.index(leave) + 1]]
    points += curve(start, toward(start, rim.tangent(leave), 2.0), (side - 4.0, top), (side - 1.0, top), 6)
    points += curve(points[-1], (side, top), (side, top), (side, top + 1.2), 3)
    points += [(side, foot - 1.2)]
    points += curve(points[-1], (side, foot), (side, foot), (side - 1.0, foot), 3)
    points += curve(points[-1], (side - out, foot), toward(end, rim.tangent(back), -2.0), end, 6)
    return points + [rim.points[i] for i in way[way.index(back) + 1 :]]


def plastic(lens: Ring, width: float, color: Paint) -> str:
    """A front of acetate or nylon: one piece, fuller at the brow."""
    rim = lens.widened(lambda normal: width * (1.0 - 0.22 * normal[1]))
    half = plastic_half(rim)
    silhouette = polyline([*half, *reversed(mirrored(half[1:-1]))])
    side = max(u for u, _ in half)
    end = [v for u, v in half if u > side - 0.01]
    hinges = temple_ends(side - 1.0, min(end), max(end), 2.6, color)
    openings = polyline(lens.points) + polyline(mirrored(lens.points))
    looks = {"class_": "front-piece", "fill": color.front, "fill_rule": "evenodd"}
    return hinges + element("path", d=silhouette + openings, **looks)


def temple_ends(side: float, top: float, foot: float, wide: float, color: Paint) -> str:
    """The temples as they are seen from the front: their ends behind the endpieces."""
    tip = min(0.8, (foot - top) / 2)
    points = [(side, top), (side + wide - tip, top), (side + wide, top + tip), (side + wide, foot - tip)]
    points += [(side + wide - tip, foot), (side, foot)]
    return both(points, class_="front-piece temple", fill=color.temples)


def wire(points: Sequence[Point], width: float, color: str, closed: bool = False) -> str:
    """A wire of metal on both sides: its color, with a fine line around it."""
    around = both(points, closed, class_="wire-edge", fill="none", stroke_width=width + 0.5)
    return around + both(points, closed, class_="wire", fill="none", stroke=color, stroke_width=width)


def bridge(start: Point, color: str, arch: float) -> str:
    """A metal bridge from lens to lens, arched upward by a part of its width."""
    top = start[1] - arch
    half = curve((0.0, top), (start[0] * 0.55, top), (start[0] * 0.8, top + arch / 2), start)
    points = [*reversed(half), (0.0, top), *mirrored(half)]
    data = polyline(points, closed=False)
    looks = {"fill": "none", "d": data}
    return element("path", class_="wire-edge", stroke_width=METAL_BRIDGE + 0.5, **looks) + element(
        "path", class_="wire", stroke=color, stroke_width=METAL_BRIDGE, **looks
    )


def metal_end(start: Point, side: float, color: Paint) -> str:
    """A metal endpiece from the rim or the hole outward, and the temple's end."""
    out, high = METAL_END
    end = (side + out, start[1])
    arm = [start, *curve(start, (start[0] + 2.0, start[1] - 0.6), (end[0] - 2.0, end[1]), end, 6)]
    temple = temple_ends(end[0] - 1.0, end[1] - high / 2, end[1] + high / 2, 2.0, color)
    return temple + wire(arm, 2.0, color.front)


def pads(lens: Ring, color: str) -> str:
    """Nose pads on their arms, below the bridge."""
    i = lens.between(lens.bottom, lens.nasal, 0.96)
    start = lens.points[i]
    u, v = min(start[0] * 0.62, start[0] - 4.2), start[1] + 4.0
    arm = [start, *curve(start, (start[0] - 2.5, start[1] - 2.0), (u - 0.2, v - 3.0), (u, v), 6)]
    drops = ""
    for side, turned in ((1, 14), (-1, -14)):
        place = f"rotate({-turned} {side * u:.2f} {v:.2f})"
        drops += element("ellipse", cx=side * u, cy=v, rx=1.9, ry=4.2, transform=place, class_="pad")
    return both(arm, False, class_="wire", fill="none", stroke=color, stroke_width=0.7) + drops


def full_metal(lens: Ring, width: float, color: Paint, brow: bool) -> str:
    """Wire around both lenses; a brow bar where the shape is a pilot's."""
    ring = lens.widened(lambda _: width / 2)
    outer = lens.widened(lambda _: width)
    held = outer.points[outer.between(outer.top, outer.temporal, 0.5)]
    joint = outer.points[outer.between(outer.nasal, outer.top, 0.4)]
    body = pads(lens, color.front) + metal_end(held, outer.points[outer.temporal][0], color)
    body += bridge(joint, color.front, 0.28 * joint[0])
    if brow:
        body += bridge(outer.points[outer.between(outer.nasal, outer.top, 0.86)], color.front, 0.4)
    return body + wire(ring.points, width, color.front, closed=True)


def semi(lens: Ring, width: float, color: Paint) -> str:
    """A brow bar over each lens; below, the thread runs in the groove and is not seen."""
    bar = lens.widened(lambda _: width / 2)
    first, last = bar.between(bar.bottom, bar.nasal, 0.96), bar.between(bar.temporal, bar.bottom, 0.04)
    held = bar.points[bar.between(bar.top, bar.temporal, 0.5)]
    joint = bar.points[bar.between(bar.nasal, bar.top, 0.4)]
    body = pads(lens, color.front) + metal_end(held, bar.points[bar.temporal][0], color)
    return body + bridge(joint, color.front, 0.28 * joint[0]) + wire(bar.along(first, last), width, color.front)


# How far inside the edge a hole is drilled, and how wide (practice: about 3 to 4 mm, screws of 1.4 mm)
HOLE_INSIDE = 3.4
HOLE = 1.4


def drilled(lens: Ring, color: Paint) -> str:
    """Bridge and endpieces screwed to the lenses themselves."""
    nose, side = lens.between(lens.nasal, lens.top, 0.38), lens.between(lens.top, lens.temporal, 0.58)
    inner = toward(lens.points[nose], lens.normals[nose], -HOLE_INSIDE)
    outer = toward(lens.points[side], lens.normals[side], -HOLE_INSIDE)
    body = pads(lens, color.front) + metal_end(outer, lens.points[lens.temporal][0], color)
    body += bridge(inner, color.front, 0.22 * inner[0])
    for u, v in (inner, outer):
        for across in (u, -u):
            body += element("circle", cx=across, cy=v, r=1.5, class_="front-piece", fill=color.front)
            body += element("circle", cx=across, cy=v, r=HOLE / 2, class_="hole")
    return body
