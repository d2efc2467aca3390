"""One half of a front, from the middle of the bridge outward: u to the side, v down, mm.

The outline of a lens is that of the engine, in the nasal frame; the other half is its mirror image.  What joins the
lenses (bridge, endpieces) is in no price list: it is drawn as the trade makes it, so that it can be told from what is
measured only by reading the note beside it.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

from quoting.catalog.model import Family, Size
from quoting.show.pen import Point
from quoting.tables import size_outline


@dataclass(frozen=True)
class Ring:
    """A closed outline, from the nose over the top outward, to the bottom and back."""

    points: tuple[Point, ...]

    @cached_property
    def normals(self) -> list[Point]:
        """Unit vectors outward at each point: the mean of its two sides."""
        count, sides = len(self.points), []
        for i, (u, v) in enumerate(self.points):
            after = self.points[(i + 1) % count]
            du, dv = after[0] - u, after[1] - v
            long = math.hypot(du, dv) or 1.0
            sides.append((dv / long, -du / long))
        means = [(sides[i - 1][0] + sides[i][0], sides[i - 1][1] + sides[i][1]) for i in range(count)]
        return [(u / (math.hypot(u, v) or 1.0), v / (math.hypot(u, v) or 1.0)) for u, v in means]

    def widened(self, width: Callable[[Point], float]) -> Ring:
        """The outline moved outward by what ``width`` says of the normal there."""
        pairs = zip(self.points, self.normals, strict=True)
        return Ring(tuple((u + n[0] * width(n), v + n[1] * width(n)) for (u, v), n in pairs))

    def at(self, key: Callable[[Point], float]) -> int:
        """Index of the point with the least ``key``."""
        return min(range(len(self.points)), key=lambda i: key(self.points[i]))

    @cached_property
    def nasal(self) -> int:
        return self.at(lambda p: p[0])

    @cached_property
    def top(self) -> int:
        return self.at(lambda p: p[1])

    @cached_property
    def temporal(self) -> int:
        return self.at(lambda p: -p[0])

    @cached_property
    def bottom(self) -> int:
        return self.at(lambda p: -p[1])

    def walk(self, first: int, last: int) -> list[int]:
        """Indices from one point to another, the way the outline runs."""
        count = len(self.points)
        return [(first + i) % count for i in range((last - first) % count + 1)]

    def along(self, first: int, last: int) -> list[Point]:
        """Points from one to another, the way the outline runs."""
        return [self.points[i] for i in self.walk(first, last)]

    def between(self, first: int, last: int, part: float) -> int:
        """The point on the way from one to another that has gone ``part`` of the height between them."""
        goal = self.points[first][1] + part * (self.points[last][1] - self.points[first][1])
        return min(self.walk(first, last), key=lambda i: abs(self.points[i][1] - goal))

    def tangent(self, i: int) -> Point:
        """Unit vector along the outline, the way it runs."""
        n = self.normals[i]
        return -n[1], n[0]


def lens_ring(size: Size, family: Family) -> Ring:
    """The outline of one lens beside the middle of the bridge."""
    xs, ys = size_outline(size, family)
    center = (size.a + size.dbl) / 2
    return Ring(tuple((center - x, -y) for x, y in zip(xs, ys, strict=True)))
