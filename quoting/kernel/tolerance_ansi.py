"""What a finished lens may differ from its order by ANSI Z80.1-2015, the recommendation of the United States.

Read in a quick reference guide to the 2015 edition and in study texts, and, where a line says so, from memory: the
standard itself was not read.  Powers D, prism in prism diopters, lengths mm, angles degrees; all are plus or minus.
``progressive`` is true for lenses whose power changes down the lens; they have rows of their own since 2005.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

# ANSI Z80.1-2015, items 1 and 2: up to this power the fixed tolerance holds, above it the share of the power
POWER_TO = 6.5
POWER_WITHIN = 0.13
PROGRESSIVE_POWER_TO = 8.0
PROGRESSIVE_POWER_WITHIN = 0.16
POWER_SHARE = 0.02

# The same items, cylinder: up to, within; above the last the share of the cylinder
CYLINDER = [[2.0, 0.13], [4.5, 0.15]]
CYLINDER_SHARE = 0.04
PROGRESSIVE_CYLINDER = [[2.0, 0.16], [3.5, 0.18]]
PROGRESSIVE_CYLINDER_SHARE = 0.05

# Item 3, axis: cylinder up to, within; below the least cylinder no axis is held.  (The 1999 edition had 7 up to 0.375.)
LEAST_CYLINDER = 0.12
AXIS = [[0.25, 14.0], [0.5, 7.0], [0.75, 5.0], [1.5, 3.0]]
AXIS_ABOVE = 2.0

# Item 4, addition
ADD_TO = 4.0
ADD_WITHIN = 0.12
ADD_ABOVE = 0.18

# Item 6, prism of a mounted pair: up to this power the prism holds, above it the length.  The break of the horizontal
# line for progressives is 3.375 by its own arithmetic; a reproduction of the 1999 edition prints 3.75
VERTICAL_TO = 3.375
VERTICAL_PRISM = 0.33
VERTICAL_MM = 1.0
HORIZONTAL_TO = 2.75
HORIZONTAL_PRISM = 0.67
HORIZONTAL_MM = 2.5
PROGRESSIVE_TO = 3.375
PROGRESSIVE_MM = 1.0

# Items 5 to 8 as in a laboratory's reproduction of the 1999 edition and study texts of 2015
HEIGHT_MM = 1.0
CROSS_MM = 1.0
SEGMENT_PD_MM = 2.5
SEGMENT_TILT = 2.0
BASE_CURVE = 0.75
CENTER_MM = 0.3

# What stands where nothing is held: no axis is farther off than a right angle, no length or prism as great
NO_AXIS = 90.0
NO_LIMIT = 999.0


def within(rows: list[list[float]], value: float, above: float) -> float:
    """The tolerance of the first row that reaches the value, else ``above``.

    >>> within([[2.0, 0.13], [4.5, 0.15]], 2.0, 0.2), within([[2.0, 0.13]], 2.01, 0.2)
    (0.13, 0.2)
    """
    for row in rows:
        if value <= row[0]:
            return row[1]
    return above


def power_within(power: float, progressive: bool) -> float:
    """How far the power may be off in the meridian of the highest power, whose ordered power is given.

    >>> power_within(-3.0, False), power_within(12.0, False), power_within(8.0, True)
    (0.13, 0.24, 0.16)
    """
    if progressive:
        return within([[PROGRESSIVE_POWER_TO, PROGRESSIVE_POWER_WITHIN]], abs(power), abs(power) * POWER_SHARE)
    return within([[POWER_TO, POWER_WITHIN]], abs(power), abs(power) * POWER_SHARE)


def cylinder_within(cylinder: float, progressive: bool) -> float:
    """How far an ordered cylinder may be off.

    >>> cylinder_within(-2.0, False), cylinder_within(-5.0, False), cylinder_within(-4.0, True)
    (0.13, 0.2, 0.2)
    """
    if progressive:
        return within(PROGRESSIVE_CYLINDER, abs(cylinder), abs(cylinder) * PROGRESSIVE_CYLINDER_SHARE)
    return within(CYLINDER, abs(cylinder), abs(cylinder) * CYLINDER_SHARE)


def axis_within_ansi(cylinder: float) -> float:
    """How far the axis of an ordered cylinder may be off; NO_AXIS where none is held.

    >>> axis_within_ansi(0.25), axis_within_ansi(-1.0), axis_within_ansi(0.11)
    (14.0, 3.0, 90.0)
    """
    if abs(cylinder) < LEAST_CYLINDER:
        return NO_AXIS
    return within(AXIS, abs(cylinder), AXIS_ABOVE)


def add_within(add: float) -> float:
    """How far an ordered addition may be off.

    >>> add_within(2.5), add_within(4.25)
    (0.12, 0.18)
    """
    return within([[ADD_TO, ADD_WITHIN]], add, ADD_ABOVE)


def vertical_within(power: float) -> float:
    """Vertical prism between the eyes of a mounted pair; the power is the highest in the vertical meridian.

    Above the break the standard holds the heights of the reference points to 1.0 mm: as prism, by Prentice's rule.

    >>> vertical_within(3.375), vertical_within(5.0)
    (0.33, 0.5)
    """
    return within([[VERTICAL_TO, VERTICAL_PRISM]], abs(power), abs(power) * VERTICAL_MM / 10.0)


def horizontal_within(power: float, progressive: bool) -> float:
    """Horizontal prism between the eyes of a mounted pair; the power is the highest in the horizontal meridian.

    Above the break the standard holds lengths: the distance of the reference points to 2.5 mm, of progressives each to
    1.0 mm, so 2.0 mm for the pair; as prism, by Prentice's rule.

    >>> horizontal_within(2.75, False), horizontal_within(4.0, False), horizontal_within(4.0, True)
    (0.67, 1.0, 0.8)
    """
    if progressive:
        return within([[PROGRESSIVE_TO, HORIZONTAL_PRISM]], abs(power), abs(power) * PROGRESSIVE_MM * 2.0 / 10.0)
    return within([[HORIZONTAL_TO, HORIZONTAL_PRISM]], abs(power), abs(power) * HORIZONTAL_MM / 10.0)


def distance_within(kind: str, power: float) -> float:
    """How far the distance between the two reference points, or the segments', may be from the ordered one, mm.

    Of single vision lenses up to the break, what 0.67 prism diopters are as a length; a plano lens has no center.

    >>> distance_within("single-vision", 4.0), distance_within("single-vision", 2.0), distance_within("bifocal", 1.0)
    (2.5, 3.35, 2.5)
    """
    if kind == "progressive":
        return CROSS_MM * 2.0
    if kind == "bifocal":
        return SEGMENT_PD_MM
    if abs(power) > HORIZONTAL_TO:
        return HORIZONTAL_MM
    if abs(power) * NO_LIMIT < HORIZONTAL_PRISM * 10.0:
        return NO_LIMIT
    return HORIZONTAL_PRISM * 10.0 / abs(power)
