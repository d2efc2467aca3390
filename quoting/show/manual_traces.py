"""The manual's pages on what can be wrong with a trace, for whoever keeps the shop: no customer ever reads one.

Nothing is made of a trace that has one of these; `check` and `trace` tell it with the file and its line.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from quoting.kernel.records import Reason
from quoting.kernel.trace_faults import trace_faults
from quoting.lab.traces import SHAPES

USUAL_TRACE = "A trace of eight radii of 25 mm, one each 45°, of a lens whose box is 50 by 50 mm."
RADII = [25.0] * 8
ANGLES = [45.0 * at for at in range(8)]
AGAIN = "Trace again, with the frame held still; or ask whoever made the file for it again."
FILE = "the file in traces/, or the one that `trace import` was given"


class TracePage(NamedTuple):
    """What the manual says of a code; the failing example names which lists or sides it changes."""

    meaning: str
    rule: str
    source: str
    advice: str
    failing: Mapping[str, list[float] | float]


GEOMETRY = "geometry: an outline that holds its origin has one radius in each direction"
TRACE_PAGES: dict[str, TracePage] = {
    "trace-too-few": TracePage(
        "A trace has too few radii to be an outline.", "3 radii or more", "geometry: a polygon has three corners",
        AGAIN, {"radii": [25.0, 25.0], "angles": [0.0, 180.0]},
    ),
    "trace-angle-count": TracePage(
        "A trace has not an angle for each radius.", "as many angles as radii", GEOMETRY, AGAIN,
        {"angles": ANGLES[:-1]},
    ),
    "trace-not-a-length": TracePage(
        "A radius or an angle is no number that a lens can have.", "each below 1000 in mm or degrees; needed is how "
        "many numbers there are, given which of them it is, radii first", "our own, and wider than any lens", AGAIN,
        {"radii": [25.0, 2500.0, *RADII[2:]]},
    ),
    "trace-radius": TracePage(
        "A radius of a trace is zero or below.", "radius > 0 mm", GEOMETRY, AGAIN, {"radii": [25.0, 0.0, *RADII[2:]]},
    ),
    "trace-angles-order": TracePage(
        "The angles of a trace do not rise.", "each angle above the one before it",
        "the open standard of the labs, from memory: radii run counter-clockwise from 0°", AGAIN,
        {"angles": [0.0, 90.0, 45.0, *ANGLES[3:]]},
    ),
    "trace-angles-turn": TracePage(
        "The angles of a trace go beyond one turn.", "0 ≤ angle ≤ 360°, less than 360° from the first to the last",
        GEOMETRY, AGAIN, {"angles": [*(one + 5.0 for one in ANGLES[:-1]), 361.0]},
    ),
    "trace-gap": TracePage(
        "A trace has a gap so wide that its origin lies outside of it.", "less than 180° between two neighbors",
        GEOMETRY, AGAIN, {"radii": RADII[:4], "angles": ANGLES[:4]},
    ),
    "trace-too-rough": TracePage(
        "A trace is so rough that its outline would cross itself.", "the curve through all radii stays above 0 mm",
        GEOMETRY, AGAIN, {"radii": [25.0, 1.0, 1.0, 1.0, 25.0, 25.0, 25.0, 25.0]},
    ),
    "trace-box-a": TracePage(
        "A trace is not as wide as the size of the frame says.", "within 0.5 mm of A", "ISO 12870, from memory: marked "
        "dimensions hold within 0.5 mm", "Name the trace of this size, or mend the size's `a`.", {"a": 51.0},
    ),
    "trace-box-b": TracePage(
        "A trace is not as high as the size of the frame says.", "within 0.5 mm of B", "ISO 12870, from memory: marked "
        "dimensions hold within 0.5 mm", "Name the trace of this size, or mend the size's `b`.", {"b": 51.0},
    ),
}  # fmt: skip


def faults_of(changes: Mapping[str, list[float] | float]) -> list[Reason]:
    """What the kernel says of the usual trace with these changes."""
    radii, angles = changes.get("radii", RADII), changes.get("angles", ANGLES)
    a, b = changes.get("a", 50.0), changes.get("b", 50.0)
    assert isinstance(radii, list)
    assert isinstance(angles, list)
    assert isinstance(a, float)
    assert isinstance(b, float)
    return trace_faults(radii, angles, a, b)


def changed_text(changes: Mapping[str, list[float] | float]) -> str:
    """The changes of the usual trace, in words.

    >>> changed_text({"radii": [25.0, 0.0], "a": 51.0})
    'radii 25, 0; a 51'
    """
    said = (
        (name, ", ".join(f"{one:g}" for one in value) if isinstance(value, list) else f"{value:g}")
        for name, value in changes.items()
    )
    return "; ".join(f"{name} {text}" for name, text in said)


def trace_page(code: str) -> dict[str, object]:
    """A page for programs.   Raises KeyError for an unknown code."""
    page = TRACE_PAGES[code]
    reason = next(one for one in faults_of(page.failing) if one["code"] == code)
    return {
        "code": code,
        "verdict": reason["verdict"],
        "meaning": page.meaning,
        "rule": page.rule,
        "limit": FILE,
        "source": page.source,
        "advice": page.advice,
        "usual": USUAL_TRACE,
        "passes": "as it is",
        "fails": changed_text(page.failing),
        "needed": reason["needed"],
        "given": reason["given"],
        "customer": "",
        "exact": f"{SHAPES[code].format(**reason)}.".capitalize(),
    }
