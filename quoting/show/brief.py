"""What a reason says in the narrow cell of a lens board: a few words and the two numbers."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.catalog.model import Package
from quoting.kernel.records import Reason
from quoting.languages import _, marked
from quoting.show.amounts import mm, power
from quoting.show.reasons import with_numbers, words

BRIEF: dict[str, str] = marked({
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
    "near-too-plus": "near to {needed}",
    "near-too-minus": "near from {needed}",
    "impact-one-eyed": "not for one eye",
    "impact-sport": "not for sport",
    "image-size": "images differ",
    "tint-too-deep": "tint to {needed} %",
    "tint-over-filter": "no tint on it",
    "gradient-shallow": "low for a gradient",
    "mirror-not-offered": "no mirror",
    "mirror-needs-tint": "mirror needs a tint",
    "mirror-needs-back-ar": "mirror wants AR",
    "blue-filter-not-offered": "no blue filter",
    "double-use-not-offered": "not together",
    "light-not-stated": "driving: ask us",
    "very-dark": "not for driving",
    "too-dark-to-drive": "too dark to drive",
    "too-dark-at-night": "too dark at night",
    "impossible-sphere": "check the sphere",
    "impossible-cylinder": "check the cylinder",
    "impossible-axis": "check the axis",
    "impossible-add": "check the add",
    "impossible-prism": "check the prism",
    "impossible-pd": "check the PD",
    "impossible-height": "check the height",
    "impossible-vertex": "check the vertex",
    "impossible-box": "frame size is wrong",
    "impossible-outline": "frame shape is wrong",
    "impossible-mounting": "mounting is wrong",
    "impossible-form": "frame form is wrong",
    "impossible-material": "material is wrong",
    "impossible-design": "design is wrong",
    "impossible-ranges": "ranges are wrong",
    "impossible-chart": "chart is wrong",
    "impossible-limits": "shop limit is wrong",
    "impossible-tint": "check the tint",
    "impossible-money": "price is wrong",
    "unknown-word": "unknown word",
})  # fmt: skip


# What each of them means, whatever the numbers
MEANINGS: dict[str, str] = marked({
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
    "near-too-plus": "The reading part of the lens is made up to this power.",
    "near-too-minus": "The reading part of the lens is made from this power on.",
    "impact-one-eyed": "Who sees with one eye needs an impact-resistant lens, and this one is not.",
    "impact-sport": "For sport a lens must be impact-resistant, and this one is not.",
    "image-size": "Through these lenses the two eyes see things in different sizes; ask us.",
    "tint-too-deep": "Material and coat take a tint up to this depth.",
    "tint-over-filter": "The lens is photochromic or polarized, and is not tinted on top.",
    "gradient-shallow": "A tint that fades from top to bottom wants a higher lens.",
    "mirror-not-offered": "The lens is not made with a mirror.",
    "mirror-needs-tint": "A mirror is made over a tint or a polarized lens only.",
    "mirror-needs-back-ar": "A mirror wants an anti-reflective back, and this lens has none.",
    "blue-filter-not-offered": "The lens is not made with a blue filter.",
    "double-use-not-offered": "Special treatments that are made on this lens one at a time only.",
    "light-not-stated": "How much light the lens passes is not stated, so whether one may drive is open; ask us.",
    "very-dark": "The lens is so dark that nobody may drive with it.",
    "too-dark-to-drive": "The lens is so dark that nobody may drive with it.",
    "too-dark-at-night": "The lens takes more light than is allowed for driving at night or twilight.",
    "impossible-sphere": "A sphere that no lens has: a decimal point may be missing.",
    "impossible-cylinder": "A cylinder that no lens has: a decimal point may be missing.",
    "impossible-axis": "An axis goes from 1 to 180.",
    "impossible-add": "An addition that no lens has: a decimal point may be missing.",
    "impossible-prism": "A prism that no lens has: a decimal point may be missing.",
    "impossible-pd": "A pupillary distance that nobody has.",
    "impossible-height": "The pupil would lie outside of the lens.",
    "impossible-vertex": "A distance from lens to eye that nobody has.",
    "impossible-box": "A size of the frame is not possible; the shop must mend it.",
    "impossible-outline": "The outline of the frame does not match its size; the shop must mend it.",
    "impossible-mounting": "A limit of the mounting is not possible; the shop must mend it.",
    "impossible-form": "The curve or an angle of the frame is not possible; the shop must mend it.",
    "impossible-material": "A figure of the material is not possible; the shop must mend it.",
    "impossible-design": "A figure of the design is not possible; the shop must mend it.",
    "impossible-ranges": "The powers that the lens is made in are not possible; the shop must mend them.",
    "impossible-chart": "A chart of the lens is not possible; the shop must mend it.",
    "impossible-limits": "A limit of the shop is not possible; the shop must mend it.",
    "impossible-tint": "A tint takes between 0 and 100 percent of the light.",
    "impossible-money": "A price or a rate is not possible; the shop must mend it.",
    "unknown-word": "A word in the shop's data is not known; the shop must mend it.",
})  # fmt: skip
NOT_AT, AT = marked("not at {power}: {why}"), marked("at {power}: {why}")
MAY_FIT, WEAKER_MAY_FIT = marked("{power} may fit"), marked("weaker may fit")
# What stands in a cell about another power than the one that its column is worked out for, and what that means
ELSEWHERE: dict[str, tuple[str, str]] = {
    "not-at": (NOT_AT, marked("At the column's bold power it fits; at this other one it does not, and why.")),
    "at": (AT, marked("At the column's bold power it fits; at this other one only with this caution.")),
    "may-fit": (MAY_FIT, marked("At the column's bold power it does not fit; at its other end it does. Ask us.")),
}


def brief(reason: Reason, package: Package) -> str:
    """The few words, with the numbers as their unit is written; two that read the same get another decimal."""
    unit = words(reason, package).unit
    if unit == "mm" and mm(reason["needed"]) == mm(reason["given"]):
        return _(BRIEF[reason["code"]]).format(needed=mm(reason["needed"], 2), given=mm(reason["given"], 2))
    return with_numbers(_(BRIEF[reason["code"]]), reason, unit)


def elsewhere(reason: Reason, package: Package, at: float) -> str:
    """What speaks against another power of the same column than the one its cells are worked out for."""
    return _(NOT_AT if reason["verdict"] == "no" else AT).format(power=power(at), why=brief(reason, package))


def may_fit(strongest: float, other: float) -> str:
    """That another power of the column fits, where the strongest does not.

    >>> may_fit(-8.0, -6.25), may_fit(-2.0, 2.0)
    ('weaker may fit', '+2.00 may fit')
    """
    return _(WEAKER_MAY_FIT) if abs(other) < abs(strongest) else _(MAY_FIT).format(power=power(other))


def meanings(codes: set[str]) -> list[tuple[str, str]]:
    """The few words of each code without their numbers, and what they mean, in the order of the lists above.

    >>> meanings({"curve-too-far", "not-drillable"})[0][0]
    'much steeper or flatter than frame'
    """
    open_ = {"needed": "…", "given": "…", "way": _("steeper or flatter"), "power": "…", "why": "…"}
    found = [(_(BRIEF[code]).format(**open_), _(meaning)) for code, meaning in MEANINGS.items() if code in codes]
    found += [(_(short).format(**open_), _(meaning)) for code, (short, meaning) in ELSEWHERE.items() if code in codes]
    return list(dict.fromkeys(found))
