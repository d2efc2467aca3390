"""Where a lens sits in its frame.  It depends on frame and pupil, and on a lens only by whether it has a fitting cross.

So the lenses of a board sit at one or two places, and what each of them needs of the outline is found there once.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.layout import decentration_in, decentration_up, reference_height
from quoting.kernel.records import Frame, Seat
from quoting.kernel.thickness import rim_around
from quoting.kernel.volume import sides_of
from quoting.kernel.worn import center_drop


def seat_at(frame: Frame, height: float, inward: float) -> Seat:
    """The seat whose reference point lies so far above the lowest point of the box, and inward of its center, mm."""
    upward = decentration_up(frame["b"], height)
    rim = rim_around(frame["xs"], frame["ys"], inward, upward)
    return {
        "height": height,
        "decentration_in": inward,
        "decentration_up": upward,
        "rim": rim,
        "sides": sides_of(rim),
    }


def seat_for(seats: list[Seat], frame: Frame, kind: str, pd: float, height: float) -> Seat:
    """Where a lens of this kind sits before a pupil: one of the seats that were found in this frame, or one more.

    ``seats`` are all of one outline; a new one is added.  The numbers are possible (``checked``).
    """
    wanted = reference_height(kind, height, center_drop(frame["tilt"]))
    inward = decentration_in(frame["a"], frame["dbl"], pd)
    for seat in seats:
        if seat["height"] == wanted and seat["decentration_in"] == inward:
            return seat
    made = seat_at(frame, wanted, inward)
    seats.append(made)
    return made
