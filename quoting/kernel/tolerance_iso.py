"""What a finished lens may differ from its order by ISO 21987 (mounted) with the tables of ISO 8980-1 and 8980-2.

All numbers here but the thickness are FROM MEMORY, and those of prism and place with little certainty: compare them
with the edition that holds where you are before you lean on them.  Powers D, prism in prism diopters, lengths mm,
angles degrees; all are plus or minus.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.tolerance_ansi import NO_AXIS, NO_LIMIT, within

# ISO 8980-1, table 1 (from memory): the higher principal power up to; tolerance A of each principal meridian; then
# tolerance B of the cylinder up to 0.75, 4.00, 6.00, and above
LENSES = [
    [3.0, 0.12, 0.09, 0.12, 0.18, 0.18],
    [6.0, 0.12, 0.12, 0.12, 0.18, 0.25],
    [9.0, 0.12, 0.12, 0.18, 0.18, 0.25],
    [12.0, 0.18, 0.12, 0.18, 0.25, 0.25],
    [20.0, 0.25, 0.18, 0.25, 0.25, 0.25],
    [999.0, 0.37, 0.25, 0.25, 0.37, 0.37],
]
CYLINDERS = [0.75, 4.0, 6.0]

# ISO 21987, axis of mounted lenses (from memory): cylinder up to, within
LEAST_CYLINDER = 0.125
AXIS = [[0.25, 16.0], [0.5, 9.0], [0.75, 6.0], [1.5, 4.0], [2.5, 3.0]]
AXIS_ABOVE = 2.0

# Addition (from memory)
ADD_TO = 4.0
ADD_WITHIN = 0.12
ADD_ABOVE = 0.18

# Prism, ISO 8980-1 (from memory, little certainty): ordered prism up to, fixed part; then a share of the highest power
PRISM = [[2.0, 0.25], [10.0, 0.37]]
PRISM_ABOVE = 0.5
HORIZONTAL_SHARE = 0.1
VERTICAL_SHARE = 0.05

# Places, ISO 21987 (from memory, little certainty), and thickness, ISO 8980-1:2004 (read in an extract)
PLACE_MM = 1.0
CENTER_MM = 0.3


def lens_row(power: float) -> list[float]:
    """The row of the table for a lens whose higher principal power this is.

    >>> lens_row(-3.0)[0], lens_row(3.01)[0], lens_row(22.0)[1]
    (3.0, 6.0, 0.37)
    """
    last = len(LENSES) - 1
    for i in range(last):
        if abs(power) <= LENSES[i][0]:
            return LENSES[i]
    return LENSES[last]


def meridian_within(power: float) -> float:
    """Tolerance A: how far the power in each principal meridian may be off.

    >>> meridian_within(2.5), meridian_within(-10.0)
    (0.12, 0.18)
    """
    return lens_row(power)[1]


def cylinder_within_iso(power: float, cylinder: float) -> float:
    """Tolerance B: how far an ordered cylinder may be off, by the higher principal power of the lens.

    The table leaves the cell of more than 6.00 D in the first row empty; the one before it stands there.

    >>> cylinder_within_iso(2.5, -0.5), cylinder_within_iso(10.0, 5.0)
    (0.09, 0.25)
    """
    row = lens_row(power)
    for i in range(len(CYLINDERS)):
        if abs(cylinder) <= CYLINDERS[i]:
            return row[2 + i]
    return row[5]


def axis_within_iso(cylinder: float) -> float:
    """How far the axis of an ordered cylinder may be off; NO_AXIS where none is held.

    >>> axis_within_iso(0.25), axis_within_iso(-2.5), axis_within_iso(0.12)
    (16.0, 3.0, 90.0)
    """
    if abs(cylinder) < LEAST_CYLINDER:
        return NO_AXIS
    return within(AXIS, abs(cylinder), AXIS_ABOVE)


def add_within_iso(add: float) -> float:
    """How far an ordered addition may be off.

    >>> add_within_iso(4.0), add_within_iso(4.01)
    (0.12, 0.18)
    """
    return within([[ADD_TO, ADD_WITHIN]], add, ADD_ABOVE)


def prism_within_iso(prism: float, power: float, share: float) -> float:
    """How far a component of prism may be off, of a lens whose highest principal power is given.

    ``share`` is HORIZONTAL_SHARE or VERTICAL_SHARE.

    >>> prism_within_iso(0.0, 4.0, 0.1), prism_within_iso(12.0, 4.0, 0.05)
    (0.65, 0.7)
    """
    return within(PRISM, abs(prism), PRISM_ABOVE) + share * abs(power)


def distance_within_iso(kind: str, power: float) -> float:
    """How far the distance between the two reference points may be from the ordered one, mm.

    Progressives and segments by place; of single vision lenses what the prism of both is as a length.

    >>> distance_within_iso("progressive", 4.0), distance_within_iso("single-vision", 4.0)
    (2.0, 1.625)
    """
    if kind == "progressive" or kind == "bifocal":
        return PLACE_MM * 2.0
    prism = 10.0 * prism_within_iso(0.0, power, HORIZONTAL_SHARE)
    if abs(power) * NO_LIMIT < prism:
        return NO_LIMIT
    return prism / abs(power)
