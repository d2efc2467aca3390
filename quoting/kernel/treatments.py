"""Rules about tints and treatments that are added to a package, and about driving behind them.

A tint that takes ``depth`` percent of the light passes the rest of what the lens passes; layers multiply.
Filter categories and the limits for driving: ISO 12312-1; they stand in the shop's limits.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.records import Job, Options, Package, Reason
from quoting.kernel.rules import grid, say

# Percent of visible light above which a filter is of category 0, 1, 2, 3, 4 (ISO 12312-1)
CATEGORY_ABOVE = [80.0, 43.0, 18.0, 8.0, 3.0]


def no_options() -> Options:
    """Nothing is wished beyond the package, and the glasses are for nothing special."""
    return {
        "tint_depth": 0.0,
        "tint_gradient": False,
        "mirror": False,
        "blue_filter": False,
        "slab_off": False,
        "rush": False,
        "sport": False,
        "one_eyed": False,
        "driving": False,
        "night_driving": False,
    }


def filter_category(percent: float) -> int:
    """Filter category of a lens that passes so many percent of visible light: 0 is clear, 4 is not for driving.

    5 stands for what is darker than any category, and for what nobody stated (0).   Source: ISO 12312-1, table of
    filter categories; the limits from memory.

    >>> [filter_category(percent) for percent in (92.0, 80.0, 43.0, 18.0, 8.0, 3.0)]
    [0, 1, 2, 3, 4, 5]
    """
    for i in range(len(CATEGORY_ABOVE)):
        if percent > CATEGORY_ABOVE[i]:
            return i
    return len(CATEGORY_ABOVE)


def tint_rule(job: Job, reasons: list[Reason]) -> None:
    """A tint within what the material takes, a gradient with room to fade, over another filter only where listed."""
    pack = job["package"]
    depth = grid(job["options"]["tint_depth"])
    if depth == 0.0:
        return
    if depth > pack["tint_depth"]:
        say(reasons, "tint-too-deep", "no", "B", pack["tint_depth"], depth)
    if pack["light"] != "clear" and not pack["tint_over"]:
        say(reasons, "tint-over-filter", "no", "B", 0.0, depth)
    if job["options"]["tint_gradient"] and grid(job["frame"]["b"]) < job["limits"]["gradient_height"]:
        say(reasons, "gradient-shallow", "caution", "B", job["limits"]["gradient_height"], job["frame"]["b"])


def mirror_rule(job: Job, reasons: list[Reason]) -> None:
    """A mirror only where the list has it, over a tint or a polarized lens, and with an anti-reflective back."""
    pack = job["package"]
    if not job["options"]["mirror"]:
        return
    if not pack["mirror"]:
        say(reasons, "mirror-not-offered", "no", "B", 1.0, 0.0)
        return
    if grid(job["options"]["tint_depth"]) == 0.0 and pack["light"] != "polarized":
        say(reasons, "mirror-needs-tint", "no", "B", 1.0, 0.0)
    if not pack["back_ar"]:
        say(reasons, "mirror-needs-back-ar", "no", "B", 1.0, 0.0)


def double_use_rule(job: Job, reasons: list[Reason]) -> None:
    """A blue filter only where the list has it; several special treatments at once only where it says so."""
    pack = job["package"]
    if job["options"]["blue_filter"] and not pack["blue_filter"]:
        say(reasons, "blue-filter-not-offered", "no", "B", 1.0, 0.0)
        return
    count = 0.0
    if pack["light"] != "clear":
        count += 1.0
    if job["options"]["mirror"]:
        count += 1.0
    if job["options"]["blue_filter"]:
        count += 1.0
    added = job["options"]["mirror"] or job["options"]["blue_filter"]
    if added and count > 1.0 and not pack["double_use"]:
        say(reasons, "double-use-not-offered", "no", "B", 1.0, count)


def passed(pack: Package, dark: bool) -> float:
    """Percent of visible light that a package passes, a photochromic when dark or clear; 0 where nobody stated it.

    An untreated clear lens passes 2 n / (n² + 1): what two surfaces leave by Fresnel's formulas, reflections between
    them included; an anti-reflective coating passes more.

    >>> pack = {"light": "clear", "index": 1.5, "transmittance": 0.0, "darkened": 0.0}
    >>> round(passed(pack, True), 1)
    92.3
    """
    if pack["light"] == "photochromic" and dark:
        return pack["darkened"]
    if pack["light"] == "clear" and pack["transmittance"] == 0.0:
        return 200.0 * pack["index"] / (pack["index"] * pack["index"] + 1.0)
    return pack["transmittance"]


def behind_tint(percent: float, options: Options) -> float:
    """What is left behind the tint at its darkest."""
    return grid(percent * (100.0 - options["tint_depth"]) / 100.0)


def day_rule(job: Job, reasons: list[Reason]) -> None:
    """Behind the darkest filters nobody drives: told to everybody, and forbidden where the glasses are for driving."""
    options = job["options"]
    least = job["limits"]["driving_least"]
    percent = passed(job["package"], True)
    if percent == 0.0 or options["mirror"]:
        if options["driving"]:
            say(reasons, "light-not-stated", "caution", "B", least, percent)
        if percent == 0.0:
            return
    left = behind_tint(percent, options)
    if left > least:
        return
    if options["driving"]:
        say(reasons, "too-dark-to-drive", "no", "B", least, left)
    else:
        say(reasons, "very-dark", "caution", "B", least, left)


def night_rule(job: Job, reasons: list[Reason]) -> None:
    """At night and twilight only nearly clear lenses; a photochromic counts as it is when clear."""
    options = job["options"]
    if not options["night_driving"]:
        return
    least = job["limits"]["night_least"]
    percent = passed(job["package"], False)
    if percent == 0.0 or options["mirror"]:
        say(reasons, "light-not-stated", "caution", "B", least, percent)
        if percent == 0.0:
            return
    left = behind_tint(percent, options)
    if left < least:
        say(reasons, "too-dark-at-night", "no", "B", least, left)
