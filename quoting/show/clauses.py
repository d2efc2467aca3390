"""What each check of a verification says, in words, and by which clause of which standard it is held."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.calculators.model import shown
from quoting.kernel.records import Check
from quoting.languages import _, marked
from quoting.show.text import SHORT

STANDARDS = {
    "ansi": "ANSI Z80.1-2015 (as a quick reference guide prints it)",
    "iso": "ISO 21987 with ISO 8980-1 (from memory: compare with the edition that holds where you are)",
}
# What is held, in words
WHAT = marked(
    {
        "power": "power in the strongest meridian",
        "power-flatter": "power in the first principal meridian",
        "power-steeper": "power in the second principal meridian",
        "cylinder": "cylinder",
        "axis": "axis",
        "add": "addition",
        "cross-pd": "fitting cross, from the middle",
        "height": "height of segment or cross",
        "segment-tilt": "tilt of the segment's line",
        "center": "center thickness",
        "base": "base curve",
        "prism-up": "vertical prism between the eyes",
        "prism-across": "horizontal prism between the eyes",
        "alone-up": "vertical prism",
        "alone-across": "horizontal prism",
        "center-across": "optical center, from the middle",
        "center-up": "height of the optical center",
        "distance": "distance of the two centers",
        "heights": "difference of the heights",
        "heights-prism": "difference of the heights",
        "tint": "light that comes through",
    }
)
# Code -> the kind of its numbers, and the clause of either standard
HELD: dict[str, tuple[str, str, str]] = {
    "power": ("power", "items 1 and 2", ""),
    "power-flatter": ("power", "", "ISO 8980-1, table 1, A"),
    "power-steeper": ("power", "", "ISO 8980-1, table 1, A"),
    "cylinder": ("power", "items 1 and 2", "ISO 8980-1, table 1, B"),
    "axis": ("axis", "item 3", "ISO 21987, axis"),
    "add": ("power", "item 4", "ISO 21987, addition"),
    "cross-pd": ("mm", "fitting cross, across", "ISO 21987, fitting point"),
    "height": ("mm", "segment and cross heights", "ISO 21987, heights"),
    "segment-tilt": ("angle", "segment tilt", "ISO 21987, segment tilt"),
    "center": ("fine", "center thickness", "ISO 8980-1, thickness"),
    "base": ("plain", "base curve", ""),
    "prism-up": ("toward", "item 6, vertical", "ISO 8980-1, prism, vertical"),
    "prism-across": ("toward", "item 6, horizontal", "ISO 8980-1, prism"),
    "alone-up": ("toward", "prism reference point", "ISO 8980-1, prism, vertical"),
    "alone-across": ("toward", "prism reference point", "ISO 8980-1, prism"),
    "center-across": ("mm", "prism reference point", "ISO 8980-1, prism"),
    "center-up": ("mm", "prism reference point", "ISO 8980-1, prism, vertical"),
    "distance": ("mm", "item 6, distance", "ISO 21987, centration"),
    "heights": ("mm", "segment heights, pair", "ISO 21987, heights"),
    "heights-prism": ("mm", "item 6, vertical", "ISO 8980-1, prism, vertical"),
    "tint": ("percent", "the shop's own", "the shop's own"),
}
# Lengths whose tolerance is the prism that they make
AS_PRISM = ("heights-prism", "center-across", "center-up")
TOLERANCES = {"power": "plain", "axis": "turn", "toward": "prism"}


def what(check: Check) -> str:
    """What is held, with its eye."""
    name = _(WHAT[check["code"]])
    return name if check["eye"] == "B" else f"{_(SHORT[check['eye']])} {name}"


def numbers(check: Check) -> tuple[str, str, str]:
    """Ordered, found, tolerance, as they are written."""
    kind = HELD[check["code"]][0]
    unit = "prism" if check["code"] in AS_PRISM else TOLERANCES.get(kind, kind)
    ordered, found = (shown(kind, check[name], unit=True) for name in ("ordered", "found"))
    return ordered, found, f"± {shown(unit, check['tolerance'], unit=True)}"


def clause(check: Check, standard: str) -> str:
    """By which clause a value is held."""
    return HELD[check["code"]][1 if standard == "ansi" else 2]


def sentence(check: Check, standard: str) -> str:
    """One check that failed, as a sentence for the lab."""
    ordered, found, within = numbers(check)
    return f"{what(check)}: ordered {ordered}, found {found}, tolerance {within} ({clause(check, standard)})"
