"""The manual's pages on numbers of a job that cannot be right.

The limits are wider than anything that is worn or sold: they keep the arithmetic in its domain and catch a missing
decimal point.  999999.99 is told for a number that is none, or too large to tell.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Mapping

from quoting.show.manual_lens import Page

SOURCE = "our own, and wider than practice: what lies beyond is a slip of the pen"
RX = "the prescription, as it was typed or read"
MEASURED = "what was measured, or shop.yaml: measurements"
ASK = "Check the number, and type it again with its decimal point."
MEND = "Tell the shop; its owner runs `bevelbook check`."


def page(rule: str, where: str, advice: str, passing: Mapping[str, object], failing: Mapping[str, object]) -> Page:
    """All of them share their source."""
    return Page(rule, where, SOURCE, advice, passing, failing)


IMPOSSIBLE_PAGES: dict[str, Page] = {
    "impossible-sphere": page("−40 ≤ sphere ≤ +40 D", RX, ASK, {}, {"eyes.sphere": -225.0}),
    "impossible-cylinder": page("−40 ≤ cylinder ≤ +40 D", RX, ASK, {}, {"eyes.cylinder": -75.0}),
    "impossible-axis": page("0 ≤ axis ≤ 180°", RX, ASK, {"eyes.axis": 180.0}, {"eyes.axis": 181.0}),
    "impossible-add": page("0 ≤ add ≤ 10 D", RX, ASK, {}, {"eyes.add": 200.0}),
    "impossible-prism": page("each part of a prism within ±40 Δ", RX, ASK, {}, {"eyes.prism_in": 41.0}),
    "impossible-pd": page("0.01 ≤ monocular PD ≤ 200 mm", MEASURED, ASK, {}, {"measures.pd_right": 315.0}),
    "impossible-height": page(
        "0.01 ≤ pupil height ≤ B", MEASURED, ASK, {"measures.height_right": 25.0}, {"measures.height_right": 41.0}
    ),
    "impossible-vertex": page("0 ≤ vertex distance ≤ 60 mm", MEASURED, ASK, {}, {"measures.vertex": 130.0}),
    "impossible-box": page(
        "0.01 ≤ A, B ≤ 200; 0 ≤ DBL ≤ 200; 0.01 ≤ ED ≤ 400 mm", "frames/*.yaml: sizes", MEND, {}, {"frame.dbl": 201.0}
    ),
    "impossible-outline": page(
        "three points or more, counter-clockwise, each side of the outline within 0.5 mm of its box",
        "frames/*.yaml: sizes: a, b, ed; traces", MEND, {"frame.a": 50.5}, {"frame.a": 52.0},
    ),
    "impossible-mounting": page(
        "0 ≤ min_edge ≤ 25; 0 ≤ edge_caution, edge_no ≤ 200 mm", "shop.yaml: mountings", MEND, {},
        {"frame.min_edge": 26.0},
    ),
    "impossible-form": page(
        "0 ≤ frame curve ≤ 30 D; wrap and tilt within ±60°", "frames/*.yaml: curve, wrap, tilt", MEND, {},
        {"frame.tilt": 80.0},
    ),
    "impossible-material": page(
        "1.01 ≤ index ≤ 2.5; 0.01 ≤ density ≤ 20 g/cm³; 0.01 ≤ min_center ≤ 25 mm; tint_depth, transmittance and "
        "darkened from 0 to 100 %", "lenses/*.yaml: materials; packages: treatments", MEND, {}, {"package.index": 1.0},
    ),
    "impossible-design": page(
        "0 ≤ base from ≤ base to ≤ 30; conic within ±20; 0 ≤ min_height, min_above ≤ 200 mm; 0 ≤ boost ≤ 10 D; "
        "0 ≤ prism ≤ 40 Δ", "lenses/*.yaml: designs; packages: prism", MEND, {}, {"package.conic": 21.0},
    ),
    "impossible-ranges": page(
        "one range or more; in each −40 ≤ from ≤ to ≤ +40, cylinder 0 to 40, add 0 to 10, diameter up to 200 mm",
        "lenses/*.yaml: packages: ranges", MEND, {}, {"package.ranges": []},
    ),
    "impossible-chart": page(
        "−40 ≤ from ≤ to ≤ +40; base 0 to 30; center 0.01 to 25 mm", "lenses/*.yaml: packages: curves, centers, prices",
        MEND, {}, {"center.value": 26.0},
    ),
    "impossible-limits": page(
        "each limit from 0 to what it could mean: angles to 90°, lengths to 200 mm, percentages to 100",
        "shop.yaml: limits", MEND, {}, {"limits.pow_tilt": 91.0},
    ),
    "impossible-tint": page("0 ≤ tint depth ≤ 100 %", "the order itself", ASK, {}, {"options.tint_depth": 101.0}),
    "impossible-money": page(
        "0 ≤ amount ≤ 100,000.00, all surcharges together too; 0 ≤ rate ≤ 100 %; 0 ≤ over ≤ 200",
        "prices/*.yaml; frames/*.yaml: price; lenses/*.yaml: packages: prices", MEND, {}, {"money.frame_cents": -1},
    ),
    "unknown-word": page(
        "kind, light, what a surcharge is due for and what a discount is on are words that the engine knows",
        "lenses/*.yaml: designs: kind; packages: light; prices/*.yaml: when, on", MEND, {},
        {"package.kind": "hovering"},
    ),
}  # fmt: skip
