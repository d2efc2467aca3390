"""Does it fit?  One small function a rule; each adds a reason with the two numbers it compared.

Here: the powers that a package is made in.  What the frame asks stands in ``in_frame``, what the wearer needs in
``wearer``, tints and treatments in ``treatments``; the order in which all are told in ``quote``.
Verdicts: "no" forbids, "caution" warns.  Limits are data of shop, mounting, material and design; the defaults in a
shop's file are common practice.  Numbers are put on their grid first (0.01 mm, 0.25 D), so that a rule never turns on
the last bit of a float.  The sentences for people stand in quoting/show/reasons.py.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math

from quoting.kernel.power import as_written, on_step
from quoting.kernel.records import Eye, Job, Package, Range, Reason

# (practice) one reads about so far below the optical center; from this vertical imbalance there between the eyes, look
# at slab-off or separate reading glasses.  A shop's own limits go before these.
READING_DROP_MM = 10.0
IMBALANCE = 1.5


def grid(value: float) -> float:
    """To 0.01, half up."""
    return math.floor(value * 100.0 + 0.5) / 100.0


def say(reasons: list[Reason], code: str, verdict: str, eye: str, needed: float, given: float) -> None:
    """Note a reason."""
    reasons.append({"code": code, "verdict": verdict, "eye": eye, "needed": grid(needed), "given": grid(given)})


def is_multifocal(kind: str) -> bool:
    """Whether the design has a near part that needs an add."""
    return kind == "progressive" or kind == "bifocal"


def holds(part: Range, eye: Eye) -> bool:
    """Whether both principal powers and the cylinder lie in a range."""
    one = on_step(eye["sphere"])
    other = on_step(eye["sphere"] + eye["cylinder"])
    if one < part["low"] or one > part["high"]:
        return False
    if other < part["low"] or other > part["high"]:
        return False
    return on_step(abs(eye["cylinder"])) <= part["cylinder"]


def holds_add(part: Range, eye: Eye, kind: str) -> bool:
    """Whether the add lies in a range, for designs that have one."""
    if not is_multifocal(kind):
        return True
    return eye["add"] >= part["add_from"] and eye["add"] <= part["add_to"]


def near_addition(pack: Package, eye: Eye) -> float:
    """What the near part of this design adds: the add, the boost of an anti-fatigue design, or nothing."""
    if is_multifocal(pack["kind"]):
        return eye["add"]
    return pack["boost"]


def holds_near(part: Range, eye: Eye, addition: float) -> bool:
    """Whether both principal near powers lie in the limits that a range states for them, where it states any."""
    if not part["near"]:
        return True
    one = on_step(as_written(eye["sphere"] + addition))
    other = on_step(as_written(eye["sphere"] + eye["cylinder"] + addition))
    if one < part["near_from"] or one > part["near_to"]:
        return False
    return other >= part["near_from"] and other <= part["near_to"]


def makes(pack: Package, part: Range, eye: Eye) -> bool:
    """Whether one range holds all that the eye needs: power, add and near power."""
    if not holds(part, eye) or not holds_add(part, eye, pack["kind"]):
        return False
    return holds_near(part, eye, near_addition(pack, eye))


def largest_blank(pack: Package, eye: Eye) -> float:
    """Diameter of the largest blank in which this power is made; 0 where it is not made."""
    most = 0.0
    for part in pack["ranges"]:
        if makes(pack, part, eye) and part["diameter"] > most:
            most = part["diameter"]
    return most


def power_limits(pack: Package) -> list[float]:
    """[least power, greatest power, greatest cylinder, least add, greatest add] over all ranges."""
    first = pack["ranges"][0]
    low = first["low"]
    high = first["high"]
    cylinder = first["cylinder"]
    add_from = first["add_from"]
    add_to = first["add_to"]
    for part in pack["ranges"]:
        if part["low"] < low:
            low = part["low"]
        if part["high"] > high:
            high = part["high"]
        if part["cylinder"] > cylinder:
            cylinder = part["cylinder"]
        if part["add_from"] < add_from:
            add_from = part["add_from"]
        if part["add_to"] > add_to:
            add_to = part["add_to"]
    return [low, high, cylinder, add_from, add_to]


def power_rule(job: Job, eye: Eye, side: str, reasons: list[Reason]) -> None:
    """Each principal power and the cylinder inside one range of the package."""
    pack = job["package"]
    for part in pack["ranges"]:
        if holds(part, eye):
            return
    limits = power_limits(pack)
    one = on_step(eye["sphere"])
    other = on_step(eye["sphere"] + eye["cylinder"])
    found = len(reasons)
    if one < limits[0] or other < limits[0]:
        say(reasons, "power-too-minus", "no", side, limits[0], lesser(one, other))
    if one > limits[1] or other > limits[1]:
        say(reasons, "power-too-plus", "no", side, limits[1], 0.0 - lesser(0.0 - one, 0.0 - other))
    if on_step(abs(eye["cylinder"])) > limits[2]:
        say(reasons, "cylinder-too-strong", "no", side, limits[2], abs(eye["cylinder"]))
    if len(reasons) == found:
        say(reasons, "power-not-together", "no", side, one, abs(eye["cylinder"]))


def lesser(a: float, b: float) -> float:
    """The smaller of two."""
    if b < a:
        return b
    return a


def lacks_add(pack: Package, eye: Eye) -> bool:
    """Whether this is a multifocal, and its add is not given."""
    return is_multifocal(pack["kind"]) and eye["add"] == 0.0


def add_rule(job: Job, eye: Eye, side: str, reasons: list[Reason]) -> None:
    """A multifocal needs an add inside its range; an anti-fatigue boost is no add."""
    pack = job["package"]
    if pack["kind"] == "anti-fatigue":
        if eye["add"] >= job["limits"]["boost_add"]:
            say(reasons, "add-needs-progressive", "caution", side, eye["add"], pack["boost"])
        return
    if not is_multifocal(pack["kind"]):
        if eye["add"] > 0.0:
            say(reasons, "add-left-out", "caution", side, eye["add"], 0.0)
        return
    limits = power_limits(pack)
    if lacks_add(pack, eye):
        say(reasons, "add-missing", "no", side, limits[3], 0.0)
    elif eye["add"] < limits[3]:
        say(reasons, "add-too-low", "no", side, limits[3], eye["add"])
    elif eye["add"] > limits[4]:
        say(reasons, "add-too-high", "no", side, limits[4], eye["add"])


def near_rule(job: Job, eye: Eye, side: str, reasons: list[Reason]) -> None:
    """Near power inside the limits of a range that makes power and add, where the package states any."""
    pack = job["package"]
    addition = near_addition(pack, eye)
    stated: list[Range] = []
    for part in pack["ranges"]:
        if makes(pack, part, eye):
            return
        if holds(part, eye) and holds_add(part, eye, pack["kind"]):
            stated.append(part)
    if len(stated) == 0:
        return
    low = stated[0]["near_from"]
    high = stated[0]["near_to"]
    for part in stated:
        low = lesser(low, part["near_from"])
        high = 0.0 - lesser(0.0 - high, 0.0 - part["near_to"])
    one = as_written(eye["sphere"] + addition)
    other = as_written(eye["sphere"] + eye["cylinder"] + addition)
    most = 0.0 - lesser(0.0 - one, 0.0 - other)
    if on_step(lesser(one, other)) < low:
        say(reasons, "near-too-minus", "no", side, low, lesser(one, other))
    if on_step(most) > high:
        say(reasons, "near-too-plus", "no", side, high, most)


def prism_rule(job: Job, eye: Eye, side: str, reasons: list[Reason]) -> None:
    """Prescribed prism at most what the package takes."""
    amount = grid(math.sqrt(eye["prism_in"] * eye["prism_in"] + eye["prism_up"] * eye["prism_up"]))
    if amount > job["package"]["prism"]:
        say(reasons, "prism-too-strong", "no", side, job["package"]["prism"], amount)


def is_wrap(job: Job) -> bool:
    """Whether the frame is a wrap by the shop's limits."""
    frame = job["frame"]
    return frame["wrap"] >= job["limits"]["wrap_angle"] or frame["curve"] >= job["limits"]["wrap_curve"]
