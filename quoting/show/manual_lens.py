"""The manual's pages on reasons about powers and about the lens in its frame."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple


class Page(NamedTuple):
    """What the manual says of a code beside its meaning and sentences; the examples are changes of the usual job."""

    rule: str  # with its formula; what is compared with what
    where: str  # file and key of the limit
    source: str
    advice: str  # what a customer can do
    passing: Mapping[str, object]
    failing: Mapping[str, object]


PRACTICE = "(practice)"
LIST = "the lens maker's list"
RANGES = "lenses/*.yaml: packages, ranges: from, to"
POWERS = "sphere and sphere + cylinder, each on the next quarter diopter away from zero"
OTHER_LENS = "Choose another lens; `fit` shows which ones are made in this power."
OTHER_FRAME = "Choose a smaller frame, or one whose bridge and width bring its centers nearer to the pupils."
ADDED = {"package.kind": "progressive", "eyes.add": 2.0}
ALL = {"add_from": 0.0, "add_to": 0.0, "diameter": 75.0, "near": False, "near_from": 0.0, "near_to": 0.0}
MINUS = {"low": -6.0, "high": 0.0, "cylinder": 2.0, **ALL}
PLUS = {"low": 0.0, "high": 4.0, "cylinder": 4.0, **ALL}

LENS_PAGES: dict[str, Page] = {
    "power-too-minus": Page(
        POWERS + ", ≥ the least `from` of all ranges",
        RANGES, LIST, OTHER_LENS, {"eyes.sphere": -10.0}, {"eyes.sphere": -10.25},
    ),
    "power-too-plus": Page(
        POWERS + ", ≤ the greatest `to` of all ranges",
        RANGES, LIST, OTHER_LENS, {"eyes.sphere": 8.0}, {"eyes.sphere": 8.25},
    ),
    "cylinder-too-strong": Page(
        "|cylinder| on the next quarter diopter ≤ the greatest `cylinder` of all ranges",
        "lenses/*.yaml: packages, ranges: cylinder", LIST, OTHER_LENS,
        {"eyes.cylinder": -4.0}, {"eyes.cylinder": -4.25},
    ),
    "power-not-together": Page(
        "one and the same range must hold both principal powers, the cylinder and the add; no range does",
        "lenses/*.yaml: packages, ranges", LIST, OTHER_LENS,
        {"package.ranges": [MINUS, PLUS], "eyes.cylinder": -2.0},
        {"package.ranges": [MINUS, PLUS], "eyes.cylinder": -3.0},
    ),
    "add-missing": Page(
        "a progressive or bifocal needs an add", "lenses/*.yaml: packages, ranges: add", LIST,
        "Ask whoever examined your eyes for the addition, or choose a single-vision lens.",
        ADDED, {"package.kind": "progressive"},
    ),
    "add-too-low": Page(
        "add ≥ the least `add: from` of all ranges", "lenses/*.yaml: packages, ranges: add", LIST, OTHER_LENS,
        {**ADDED, "eyes.add": 0.75}, {**ADDED, "eyes.add": 0.5},
    ),
    "add-too-high": Page(
        "add ≤ the greatest `add: to` of all ranges", "lenses/*.yaml: packages, ranges: add", LIST, OTHER_LENS,
        {**ADDED, "eyes.add": 3.5}, {**ADDED, "eyes.add": 3.75},
    ),
    "add-left-out": Page(
        "add = 0 where the design is single vision", "lenses/*.yaml: designs: kind", "the design itself",
        "Take it for distance only, or choose a progressive or bifocal lens.", {}, {"eyes.add": 2.0},
    ),
    "add-needs-progressive": Page(
        "add < `boost_add` where the design is anti-fatigue", "shop.yaml: limits: boost_add (1.25 where not written)",
        PRACTICE, "Choose a progressive or bifocal lens.",
        {"package.kind": "anti-fatigue", "package.boost": 0.75, "eyes.add": 1.0},
        {"package.kind": "anti-fatigue", "package.boost": 0.75, "eyes.add": 1.25},
    ),
    "prism-too-strong": Page(
        "√(base in² + base up²) ≤ the package's prism", "lenses/*.yaml: packages: prism", LIST, OTHER_LENS,
        {"eyes.prism_in": 4.0}, {"eyes.prism_in": 4.25},
    ),
    "blank-too-small": Page(
        "2 · the longest distance from the lens's reference point to the outline + edging_allowance ≤ the largest "
        "blank of the ranges that hold the power",
        "lenses/*.yaml: packages, ranges: diameter; shop.yaml: limits: edging_allowance",
        "geometry; the allowance is (practice)", OTHER_FRAME, {"range.diameter": 75.0}, {"range.diameter": 55.0},
    ),
    "blank-close": Page(
        "where the outline is estimated: ED + 2 · decentration + edging_allowance ≤ the largest blank",
        "lenses/*.yaml: packages, ranges: diameter",
        "the rule of thumb of the trade (practice); it is never below the exact size",
        "Nothing yet: the shop measures the frame.", {"range.diameter": 60.0}, {"range.diameter": 59.9},
    ),
    "height-too-low": Page(
        "pupil height (for bifocals: segment height, 5 mm below the pupil) ≥ the design's min_height",
        "lenses/*.yaml: designs: min_height", "the lens maker's fitting guide; 14 short, 18 regular (practice)",
        "Choose a deeper frame or a shorter design.",
        {**ADDED, "package.min_height": 24.0}, {**ADDED, "package.min_height": 25.0},
    ),
    "above-too-low": Page(
        "B − pupil height (for bifocals: B − segment height) ≥ the design's min_above",
        "lenses/*.yaml: designs: min_above", "the lens maker's fitting guide; 10 to 12 mm (practice)",
        "Choose a deeper frame, or let the shop measure where the pupil really is.",
        {**ADDED, "package.min_above": 16.0}, {**ADDED, "package.min_above": 17.0},
    ),
    "wrap-design-needed": Page(
        "wrap < wrap_angle and frame curve < wrap_curve, or the design is made for wraps",
        "shop.yaml: limits: wrap_angle, wrap_curve; lenses/*.yaml: designs: wrap", PRACTICE,
        "Choose a lens that is made for curved frames, or a flatter frame.", {"frame.wrap": 14.0}, {"frame.wrap": 15.0},
    ),
    "curve-too-far": Page(
        "|lens base curve − frame curve| ≤ curve_difference · curve_factor",
        "shop.yaml: limits: curve_difference, curve_factor (2 where not written); frames/*.yaml: curve", PRACTICE,
        "Choose a flatter or steeper frame, or another design.",
        {"package.base_from": 5.0, "package.base_to": 5.0, "frame.curve": 1.0},
        {"package.base_from": 5.0, "package.base_to": 5.0, "frame.curve": 0.5},
    ),
    "curve-far": Page(
        "|lens base curve − frame curve| ≤ curve_difference",
        "shop.yaml: limits: curve_difference; frames/*.yaml: curve", PRACTICE,
        "Nothing: the shop bends the frame to the lens, which may change its look a little.",
        {"package.base_from": 5.0, "package.base_to": 5.0, "frame.curve": 3.0},
        {"package.base_from": 5.0, "package.base_to": 5.0, "frame.curve": 2.5},
    ),
    "edge-too-thick": Page(
        "thickest edge, center − front sag + back sag + prism wedge at every point of the outline, < edge_no",
        "shop.yaml: mountings: edge_no", "exact sags; the limit is the bench's own",
        "Choose a higher index, a smaller frame, or a thicker rim.", {"frame.edge_no": 12.0}, {"frame.edge_no": 2.5},
    ),
    "edge-thick": Page(
        "thickest edge < edge_caution", "shop.yaml: mountings: edge_caution",
        "exact sags; thin metal about 5, plastic about 8, groove and drill about 6 (practice)",
        "Choose a higher index or a smaller frame, if it should not be seen.",
        {"frame.edge_caution": 8.0}, {"frame.edge_caution": 2.5},
    ),
    "edge-too-thin": Page(
        "thinnest edge, all around, ≥ min_edge; a surfaced lens gets the center for it, a finished one has its own",
        "shop.yaml: mountings: min_edge", "exact sags; full rim 1.0 mm, groove and drill 2.0 mm (practice)",
        "Choose a lens that is surfaced for this frame.",
        {"package.finished": True, "eyes.sphere": 0.0}, {"package.finished": True, "eyes.sphere": 3.0},
    ),
    "not-drillable": Page(
        "a drilled frame asks for a drillable material", "lenses/*.yaml: materials: drillable; frames/*.yaml: mounting",
        "the material maker; 1.53, 1.60 and polycarbonate hold a hole (practice)", "Choose another material or frame.",
        {"frame.mounting": "drilled"}, {"frame.mounting": "drilled", "package.drillable": False},
    ),
    "impact-needed": Page(
        "under 18: the material is impact-resistant", "lenses/*.yaml: materials: impact_resistant",
        "(practice); local law may ask for more. Ordinary spectacles are not safety eyewear",
        "Choose polycarbonate or another impact-resistant material.",
        {"measures.child": True}, {"measures.child": True, "package.impact_resistant": False},
    ),
    "tilt-not-compensated": Page(
        "pantoscopic tilt ≤ pow_tilt, or the design is made for the position of wear",
        "shop.yaml: limits: pow_tilt; lenses/*.yaml: designs: position_of_wear", PRACTICE,
        "Choose a design that is worked out for the position of wear.", {"frame.tilt": 12.0}, {"frame.tilt": 13.0},
    ),
    "wrap-not-compensated": Page(
        "face-form angle ≤ pow_wrap, or the design is made for the position of wear",
        "shop.yaml: limits: pow_wrap; lenses/*.yaml: designs: position_of_wear", PRACTICE,
        "Choose a design that is worked out for the position of wear.", {"frame.wrap": 8.0}, {"frame.wrap": 9.0},
    ),
    "cannot-be-ground": Page(
        "each surface reaches the farthest point of the outline, (1 + k) · c² · r² < 1, and a finished lens has a "
        "center thickness for its power", "lenses/*.yaml: packages: curves, centers; designs: base", "geometry",
        "Choose a smaller frame or another lens.",
        {"package.finished": True, "eyes.sphere": -6.0}, {"package.finished": True, "eyes.sphere": -6.25},
    ),
    "reading-imbalance": Page(
        "multifocals: |vertical prism right − left|, by Prentice's rule reading_drop mm below the center, "
        "< reading_imbalance, or a slab-off is chosen",
        "shop.yaml: limits: reading_drop (10 mm), reading_imbalance (1.5 Δ where not written)",
        "Prentice's rule; the limit is (practice)", "Ask for a slab-off, or take separate glasses for reading.",
        {**ADDED, "left.sphere": -3.25}, {**ADDED, "left.sphere": -3.5},
    ),
}  # fmt: skip
