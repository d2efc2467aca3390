"""Dimension lines of the boxing system (ISO 8624): A, B, DBL, the box, and ED as a circle around the box center."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math

from quoting.catalog.model import Size
from quoting.show.amounts import plain
from quoting.show.pen import element, number, words

# Room that the dimension of a height needs beside a drawing, mm: the widest fronts still go on a sheet of paper
MARGIN = 7.0
# The same above, where one label stands: its line, and a letter as high as the style sheet makes it on narrow screens
ABOVE = 11.0
# The same below, where the line to check a print by has its place
BELOW = 17.0
# From the front to the first dimension line, and how far extension lines go past it
GAP = 7.0
PAST = 1.5
TICK = 1.2
# The line by which a print is checked
CHECK = 50.0


def line(u1: float, v1: float, u2: float, v2: float) -> str:
    """A straight piece of path data."""
    return f"M{number(u1)} {number(v1)}L{number(u2)} {number(v2)}"


def grid(left: float, right: float, top: float, bottom: float) -> str:
    """Squared paper of 10 mm behind a drawing, counted from the middle."""
    data = "".join(line(u, top, u, bottom) for u in tens(left, right))
    data += "".join(line(left, v, right, v) for v in tens(top, bottom))
    return element("path", d=data, class_="grid", fill="none", stroke_width=0.05)


def tens(low: float, high: float) -> range:
    """The tens between two values.

    >>> list(tens(-12.5, 20.1))
    [-10, 0, 10, 20]
    """
    return range(math.ceil(low / 10) * 10, math.floor(high / 10) * 10 + 1, 10)


def tick(u: float, v: float) -> str:
    """The slanting stroke at the end of a dimension line."""
    return line(u - TICK, v + TICK, u + TICK, v - TICK)


def across(u1: float, u2: float, v: float, start: float, said: str) -> str:
    """A horizontal dimension at height ``v``, its extension lines beginning at height ``start``."""
    past = PAST if v > start else -PAST
    thin = line(u1, start, u1, v + past) + line(u2, start, u2, v + past)
    own = line(u1, v, u2, v) + tick(u1, v) + tick(u2, v)
    label = words(said, x=(u1 + u2) / 2, y=v - 1.3, class_="size", text_anchor="middle")
    return element("path", d=thin, class_="extension") + element("path", d=own, class_="dimension") + label


def upright(v1: float, v2: float, u: float, start: float, said: str) -> str:
    """A vertical dimension at ``u``, its extension lines beginning at ``start``, read from the right."""
    thin = line(start, v1, u + PAST, v1) + line(start, v2, u + PAST, v2)
    own = line(u, v1, u, v2) + tick(u, v1) + tick(u, v2)
    middle = (v1 + v2) / 2
    turned = f"rotate(-90 {number(u - 1.3)} {number(middle)})"
    label = words(said, x=u - 1.3, y=middle, class_="size", text_anchor="middle", transform=turned)
    return element("path", d=thin, class_="extension") + element("path", d=own, class_="dimension") + label


def check_line(bottom: float) -> str:
    """A line of CHECK mm at the foot of a drawing, by which one sees whether it was printed at life size."""
    half, v = CHECK / 2, bottom - 2.5
    own = line(-half, v, half, v) + "".join(line(u, v - 1.5, u, v + 1.5) for u in (-half, half))
    label = words(f"{CHECK:g} mm", x=0.0, y=v - 1.3, class_="size", text_anchor="middle")
    return element("path", d=own, class_="dimension check") + label


def boxes(size: Size) -> str:
    """Both boxes with their centers."""
    body = ""
    for side in (1, -1):
        center = side * (size.a + size.dbl) / 2
        body += element("rect", x=center - size.a / 2, y=-size.b / 2, width=size.a, height=size.b, class_="box")
        cross = line(center - 2, 0, center + 2, 0) + line(center, -2, center, 2)
        body += element("path", d=cross, class_="dimension")
    return body


def box_dimensions(size: Size, out: float, rim: float) -> str:
    """Everything that is printed on a temple, and ED, where it is measured; ``out``: how far the lenses go, mm."""
    inner, outer, half = size.dbl / 2, size.dbl / 2 + size.a, size.b / 2
    side = out + rim + 6.0 + GAP
    body = boxes(size) + across(-outer, -inner, half + rim + GAP, half, f"A {plain(size.a)}")
    body += across(-inner, inner, -half - rim - GAP + 1.0, -half, f"DBL {plain(size.dbl)}")
    body += upright(-half, half, side, outer, f"B {plain(size.b)}")
    center = (size.a + size.dbl) / 2
    body += element("circle", cx=center, cy=0, r=size.ed / 2, class_="ed")
    low = max(half + rim + GAP - 1.3, size.ed / 2 + 4.5)
    return body + words(f"ED {plain(size.ed)}", x=center, y=low, class_="size", text_anchor="middle")
