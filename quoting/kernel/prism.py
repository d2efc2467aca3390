"""Prism: how it is written, put together, split between two eyes, and got by decentration.

A prism is [in, up] in prism diopters, in the eye's own nasal frame: base in and base up are positive, base out and
base down negative.  Eyes are "R" and "L"; directions are "in", "out", "up" and "down".
Sources: prisms add as vectors and are shared between the eyes, any dispensing text (from memory); base in 360 degree
notation, seen facing the wearer (right: in 0, out 180; left: out 0, in 180; up 90, down 270), National Federation of
Opticianry Schools, course NFOS-12; decentration, Keating, Geometric, Physical and Visual Optics.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.elementary import cos_deg, sin_deg
from quoting.kernel.power import as_written, components, matrix, resultant


def seen(eye: str, prism_in: float) -> float:
    """The horizontal part as seen facing the wearer, positive to the right; or back: it is its own inverse.

    Raises ValueError for an eye that is neither "R" nor "L".

    >>> seen("R", 2.0), seen("L", 2.0)
    (2.0, -2.0)
    """
    if eye == "R":
        return prism_in
    if eye == "L":
        return 0.0 - prism_in
    raise ValueError("an eye is R or L")


def base_360(eye: str, prism_in: float, prism_up: float) -> list[float]:
    """[amount in prism diopters, base in degrees, 0 up to but not 360] as seen facing the wearer.

    Raises ValueError for an eye that is neither "R" nor "L".   Source: NFOS-12.

    >>> base_360("R", 2.0, 0.0), base_360("L", 2.0, 0.0), base_360("L", 0.0, -1.0)
    ([2.0, 0.0], [2.0, 180.0], [1.0, 270.0])
    """
    return resultant(seen(eye, prism_in), prism_up)


def from_base_360(eye: str, amount: float, base: float) -> list[float]:
    """[in, up] in prism diopters of an amount and its base in degrees, seen facing the wearer.

    Raises ValueError for an eye that is neither "R" nor "L".   Source: NFOS-12.

    >>> from_base_360("R", 2.0, 180.0), from_base_360("L", 2.0, 180.0)
    ([-2.0, 0.0], [2.0, 0.0])
    """
    part = components(amount, base)
    return [seen(eye, part[0]), part[1]]


def toward(amount: float, direction: str) -> list[float]:
    """[in, up] of an amount in prism diopters with its base in one of the four directions.

    Raises ValueError for another direction.

    >>> toward(1.5, "out"), toward(1.5, "up")
    ([-1.5, 0.0], [0.0, 1.5])
    """
    if direction == "in":
        return [amount, 0.0]
    if direction == "out":
        return [0.0 - amount, 0.0]
    if direction == "up":
        return [0.0, amount]
    if direction == "down":
        return [0.0, 0.0 - amount]
    raise ValueError("a base is in, out, up or down")


def in_or_out(prism_in: float) -> str:
    """The word for a horizontal part; empty where there is none.

    >>> in_or_out(1.0), in_or_out(-1.0), in_or_out(0.0)
    ('in', 'out', '')
    """
    if prism_in > 0.0:
        return "in"
    if prism_in < 0.0:
        return "out"
    return ""


def up_or_down(prism_up: float) -> str:
    """The word for a vertical part; empty where there is none.

    >>> up_or_down(1.0), up_or_down(-1.0), up_or_down(0.0)
    ('up', 'down', '')
    """
    if prism_up > 0.0:
        return "up"
    if prism_up < 0.0:
        return "down"
    return ""


def combined(prisms: list[list[float]]) -> list[float]:
    """[in, up] of any number of prisms [in, up] before one eye, in prism diopters; of none, no prism.

    >>> combined([[2.0, 0.0], [-0.5, 1.5]])
    [1.5, 1.5]
    """
    prism_in = 0.0
    prism_up = 0.0
    for part in prisms:
        prism_in += part[0]
        prism_up += part[1]
    return [prism_in, prism_up]


def of_the_pair(right: list[float], left: list[float]) -> list[float]:
    """[in, up before the right eye] in prism diopters: what two prisms [in, up] do to the eyes together.

    Base in before both eyes adds up; base up before both cancels, base up before one and down before the other adds.

    >>> of_the_pair([1.0, 1.0], [2.0, -0.5])
    [3.0, 1.5]
    """
    return [right[0] + left[0], right[1] - left[1]]


def split_between(prism_in: float, right_up: float, right_share: float) -> list[list[float]]:
    """[[in, up] of the right eye, [in, up] of the left] that together do the same, in prism diopters.

    ``right_share`` is the right eye's part, 0 to 1; what is base up before the right is base down before the left.

    >>> split_between(3.0, 2.0, 0.5), split_between(0.0, 2.0, 1.0)
    ([[1.5, 1.0], [1.5, -1.0]], [[0.0, 2.0], [0.0, 0.0]])
    """
    right = [prism_in * right_share, right_up * right_share]
    return [right, [prism_in - right[0], right[1] - right_up]]


def along(prism_in: float, prism_up: float, direction_deg: float) -> float:
    """Part of a prism, in prism diopters, along a direction in its own frame; positive where the base lies that way.

    >>> along(3.0, 4.0, 90.0), along(3.0, 4.0, 180.0)
    (4.0, -3.0)
    """
    return prism_in * cos_deg(direction_deg) + prism_up * sin_deg(direction_deg)


def decentration_for(sphere: float, cylinder: float, axis: float, prism_in: float, prism_up: float) -> list[float]:
    """[in, up] in mm: where the optical center must lie from the line of sight to give this prism.

    Powers in D, the axis in the nasal frame; the inverse of ``prentice``.  Raises ValueError where a principal power
    is 0: a plano lens gives no prism however it lies, a plano-cylinder none along its axis, and none is unique.

    >>> decentration_for(4.0, 0.0, 180.0, -2.0, 0.0), decentration_for(-4.0, -2.0, 90.0, 3.0, 2.0)
    ([-5.0, 0.0], [-5.0, -5.0])
    >>> decentration_for(0.0, -2.0, 90.0, 1.0, 0.0)
    Traceback (most recent call last):
    ValueError: no single decentration gives a prism where a principal power is 0
    """
    other = as_written(sphere + cylinder)
    if sphere == 0.0 or other == 0.0:
        raise ValueError("no single decentration gives a prism where a principal power is 0")
    inverse = matrix(1.0 / sphere, 1.0 / other - 1.0 / sphere, axis)
    return [
        10.0 * (inverse[0] * prism_in + inverse[1] * prism_up),
        10.0 * (inverse[1] * prism_in + inverse[2] * prism_up),
    ]
