"""The drawings of this house as polygons with a color: what a picture made of dots needs to know of an SVG.

Only what our own drawings use is read; anything else raises ValueError, so that no part of one is left out unnoticed.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise
from xml.etree import ElementTree

from quoting.show.pen import Point, curve
from quoting.show.shading import Ramp, bands, ramp_of

Matrix = tuple[float, float, float, float, float, float]
Color = tuple[int, int, int]
Ring = list[Point]

SVG = "{http://www.w3.org/2000/svg}"
SAME: Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)
TOKEN = re.compile(r"[A-Za-z]|[-+]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][-+]?[0-9]+)?")
STEPS = 48  # sides of a circle
INK: Color = (29, 39, 51)
NOTHING_TO_SEE = {"title", "desc", "linearGradient"}


@dataclass(frozen=True, slots=True)
class Shape:
    """An area of one color; ``even`` where what lies within twice is outside again."""

    rings: list[Ring]
    color: Color
    opacity: float
    even: bool


@dataclass(frozen=True, slots=True)
class Style:
    """What an element has from those around it."""

    matrix: Matrix = SAME
    fill: str = "black"
    stroke: str = "none"
    width: float = 1.0
    fill_opacity: float = 1.0
    stroke_opacity: float = 1.0
    opacity: float = 1.0
    even: bool = False


def shapes(svg: str) -> tuple[list[float], list[Shape]]:
    """The drawing's box and its areas, the undermost first.   Raises ValueError for what is not known here."""
    root = ElementTree.fromstring(svg)
    box = [float(one) for one in root.attrib["viewBox"].split()]
    ramps = {node.get("id", ""): ramp_of(node) for node in root.iter(f"{SVG}linearGradient")}
    ramps |= {node.get("id", ""): ramp_of(node) for node in root.iter("linearGradient")}
    return box, list(_within(root, Style(), ramps))


def _within(node: ElementTree.Element, around: Style, ramps: dict[str, Ramp]) -> Iterator[Shape]:
    name = node.tag.removeprefix(SVG)
    style = _style(node, around)
    if name in ("svg", "g"):
        for child in node:
            yield from _within(child, style, ramps)
    elif name not in NOTHING_TO_SEE:
        yield from _painted([line for line in _lines(name, node.attrib) if len(line[0]) > 1], style, ramps)


def _style(node: ElementTree.Element, around: Style) -> Style:
    has = node.attrib
    return replace(
        around,
        matrix=_times(around.matrix, _transform(has.get("transform", ""))),
        fill=has.get("fill", around.fill),
        stroke=has.get("stroke", around.stroke),
        width=float(has.get("stroke-width", around.width)),
        fill_opacity=float(has.get("fill-opacity", around.fill_opacity)),
        stroke_opacity=float(has.get("stroke-opacity", around.stroke_opacity)),
        opacity=float(has.get("opacity", 1.0)) * around.opacity,
        even=has.get("fill-rule", "evenodd" if around.even else "nonzero") == "evenodd",
    )


def _painted(lines: list[tuple[Ring, bool]], style: Style, ramps: dict[str, Ramp]) -> Iterator[Shape]:
    shade = re.fullmatch(r"url\(#(.+)\)", style.fill)
    if shade:
        if shade[1] not in ramps:
            raise ValueError(f"no gradient that a picture can show: {shade[1]}")
        rings = [_moved(points, style.matrix) for points, _closed in lines]
        yield from (Shape(cut, color, 1.0, style.even) for cut, color in bands(rings, ramps[shade[1]]))
    elif style.fill != "none":
        rings = [_moved(points, style.matrix) for points, _closed in lines]
        yield Shape(rings, color_of(style.fill), style.fill_opacity * style.opacity, style.even)
    if style.stroke != "none":
        rings = [_moved(ring, style.matrix) for line in lines for ring in _stroked(*line, style.width)]
        opacity = style.stroke_opacity * style.opacity
        yield Shape([_turned(ring) for ring in rings], color_of(style.stroke), opacity, False)


def color_of(text: str) -> Color:
    """A color as three numbers from 0 to 255.

    >>> color_of("#3b2a1e"), color_of("white")
    ((59, 42, 30), (255, 255, 255))
    """
    names = {"currentColor": INK, "black": (0, 0, 0), "white": (255, 255, 255)}
    if text in names:
        return names[text]
    if not re.fullmatch(r"#[0-9a-fA-F]{6}", text):
        raise ValueError(f"no color that a picture can have: {text}")
    return int(text[1:3], 16), int(text[3:5], 16), int(text[5:7], 16)


