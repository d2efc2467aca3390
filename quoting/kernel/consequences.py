"""What follows from the figures of a filter, for who buys it: codes in the order in which they are told.

The sentences stand in quoting/show/tint_words.py.  Nothing here says anything about health.
Sources: ISO 12312-1 (categories, road use); what is marked (practice) is common practice with no single source.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.luminous import DRIVING_SHARE, percent_of
from quoting.kernel.records import Filter, Told

DULLED = ["dulls-blue", "dulls-green", "dulls-red"]
LIFTED = ["lifts-blue", "lifts-green", "lifts-red"]
CATEGORIES = ["category-0", "category-1", "category-2", "category-3", "category-4", "category-5"]
# (practice) who looks at the wearer sees the eyes by light that passes twice: below so many percent hardly at all
EYES_HIDDEN = 8.0
EYES_FAINT = 25.0
# (practice) a color that is passed half as well as all light looks dull, one a fourth better stands out
DULL = 0.5
BRIGHT = 1.25
# (practice) from this reflection on people see a mirror and no lens
MIRRORED = 15.0
# A lens of this category or darker is a sun lens; ISO 12312-1
SUN = 2
# Above so many percent (category 0) nobody sees that a lens is tinted
CLEAR = 80.0


def tell(found: list[Told], code: str, percent: float) -> None:
    """Note one thing."""
    found.append({"code": code, "percent": percent})


def driving(dark: Filter, clear: Filter, driving_least: float, found: list[Told]) -> None:
    """By day as dark as it gets, by night as clear as it gets."""
    if dark["percent"] <= driving_least:
        tell(found, "day-never", dark["percent"])
    elif percent_of(dark["least_share"]) < 100.0 * DRIVING_SHARE:
        tell(found, "day-color", 100.0 * dark["least_share"])
    else:
        tell(found, "day-fine", dark["percent"])
    if dark["day"] and not clear["night"]:
        tell(found, "night-never", clear["percent"])
    if clear["night"]:
        tell(found, "night-fine", clear["percent"])


def colors(one: Filter, found: list[Told]) -> None:
    """Which colors it dulls, and which it lifts."""
    values = [one["blue"], one["green"], one["red"]]
    for i in range(len(values)):
        if values[i] < DULL * one["percent"]:
            tell(found, DULLED[i], values[i])
        elif values[i] > BRIGHT * one["percent"]:
            tell(found, LIFTED[i], values[i])


def outside(dark: Filter, found: list[Told]) -> None:
    """What others see."""
    twice = dark["percent"] * dark["percent"] / 100.0
    if dark["reflected"] >= MIRRORED:
        tell(found, "mirrored", dark["reflected"])
    elif twice < EYES_HIDDEN:
        tell(found, "eyes-hidden", twice)
    elif twice < EYES_FAINT:
        tell(found, "eyes-faint", twice)


def darkening(clear: Filter, dark: list[Filter], degrees: list[int], found: list[Told]) -> None:
    """How a photochromic lens behaves, as far as it is stated."""
    for i in range(len(degrees)):
        if degrees[i] < 20:
            tell(found, "in-cold", dark[i]["percent"])
        elif degrees[i] > 30:
            tell(found, "in-heat", dark[i]["percent"])
    tell(found, "behind-windshield", clear["percent"])
    tell(found, "how-fast", 0.0)
    tell(found, "settles", 0.0)


def ultraviolet(dark: Filter, uv_known: bool, found: list[Told]) -> None:
    """Whether the band holds; what nobody stated of a lens counts as passed, so it can hold even then."""
    if dark["uv_kept"]:
        tell(found, "uv-kept", dark["uva"])
    elif uv_known:
        tell(found, "uv-over", dark["uva"])
    else:
        tell(found, "uv-unknown", 0.0)


def consequences(
    clear: Filter, dark: list[Filter], degrees: list[int], driving_least: float, uv_known: bool
) -> list[Told]:
    """All that is told of a lens at one place of it; ``dark``: darkened by degrees Celsius, empty where it never is.

    The figures for driving by day are those of the darkest state.  ``uv_known``: what the lens passes of ultraviolet
    light was stated.
    """
    found: list[Told] = []
    darkest = clear
    for one in dark:
        if one["percent"] < darkest["percent"]:
            darkest = one
    tell(found, CATEGORIES[darkest["category"]], darkest["percent"])
    driving(darkest, clear, driving_least, found)
    if len(dark) > 0:
        darkening(clear, dark, degrees, found)
    if clear["percent"] <= CLEAR:
        tell(found, "indoors", clear["percent"])
    colors(darkest, found)
    outside(darkest, found)
    ultraviolet(darkest, uv_known, found)
    if darkest["category"] >= SUN:
        tell(found, "child", darkest["percent"])
    return found
