"""The paint of a lens from what a quote's link holds: whatever the shop's dyes are today, it is drawn as quoted."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.light.glass import CLEAR
from quoting.quoted import records
from quoting.show.lens_paint import Stop, Stops
from quoting.show.tint_lines import tint_of

# Of a gradient a quote has the top, the middle and the bottom
PLACES = 3


def paint_of_quote(quote: records.Quote, pair: records.Pair) -> Stops:
    """Stops from the top of the lens to its lowest point; one where it is the same all over, none without a tint."""
    at = [one for one in pair["passed"] if one["state"] == CLEAR]
    tint = tint_of(quote, pair)
    if len(at) != PLACES or tint is None:
        return tuple(_stop(0.0, one) for one in at[:1])
    top, middle, bottom = at
    first, last = tint["fade_from"] / 10000, tint["fade_to"] / 10000
    stops = ((0.0, top), (first, top), (0.5, middle), (last, bottom), (1.0, bottom))
    return tuple(sorted((_stop(height, one) for height, one in stops), key=lambda stop: stop.at))


def _stop(height: float, one: records.Passed) -> Stop:
    return Stop(height, f"#{one['color']}", one["opacity"] / 100)
