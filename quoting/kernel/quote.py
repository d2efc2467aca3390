"""The door of the kernel: one job in, one answer out.

The list of all rules, in the order in which they are told, is ``eye_reasons`` and then ``shared_reasons``.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.bounds import IMPOSSIBLE
from quoting.kernel.checked import lens_faults
from quoting.kernel.checked_money import money_faults
from quoting.kernel.in_frame import blank_rule, curve_rule, edge_rule, height_rule, mounting_rule
from quoting.kernel.lens import NOT_GROUND, NOT_MADE, blank_lens, lens_for, nasal
from quoting.kernel.power import on_step
from quoting.kernel.price import bill
from quoting.kernel.records import Answer, Eye, Fit, Job, Lens, Reason, Seat
from quoting.kernel.rules import add_rule, lacks_add, near_rule, power_rule, prism_rule, say
from quoting.kernel.seat import seat_for
from quoting.kernel.treatments import day_rule, double_use_rule, mirror_rule, night_rule, tint_rule
from quoting.kernel.wearer import image_rule, imbalance_rule, impact_rule, position_rule

# What stands as a lens's fault where it is made in the power, and the add that a multifocal needs is not given
NEEDS_ADD = "needs-add"


def eye_reasons(job: Job, eye: Eye, lens: Lens, height: float, side: str, reasons: list[Reason]) -> None:
    """All rules about one eye.  A power the package is not made in has no lens to measure.

    Power and add may each lie in a range of the package without any range that holds both.  Where the add of a
    multifocal is missing, nobody can say whether the lens is made.
    """
    found = len(reasons)
    power_rule(job, eye, side, reasons)
    if lens["fault"] == NOT_MADE and len(reasons) == found and lacks_add(job["package"], eye):
        lens["fault"] = NEEDS_ADD
    add_rule(job, eye, side, reasons)
    near_rule(job, eye, side, reasons)
    if lens["fault"] == NOT_MADE and len(reasons) == found:
        say(reasons, "power-not-together", "no", side, on_step(eye["sphere"]), abs(eye["cylinder"]))
    prism_rule(job, eye, side, reasons)
    height_rule(job, height, side, reasons)
    curve_rule(job, lens, side, reasons)
    if lens["fault"] == NOT_MADE or lens["fault"] == NEEDS_ADD:
        return
    blank_rule(job, lens, side, reasons)
    if lens["fault"] == NOT_GROUND:
        say(reasons, "cannot-be-ground", "no", side, lens["reach"], lens["base_curve"])
    else:
        edge_rule(job, lens, side, reasons)


def shared_reasons(job: Job, right: Eye, left: Eye, one: Lens, other: Lens, reasons: list[Reason]) -> None:
    """All rules about the frame, the wearer and what was wished, in the order in which they are told."""
    mounting_rule(job, reasons)
    impact_rule(job, reasons)
    position_rule(job, reasons)
    if job["has_right"] and job["has_left"]:
        imbalance_rule(job, right, left, reasons)
        image_rule(job, right, left, one, other, reasons)
    tint_rule(job, reasons)
    mirror_rule(job, reasons)
    double_use_rule(job, reasons)
    day_rule(job, reasons)
    night_rule(job, reasons)


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


def impossible(reasons: list[Reason]) -> Fit:
    """The answer where a number of the job is impossible: why, and no lens."""
    lens = blank_lens()
    lens["fault"] = IMPOSSIBLE
    return {"verdict": "no", "reasons": reasons, "right": lens, "left": lens}


def judged(job: Job, right_eye: Eye, left_eye: Eye, right: Lens, left: Lens) -> Fit:
    """What speaks for and against two lenses of a possible job, each eye in its nasal frame."""
    measures = job["measures"]
    reasons: list[Reason] = []
    if job["has_right"]:
        eye_reasons(job, right_eye, right, measures["height_right"], "R", reasons)
    if job["has_left"]:
        eye_reasons(job, left_eye, left, measures["height_left"], "L", reasons)
    shared_reasons(job, right_eye, left_eye, right, left, reasons)
    return {"verdict": verdict_of(reasons), "reasons": reasons, "right": right, "left": left}


def lens_at(job: Job, eye: Eye, pd: float, height: float, seats: list[Seat]) -> Lens:
    """One lens before a pupil."""
    return lens_for(job, eye, seat_for(seats, job["frame"], job["package"]["kind"], pd, height))


def fit_among(job: Job, seats: list[Seat]) -> Fit:
    """As ``fit``; ``seats`` are those that were found in this frame before, and new ones are added."""
    measures = job["measures"]
    reasons = lens_faults(job)
    if len(reasons) > 0:
        return impossible(reasons)
    right_eye = job["right"]
    left_eye = job["left"]
    right = blank_lens()
    left = blank_lens()
    if job["has_right"]:
        right_eye = nasal(job["right"], False)
        right = lens_at(job, right_eye, measures["pd_right"], measures["height_right"], seats)
    if job["has_left"]:
        left_eye = nasal(job["left"], True)
        if job["has_right"] and same_lens(job, right_eye, left_eye):
            left = right
        else:
            left = lens_at(job, left_eye, measures["pd_left"], measures["height_left"], seats)
    return judged(job, right_eye, left_eye, right, left)


def fit(job: Job) -> Fit:
    """Verdict, reasons and both lenses of one job; an impossible job has its faults told and nothing else."""
    return fit_among(job, [])


def answer_among(job: Job, seats: list[Seat]) -> Answer:
    """As ``answer``; ``seats`` as in ``fit_among``."""
    fitted = fit_among(job, seats)
    wrong = money_faults(job["money"])
    for reason in wrong:
        fitted["reasons"].append(reason)
    if len(wrong) > 0:
        fitted["verdict"] = "no"
    return {"fit": fitted, "bill": bill(job, fitted["right"], fitted["left"])}


def answer(job: Job) -> Answer:
    """Everything about one job: does it fit, what are the lenses like, what does it cost.   Never raises."""
    return answer_among(job, [])
