"""Color that a lens makes: a lens is a prism everywhere but at its optical center, and a prism spreads the colors.

Source: transverse chromatic aberration = prism / Abbe number, axial = power / Abbe number, as in Jalie, Ophthalmic
Lenses and Dispensing; the prism by Prentice's rule on the whole power matrix.  Prism in prism diopters, powers D,
lengths mm; the Abbe number must be above 0.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math

from quoting.kernel.power import matrix, prentice

# (practice) wearers start to notice colored edges at about this spread, prism diopters
NOTICED = 0.1

# (practice) eyes turn up to about 30 degrees before the head follows: 27 mm · tan 30° = 15.6 mm, taken as 15
FIELD_MM = 15.0

# Steps up the prism: more than enough for a part in a million
ROUNDS = 40


def axial_color(power: float, abbe: float) -> float:
    """Spread of the power from blue to red, diopters.

    >>> axial_color(6.0, 30.0)
    0.2
    """
    return power / abbe


def prism_color(prism: float, abbe: float) -> float:
    """Transverse chromatic aberration of a prism, prism diopters.

    >>> prism_color(3.0, 30.0)
    0.1
    """
    return prism / abbe


def transverse_color(sphere: float, cylinder: float, axis: float, x_mm: float, y_mm: float, abbe: float) -> list[float]:
    """[x, y] of the transverse chromatic aberration, prism diopters, where the optical center lies at (x, y) mm.

    >>> transverse_color(-6.0, 0.0, 180.0, 5.0, 0.0, 30.0)
    [-0.1, 0.0]
    """
    p = prentice(sphere, cylinder, axis, x_mm, y_mm)
    return [prism_color(p[0], abbe), prism_color(p[1], abbe)]


def clear_radius(power: float, abbe: float) -> float:
    """How far from the optical center (mm) the spread reaches what wearers notice: 10 · 0.1 · V / |F|.

    Raises ZeroDivisionError for a power of 0, which never spreads.

    >>> clear_radius(-6.0, 30.0)
    5.0
    """
    return 10.0 * NOTICED * abbe / abs(power)


def prism_from(f: list[float], prism: list[float], way: list[float]) -> list[float]:
    """Prism met so many mm away from where ``prism`` is met, behind a power matrix [xx, xy, yy]."""
    return [
        prism[0] - (f[0] * way[0] + f[1] * way[1]) / 10.0,
        prism[1] - (f[1] * way[0] + f[2] * way[1]) / 10.0,
    ]


def climbed(f: list[float], prism: list[float], way: list[float], radius: float) -> float:
    """The greatest prism on a circle, reached from one of its points by going where the prism grows fastest.

    The square of the prism is convex, so each step to the end of the circle along its slope can only raise it.
    """
    met = prism_from(f, prism, way)
    for _ in range(ROUNDS):
        x = 0.0 - f[0] * met[0] - f[1] * met[1]
        y = 0.0 - f[1] * met[0] - f[2] * met[1]
        length = math.sqrt(x * x + y * y)
        if length == 0.0:
            break
        met = prism_from(f, prism, [radius * x / length, radius * y / length])
    return math.sqrt(met[0] * met[0] + met[1] * met[1])


def greatest_color(
    sphere: float, cylinder: float, axis: float, prism_x: float, prism_y: float, radius_mm: float, abbe: float
) -> float:
    """The greatest transverse chromatic aberration in a circle about the fitting point, prism diopters.

    ``prism_x`` and ``prism_y`` are what the eye meets at the fitting point itself, from prescribed prism and from a
    center that lies elsewhere.  Usual radius: FIELD_MM.

    >>> greatest_color(-6.0, 0.0, 180.0, 0.0, 0.0, 15.0, 30.0)
    0.3
    """
    f = matrix(sphere, cylinder, axis)
    prism = [prism_x, prism_y]
    most = 0.0
    for x in [-1.0, 0.0, 1.0]:
        for y in [-1.0, 0.0, 1.0]:
            length = math.sqrt(x * x + y * y)
            if length > 0.0:
                amount = climbed(f, prism, [radius_mm * x / length, radius_mm * y / length], radius_mm)
                if amount > most:
                    most = amount
    return prism_color(most, abbe)
