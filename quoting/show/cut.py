"""The horizontal section of one lens, to scale in mm, front side up, nasal side at the right."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.lens import nasal
from quoting.kernel.section import section
from quoting.kernel.thickness import grind, rim_around, with_prism
from quoting.offers import Ask, Offer
from quoting.show.amounts import mm
from quoting.tables import eye_table, outline_of, package_table


def section_of(offer: Offer, ask: Ask, side: str) -> list[list[float]]:
    """[xs, front depths, back depths] of the right ("R") or left ("L") lens as the offer computed it."""
    lens = offer.fit["right"] if side == "R" else offer.fit["left"]
    eye = nasal(eye_table(ask.rx.right if side == "R" else ask.rx.left), side == "L")
    pack, size = package_table(offer.choice.package), offer.choice.size
    xs, ys = outline_of(size.a, size.b, size.ed, offer.choice.frame.family)
    rim = rim_around(list(xs), list(ys), lens["decentration_in"], lens["decentration_up"])
    plain = grind(eye["sphere"], eye["cylinder"], eye["axis"], lens["front"], pack["conic"], pack["index"])
    return section(with_prism(plain, eye["prism_in"], eye["prism_up"]), rim, lens["center"])


def section_svg(offer: Offer, ask: Ask, side: str) -> str:
    """Inline SVG of the section."""
    xs, fronts, backs = section_of(offer, ask, side)
    there = " ".join(f"{x:.2f} {z:.2f}" for x, z in zip(xs, fronts, strict=True))
    back = " ".join(f"{x:.2f} {z:.2f}" for x, z in zip(xs[::-1], backs[::-1], strict=True))
    low, high = min(fronts) - 2, max(backs) + 2
    eye = "right" if side == "R" else "left"
    ends = f"temporal {mm(backs[0] - fronts[0])} mm, nasal {mm(backs[-1] - fronts[-1])} mm"
    head = f'viewBox="BOX" role="img" aria-label="Section of the {eye} lens, to scale: {ends}"'
    box = f"{xs[0] - 2:.2f} {low:.2f} {xs[-1] - xs[0] + 4:.2f} {high - low:.2f}"
    drawn = f'<path class="glass" d="M{there} {back}Z"/>'
    return f'<svg class="drawing section" {head.replace("BOX", box)}>{drawn}</svg>'
