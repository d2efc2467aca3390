"""Are the pupillary distances and the date of a prescription likely?

Limits of the pupillary distance: Dodgson, Proc. SPIE 5291 (2004) 36, "Variation and extrema of human interpupillary
distance": mean of adults about 63 mm, adults of the survey 52 to 78, children from about 40.  The narrower
limits here are those at which a dispenser looks twice (practice).

>>> [flag.code for flag in distance_flags(Distances(binocular=63, right=31.5, left=32.5))]
['pd-sum']
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date

from quoting.prescription.dates import months_later
from quoting.prescription.flags import Flag
from quoting.prescription.model import Distances

ADULT_MM = (54.0, 74.0)
CHILD_MM = (43.0, 60.0)
MONOCULARS_APART_MM = 4.0
# (practice) eyes that stand more unequally high than this are looked at again, with the frame level on the face
HEIGHTS_APART_MM = 2.0
HAIR_MM = 0.01
# At 25 cm, nearer than anyone reads for long, the near PD of an emmetrope is 250/277 of the distance PD (Gerstman's
# formula, eye's center of rotation 27 mm behind the lens)
LEAST_NEAR_PART = 0.88


def distance_flags(pd: Distances, child: bool = False) -> Iterator[Flag]:
    """What is unlikely about the distances; ``child``: of a wearer who is known to be under 18."""
    both = pd.right is not None and pd.left is not None
    total = pd.right + pd.left if pd.right is not None and pd.left is not None else None
    about = "pd binocular" if pd.binocular is not None else "pd left"
    if (known := pd.binocular if pd.binocular is not None else total) is not None:
        yield from _range_flag(about, known, child)
        yield from _near_flag(pd.near, known)
    if not both and (pd.right is not None or pd.left is not None):
        side, value = ("right", pd.right) if pd.left is None else ("left", pd.left)
        said = f"only the {side} eye's pupillary distance is given, {value:g} mm"
        yield Flag(f"pd {side}", "pd-one-eye", said, "give both: PD 31.5/32, right eye first")
    if pd.right is not None and pd.left is not None:
        yield from _monocular_flags(pd.right, pd.left, pd.binocular)


def measured_flags(pd: Distances, prescribed: Distances, child: bool) -> Iterator[Flag]:
    """What is unlikely about distances that were measured, also beside those on the prescription."""
    yield from distance_flags(pd, child)
    beside = replace(pd if pd.binocular is None else prescribed, binocular=pd.binocular or prescribed.binocular)
    if beside != pd and beside.right is not None and beside.left is not None:
        yield from _sum_flag(beside.right, beside.left, beside.binocular)


def height_flags(right: float, left: float) -> Iterator[Flag]:
    """What is unlikely about the heights of two pupils."""
    if abs(right - left) > HEIGHTS_APART_MM + HAIR_MM:
        said = f"the pupils stand unequally high: R {right:g}, L {left:g} mm, {abs(right - left):g} mm apart"
        hint = f"more than {HEIGHTS_APART_MM:g} mm is rare: see whether the frame sits level, and measure again"
        yield Flag("height", "height-uneven", said, hint)


def _range_flag(about: str, value: float, child: bool) -> Iterator[Flag]:
    if (CHILD_MM[0] if child else ADULT_MM[0]) <= value <= ADULT_MM[1]:
        return  # at 17 many have grown up
    said = f"a pupillary distance of {value:g} mm is unusual: adults have {ADULT_MM[0]:g} to {ADULT_MM[1]:g} mm"
    if child or CHILD_MM[0] <= value <= CHILD_MM[1]:
        said += f", children {CHILD_MM[0]:g} to {CHILD_MM[1]:g}"
    if CHILD_MM[0] <= value <= CHILD_MM[1]:
        yield Flag(about, "pd-range", said, "is the wearer a child? if not, measure again")
    else:
        yield Flag(about, "pd-range", said, "measure again, or have it measured")


def _near_flag(near: float | None, distance: float) -> Iterator[Flag]:
    if near is not None and not distance * LEAST_NEAR_PART <= near <= distance:
        said = f"a near pupillary distance of {near:g} mm does not go with {distance:g} mm for distance"
        yield Flag("pd near", "pd-near", said, "near is a few millimeters less than distance: check both")


def _monocular_flags(right: float, left: float, stated: float | None) -> Iterator[Flag]:
    if abs(right - left) > MONOCULARS_APART_MM + HAIR_MM:
        said = f"the pupils lie unequally far from the nose: R {right:g}, L {left:g} mm, {abs(right - left):g} mm apart"
        hint = f"more than {MONOCULARS_APART_MM:g} mm is rare: measure again"
        yield Flag("pd left", "pd-uneven", said, hint)
    yield from _sum_flag(right, left, stated)


def _sum_flag(right: float, left: float, stated: float | None) -> Iterator[Flag]:
    if stated is not None and abs(right + left - stated) > HAIR_MM:
        said = f"the two halves make {right + left:g} mm, but {stated:g} mm is stated"
        yield Flag("pd binocular", "pd-sum", said, "check which of them was measured")


def date_flags(day: date | None, today: date | None, max_age_months: int | None) -> Iterator[Flag]:
    """Whether the prescription is too old, undated or from the future."""
    if today is None:
        return
    if day is None:
        if max_age_months is not None:
            said = f"the prescription bears no date; it may be at most {max_age_months} months old"
            yield Flag("written", "undated", said, "write the day it was made, such as 2026-05-04", "note")
        return
    if day > today:
        said = f"the prescription is dated {day}, after today, {today}"
        yield Flag("written", "date-future", said, "check the date")
    elif max_age_months is not None and months_later(day, max_age_months) < today:
        said = f"the prescription of {day} is older than {max_age_months} months on {today}"
        yield Flag("written", "too-old", said, "have the eyes examined again; local law sets the limit")
