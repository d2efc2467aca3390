"""Where lenses sit: found once for all that sit there."""

import math

from quoting.kernel.seat import seat_for
from tests.kernel.jobs import frame


def test_lenses_that_sit_alike_share_a_seat_and_others_have_their_own():
    worn, seats = frame(tilt=0.0), []
    one = seat_for(seats, worn, "single-vision", 31.0, 24.0)
    assert seat_for(seats, worn, "anti-fatigue", 31.0, 24.0) is one
    others = [("progressive", 31.0, 24.0), ("single-vision", 30.0, 24.0), ("single-vision", 31.0, 23.0)]
    found = [seat_for(seats, worn, *other) for other in others]
    assert seats == [one, *found]
    assert [seat_for(seats, worn, *other) for other in others] == found
    assert len(seats) == 4


def test_the_outline_is_seen_from_where_the_lens_sits():
    worn = frame(tilt=0.0)
    seat = seat_for([], worn, "single-vision", 31.0, 24.0)
    inward, upward = (worn["a"] + worn["dbl"]) / 2 - 31.0, 24.0 - worn["b"] / 2
    assert (seat["decentration_in"], seat["decentration_up"]) == (inward, upward)
    farthest = max(math.hypot(x - inward, y - upward) for x, y in zip(worn["xs"], worn["ys"], strict=True))
    assert math.isclose(seat["rim"]["reach"], farthest)
    assert len(seat["sides"]["areas"]) == len(seat["sides"]["squares"]) == len(seat["rim"]["xs"])
