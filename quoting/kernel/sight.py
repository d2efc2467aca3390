"""What an eye meets straight ahead through a real lens that is tilted and wrapped before it.

The chief ray is the line of sight straight ahead: level, from the eye's center of rotation through the fitting point,
which is where the pupil stands before the lens.  The lens is wrapped within its frame and the frame tilted as a whole,
both about the fitting point.  Power is met where that ray leaves the back: there the vertex sphere, whose center is the
center of rotation, touches the lens, however far behind it lies.
Sources: pantoscopic angle (in the vertical plane, to the line of sight) and face form angle (between front and lens) as
in ISO 13666, from memory; the trace as in ``ray`` and ``astigmatic``.  Powers D, prism Δ, lengths mm, angles degrees.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.astigmatic import as_power, deviation, power_along
from quoting.kernel.elementary import cos_deg, sin_deg
from quoting.kernel.ray import GRAZING, dot, path_to_eye
from quoting.kernel.records import Grind
from quoting.kernel.thickness import grind, with_prism

# An order gives what was prescribed when nothing differs by more than this, D or Δ
CLOSE = 0.0000001
MOST_ROUNDS = 60

# No lens is ordered stronger than this, D or Δ
MOST_ORDERED = 60.0


def worn_axes(tilt: float, wrap: float) -> list[list[float]]:
    """The wearer's axes (toward the nose, up, straight back) in the frame of a tilted and wrapped lens.

    >>> [[round(value, 3) for value in axis] for axis in worn_axes(0.0, 30.0)]
    [[0.866, 0.0, 0.5], [0.0, 1.0, 0.0], [-0.5, 0.0, 0.866]]
    """
    st = sin_deg(tilt)
    ct = cos_deg(tilt)
    sw = sin_deg(wrap)
    cw = cos_deg(wrap)
    return [[cw, 0.0, sw], [0.0 - sw * st, ct, cw * st], [0.0 - sw * ct, 0.0 - st, cw * ct]]


def met(made: Grind, center: float, up: float, axes: list[list[float]]) -> list[float]:
    """What the eye meets straight ahead, ``up`` mm above the reference point: [power xx, xy, yy, prism in, prism up].

    [] where no ray comes through the lens to the eye.

    >>> from quoting.kernel.thickness import grind
    >>> lens = grind(-4.0, -1.0, 180.0, 4.0, 0.0, 1.5)
    >>> [round(value, 2) + 0.0 for value in met(lens, 2.0, 0.0, worn_axes(0.0, 0.0))]
    [-4.0, 0.0, -5.0, 0.0, 0.0]
    >>> [round(value, 2) + 0.0 for value in met(lens, 2.0, 0.0, worn_axes(0.0, 15.0))]
    [-4.39, 0.0, -5.12, -0.15, 0.0]
    """
    path = path_to_eye(made, center, 0.0, up, axes[2])
    if not path["hit"] or dot(path["before"], path["after"]) <= GRAZING:
        return []
    power = power_along(made, center, path, axes)
    if len(power) == 0:
        return []
    prism = deviation(path, axes)
    return [power[0], power[1], power[2], prism[0], prism[1]]


def ordered(like: Grind, asked: list[float]) -> Grind:
    """The same front and index with another power matrix and prism: ``asked`` is [xx, xy, yy, prism in, prism up].

    >>> from quoting.kernel.thickness import grind
    >>> lens = ordered(grind(0.0, 0.0, 180.0, 4.0, 0.0, 1.5), [-3.0, 0.0, -2.0, 1.0, 0.0])
    >>> lens["sphere"], lens["cylinder"], lens["axis"], lens["front"], lens["wedge_x"]
    (-2.0, -1.0, 90.0, 4.0, 0.02)
    """
    form = as_power(asked)
    made = grind(form[0], form[1], form[2], like["front"], like["conic"], like["index"])
    return with_prism(made, asked[3], asked[4])


def order_for(like: Grind, center: float, up: float, axes: list[list[float]], wanted: list[float]) -> list[float]:
    """What to order, [xx, xy, yy, prism in, prism up], so that the eye meets ``wanted``; front and center stay.

    By adding what is missing, again and again: tilting changes a power by a small part of it, so each round leaves
    that part of the fault.  [] where it does not come to an end.

    >>> from quoting.kernel.thickness import grind
    >>> lens = grind(-4.0, 0.0, 180.0, 4.0, 0.0, 1.5)
    >>> asked = order_for(lens, 2.0, 0.0, worn_axes(0.0, 15.0), [-4.0, 0.0, -4.0, 0.0, 0.0])
    >>> [round(value, 2) + 0.0 for value in asked]
    [-3.66, 0.0, -3.91, 0.14, 0.0]
    """
    asked = [wanted[0], wanted[1], wanted[2], wanted[3], wanted[4]]
    for _ in range(MOST_ROUNDS):
        found = met(ordered(like, asked), center, up, axes)
        if len(found) == 0:
            return []
        worst = 0.0
        for i in range(len(asked)):
            missing = wanted[i] - found[i]
            asked[i] = asked[i] + missing
            if abs(missing) > worst:
                worst = abs(missing)
            if abs(asked[i]) > MOST_ORDERED:
                return []
        if worst < CLOSE:
            return asked
    return []
