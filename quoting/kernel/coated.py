"""A lens between its two surfaces: what passes it, and what it sends back to who looks at the wearer.

Light that is reflected to and fro inside the lens is counted to the end, as independent rays (no interference).
Source: Fresnel's formulas at normal incidence; the sums over reflections are geometric series.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.observer import COUNT
from quoting.kernel.records import Glass


def fresnel(index: float) -> float:
    """What one uncoated surface reflects, from 0 to 1.

    >>> round(fresnel(1.5), 12)
    0.04
    """
    share = (index - 1.0) / (index + 1.0)
    return share * share


def transmitted(glass: Glass, layer: list[float]) -> list[float]:
    """What passes the lens with this layer of dye in it.

    >>> from quoting.kernel.spectrum import flat
    >>> round(transmitted({"internal": flat(1.0), "front": flat(0.04), "back": flat(0.04)}, flat(1.0))[0], 4)
    0.9231
    """
    found: list[float] = []
    for i in range(COUNT):
        inside = glass["internal"][i] * layer[i]
        front = glass["front"][i]
        back = glass["back"][i]
        found.append((1.0 - front) * (1.0 - back) * inside / (1.0 - front * back * inside * inside))
    return found


def reflected(glass: Glass, layer: list[float]) -> list[float]:
    """What the lens itself sends back to the front: of its front surface, and of its back one through the dye."""
    found: list[float] = []
    for i in range(COUNT):
        inside = glass["internal"][i] * layer[i]
        front = glass["front"][i]
        back = glass["back"][i]
        again = (1.0 - front) * (1.0 - front) * back * inside * inside
        found.append(front + again / (1.0 - front * back * inside * inside))
    return found


def looked_at(glass: Glass, layer: list[float], ground: list[float]) -> list[float]:
    """What comes back from a lens before a ground that is lit through it: the light passes the lens twice.

    Around it is even, white light, which the surfaces reflect; what goes to and fro between both is left out.
    """
    passed = transmitted(glass, layer)
    found = reflected(glass, layer)
    for i in range(COUNT):
        found[i] = found[i] + passed[i] * passed[i] * ground[i]
    return found
