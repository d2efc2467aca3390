"""What a reason says in the narrow cell of a lens board: a few words and the two numbers."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.catalog.model import Package
from quoting.kernel.records import Reason
from quoting.show.reasons import with_numbers, words

BRIEF: dict[str, str] = {
    "power-too-minus": "made to {needed}",
    "power-too-plus": "made to {needed}",
    "cylinder-too-strong": "cylinder to {needed}",
    "power-not-together": "not made together",
    "add-missing": "needs an add",
    "add-too-low": "add from {needed}",
    "add-too-high": "add to {needed}",
    "add-left-out": "no add in it",
    "add-needs-progressive": "boost {given} for add {needed}",
    "prism-too-strong": "prism to {needed}",
    "blank-too-small": "blank {needed}, has {given}",
    "blank-close": "blank is tight",
    "height-too-low": "height {needed}, has {given}",
    "above-too-low": "above {needed}, has {given}",
    "wrap-design-needed": "not for wraps",
    "curve-too-far": "much {way} than frame",
    "curve-far": "{way} than frame",
    "edge-too-thick": "edge {given}, takes {needed}",
    "edge-thick": "edge shows",
    "edge-too-thin": "edge {given}, needs {needed}",
    "not-drillable": "not for drilling",
    "impact-needed": "not for children",
    "tilt-not-compensated": "strong tilt",
    "wrap-not-compensated": "strong wrap",
    "cannot-be-ground": "too strong for the size",
    "reading-imbalance": "eyes differ",
}


def brief(reason: Reason, package: Package) -> str:
    """The few words, with the numbers as their unit is written."""
    return with_numbers(BRIEF[reason["code"]], reason, words(reason, package).unit)
