"""The paint of a lens as drawings put it on: from light and a mix to the fill of a front's lenses.

`paint_of` is the one way to the color of a tint: stops from the top of the lens to its lowest point, one where the tint
is the same all over.  `painted` puts them on a front.  In the page ``tinge.paint`` and ``putOn`` do the same.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math
import re
from typing import NamedTuple

from quoting.catalog.model import Package
from quoting.catalog.shop import Catalog
from quoting.catalog.tints import Mix
from quoting.kernel.lens_paint import lens_paint
from quoting.light.glass import CLEAR, glass_of, tint_of
from quoting.light.lens_worn import LensWorn
from quoting.show.looks import STOPS, hexed
from quoting.show.pen import element

# How a front writes its lenses, see `front.glass`
LENSES = re.compile(r'class="glass(?: sun)?" fill="currentColor" fill-opacity="[.0-9]+"')


class Stop(NamedTuple):
    """The paint at one height: a share of the box from its top, "#rrggbb", opacity from 0 to 1."""

    at: float
    color: str
    opacity: float


Stops = tuple[Stop, ...]


def paint_of(catalog: Catalog, package: Package, mix: Mix | None, mirror: str = "", state: str = CLEAR) -> Stops:
    """The paint of a lens of the shop with a mix (None: no dye) in a state, mirrored or not.

    Right over white and over black, see `quoting.kernel.lens_paint`.   Raises KeyError where there is no such mirror.
    """
    heights = list(STOPS if mix is not None and mix.fades else STOPS[:1])
    found = lens_paint(glass_of(catalog, package, state, mirror).glass, tint_of(catalog, mix), heights)
    return tuple(
        Stop(at, hexed(paint[:3]), math.floor(1000 * paint[3] + 0.5) / 1000)
        for at, paint in zip(heights, found, strict=True)
    )


def paint_worn(catalog: Catalog, lens: LensWorn | None) -> Stops:
    """The paint of a lens in a drawing; none where nothing is known of its light."""
    if lens is None or not lens.known(catalog):
        return ()
    return paint_of(catalog, lens.package, lens.mix, lens.mirror, lens.state)


def painted(svg: str, stops: Stops, id_: str) -> str:
    """A front whose lenses wear this; ``id_`` is that of its gradient, which no other drawing of the page may have.

    Without stops it stays as it was drawn.
    """
    if not stops:
        return svg
    if len(stops) == 1:
        return LENSES.sub(f'class="tint" fill="{stops[0].color}" fill-opacity="{stops[0].opacity:g}"', svg)
    head, rest = svg.split(">", 1)
    shade = "".join(
        element("stop", offset=f"{one.at:g}", stop_color=one.color, stop_opacity=f"{one.opacity:g}") for one in stops
    )
    gradient = element("linearGradient", shade, class_="paint", id=id_, x1="0", y1="0", x2="0", y2="1")
    worn = LENSES.sub(f'class="tint" fill="url(#{id_})"', rest)
    return f"{head}>{gradient}{worn}"
