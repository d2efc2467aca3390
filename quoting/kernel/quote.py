"""The door of the kernel: one job in, one answer out."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.lens import NOT_GROUND, NOT_MADE, blank_lens, lens_for, nasal
from quoting.kernel.power import on_step, prentice
from quoting.kernel.price import bill
from quoting.kernel.records import Answer, Eye, Fit, Job, Lens, Reason
from quoting.kernel.rules import (
    IMBALANCE,
    READING_DROP_MM,
    add_rule,
    blank_rule,
    curve_rule,
    edge_rule,
    grid,
    height_rule,
    impact_rule,
    is_multifocal,
    mounting_rule,
    position_rule,
    power_rule,
    prism_rule,
    say,
)


def eye_reasons(job: Job, eye: Eye, lens: Lens, height: float, side: str, reasons: list[Reason]) -> None:
    """All rules about one eye.  A power the package is not made in has no lens to measure.

    Power and add may each lie in a range of the package without any range that holds both.
    """
    found = len(reasons)
    power_rule(job, eye, side, reasons)
    add_rule(job, eye, side, reasons)
    if lens["fault"] == NOT_MADE and len(reasons) == found:
        say(reasons, "power-not-together", "no", side, on_step(eye["sphere"]), abs(eye["cylinder"]))
    prism_rule(job, eye, side, reasons)
    height_rule(job, height, side, reasons)
    curve_rule(job, lens, side, reasons)
    if lens["fault"] == NOT_MADE:
        return
    blank_rule(job, lens, side, reasons)
    if lens["fault"] == NOT_GROUND:
        say(reasons, "cannot-be-ground", "no", side, lens["reach"], lens["base_curve"])
    else:
        edge_rule(job, lens, side, reasons)


def imbalance_rule(job: Job, right: Eye, left: Eye, reasons: list[Reason]) -> None:
    """Multifocals: vertical prism between the eyes where they read, by Prentice's rule on each lens."""
    if not is_multifocal(job["package"]["kind"]) or not job["has_right"] or not job["has_left"]:
        return
    one = prentice(right["sphere"], right["cylinder"], right["axis"], 0.0, READING_DROP_MM)
    other = prentice(left["sphere"], left["cylinder"], left["axis"], 0.0, READING_DROP_MM)
    apart = grid(abs(one[1] - other[1]))
    if apart >= IMBALANCE:
        say(reasons, "reading-imbalance", "caution", "B", IMBALANCE, apart)


def verdict_of(reasons: list[Reason]) -> str:
    """The worst of the reasons; "fits" where there is none."""
    verdict = "fits"
    for reason in reasons:
        if reason["verdict"] == "no":
            return "no"
        verdict = "caution"
    return verdict


def same_lens(job: Job, right: Eye, left: Eye) -> bool:
    """Whether both eyes, each in its nasal frame, ask for the very same lens."""
    measures = job["measures"]
    if measures["pd_right"] != measures["pd_left"] or measures["height_right"] != measures["height_left"]:
        return False
    if right["sphere"] != left["sphere"] or right["cylinder"] != left["cylinder"] or right["axis"] != left["axis"]:
        return False
    if right["prism_in"] != left["prism_in"] or right["prism_up"] != left["prism_up"]:
        return False
    return right["add"] == left["add"]


def fit(job: Job) -> Fit:
    """Verdict, reasons and both lenses of one job."""
    measures = job["measures"]
    reasons: list[Reason] = []
    right_eye = nasal(job["right"], False)
    left_eye = nasal(job["left"], True)
    right = blank_lens()
    left = blank_lens()
    if job["has_right"]:
        right = lens_for(job, right_eye, measures["pd_right"], measures["height_right"])
        eye_reasons(job, right_eye, right, measures["height_right"], "R", reasons)
    if job["has_left"]:
        if job["has_right"] and same_lens(job, right_eye, left_eye):
            left = right
        else:
            left = lens_for(job, left_eye, measures["pd_left"], measures["height_left"])
        eye_reasons(job, left_eye, left, measures["height_left"], "L", reasons)
    mounting_rule(job, reasons)
    impact_rule(job, reasons)
    position_rule(job, reasons)
    imbalance_rule(job, right_eye, left_eye, reasons)
    return {"verdict": verdict_of(reasons), "reasons": reasons, "right": right, "left": left}


def answer(job: Job) -> Answer:
    """Everything about one job: does it fit, what are the lenses like, what does it cost."""
    fitted = fit(job)
    return {"fit": fitted, "bill": bill(job, fitted["right"], fitted["left"])}
