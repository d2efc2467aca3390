"""Is this a job at all?  Every number that the engine computes with, held to what it can mean.

Whatever lies outside is a reason "no" with the limit and the value, and nothing is computed from it: no lens, no
price.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.bounds import (
    BEYOND,
    BOX_MM,
    LEAST_MM,
    LEAST_POINTS,
    MOST_BASE,
    MOST_CENTER_MM,
    MOST_MM,
    MOST_POWER,
    hold,
)
from quoting.kernel.checked_money import money_faults
from quoting.kernel.checked_package import known_words, material_faults, range_faults
from quoting.kernel.outline import area, box
from quoting.kernel.records import Eye, Frame, Job, Limits, Measures, Options, Reason


def eye_faults(eye: Eye, side: str, reasons: list[Reason]) -> None:
    """A prescription of one eye."""
    hold(reasons, "impossible-sphere", side, eye["sphere"], 0.0 - MOST_POWER, MOST_POWER)
    hold(reasons, "impossible-cylinder", side, eye["cylinder"], 0.0 - MOST_POWER, MOST_POWER)
    hold(reasons, "impossible-axis", side, eye["axis"], 0.0, 180.0)
    hold(reasons, "impossible-add", side, eye["add"], 0.0, 10.0)
    hold(reasons, "impossible-prism", side, eye["prism_in"], 0.0 - MOST_POWER, MOST_POWER)
    hold(reasons, "impossible-prism", side, eye["prism_up"], 0.0 - MOST_POWER, MOST_POWER)


def place_faults(pd: float, height: float, b: float, side: str, reasons: list[Reason]) -> None:
    """Where the pupil of one eye is."""
    hold(reasons, "impossible-pd", side, pd, LEAST_MM, MOST_MM)
    hold(reasons, "impossible-height", side, height, LEAST_MM, b)


def outline_faults(frame: Frame, reasons: list[Reason]) -> None:
    """At least a triangle, counter-clockwise, and as large as its box."""
    code = "impossible-outline"
    count = len(frame["xs"])
    found = len(reasons)
    hold(reasons, code, "B", count, LEAST_POINTS, BEYOND)
    hold(reasons, code, "B", len(frame["ys"]), count, count)
    if len(reasons) > found:
        return
    for i in range(count):
        hold(reasons, code, "B", frame["xs"][i], 0.0 - MOST_MM, MOST_MM)
        hold(reasons, code, "B", frame["ys"][i], 0.0 - MOST_MM, MOST_MM)
        if len(reasons) > found:
            return
    sides = box(frame["xs"], frame["ys"])
    half_a = frame["a"] / 2.0
    half_b = frame["b"] / 2.0
    hold(reasons, code, "B", 0.0 - sides[0], half_a - BOX_MM, half_a + BOX_MM)
    hold(reasons, code, "B", sides[1], half_a - BOX_MM, half_a + BOX_MM)
    hold(reasons, code, "B", 0.0 - sides[2], half_b - BOX_MM, half_b + BOX_MM)
    hold(reasons, code, "B", sides[3], half_b - BOX_MM, half_b + BOX_MM)
    hold(reasons, code, "B", area(frame["xs"], frame["ys"]), LEAST_MM, MOST_MM * MOST_MM)


def frame_faults(frame: Frame, reasons: list[Reason]) -> None:
    """A frame and what its mounting holds."""
    found = len(reasons)
    hold(reasons, "impossible-box", "B", frame["a"], LEAST_MM, MOST_MM)
    hold(reasons, "impossible-box", "B", frame["b"], LEAST_MM, MOST_MM)
    hold(reasons, "impossible-box", "B", frame["dbl"], 0.0, MOST_MM)
    hold(reasons, "impossible-box", "B", frame["ed"], LEAST_MM, MOST_MM * 2.0)
    if len(reasons) == found:
        outline_faults(frame, reasons)
    hold(reasons, "impossible-mounting", "B", frame["min_edge"], 0.0, MOST_CENTER_MM)
    hold(reasons, "impossible-mounting", "B", frame["edge_caution"], 0.0, MOST_MM)
    hold(reasons, "impossible-mounting", "B", frame["edge_no"], 0.0, MOST_MM)
    hold(reasons, "impossible-form", "B", frame["curve"], 0.0, MOST_BASE)
    hold(reasons, "impossible-form", "B", frame["wrap"], 0.0 - 60.0, 60.0)
    hold(reasons, "impossible-form", "B", frame["tilt"], 0.0 - 60.0, 60.0)


def limit_faults(limits: Limits, measures: Measures, options: Options, reasons: list[Reason]) -> None:
    """The shop's own limits, the distance to the cornea, and the tint."""
    code = "impossible-limits"
    hold(reasons, code, "B", limits["edging_allowance"], 0.0, MOST_MM)
    hold(reasons, code, "B", limits["curve_difference"], 0.0, MOST_BASE)
    hold(reasons, code, "B", limits["wrap_angle"], 0.0, 90.0)
    hold(reasons, code, "B", limits["wrap_curve"], 0.0, MOST_MM)
    hold(reasons, code, "B", limits["pow_tilt"], 0.0, 90.0)
    hold(reasons, code, "B", limits["pow_wrap"], 0.0, 90.0)
    hold(reasons, code, "B", limits["curve_factor"], 1.0, 10.0)
    hold(reasons, code, "B", limits["boost_add"], LEAST_MM, 10.0)
    hold(reasons, code, "B", limits["reading_drop"], 0.0, MOST_MM)
    hold(reasons, code, "B", limits["reading_imbalance"], LEAST_MM, 100.0)
    hold(reasons, code, "B", limits["image_difference"], LEAST_MM, 100.0)
    hold(reasons, code, "B", limits["gradient_height"], 0.0, MOST_MM)
    hold(reasons, code, "B", limits["driving_least"], 0.0, 100.0)
    hold(reasons, code, "B", limits["night_least"], 0.0, 100.0)
    hold(reasons, "impossible-vertex", "B", measures["vertex"], 0.0, 60.0)
    hold(reasons, "impossible-tint", "B", options["tint_depth"], 0.0, 100.0)


def package_faults(job: Job, reasons: list[Reason]) -> None:
    """Package and limits, which are the same for many frames."""
    known_words(job["package"], reasons)
    material_faults(job["package"], reasons)
    range_faults(job["package"], reasons)
    limit_faults(job["limits"], job["measures"], job["options"], reasons)


def wearer_faults(job: Job, reasons: list[Reason]) -> None:
    """Prescription and pupils; an eye that gets no lens is not looked at."""
    measures = job["measures"]
    b = job["frame"]["b"]
    if job["has_right"]:
        eye_faults(job["right"], "R", reasons)
        place_faults(measures["pd_right"], measures["height_right"], b, "R", reasons)
    if job["has_left"]:
        eye_faults(job["left"], "L", reasons)
        place_faults(measures["pd_left"], measures["height_left"], b, "L", reasons)


def shop_faults(job: Job, reasons: list[Reason]) -> None:
    """Frame, package and limits, which are the same for many wearers."""
    frame_faults(job["frame"], reasons)
    package_faults(job, reasons)


def lens_faults(job: Job) -> list[Reason]:
    """Everything but the money of a job."""
    reasons: list[Reason] = []
    wearer_faults(job, reasons)
    shop_faults(job, reasons)
    return reasons


def faults(job: Job) -> list[Reason]:
    """All that keeps a job from being worked out; nothing where it can be."""
    reasons = lens_faults(job)
    for reason in money_faults(job["money"]):
        reasons.append(reason)
    return reasons
