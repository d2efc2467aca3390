"""What another frame would have to be like: the smallest change of one of its numbers with which a reason is gone.

Each is tried on the engine with everything else as it is; lengths mm, curves D.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math

from quoting.kernel.altered import frame_with, heights_within, mounting_of, stretched, with_frame
from quoting.kernel.attempts import attempt, cleared, standing
from quoting.kernel.layout import fitting_height
from quoting.kernel.quote import fit
from quoting.kernel.records import Fit, Job, Mounting, Remedy
from quoting.kernel.rules import grid
from quoting.kernel.surfaces import held

# Reasons that follow from how large the lens is, how high it is, what its rim takes, how the frame is curved
BY_WIDTH = ["blank-too-small", "edge-too-thick", "edge-too-thin", "cannot-be-ground"]
BY_HEIGHT = ["height-too-low", "above-too-low"]
BY_RIM = ["edge-too-thick", "edge-too-thin", "not-drillable"]
BY_CURVE = ["curve-too-far"]

# (practice) lens widths and heights are printed in whole or half mm, frame curves in half or quarter diopters
STEP_MM = 0.5
STEP_D = 0.25
# A lens of less than this share of the width is no smaller size of the frame but another frame (our choice)
LEAST_SHARE = 0.7
# Halving so often finds the step among more than the lens of any frame has
MOST_ROUNDS = 8
# (practice) a measured pupil height hardly differs by more from the one that stands in for it
PUPIL_MAY_DIFFER_MM = 4.0


def greater(a: float, b: float) -> float:
    """The larger of two."""
    if b > a:
        return b
    return a


def smaller(job: Job, steps: int) -> Job:
    """The job in the same shape, narrower by so many steps, and lower in proportion."""
    a = job["frame"]["a"] - STEP_MM * steps
    return stretched(job, a, job["frame"]["b"] * a / job["frame"]["a"])


def narrower(job: Job, fitted: Fit, found: list[Remedy]) -> None:
    """The widest lens of the same shape that is small enough."""
    codes = standing(fitted["reasons"], BY_WIDTH)
    if len(codes) == 0:
        return
    good = math.floor(job["frame"]["a"] * (1.0 - LEAST_SHARE) / STEP_MM)
    bad = 0
    if not cleared(fitted["reasons"], fit(smaller(job, good))["reasons"], codes):
        return
    for _ in range(MOST_ROUNDS):
        middle = (good + bad) // 2
        if good - bad > 1 and cleared(fitted["reasons"], fit(smaller(job, middle))["reasons"], codes):
            good = middle
        elif good - bad > 1:
            bad = middle
    changed = smaller(job, good)
    a = changed["frame"]["a"]
    attempt(found, fitted["reasons"], codes, changed, "lens-width", [a, a], 0)


def pupils(job: Job) -> list[float]:
    """Heights of the pupils that get a lens, mm."""
    found: list[float] = []
    if job["has_right"]:
        found.append(job["measures"]["height_right"])
    if job["has_left"]:
        found.append(job["measures"]["height_left"])
    return found


def other_heights(job: Job, fitted: Fit, found: list[Remedy]) -> None:
    """Pupils that stand so high or low in this frame that the design has its room: for heights nobody measured."""
    pack = job["package"]
    below = fitting_height(pack["kind"], 0.0)
    low = grid(pack["min_height"] - below)
    high = grid(job["frame"]["b"] - pack["min_above"] - below)
    if low > high:
        return
    for height in pupils(job):
        if abs(height - held(height, low, high)) > PUPIL_MAY_DIFFER_MM:
            return
    attempt(found, fitted["reasons"], BY_HEIGHT, heights_within(job, low, high), "pupil-height", [low, high], 0)


def higher(job: Job, fitted: Fit, found: list[Remedy]) -> None:
    """The lowest lens, as wide as this one and no higher than wide, in which the design has its room."""
    pack = job["package"]
    frame = job["frame"]
    below = fitting_height(pack["kind"], 0.0)
    need = frame["b"]
    for height in pupils(job):
        above_center = height - frame["b"] / 2.0 + below
        need = greater(need, 2.0 * (pack["min_height"] - above_center))
        need = greater(need, 2.0 * (pack["min_above"] + above_center))
    b = 0.0 - math.floor(0.0 - grid(need) / STEP_MM) * STEP_MM
    if b > frame["a"]:
        return
    attempt(found, fitted["reasons"], BY_HEIGHT, stretched(job, frame["a"], b), "lens-height", [b, b], 0)


def other_mountings(job: Job, fitted: Fit, mountings: list[Mounting], found: list[Remedy]) -> None:
    """The same lens in another mounting."""
    frame = job["frame"]
    for i in range(len(mountings)):
        changed = with_frame(job, frame_with(frame, mountings[i], frame["curve"]))
        attempt(found, fitted["reasons"], BY_RIM, changed, "mounting", [0.0, 0.0], i)


def other_curve(job: Job, fitted: Fit, found: list[Remedy]) -> None:
    """The frame's front curve that is near enough to both lenses."""
    frame = job["frame"]
    limits = job["limits"]
    apart = grid(limits["curve_difference"] * limits["curve_factor"])
    bases: list[float] = []
    if job["has_right"]:
        bases.append(fitted["right"]["base_curve"])
    if job["has_left"]:
        bases.append(fitted["left"]["base_curve"])
    low = 0.0
    high = limits["wrap_curve"]
    for base in bases:
        low = greater(low, base - apart)
        high = 0.0 - greater(0.0 - high, 0.0 - base - apart)
    low = 0.0 - math.floor(0.0 - low / STEP_D) * STEP_D
    high = math.floor(high / STEP_D) * STEP_D
    if low > high:
        return
    curve = held(frame["curve"], low, high)
    changed = with_frame(job, frame_with(frame, mounting_of(frame), curve))
    attempt(found, fitted["reasons"], BY_CURVE, changed, "frame-curve", [low, high], 0)
