"""What a reason says in the narrow cell of a lens board: a few words and the two numbers."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.catalog.model import Package
from quoting.kernel.records import Reason
from quoting.show.amounts import mm, power
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
    "edge-too-thick": "edge {given}, takes <{needed}",
    "edge-thick": "edge shows",
    "edge-too-thin": "edge {given}, needs {needed}",
    "not-drillable": "not for drilling",
    "impact-needed": "not for children",
    "tilt-not-compensated": "strong tilt",
    "wrap-not-compensated": "strong wrap",
    "cannot-be-ground": "too strong for the size",
    "reading-imbalance": "eyes differ",
}


# What each of them means, whatever the numbers
MEANINGS: dict[str, str] = {
    "power-too-minus": "The lens is made up to this power, and not in stronger ones.",
    "power-too-plus": "The lens is made up to this power, and not in stronger ones.",
    "cylinder-too-strong": "The lens is made with a cylinder up to this one.",
    "power-not-together": "The lens is made in this sphere and in this cylinder, but not in both at once.",
    "add-missing": "The lens has a part for reading, and needs to know how strong it is to be.",
    "add-too-low": "The reading part is made from this addition on.",
    "add-too-high": "The reading part is made up to this addition.",
    "add-left-out": "The lens is for one distance: a reading addition is not in it.",
    "add-needs-progressive": "The boost low down is weaker than the reading addition that is needed.",
    "prism-too-strong": "The lens is made with a prism up to this one.",
    "blank-too-small": "The round lens it is cut from must be as wide as the first number; it comes in the second.",
    "blank-close": "The round lens it is cut from is only just large enough; we check it on the frame itself.",
    "height-too-low": "The reading part needs this many mm below the pupil or the segment's top; the frame has fewer.",
    "above-too-low": "The lens needs this many mm above the pupil or the segment's top; the frame has fewer.",
    "wrap-design-needed": "The frame is strongly curved, and the lens is not made for curved frames.",
    "curve-too-far": "The front of the lens is curved so differently from the frame that it would not hold.",
    "curve-far": "The front of the lens is curved a little differently from the frame, which we adjust to it.",
    "edge-too-thick": "The edge would be as many mm thick as the first number; the frame takes less than the second.",
    "edge-thick": "The edge is thick enough to be seen from the side; its number stands below the price.",
    "edge-too-thin": "The edge would be as many mm thick as the first number; to hold, it needs the second.",
    "not-drillable": "The material would crack at the holes of a drilled frame.",
    "impact-needed": "Children need an impact-resistant lens, and this one is not.",
    "tilt-not-compensated": "The frame sits tilted more than the lens is calculated for.",
    "wrap-not-compensated": "The frame is bent around the face more than the lens is calculated for.",
    "cannot-be-ground": "No lens of this power can be made as large as the frame needs it.",
    "reading-imbalance": "The eyes differ so much that reading through the lower part may be uncomfortable; ask us.",
}
NOT_AT, AT, MAY_FIT, WEAKER_MAY_FIT = "not at {}: {}", "at {}: {}", "{} may fit", "weaker may fit"
# What stands in a cell about another power than the one that its column is worked out for, and what that means
ELSEWHERE: dict[str, tuple[str, str]] = {
    "not-at": (NOT_AT.format("…", "…"), "At the column's bold power it fits; at this other one it does not, and why."),
    "at": (AT.format("…", "…"), "At the column's bold power it fits; at this other one only with this caution."),
    "may-fit": (MAY_FIT.format("…"), "At the column's bold power it does not fit; at its other end it does. Ask us."),
}


def brief(reason: Reason, package: Package) -> str:
    """The few words, with the numbers as their unit is written; two that read the same get another decimal."""
    unit = words(reason, package).unit
    if unit == "mm" and mm(reason["needed"]) == mm(reason["given"]):
        return BRIEF[reason["code"]].format(needed=mm(reason["needed"], 2), given=mm(reason["given"], 2))
    return with_numbers(BRIEF[reason["code"]], reason, unit)


def elsewhere(reason: Reason, package: Package, at: float) -> str:
    """What speaks against another power of the same column than the one its cells are worked out for."""
    return (NOT_AT if reason["verdict"] == "no" else AT).format(power(at), brief(reason, package))


def may_fit(strongest: float, other: float) -> str:
    """That another power of the column fits, where the strongest does not.

    >>> may_fit(-8.0, -6.25), may_fit(-2.0, 2.0)
    ('weaker may fit', '+2.00 may fit')
    """
    return WEAKER_MAY_FIT if abs(other) < abs(strongest) else MAY_FIT.format(power(other))


def meanings(codes: set[str]) -> list[tuple[str, str]]:
    """The few words of each code without their numbers, and what they mean, in the order of the lists above.

    >>> meanings({"curve-too-far", "not-drillable"})[0][0]
    'much steeper or flatter than frame'
    """
    plain = {code: BRIEF[code].format(needed="…", given="…", way="steeper or flatter") for code in MEANINGS}
    found = [(plain[code], meaning) for code, meaning in MEANINGS.items() if code in codes]
    found += [both for code, both in ELSEWHERE.items() if code in codes]
    return list(dict.fromkeys(found))
