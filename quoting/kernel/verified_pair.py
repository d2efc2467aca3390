"""Two lenses held against their order together: prism between the eyes, distance, heights, tint; and the verdict.

As in ``verified``.  Powers D, prism in prism diopters, lengths mm, light in percent.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.power import as_written, in_meridian
from quoting.kernel.records import Check, Readings
from quoting.kernel.tolerance import height_tolerance, pair_tolerances, place_kind, tint_tolerance
from quoting.kernel.tolerance_ansi import NO_LIMIT, vertical_within
from quoting.kernel.verified import NOT_READ, held, is_read, plain


def highest(right: Readings, left: Readings, meridian: float) -> float:
    """The highest power of both lenses in a meridian, without its sign.

    >>> from quoting.kernel.verified import nothing_read
    >>> right = nothing_read()
    >>> left = nothing_read()
    >>> right["sphere"] = -4.0
    >>> right["cylinder"] = -1.0
    >>> right["axis"] = 180.0
    >>> highest(right, left, 90.0)
    5.0
    """
    most = 0.0
    for one in [right, left]:
        if is_read(one["sphere"]):
            power = abs(in_meridian(one["sphere"], one["cylinder"], one["axis"], meridian))
            if power > most:
                most = power
    return most


def difference(one: float, other: float, sign: float) -> float:
    """One value and ``sign`` times another; NOT_READ where one of them is.

    >>> difference(1.0, 0.5, -1.0), difference(NOT_READ, 1.0, 1.0) == NOT_READ
    (0.5, True)
    """
    if is_read(one) and is_read(other):
        return as_written(one + sign * other)
    return NOT_READ


def pair_checks(standard: str, kind: str, right: Readings, left: Readings, found: list[Readings]) -> list[Check]:
    """All that is held of the two lenses together; ``found`` is [right, left].   Raises ValueError as ``lens_checks``.

    Prism between the eyes: what was read less what was ordered, across the base in of both together, upright the
    right's less the left's.  Where no prism was read, places stand for it.

    >>> from quoting.kernel.verified import nothing_read
    >>> right = nothing_read()
    >>> right["pd"] = 31.0
    >>> left = nothing_read()
    >>> left["pd"] = 32.0
    >>> far = nothing_read()
    >>> far["pd"] = 34.0
    >>> [(one["code"], one["off"]) for one in pair_checks("ansi", "bifocal", right, left, [far, left])]
    [('distance', 3.0)]
    """
    checks: list[Check] = []
    across = difference(right["prism_in"], left["prism_in"], 1.0)
    upright = difference(right["prism_up"], left["prism_up"], -1.0)
    ordered = [0.0, 0.0]
    if is_read(across) and is_read(upright):
        ordered = [across, upright]
    vertical = highest(right, left, 90.0)
    within = pair_tolerances(standard, kind, vertical, highest(right, left, 180.0), ordered)
    found_up = difference(found[0]["prism_up"], found[1]["prism_up"], -1.0)
    found_across = difference(found[0]["prism_in"], found[1]["prism_in"], 1.0)
    apart = difference(right["pd"], left["pd"], 1.0)
    found_apart = difference(found[0]["pd"], found[1]["pd"], 1.0)
    heights = difference(right["height"], left["height"], -1.0)
    found_heights = difference(found[0]["height"], found[1]["height"], -1.0)
    plain(checks, "prism-up", "B", upright, found_up, within[0])
    plain(checks, "prism-across", "B", across, found_across, within[1])
    if within[2] < NO_LIMIT:
        plain(checks, "distance", "B", apart, found_apart, within[2])
    if place_kind(kind) != "single-vision":
        plain(checks, "heights", "B", heights, found_heights, height_tolerance())
    elif not is_read(found_up) and is_read(heights) and is_read(found_heights):
        off = as_written((found_heights - heights) * vertical / 10.0)
        held(checks, "heights-prism", "B", heights, found_heights, within[0], off)
    return checks


def alone_checks(standard: str, kind: str, eye: str, ordered: Readings, found: Readings) -> list[Check]:
    """What is held of the one lens of a job for one eye, where no other lens stands beside it.   Raises ValueError.

    Prism at the reference point; where none was read, the place of the optical center stands for it.

    >>> from quoting.kernel.verified import nothing_read
    >>> ordered = nothing_read()
    >>> ordered["sphere"] = -4.0
    >>> ordered["cylinder"] = 0.0
    >>> ordered["axis"] = 180.0
    >>> ordered["pd"] = 31.0
    >>> far = nothing_read()
    >>> far["pd"] = 33.0
    >>> [(one["code"], one["off"], one["verdict"]) for one in alone_checks("ansi", "bifocal", "R", ordered, far)]
    []
    >>> [(one["code"], one["off"], one["verdict"]) for one in alone_checks("ansi", "single-vision", "R", ordered, far)]
    [('center-across', 0.8, 'fail')]
    """
    checks: list[Check] = []
    vertical = highest(ordered, ordered, 90.0)
    horizontal = highest(ordered, ordered, 180.0)
    prism = [0.0, 0.0]
    if is_read(ordered["prism_in"]) and is_read(ordered["prism_up"]):
        prism = [ordered["prism_in"], ordered["prism_up"]]
    within = pair_tolerances(standard, kind, vertical, horizontal, prism)
    across = within[1]
    if standard == "ansi":
        across = vertical_within(horizontal)
    plain(checks, "alone-up", eye, ordered["prism_up"], found["prism_up"], within[0])
    plain(checks, "alone-across", eye, ordered["prism_in"], found["prism_in"], across)
    if place_kind(kind) == "single-vision":
        if not is_read(found["prism_in"]) and is_read(ordered["pd"]) and is_read(found["pd"]):
            off = as_written((found["pd"] - ordered["pd"]) * horizontal / 10.0)
            held(checks, "center-across", eye, ordered["pd"], found["pd"], across, off)
        if not is_read(found["prism_up"]) and is_read(ordered["height"]) and is_read(found["height"]):
            off = as_written((found["height"] - ordered["height"]) * vertical / 10.0)
            held(checks, "center-up", eye, ordered["height"], found["height"], within[0], off)
    return checks


def tint_check(ordered: float, found: float) -> list[Check]:
    """How much light comes through, percent, against what was ordered; none where either was not read.

    >>> [one["verdict"] for one in tint_check(20.0, 26.0)], tint_check(NOT_READ, 20.0)
    (['fail'], [])
    """
    checks: list[Check] = []
    plain(checks, "tint", "B", ordered, found, tint_tolerance())
    return checks


def overall(checks: list[Check]) -> str:
    """ "pass" where every check does, "fail" where one does not, "nothing" where there is none.

    >>> overall([]), overall(tint_check(20.0, 20.0)), overall(tint_check(20.0, 30.0))
    ('nothing', 'pass', 'fail')
    """
    verdict = "nothing"
    for one in checks:
        if one["verdict"] == "fail":
            return "fail"
        verdict = "pass"
    return verdict
