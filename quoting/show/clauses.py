"""What each check of a verification says, in words, and by which clause of which standard it is held."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.calculators.model import shown
from quoting.kernel.records import Check

STANDARDS = {
    "ansi": "ANSI Z80.1-2015 (as a quick reference guide prints it)",
    "iso": "ISO 21987 with ISO 8980-1 (from memory: compare with the edition that holds where you are)",
}
# Code -> what is held, the kind of its numbers, the clause of either standard
HELD: dict[str, tuple[str, str, str, str]] = {
    "power": ("power in the strongest meridian", "power", "items 1 and 2", ""),
    "power-flatter": ("power in the first principal meridian", "power", "", "ISO 8980-1, table 1, A"),
    "power-steeper": ("power in the second principal meridian", "power", "", "ISO 8980-1, table 1, A"),
    "cylinder": ("cylinder", "power", "items 1 and 2", "ISO 8980-1, table 1, B"),
    "axis": ("axis", "axis", "item 3", "ISO 21987, axis"),
    "add": ("addition", "power", "item 4", "ISO 21987, addition"),
    "cross-pd": ("fitting cross, from the middle", "mm", "fitting cross, across", "ISO 21987, fitting point"),
    "height": ("height of segment or cross", "mm", "segment and cross heights", "ISO 21987, heights"),
    "center": ("center thickness", "fine", "center thickness", "ISO 8980-1, thickness"),
    "base": ("base curve", "plain", "base curve", ""),
    "prism-up": ("vertical prism between the eyes", "toward", "item 6, vertical", "ISO 8980-1, prism, vertical"),
    "prism-across": ("horizontal prism between the eyes", "toward", "item 6, horizontal", "ISO 8980-1, prism"),
    "distance": ("distance of the two centers", "mm", "item 6, distance", "ISO 21987, centration"),
    "heights": ("difference of the heights", "mm", "segment heights, pair", "ISO 21987, heights"),
    "heights-prism": ("difference of the heights", "mm", "item 6, vertical", "ISO 8980-1, prism, vertical"),
    "tint": ("light that comes through", "percent", "the shop's own", "the shop's own"),
}
TOLERANCES = {"power": "plain", "axis": "turn", "toward": "prism"}


def what(check: Check) -> str:
    """What is held, with its eye."""
    name = HELD[check["code"]][0]
    return name if check["eye"] == "B" else f"{check['eye']} {name}"


def numbers(check: Check) -> tuple[str, str, str]:
    """Ordered, found, tolerance, as they are written."""
    kind = HELD[check["code"]][1]
    unit = "prism" if check["code"] == "heights-prism" else TOLERANCES.get(kind, kind)
    ordered, found = (shown(kind, check[name], unit=True) for name in ("ordered", "found"))
    return ordered, found, f"± {shown(unit, check['tolerance'], unit=True)}"


def clause(check: Check, standard: str) -> str:
    """By which clause a value is held."""
    return HELD[check["code"]][2 if standard == "ansi" else 3]


def sentence(check: Check, standard: str) -> str:
    """One check that failed, as a sentence for the lab."""
    ordered, found, within = numbers(check)
    return f"{what(check)}: ordered {ordered}, found {found}, tolerance {within} ({clause(check, standard)})"
