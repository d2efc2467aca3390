"""The horizontal section of one lens through its reference point, to scale in mm, with its three thicknesses.

As an observer sees it who faces the wearer and looks from above: front surface down the page, the right lens with its
nasal side at the right, the left lens its mirror image.  Surfaces and center are those the offer was computed with.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from dataclasses import dataclass

from quoting.kernel import power
from quoting.kernel.lens import nasal
from quoting.kernel.section import section
from quoting.kernel.thickness import grind, rim_around, with_prism
from quoting.languages import _, marked
from quoting.offers import Ask, Offer
from quoting.show.amounts import mm
from quoting.show.pen import Point, drawing, element, number, polyline, words
from quoting.tables import eye_table, size_outline

# Room beside the lens for the thickness of an edge, and below it for that of the center
SIDE = 18.0
ABOVE = 3.0
BELOW = 10.5

# Dimension lines: how far from the lens they run, how large are their strokes and figures
AWAY = 4.5
TICK = 0.55
FIGURE = 2.9
LABEL = 2.2

NAMES = marked({
    "R": "Section of the right lens through its reference point, seen from above, front surface down, nose at the"
    " right, to scale: center {center} mm, nasal {nasal} mm, temporal {temporal} mm thick",
    "L": "Section of the left lens through its reference point, seen from above, front surface down, nose at the"
    " left, to scale: center {center} mm, nasal {nasal} mm, temporal {temporal} mm thick",
})  # fmt: skip


@dataclass(frozen=True, slots=True)
class Section:
    """The two surfaces from the temporal to the nasal edge, in the nasal frame; depths from the front vertex."""

    xs: list[float]
    fronts: list[float]
    backs: list[float]
    center: float

    @property
    def temporal(self) -> float:
        """Thickness at the temporal end."""
        return self.backs[0] - self.fronts[0]

    @property
    def nasal(self) -> float:
        """Thickness at the nasal end."""
        return self.backs[-1] - self.fronts[-1]


def section_of(offer: Offer, ask: Ask, side: str) -> Section | None:
    """The section of the right ("R") or left ("L") lens of an offer that was made for ``ask``.

    None where there is none: no lens for this eye, a lens that is not made in its power, or a reference point so high
    or low that its horizontal misses the lens.   Raises ValueError for an ask with another power than the offer's.
    """
    left = side == "L"
    lens = offer.fit["left"] if left else offer.fit["right"]
    if lens["fault"] or not (offer.has_left if left else offer.has_right):
        return None
    eye = nasal(eye_table(ask.rx.left if left else ask.rx.right), left)
    if power.strongest(eye["sphere"], eye["cylinder"]) != lens["strongest"]:
        raise ValueError("the offer was made for another prescription")
    frame, size, package = offer.choice.frame, offer.choice.size, offer.choice.package
    xs, ys = size_outline(size, frame.family)
    rim = rim_around(list(xs), list(ys), lens["decentration_in"], lens["decentration_up"])
    index = package.material.index
    plain = grind(eye["sphere"], eye["cylinder"], eye["axis"], lens["front"], package.design.conic, index)
    across, fronts, backs = section(with_prism(plain, eye["prism_in"], eye["prism_up"]), rim, lens["center"])
    return Section(across, fronts, backs, lens["center"]) if across[0] < across[-1] else None


def stroke(u: float, v: float) -> str:
    """The slanting stroke where a dimension line ends."""
    return f"M{number(u - TICK)} {number(v + TICK)}l{number(2 * TICK)} {number(-2 * TICK)}"


def figure(u: float, v: float, said: str, label: str, anchor: str) -> str:
    """A thickness and, under it, where it is measured."""
    large = words(said, x=u, y=v, class_="size", text_anchor=anchor, font_size=FIGURE)
    return large + words(label, x=u, y=v + LABEL + 0.6, class_="place", text_anchor=anchor, font_size=LABEL)


def lines(path: str) -> str:
    """Dimension lines."""
    return element("path", d=path, class_="dimension")


def edge(u: float, front: float, back: float, label: str) -> str:
    """The dimension of one edge, beside it: ``u`` is the end of the section as drawn."""
    out = 1 if u > 0 else -1
    at = u + out * AWAY
    path = "".join(f"M{number(u + out * 0.8)} {number(-depth)}H{number(at + out * 1.2)}" for depth in (front, back))
    path += f"M{number(at)} {number(-front + TICK)}V{number(-back - TICK)}" + stroke(at, -front) + stroke(at, -back)
    anchor = "start" if out > 0 else "end"
    return lines(path) + figure(at + out * 2.2, -(front + back) / 2 + 0.2, mm(back - front), label, anchor)


def middle(center: float) -> str:
    """The dimension of the center, below the front vertex."""
    path = f"M0 {number(-center - 2.4)}V3.4" + stroke(0, 0) + stroke(0, -center)
    return lines(path) + figure(0, 3.4 + FIGURE - 0.2, mm(center), _("center"), "middle")


def name_of(cut: Section, side: str) -> str:
    """What the drawing shows, for those who do not see it."""
    thick = {"center": mm(cut.center), "nasal": mm(cut.nasal), "temporal": mm(cut.temporal)}
    return _(NAMES[side]).format(**thick)


def section_svg(offer: Offer, ask: Ask, side: str) -> str:
    """Inline SVG of a section; empty where `section_of` finds none.   Raises ValueError as that does."""
    cut = section_of(offer, ask, side)
    if cut is None:
        return ""
    turn = -1 if side == "L" else 1
    front: list[Point] = [(turn * x, -depth) for x, depth in zip(cut.xs, cut.fronts, strict=True)]
    back: list[Point] = [(turn * x, -depth) for x, depth in zip(cut.xs, cut.backs, strict=True)]
    body = element("path", d=polyline([*front, *reversed(back)], unseen=0.0), class_="cut")
    body += edge(front[0][0], cut.fronts[0], cut.backs[0], _("temporal"))
    body += edge(front[-1][0], cut.fronts[-1], cut.backs[-1], _("nasal")) + middle(cut.center)
    left, right = min(front[0][0], front[-1][0]) - SIDE, max(front[0][0], front[-1][0]) + SIDE
    top = min(v for _, v in (*front, *back, (0.0, -cut.center - 2.4))) - ABOVE
    low = max(v for _, v in (*front, *back)) + BELOW
    return drawing(body, name_of(cut, side), left, top, right - left, low - top, "drawing section")
