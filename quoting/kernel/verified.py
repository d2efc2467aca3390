"""A lens held against its order: each value with its tolerance, in either cylinder notation.

``standard`` and ``kind`` as in ``tolerance``.  Where a value was not read there is no check.  Powers D, prism in prism
diopters, lengths mm, angles degrees.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.power import as_written, minus_form, strongest
from quoting.kernel.records import Check, Readings
from quoting.kernel.tolerance import (
    base_tolerance,
    center_tolerance,
    height_tolerance,
    is_progressive,
    lens_tolerances,
    place_kind,
    segment_tilt_tolerance,
)
from quoting.kernel.tolerance_ansi import CROSS_MM, NO_AXIS

# Stands where nobody read or ordered a value
NOT_READ = -9999.0

# Sums of decimals in binary: no reading is finer
DUST = 0.0000001


def is_read(value: float) -> bool:
    """Whether a value was read, or ordered.

    >>> is_read(0.0), is_read(NOT_READ)
    (True, False)
    """
    return value > NOT_READ + 1.0


def nothing_read() -> Readings:
    """Readings of which none was taken.

    >>> nothing_read()["sphere"] == NOT_READ
    True
    """
    return {
        "sphere": NOT_READ,
        "cylinder": NOT_READ,
        "axis": NOT_READ,
        "add": NOT_READ,
        "prism_in": NOT_READ,
        "prism_up": NOT_READ,
        "pd": NOT_READ,
        "height": NOT_READ,
        "center": NOT_READ,
        "base": NOT_READ,
        "segment_tilt": NOT_READ,
    }


def held(checks: list[Check], code: str, eye: str, ordered: float, found: float, tolerance: float, off: float) -> None:
    """Note a check; ``off`` within the tolerance passes, its edge too.

    >>> checks = []
    >>> held(checks, "add", "R", 2.0, 2.12, 0.12, 0.12)
    >>> held(checks, "add", "R", 2.0, 2.13, 0.12, 0.13)
    >>> [one["verdict"] for one in checks]
    ['pass', 'fail']
    """
    verdict = "fail"
    if abs(off) <= tolerance + DUST:
        verdict = "pass"
    checks.append(
        {
            "code": code,
            "eye": eye,
            "ordered": ordered,
            "found": found,
            "tolerance": tolerance,
            "off": off,
            "verdict": verdict,
        }
    )


def plain(checks: list[Check], code: str, eye: str, ordered: float, found: float, tolerance: float) -> None:
    """A value that is compared as it is, where it was both ordered and read.

    >>> checks = []
    >>> plain(checks, "center", "R", 2.0, 2.2, 0.3)
    >>> plain(checks, "center", "L", NOT_READ, 2.2, 0.3)
    >>> [one["eye"] for one in checks]
    ['R']
    """
    if is_read(ordered) and is_read(found):
        held(checks, code, eye, ordered, found, tolerance, as_written(found - ordered))


def lacking(kind: str, ordered: Readings, found: Readings) -> list[str]:
    """What was ordered and has to be read of a lens before it can pass, and was not.

    Without it a value that nobody read would count as one within its tolerance; what else was not read is only named.

    >>> ordered = nothing_read()
    >>> ordered["sphere"] = -4.0
    >>> ordered["prism_in"] = 2.0
    >>> lacking("single-vision", ordered, nothing_read()), lacking("single-vision", ordered, ordered)
    (['sphere', 'prism_in'], [])
    """
    fields: list[str] = []
    if is_read(ordered["sphere"]) and not is_read(found["sphere"]):
        fields.append("sphere")
    if is_read(ordered["add"]) and ordered["add"] > 0.0 and not is_read(found["add"]):
        fields.append("add")
    if is_read(ordered["prism_in"]) and ordered["prism_in"] != 0.0 and not is_read(found["prism_in"]):
        fields.append("prism_in")
    if is_read(ordered["prism_up"]) and ordered["prism_up"] != 0.0 and not is_read(found["prism_up"]):
        fields.append("prism_up")
    if place_kind(kind) != "single-vision":
        if is_read(ordered["pd"]) and not is_read(found["pd"]):
            fields.append("pd")
        if is_read(ordered["height"]) and not is_read(found["height"]):
            fields.append("height")
    return fields


def axis_off(ordered: float, found: float) -> float:
    """By how much two axes differ, 0 to 90 degrees.

    >>> axis_off(178.0, 3.0), axis_off(10.0, 100.0)
    (5.0, 90.0)
    """
    off = abs(found - ordered)
    for _ in range(3):
        if off >= 180.0:
            off = off - 180.0
    if off > 90.0:
        off = 180.0 - off
    return off


def power_checks(checks: list[Check], standard: str, kind: str, eye: str, ordered: Readings, found: Readings) -> None:
    """Power, cylinder and axis: both lenses are brought to one notation first.

    ANSI holds the meridian of the highest power, ISO both principal meridians.
    """
    one = minus_form(ordered["sphere"], ordered["cylinder"], ordered["axis"])
    other = minus_form(found["sphere"], found["cylinder"], found["axis"])
    most = lens_tolerances(standard, kind, one[0], one[1], 0.0)
    if standard == "iso":
        held(checks, "power-flatter", eye, one[0], other[0], most[0], as_written(other[0] - one[0]))
        ordered_least = as_written(one[0] + one[1])
        found_least = as_written(other[0] + other[1])
        held(checks, "power-steeper", eye, ordered_least, found_least, most[0], as_written(found_least - ordered_least))
    else:
        ordered_most = as_written(strongest(one[0], one[1]))
        found_most = as_written(other[0])
        if ordered_most != one[0]:
            found_most = as_written(other[0] + other[1])
        if one[1] == 0.0:
            found_most = as_written(strongest(other[0], other[1]))
        held(checks, "power", eye, ordered_most, found_most, most[0], as_written(found_most - ordered_most))
    held(checks, "cylinder", eye, one[1], other[1], most[1], as_written(other[1] - one[1]))
    if most[2] < NO_AXIS and other[1] != 0.0:
        held(checks, "axis", eye, one[2], other[2], most[2], axis_off(one[2], other[2]))


def lens_checks(standard: str, kind: str, eye: str, ordered: Readings, found: Readings) -> list[Check]:
    """All that is held of one lens by itself.   Raises ValueError for a standard not ansi or iso.

    >>> ordered = nothing_read()
    >>> ordered["center"] = 2.0
    >>> found = nothing_read()
    >>> found["center"] = 2.4
    >>> [(one["code"], one["verdict"]) for one in lens_checks("ansi", "single-vision", "R", ordered, found)]
    [('center', 'fail')]
    """
    checks: list[Check] = []
    if is_read(found["sphere"]) and is_read(ordered["sphere"]):
        power_checks(checks, standard, kind, eye, ordered, found)
    if is_read(ordered["add"]) and ordered["add"] > 0.0:
        within = lens_tolerances(standard, kind, 0.0, 0.0, ordered["add"])
        plain(checks, "add", eye, ordered["add"], found["add"], within[3])
    if is_progressive(kind):
        plain(checks, "cross-pd", eye, ordered["pd"], found["pd"], CROSS_MM)
    if place_kind(kind) != "single-vision":
        plain(checks, "height", eye, ordered["height"], found["height"], height_tolerance())
    if place_kind(kind) == "bifocal":
        plain(checks, "segment-tilt", eye, 0.0, found["segment_tilt"], segment_tilt_tolerance())
    plain(checks, "center", eye, ordered["center"], found["center"], center_tolerance())
    if standard == "ansi":
        plain(checks, "base", eye, ordered["base"], found["base"], base_tolerance())
    return checks
