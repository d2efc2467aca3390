"""One door to the tolerances of both standards: "ansi" is ANSI Z80.1-2015, "iso" ISO 21987 with ISO 8980.

Where the two are read, and what of them is from memory, stands in ``tolerance_ansi`` and ``tolerance_iso``.  Powers D,
prism in prism diopters, lengths mm, angles degrees.  ``kind`` is that of a lens design: "progressive" and
"occupational" lenses go by the rows for progressives.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.power import strongest
from quoting.kernel.tolerance_ansi import (
    BASE_CURVE,
    CENTER_MM,
    HEIGHT_MM,
    SEGMENT_TILT,
    add_within,
    axis_within_ansi,
    cylinder_within,
    distance_within,
    horizontal_within,
    power_within,
    vertical_within,
)
from quoting.kernel.tolerance_iso import (
    HORIZONTAL_SHARE,
    VERTICAL_SHARE,
    add_within_iso,
    axis_within_iso,
    cylinder_within_iso,
    distance_within_iso,
    meridian_within,
    prism_within_iso,
)

# (practice) no standard of lenses says how exact a dye must be: points of percent of the light that comes through
TINT_POINTS = 5.0


def is_progressive(kind: str) -> bool:
    """Whether a design goes by the rows for progressives.

    >>> is_progressive("occupational"), is_progressive("bifocal")
    (True, False)
    """
    return kind == "progressive" or kind == "occupational"


def place_kind(kind: str) -> str:
    """The kind by which places go: "progressive", "bifocal", or "single-vision" for all others.

    >>> place_kind("occupational"), place_kind("anti-fatigue")
    ('progressive', 'single-vision')
    """
    if is_progressive(kind):
        return "progressive"
    if kind == "bifocal":
        return "bifocal"
    return "single-vision"


def lens_tolerances(standard: str, kind: str, sphere: float, cylinder: float, add: float) -> list[float]:
    """[power, cylinder, axis, addition] of one lens.   Raises ValueError for another standard.

    >>> lens_tolerances("ansi", "single-vision", -3.0, -1.0, 0.0), lens_tolerances("iso", "bifocal", 2.5, -0.5, 2.0)
    ([0.13, 0.13, 3.0, 0.12], [0.12, 0.09, 9.0, 0.12])
    """
    power = strongest(sphere, cylinder)
    if standard == "ansi":
        progressive = is_progressive(kind)
        found = [power_within(power, progressive), cylinder_within(cylinder, progressive)]
        return [found[0], found[1], axis_within_ansi(cylinder), add_within(add)]
    if standard == "iso":
        return [
            meridian_within(power),
            cylinder_within_iso(power, cylinder),
            axis_within_iso(cylinder),
            add_within_iso(add),
        ]
    raise ValueError("a standard is ansi or iso")


def pair_tolerances(standard: str, kind: str, vertical: float, horizontal: float, prism: list[float]) -> list[float]:
    """[vertical prism, horizontal prism, distance between centers] of a mounted pair.

    ``vertical`` and ``horizontal``: the highest power of both lenses in these meridians; ``prism``: what of prism was
    ordered, [across, up].   Raises ValueError for another standard.

    >>> pair_tolerances("ansi", "single-vision", -5.0, -4.0, [0.0, 0.0])
    [0.5, 1.0, 2.5]
    >>> pair_tolerances("iso", "progressive", -4.0, -4.0, [3.0, 0.0])
    [0.45, 0.77, 2.0]
    """
    place = place_kind(kind)
    if standard == "ansi":
        up = vertical_within(vertical)
        across = horizontal_within(horizontal, is_progressive(kind))
        return [up, across, distance_within(place, horizontal)]
    if standard == "iso":
        up = prism_within_iso(prism[1], vertical, VERTICAL_SHARE)
        across = prism_within_iso(prism[0], horizontal, HORIZONTAL_SHARE)
        return [up, across, distance_within_iso(place, horizontal)]
    raise ValueError("a standard is ansi or iso")


def height_tolerance() -> float:
    """Height of a fitting cross or segment, mm, by either standard; the two heights may differ by as much.

    >>> height_tolerance()
    1.0
    """
    return HEIGHT_MM


def center_tolerance() -> float:
    """Center thickness, mm, by either standard, where it was ordered.

    >>> center_tolerance()
    0.3
    """
    return CENTER_MM


def base_tolerance() -> float:
    """Base curve, D, by ANSI Z80.1, where it was ordered; ISO 21987 says nothing of it.

    >>> base_tolerance()
    0.75
    """
    return BASE_CURVE


def segment_tilt_tolerance() -> float:
    """Tilt of a segment's line, degrees, by ANSI Z80.1; ISO 21987 is taken to hold the same (from memory).

    >>> segment_tilt_tolerance()
    2.0
    """
    return SEGMENT_TILT


def tint_tolerance() -> float:
    """Light that comes through, in points of percent: a shop's practice.

    >>> tint_tolerance()
    5.0
    """
    return TINT_POINTS
