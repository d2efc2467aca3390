"""A drawn street as it is seen through a filter: the color of each of its parts under daylight.

Every part has a reflectance of our own, smooth and invented, to draw with: a base, a bell and an edge.  Its lamps shine
in narrow bands as diodes do; they are drawn lights and no signal spectra of any standard.  Nothing is lightened for
eyes that get used to the dark: the picture is as dark as the filter makes it.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.colors import srgb, xyz
from quoting.kernel.elementary import exp
from quoting.kernel.observer import COUNT, FIRST_NM, STEP_NM

# [base, height of the bell, its center and width in nm, height of the edge, its center and width in nm]
PARTS = [
    [0.38, 0.34, 440.0, 75.0, 0.0, 600.0, 20.0],  # 0 sky
    [0.86, 0.0, 500.0, 50.0, 0.0, 600.0, 20.0],  # 1 cloud, marks on the road
    [0.08, 0.0, 500.0, 50.0, 0.34, 600.0, 18.0],  # 2 brick
    [0.3, 0.0, 500.0, 50.0, 0.42, 530.0, 30.0],  # 3 plaster
    [0.04, 0.2, 550.0, 38.0, 0.3, 710.0, 14.0],  # 4 leaves
    [0.13, 0.0, 500.0, 50.0, 0.02, 600.0, 40.0],  # 5 road
    [0.34, 0.0, 500.0, 50.0, 0.06, 580.0, 40.0],  # 6 pavement
    [0.05, 0.45, 450.0, 34.0, 0.0, 600.0, 20.0],  # 7 a blue car
    [0.04, 0.0, 500.0, 50.0, 0.5, 615.0, 9.0],  # 8 a red sign
    [0.03, 0.0, 500.0, 50.0, 0.0, 600.0, 20.0],  # 9 what is dark
    [0.1, 0.0, 500.0, 50.0, 0.66, 520.0, 12.0],  # 10 a yellow coat
    [0.0, 3.6, 632.0, 16.0, 0.0, 600.0, 20.0],  # 11 red light
    [0.0, 2.2, 590.0, 14.0, 0.0, 600.0, 20.0],  # 12 yellow light
    [0.0, 2.6, 505.0, 24.0, 0.0, 600.0, 20.0],  # 13 green light
    [0.0, 5.0, 465.0, 18.0, 0.0, 600.0, 20.0],  # 14 blue light
]


# So far below an edge nothing of it is left: a millionth of a millionth of it
FAR = 30.0


def edge(below: float) -> float:
    """How much of an edge is there, so many of its widths below its middle.

    >>> edge(0.0), edge(60.0), edge(-60.0)
    (0.5, 0.0, 1.0)
    """
    if below > FAR:
        return 0.0
    if below < 0.0 - FAR:
        return 1.0
    return 1.0 / (1.0 + exp(below))


def bell(off: float) -> float:
    """How much of a bell is there, so many of its widths off its middle.

    >>> bell(0.0), bell(9.0)
    (1.0, 0.0)
    """
    square = off * off
    if square > FAR:
        return 0.0
    return exp(0.0 - square)


def part_color(part: list[float], passed: list[float]) -> list[float]:
    """sRGB of one part through a filter, each channel from 0 to 1; out of gamut as `colors.srgb` says."""
    seen: list[float] = []
    for i in range(COUNT):
        nm = FIRST_NM + i * STEP_NM
        off = (nm - part[2]) / part[3]
        reflected = part[0] + part[1] * bell(off) + part[4] * edge((part[5] - nm) / part[6])
        seen.append(reflected * passed[i])
    return srgb(xyz(seen))


def scene(passed: list[float]) -> list[list[float]]:
    """sRGB of all parts, in their order.

    >>> from quoting.kernel.spectrum import flat
    >>> len(scene(flat(0.0))), scene(flat(0.0))[0]
    (15, [0.0, 0.0, 0.0])
    """
    found: list[list[float]] = []
    for part in PARTS:
        found.append(part_color(part, passed))
    return found
