"""The range that fits: the spheres, in steps of a quarter diopter, over which a package fits this frame and these eyes.

Cylinder, axis, add, prism, PD and heights stay as they are in the job; both eyes get the same sphere, in the notation
in which the job writes them.  Every step is asked of the engine itself: what fits need not be one range, since a lens
may be too thin, too thick or too far from the frame's curve on either side of powers that fit.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math

from quoting.kernel.checked import lens_faults
from quoting.kernel.lens import nasal
from quoting.kernel.power import STEP
from quoting.kernel.quote import fit_among
from quoting.kernel.records import Eye, Job, Package, Seat, Span
from quoting.kernel.rules import largest_blank, power_limits

# Verdicts as numbers, the better the smaller
FITS = 0
CAUTION = 1
NO = 2


def eye_with(eye: Eye, sphere: float) -> Eye:
    """The same eye with another sphere."""
    return {
        "sphere": sphere,
        "cylinder": eye["cylinder"],
        "axis": eye["axis"],
        "add": eye["add"],
        "prism_in": eye["prism_in"],
        "prism_up": eye["prism_up"],
    }


def job_with(job: Job, sphere: float) -> Job:
    """The same job with another sphere in both eyes."""
    return {
        "frame": job["frame"],
        "package": job["package"],
        "limits": job["limits"],
        "right": eye_with(job["right"], sphere),
        "left": eye_with(job["left"], sphere),
        "has_right": job["has_right"],
        "has_left": job["has_left"],
        "measures": job["measures"],
        "money": job["money"],
        "options": job["options"],
    }


def is_made_at(pack: Package, eye: Eye, sphere: float) -> bool:
    """Whether the package is made for an eye at this sphere at all; no lens need be ground to know that."""
    return largest_blank(pack, nasal(eye_with(eye, sphere), False)) > 0.0


def rank_at(job: Job, sphere: float, seats: list[Seat]) -> int:
    """The verdict at one sphere."""
    if job["has_right"] and not is_made_at(job["package"], job["right"], sphere):
        return NO
    if job["has_left"] and not is_made_at(job["package"], job["left"], sphere):
        return NO
    verdict = fit_among(job_with(job, sphere), seats)["verdict"]
    if verdict == "fits":
        return FITS
    if verdict == "caution":
        return CAUTION
    return NO


def from_zero(span: Span) -> float:
    """How far a range lies from plano; 0 where it holds it."""
    if span["low"] > 0.0:
        return span["low"]
    if span["high"] < 0.0:
        return 0.0 - span["high"]
    return 0.0


def nearest_first(spans: list[Span]) -> list[Span]:
    """The range that holds plano, or is nearest to it, before the others, which stay in the order of their powers."""
    nearest = 0
    for i in range(len(spans)):
        if from_zero(spans[i]) < from_zero(spans[nearest]):
            nearest = i
    ordered: list[Span] = []
    for i in range(len(spans)):
        if i == nearest:
            ordered.append(spans[i])
    for i in range(len(spans)):
        if i != nearest:
            ordered.append(spans[i])
    return ordered


def runs(ranks: list[int], worst: int, verdict: str, first: float) -> list[Span]:
    """The unbroken ranges of steps, from the power ``first`` on, whose rank is at most ``worst``."""
    spans: list[Span] = []
    unbroken = False
    for i in range(len(ranks)):
        power = first + i * STEP
        if ranks[i] > worst:
            unbroken = False
        elif unbroken:
            span = spans[len(spans) - 1]
            span["high"] = power
        else:
            spans.append({"verdict": verdict, "low": power, "high": power})
            unbroken = True
    return nearest_first(spans)


def ranges_that_fit(job: Job) -> list[Span]:
    """First the ranges with the verdict "fits", then those that fit at least with a caution; none for a faulty job."""
    if len(lens_faults(job)) > 0:
        return []
    limits = power_limits(job["package"])
    first = 0 - math.floor(0.0 - limits[0] / STEP)
    last = math.floor(limits[1] / STEP)
    seats: list[Seat] = []
    ranks: list[int] = []
    for i in range(last - first + 1):
        ranks.append(rank_at(job, (first + i) * STEP, seats))
    found = runs(ranks, FITS, "fits", first * STEP)
    for span in runs(ranks, CAUTION, "caution", first * STEP):
        found.append(span)
    return found
