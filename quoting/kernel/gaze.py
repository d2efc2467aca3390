"""What an eye meets through a worn lens when it looks elsewhere than straight ahead.

The eye turns about its center of rotation; every line of sight goes through that.  Power is met at the vertex sphere,
which has its center there and touches the back of the lens at the fitting point, as a far-point sphere asks for it.
Looking up is to the line of sight what pantoscopic tilt is to the lens, looking in what wrap is; so both take the same
axes.  Sources: vertex sphere as in ISO 13666, from memory; the trace as in ``ray`` and ``astigmatic``.  Powers D, prism
Δ, lengths mm, angles degrees.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.astigmatic import deviation, gone_on, power_along
from quoting.kernel.ray import GRAZING, along, back_hit, dot, path_to_eye
from quoting.kernel.records import Grind
from quoting.kernel.sight import worn_axes
from quoting.kernel.thickness import back_sag, back_surface

# (practice) the eye's center of rotation lies about 14 mm behind the cornea: 27 mm with a vertex distance of 13
ROTATION_BEHIND_CORNEA_MM = 14.0


def looking(axes: list[list[float]], gaze_up: float, gaze_in: float) -> list[list[float]]:
    """The eye's axes in the lens's frame once it looks so many degrees up and toward the nose; its across stays level.

    >>> looking([[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]], 0.0, 0.0)
    [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]]
    """
    turned: list[list[float]] = []
    for axis in worn_axes(gaze_up, gaze_in):
        own: list[float] = []
        for i in range(3):
            own.append(axis[0] * axes[0][i] + axis[1] * axes[1][i] + axis[2] * axes[2][i])
        turned.append(own)
    return turned


def center_of_rotation(made: Grind, center: float, up: float, back: list[float], vertex: float) -> list[float]:
    """Where the eye turns, in the lens's frame: straight back from the fitting point, ``up`` mm above the reference.

    ``back`` is the direction straight back, ``vertex`` the vertex distance.

    >>> from quoting.kernel.thickness import grind
    >>> center_of_rotation(grind(0.0, 0.0, 180.0, 0.0, 0.0, 1.5), 2.0, 4.0, [0.0, 0.0, 1.0], 13.0)
    [0.0, 4.0, 29.0]
    """
    depth = center + back_sag(back_surface(made, center), 0.0, up) + made["wedge_y"] * up
    return along([0.0, up, depth], back, vertex + ROTATION_BEHIND_CORNEA_MM)


def met_in_gaze(
    made: Grind, center: float, up: float, axes: list[list[float]], vertex: float, gaze_up: float, gaze_in: float
) -> list[float]:
    """What the eye meets in that gaze, as ``met`` has it: [power xx, xy, yy, prism in, prism up].

    The back must reach the fitting point (ValueError elsewhere).  [] where no ray comes through the lens to the eye.

    >>> from quoting.kernel.thickness import grind
    >>> lens = grind(-6.0, 0.0, 180.0, 4.0, 0.0, 1.6)
    >>> [round(value, 2) + 0.0 for value in met_in_gaze(lens, 2.0, 0.0, worn_axes(0.0, 0.0), 13.0, 30.0, 0.0)]
    [-5.81, 0.0, -5.94, 0.0, 9.6]
    """
    eye = looking(axes, gaze_up, gaze_in)
    turns_at = center_of_rotation(made, center, up, axes[2], vertex)
    leaves = back_hit(made, center, turns_at, eye[2])
    if len(leaves) == 0:
        return []
    path = path_to_eye(made, center, leaves[0], leaves[1], eye[2])
    if not path["hit"] or dot(path["before"], path["after"]) <= GRAZING:
        return []
    power = power_along(made, center, path, eye)
    if len(power) == 0:
        return []
    way = dot(along(turns_at, leaves, -1.0), eye[2]) - vertex - ROTATION_BEHIND_CORNEA_MM
    wave = gone_on([power[0] / -1000.0, power[1] / -1000.0, power[2] / -1000.0], way)
    if len(wave) == 0:
        return []
    prism = deviation(path, eye)
    return [-1000.0 * wave[0], -1000.0 * wave[1], -1000.0 * wave[2], prism[0], prism[1]]
