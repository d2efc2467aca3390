"""Does it fit?  One small function a rule; each adds a reason with the two numbers it compared.

Verdicts: "no" forbids, "caution" warns.  Limits are data of shop, mounting, material and design; the defaults in a
shop's file are common practice.  Numbers are put on their grid first (0.01 mm, 0.25 D), so that a rule never turns on
the last bit of a float.  The sentences for people stand in quoting/show/reasons.py.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math

from quoting.kernel.layout import fitting_height
from quoting.kernel.power import on_step
from quoting.kernel.records import Eye, Job, Lens, Package, Range, Reason

# (practice) at this vertical imbalance at the reading level, look at slab-off or separate reading glasses
IMBALANCE = 1.5
READING_DROP_MM = 10.0

# (practice) from this add on, an anti-fatigue boost is too little
WANTS_PROGRESSIVE = 1.25

# curve differences beyond twice what the shop accepts will not hold in the rim
CURVE_NO_FACTOR = 2.0


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


def largest_blank(pack: Package, eye: Eye) -> float:
    """Diameter of the largest blank in which this power is made; 0 where it is not made."""
    most = 0.0
    for part in pack["ranges"]:
        if holds(part, eye) and holds_add(part, eye, pack["kind"]) and part["diameter"] > most:
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


def add_rule(job: Job, eye: Eye, side: str, reasons: list[Reason]) -> None:
    """A multifocal needs an add inside its range; an anti-fatigue boost is no add."""
    pack = job["package"]
    if pack["kind"] == "anti-fatigue":
        if eye["add"] >= WANTS_PROGRESSIVE:
            say(reasons, "add-needs-progressive", "caution", side, eye["add"], pack["boost"])
        return
    if not is_multifocal(pack["kind"]):
        if eye["add"] > 0.0:
            say(reasons, "add-left-out", "caution", side, eye["add"], 0.0)
        return
    limits = power_limits(pack)
    if eye["add"] == 0.0:
        say(reasons, "add-missing", "no", side, limits[3], 0.0)
    elif eye["add"] < limits[3]:
        say(reasons, "add-too-low", "no", side, limits[3], eye["add"])
    elif eye["add"] > limits[4]:
        say(reasons, "add-too-high", "no", side, limits[4], eye["add"])


def prism_rule(job: Job, eye: Eye, side: str, reasons: list[Reason]) -> None:
    """Prescribed prism at most what the package takes."""
    amount = grid(math.sqrt(eye["prism_in"] * eye["prism_in"] + eye["prism_up"] * eye["prism_up"]))
    if amount > job["package"]["prism"]:
        say(reasons, "prism-too-strong", "no", side, job["package"]["prism"], amount)


def blank_rule(job: Job, lens: Lens, side: str, reasons: list[Reason]) -> None:
    """The blank must cover the outline where the optical center has to be.

    The exact size decides on a trace.  On an estimated outline it decides what is too small for certain; where only the
    rule of thumb, which is never below the exact size, asks for more, that is a caution.
    """
    if grid(lens["blank_exact"]) > lens["blank_largest"]:
        say(reasons, "blank-too-small", "no", side, lens["blank_exact"], lens["blank_largest"])
    elif not job["frame"]["traced"] and grid(lens["blank_rule"]) > lens["blank_largest"]:
        say(reasons, "blank-close", "caution", side, lens["blank_rule"], lens["blank_largest"])


def height_rule(job: Job, height: float, side: str, reasons: list[Reason]) -> None:
    """Enough lens below the cross or the segment's top, and enough above it."""
    pack = job["package"]
    fitting = fitting_height(pack["kind"], height)
    above = job["frame"]["b"] - fitting
    if grid(fitting) < pack["min_height"]:
        say(reasons, "height-too-low", "no", side, pack["min_height"], fitting)
    if grid(above) < pack["min_above"]:
        say(reasons, "above-too-low", "no", side, pack["min_above"], above)


def is_wrap(job: Job) -> bool:
    """Whether the frame is a wrap by the shop's limits."""
    frame = job["frame"]
    return frame["wrap"] >= job["limits"]["wrap_angle"] or frame["curve"] >= job["limits"]["wrap_curve"]


def curve_rule(job: Job, lens: Lens, side: str, reasons: list[Reason]) -> None:
    """The lens's front curve near the frame's; a wrap frame wants a design made for it."""
    frame = job["frame"]
    limits = job["limits"]
    if is_wrap(job) and not job["package"]["wrap"]:
        say(reasons, "wrap-design-needed", "no", side, frame["curve"], lens["base_curve"])
        return
    apart = grid(abs(lens["base_curve"] - frame["curve"]))
    if apart > limits["curve_difference"] * CURVE_NO_FACTOR:
        say(reasons, "curve-too-far", "no", side, frame["curve"], lens["base_curve"])
    elif apart > limits["curve_difference"]:
        say(reasons, "curve-far", "caution", side, frame["curve"], lens["base_curve"])


def edge_rule(job: Job, lens: Lens, side: str, reasons: list[Reason]) -> None:
    """The edge neither thicker nor thinner than the mounting takes."""
    frame = job["frame"]
    if grid(lens["edge_max"]) >= frame["edge_no"]:
        say(reasons, "edge-too-thick", "no", side, frame["edge_no"], lens["edge_max"])
    elif grid(lens["edge_max"]) >= frame["edge_caution"]:
        say(reasons, "edge-thick", "caution", side, frame["edge_caution"], lens["edge_max"])
    if grid(lens["edge_min"]) < frame["min_edge"]:
        say(reasons, "edge-too-thin", "no", side, frame["min_edge"], lens["edge_min"])


def mounting_rule(job: Job, reasons: list[Reason]) -> None:
    """Drilled frames need a material that holds a hole."""
    if job["frame"]["mounting"] == "drilled" and not job["package"]["drillable"]:
        say(reasons, "not-drillable", "no", "B", 1.0, 0.0)


def impact_rule(job: Job, reasons: list[Reason]) -> None:
    """Children need an impact-resistant material."""
    if job["measures"]["child"] and not job["package"]["impact_resistant"]:
        say(reasons, "impact-needed", "no", "B", 1.0, 0.0)


def position_rule(job: Job, reasons: list[Reason]) -> None:
    """Strong tilt or wrap changes the power met by the eye unless the design is made for it."""
    if job["package"]["position_of_wear"]:
        return
    if job["frame"]["tilt"] > job["limits"]["pow_tilt"]:
        say(reasons, "tilt-not-compensated", "caution", "B", job["limits"]["pow_tilt"], job["frame"]["tilt"])
    if job["frame"]["wrap"] > job["limits"]["pow_wrap"]:
        say(reasons, "wrap-not-compensated", "caution", "B", job["limits"]["pow_wrap"], job["frame"]["wrap"])
