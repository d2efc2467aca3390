"""The paint of a lens from what a quote's link holds: whatever the shop's dyes are today, it is drawn as quoted.

Of a lens that has a color by itself, such as a polarized one, a link has the name alone: its color is that of today.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.catalog.shop import Catalog
from quoting.light.glass import CLEAR
from quoting.light.lens_worn import LensWorn
from quoting.quoted import records
from quoting.show.lens_paint import Stop, Stops, paint_worn
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


def own_paint(today: Catalog | None, lens: records.Lens) -> Stops:
    """The color that a lens has by itself, without tint and mirror; none where the shop has no such lens any more."""
    package = today.packages.get(lens["id"]) if today is not None else None
    if today is None or package is None or package.light == CLEAR or package.light != lens["light"]:
        return ()
    return paint_worn(today, LensWorn(package))


def _stop(height: float, one: records.Passed) -> Stop:
    return Stop(height, f"#{one['color']}", one["opacity"] / 100)
