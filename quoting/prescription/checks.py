"""Is this prescription likely?  Flags with a reason; a human may overrule all but the errors.

Limits are common practice of dispensing (practice), except where a source is named.  What a lens design needs, such
as an addition for a progressive, is decided by the rules that know the lens.

>>> [finding.code for finding in plausible(Prescription(EyeRx(-2.25), EyeRx(2.25)), Mark("slip", 1, 1))]
['signs-differ', 'powers-differ']
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from datetime import date

from quoting.findings import Finding, Mark
from quoting.kernel.imbalance import pair_at_near
from quoting.kernel.power import spherical_equivalent, vector
from quoting.kernel.rules import IMBALANCE, READING_DROP_MM
from quoting.prescription.distances import date_flags, distance_flags
from quoting.prescription.figures import written
from quoting.prescription.flags import Flag
from quoting.prescription.model import EyeRx, Prescription

STEP = 0.125  # (practice) powers come in quarters, sometimes in eighths
MOST_SPHERE = 20.0
MOST_CYLINDER = 6.0
LEAST_ADD, MOST_ADD = 0.50, 4.00
POWERS_APART = 2.0  # between the eyes, in the meridian where they differ most
VERTICAL_TO_CONFIRM = 0.5  # prism diopters
# In the middle below the center an axis and its mirror image have the same vertical prism: no need of nasal frames
STRAIGHT_BELOW = [0.0, 0.0]
HAIR = 1e-9  # floats: a difference of exactly 2.00 D counts as 2.00 D


def plausible(
    rx: Prescription,
    mark: Mark,
    today: date | None = None,
    max_age_months: int | None = None,
    places: Mapping[str, Mark] | None = None,
    child: bool = False,
) -> list[Finding]:
    """All that is unlikely about a prescription, as findings at ``mark``.

    ``places`` gives better marks by what they are about: "right sphere", "left add", "pd binocular", "written".
    Age is looked at only with ``today``; the limit is the shop's, set by local law.  ``child``: the wearer is known to
    be under 18.
    """
    flags: list[Flag] = []
    for side, eye in (("right", rx.right), ("left", rx.left)):
        if eye is not None:
            flags += _eye_flags(side, eye)
    if rx.right is not None and rx.left is not None:
        flags += _pair_flags(rx.right, rx.left)
    flags += distance_flags(rx.pd, child)
    flags += date_flags(rx.written, today, max_age_months)
    at = places or {}
    return [Finding(at.get(f.about, mark), f.code, f.message, f.hint, f.severity) for f in flags]


def _eye_flags(side: str, eye: EyeRx) -> Iterator[Flag]:
    for what, power in (("sphere", eye.sphere), ("cylinder", eye.cylinder), ("add", eye.add)):
        yield from _step_flag(f"{side} {what}", power)
    if abs(eye.sphere) > MOST_SPHERE:
        said = f"{_of(side)} sphere {written(eye.sphere)} D is beyond {MOST_SPHERE:.2f} D"
        yield Flag(f"{side} sphere", "sphere-strong", said, "check the decimal point against the slip")
    if abs(eye.cylinder) > MOST_CYLINDER:
        said = f"{_of(side)} cylinder {written(eye.cylinder)} D is beyond {MOST_CYLINDER:.2f} D"
        yield Flag(f"{side} cylinder", "cylinder-strong", said, "check the decimal point against the slip")
    if eye.cylinder and not 1 <= eye.axis <= 180:
        said = f"{_of(side)} axis is {eye.axis}; axes run from 1 to 180"
        yield Flag(f"{side} axis", "axis-range", said, "look again at the slip", "error")
    yield from _add_flags(side, eye.add)
    if abs(eye.prism_up) >= VERTICAL_TO_CONFIRM - HAIR:
        base = "up" if eye.prism_up > 0 else "down"
        said = f"{_of(side)} vertical prism is {abs(eye.prism_up):g}Δ base {base}, {VERTICAL_TO_CONFIRM}Δ or more"
        hint = "confirm amount and base with the prescriber: a wrong base doubles the fault"
        yield Flag(f"{side} prism up", "prism-vertical", said, hint)


def _step_flag(about: str, power: float) -> Iterator[Flag]:
    steps = power / STEP
    if abs(steps - round(steps)) < HAIR:
        return
    low, high = math.floor(power / 0.25) * 0.25, math.ceil(power / 0.25) * 0.25
    said = f"{_of(about)} {power:+g} D is not on a step of 0.25 or 0.125 D"
    hint = f"the nearest quarters are {written(low)} and {written(high)}: look again at the slip"
    yield Flag(about, "off-step", said, hint)


def _add_flags(side: str, add: float) -> Iterator[Flag]:
    if add < 0:
        said = f"{_of(side)} addition is {written(add)} D, and an addition is always plus"
        yield Flag(f"{side} add", "add-minus", said, "look again at the slip", "error")
    elif add and not LEAST_ADD <= add <= MOST_ADD:
        said = f"{_of(side)} addition {written(add)} D is outside {written(LEAST_ADD)} to {written(MOST_ADD)} D"
        yield Flag(f"{side} add", "add-range", said, "check it; a near power is not an addition")


def _pair_flags(right: EyeRx, left: EyeRx) -> Iterator[Flag]:
    yield from _add_pair_flags(right.add, left.add)
    means = [spherical_equivalent(eye.sphere, eye.cylinder) for eye in (right, left)]
    if means[0] * means[1] < 0:
        said = f"one eye is plus and the other minus: R {written(means[0])} D, L {written(means[1])} D (mean powers)"
        yield Flag("left sphere", "signs-differ", said, "check both signs against the slip")
    apart = powers_apart(right, left)
    if apart >= POWERS_APART - HAIR:
        said = f"the eyes differ by {apart:.2f} D in one meridian; {POWERS_APART:.2f} D and more are unusual"
        hint = "check both eyes; images may differ in size, and looking off center the eyes are pulled apart"
        yield Flag("left sphere", "powers-differ", said, hint)
    pull = reading_imbalance(right, left)
    if (right.add > 0 or left.add > 0) and pull >= IMBALANCE - HAIR:
        said = (
            f"{READING_DROP_MM:g} mm below the centers the eyes are pulled apart by {pull:.2f}Δ vertically;"
            f" from {IMBALANCE:g}Δ reading is hard"
        )
        yield Flag("left add", "reading-imbalance", said, "consider slab-off, or single vision for reading")


def _add_pair_flags(right: float, left: float) -> Iterator[Flag]:
    if (right == 0) != (left == 0):
        side = "right" if right else "left"
        said = f"only the {side} eye has an addition, {written(right or left)} D; the other has 0.00"
        yield Flag(f"{side} add", "add-one-eye", said, "an addition is nearly always for both eyes: ask")
    elif right != left:
        said = f"the additions differ: R {written(right)} D, L {written(left)} D"
        yield Flag("left add", "adds-differ", said, "rare but possible: check it against the slip", "note")


def powers_apart(right: EyeRx, left: EyeRx) -> float:
    """The largest difference between two eyes in any meridian, in diopters.

    The difference of two sphero-cylinders is one; its principal powers are M ± √(J0² + J45²).
    Source: Thibos, Wheeler & Horner, Optom. Vis. Sci. 74 (1997) 367.
    """
    one = vector(right.sphere, right.cylinder, right.axis)
    other = vector(left.sphere, left.cylinder, left.axis)
    mean, j0, j45 = (a - b for a, b in zip(one, other, strict=True))
    return abs(mean) + math.hypot(j0, j45)


def reading_imbalance(right: EyeRx, left: EyeRx) -> float:
    """Vertical prism between the eyes at the reading level, in prism diopters (Prentice's rule)."""
    one, other = ([eye.sphere, eye.cylinder, eye.axis] for eye in (right, left))
    return abs(pair_at_near(one, other, STRAIGHT_BELOW, READING_DROP_MM)[1])


def _of(about: str) -> str:
    side, _, what = about.partition(" ")
    names = {"add": "addition"}
    return f"the {side} eye's {names.get(what, what)}".rstrip()
