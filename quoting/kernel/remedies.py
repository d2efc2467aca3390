"""What would make it fit: the changes with which the engine, asked again, no longer tells a reason.

Other sizes of the frame are given as whole jobs; wishes are dropped or changed one at a time; what another frame would
have to be like stands in ``other_frame``.  What somebody needs (a lens that resists impact, or is light enough to drive
with) is never dropped, and no prescription is changed but for an add that is missing.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math

from quoting.kernel.altered import add_instead, options_with, with_eyes, with_options
from quoting.kernel.attempts import among, attempt, forbidding, standing
from quoting.kernel.bounds import IMPOSSIBLE
from quoting.kernel.other_frame import (
    BY_HEIGHT,
    BY_WIDTH,
    higher,
    narrower,
    other_curve,
    other_heights,
    other_mountings,
)
from quoting.kernel.quote import fit
from quoting.kernel.records import Fit, Job, Mounting, Reason, Remedy
from quoting.kernel.rules import grid, power_limits
from quoting.kernel.treatments import day_rule, night_rule, tint_rule

BY_TINT = ["tint-too-deep", "tint-over-filter", "too-dark-to-drive", "too-dark-at-night"]
BY_MIRROR = ["mirror-not-offered", "mirror-needs-tint", "mirror-needs-back-ar", "double-use-not-offered"]
BY_FILTER = ["blue-filter-not-offered", "double-use-not-offered"]
BY_ADD = ["add-missing"]
BY_SLAB_OFF = ["reading-imbalance"]
BY_EVEN_TINT = ["gradient-shallow"]

# The order in which they are told: what is wished, what was left out, what we have, what other frames would be like
IN_ORDER = [
    "tint", "no-tint", "even-tint", "no-mirror", "no-blue-filter", "slab-off", "add", "size", "package", "pupil-height",
    "package-in-size", "instead", "mounting", "lens-height", "lens-width", "frame-curve",
]  # fmt: skip
VERDICTS = ["fits", "caution"]


def is_light_enough(job: Job) -> bool:
    """Whether nothing forbids the tint of a job."""
    reasons: list[Reason] = []
    tint_rule(job, reasons)
    day_rule(job, reasons)
    night_rule(job, reasons)
    return len(forbidding(reasons)) == 0


def lighter(job: Job, fitted: Fit, found: list[Remedy]) -> None:
    """The deepest tint in whole percent that is made and not too dark, or none at all."""
    if len(standing(fitted["reasons"], BY_TINT)) == 0:
        return
    was = job["options"]
    deepest = math.floor(grid(was["tint_depth"]))
    for i in range(deepest + 1):
        depth = deepest - i
        gradient = was["tint_gradient"] and depth > 0
        options = options_with(was, depth, gradient, was["mirror"], was["blue_filter"], was["slab_off"])
        changed = with_options(job, options)
        if is_light_enough(changed):
            if depth > 0:
                attempt(found, fitted["reasons"], BY_TINT, changed, "tint", [0.0, depth], 0)
            else:
                attempt(found, fitted["reasons"], BY_TINT, changed, "no-tint", [0.0, 0.0], 0)
            return


def fewer_wishes(job: Job, fitted: Fit, found: list[Remedy]) -> None:
    """Treatments left out one at a time; where only a caution is left, a tint that does not fade, or a slab-off."""
    was = job["options"]
    before = fitted["reasons"]
    tint = was["tint_depth"]
    plain = options_with(was, tint, was["tint_gradient"], False, was["blue_filter"], was["slab_off"])
    attempt(found, before, BY_MIRROR, with_options(job, plain), "no-mirror", [0.0, 0.0], 0)
    clear = options_with(was, tint, was["tint_gradient"], was["mirror"], False, was["slab_off"])
    attempt(found, before, BY_FILTER, with_options(job, clear), "no-blue-filter", [0.0, 0.0], 0)
    if fitted["verdict"] == "no":
        return
    even = options_with(was, tint, False, was["mirror"], was["blue_filter"], was["slab_off"])
    attempt(found, before, BY_EVEN_TINT, with_options(job, even), "even-tint", [0.0, 0.0], 0)
    ground = options_with(was, tint, was["tint_gradient"], was["mirror"], was["blue_filter"], True)
    attempt(found, before, BY_SLAB_OFF, with_options(job, ground), "slab-off", [0.0, 0.0], 0)


def missing_add(job: Job, fitted: Fit, found: list[Remedy]) -> None:
    """The add that a multifocal needs, where an eye has none; told with the adds in which it is made."""
    if len(standing(fitted["reasons"], BY_ADD)) == 0:
        return
    limits = power_limits(job["package"])
    changed = with_eyes(job, add_instead(job["right"], limits[3]), add_instead(job["left"], limits[3]))
    attempt(found, fitted["reasons"], BY_ADD, changed, "add", [limits[3], limits[4]], 0)


def by_size_alone(reasons: list[Reason]) -> bool:
    """Whether all that forbids follows from how large or high the lens is."""
    codes = forbidding(reasons)
    for code in codes:
        if not among(BY_WIDTH, code) and not among(BY_HEIGHT, code):
            return False
    return len(codes) > 0


def other_sizes(fitted: Fit, sizes: list[Job], found: list[Remedy]) -> None:
    """The same lens in other sizes of the frame in which nothing forbids it."""
    if not by_size_alone(fitted["reasons"]):
        return
    for i in range(len(sizes)):
        verdict = fit(sizes[i])["verdict"]
        if verdict != "no":
            codes = forbidding(fitted["reasons"])
            found.append({"what": "size", "codes": codes, "low": 0.0, "high": 0.0, "number": i, "verdict": verdict})


def remedies(job: Job, sizes: list[Job], mountings: list[Mounting], height_known: bool) -> list[Remedy]:
    """All changes that help; none for a job that fits, or that is impossible.

    ``sizes``: the same lens in the other sizes of the frame; ``mountings``: what the other mountings hold.
    """
    found: list[Remedy] = []
    fitted = fit(job)
    if fitted["verdict"] == "fits" or fitted["right"]["fault"] == IMPOSSIBLE:
        return found
    lighter(job, fitted, found)
    fewer_wishes(job, fitted, found)
    missing_add(job, fitted, found)
    other_sizes(fitted, sizes, found)
    if not height_known:
        other_heights(job, fitted, found)
    other_mountings(job, fitted, mountings, found)
    higher(job, fitted, found)
    narrower(job, fitted, found)
    other_curve(job, fitted, found)
    return ordered(found)


def ordered(found: list[Remedy]) -> list[Remedy]:
    """What makes it fit before what leaves other reasons; then by kind, and within a kind the better verdict first."""
    told: list[Remedy] = []
    for what in IN_ORDER:
        for verdict in VERDICTS:
            for one in found:
                if one["what"] == what and one["verdict"] == verdict:
                    told.append(one)
    for what in IN_ORDER:
        for one in found:
            if one["what"] == what and one["verdict"] == "no":
                told.append(one)
    return told


def best_of(verdicts: list[str], cents: list[int]) -> int:
    """Which of several offers to name: the cheapest that fits, else the cheapest with a caution; -1 where none does.

    >>> best_of(["no", "caution", "fits", "fits"], [1, 2, 4, 3]), best_of(["no"], [1])
    (3, -1)
    """
    for verdict in VERDICTS:
        best = 0 - 1
        for i in range(len(verdicts)):
            if verdicts[i] == verdict and (best < 0 or cents[i] < cents[best]):
                best = i
        if best >= 0:
            return best
    return 0 - 1