def _lines(name: str, has: dict[str, str]) -> list[tuple[Ring, bool]]:
    """The lines of one element, each with whether it is closed."""
    if name == "path":
        return path_lines(has["d"])
    number = {key: float(value) for key, value in has.items() if key in ("x", "y", "cx", "cy", "r", "rx", "ry")}
    if name in ("circle", "ellipse"):
        wide, high = number.get("rx", number.get("r", 0.0)), number.get("ry", number.get("r", 0.0))
        turns = [2 * math.pi * at / STEPS for at in range(STEPS)]
        middle = number.get("cx", 0.0), number.get("cy", 0.0)
        return [([(middle[0] + wide * math.cos(at), middle[1] + high * math.sin(at)) for at in turns], True)]
    if name == "rect":
        left, top = number.get("x", 0.0), number.get("y", 0.0)
        right, bottom = left + float(has["width"]), top + float(has["height"])
        return [([(left, top), (right, top), (right, bottom), (left, bottom)], True)]
    raise ValueError(f"no element that a picture can show: {name}")


def path_lines(data: str) -> list[tuple[Ring, bool]]:
    """The lines of path data, curves as short straight pieces.

    >>> path_lines("M0 0l1.5 0L1 1z")
    [([(0.0, 0.0), (1.5, 0.0), (1.0, 1.0)], True)]
    """
    tokens = TOKEN.findall(data)
    found: list[tuple[Ring, bool]] = []
    command, at = "", 0
    while at < len(tokens):
        if tokens[at].isalpha():
            command = tokens[at]
            at += 1
        if command in "zZ":
            found[-1] = (found[-1][0], True)
            continue
        need = {"M": 2, "L": 2, "C": 6}.get(command.upper(), 0)
        if not need:
            raise ValueError(f"no path that a picture can show: {command}")
        values = [float(one) for one in tokens[at : at + need]]
        at += need
        here = found[-1][0][-1] if found else (0.0, 0.0)
        points = [(values[one], values[one + 1]) for one in range(0, need, 2)]
        if command.islower():
            points = [(x + here[0], y + here[1]) for x, y in points]
        if command in "Mm":
            found.append(([points[0]], False))
            command = "L" if command == "M" else "l"
        else:
            found[-1][0].extend(points if need == 2 else curve(here, points[0], points[1], points[2]))
    return found


def _stroked(points: Ring, closed: bool, width: float) -> Iterator[Ring]:
    """A line as areas: a rectangle along each piece, and a round joint at each corner."""
    ends = [*points, points[0]] if closed else points
    half = width / 2
    for (x, y), (to_x, to_y) in pairwise(ends):
        long = math.hypot(to_x - x, to_y - y)
        if long:
            u, v = (to_y - y) / long * half, -(to_x - x) / long * half
            yield [(x + u, y + v), (to_x + u, to_y + v), (to_x - u, to_y - v), (x - u, y - v)]
    for x, y in ends[1:-1] if not closed else points:
        turns = [2 * math.pi * step / 10 for step in range(10)]
        yield [(x + half * math.cos(at), y + half * math.sin(at)) for at in turns]


def _turned(ring: Ring) -> Ring:
    """The ring the way round in which its area counts as positive: areas then join and never cancel each other."""
    area = sum(x * to_y - to_x * y for (x, y), (to_x, to_y) in zip(ring, [*ring[1:], ring[0]], strict=True))
    return ring if area >= 0 else ring[::-1]


def _moved(ring: Ring, matrix: Matrix) -> Ring:
    a, b, c, d, e, f = matrix
    return [(a * x + c * y + e, b * x + d * y + f) for x, y in ring]


def _times(one: Matrix, other: Matrix) -> Matrix:
    a, b, c, d, e, f = one
    p, q, r, s, t, u = other
    return a * p + c * q, b * p + d * q, a * r + c * s, b * r + d * s, a * t + c * u + e, b * t + d * u + f


def _transform(text: str) -> Matrix:
    """What a ``transform`` says: translate, scale, rotate, matrix."""
    found = SAME
    for name, inside in re.findall(r"(\w+)\(([^)]*)\)", text):
        values = [float(one) for one in TOKEN.findall(inside)]
        found = _times(found, _one_transform(name, values))
    return found


def _one_transform(name: str, values: list[float]) -> Matrix:
    if name == "translate":
        return 1.0, 0.0, 0.0, 1.0, values[0], values[1] if len(values) > 1 else 0.0
    if name == "scale":
        return values[0], 0.0, 0.0, values[-1], 0.0, 0.0
    if name == "rotate":
        turn = math.radians(values[0])
        x, y = values[1:] if len(values) == 3 else (0.0, 0.0)
        about: Matrix = (math.cos(turn), math.sin(turn), -math.sin(turn), math.cos(turn), x, y)
        return _times(about, (1.0, 0.0, 0.0, 1.0, -x, -y))
    if name == "matrix":
        a, b, c, d, e, f = values
        return a, b, c, d, e, f
    raise ValueError(f"no transform that a picture can have: {name}")
