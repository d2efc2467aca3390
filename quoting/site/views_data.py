"""``data/views.js``: what the drawings of a chosen lens need beside the engine's answer."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from typing import Any

from quoting.catalog.shop import Catalog
from quoting.light.glass import CLEAR
from quoting.light.lens_worn import LensWorn
from quoting.show.lens_paint import paint_worn
from quoting.show.page_words import VIEWS
from quoting.show.worn_text import worn_text
from quoting.site.page_data import compact, said

# An object without this has names of its own, such as `constructor`, which is an id that a package may have
BARE: dict[str, Any] = {"__proto__": None}


def worn_data(catalog: Catalog) -> dict[str, list[Any]]:
    """The paint of each lens that is no clear glass, and what is said of it: photochromic ones as they are indoors."""
    lenses = [LensWorn(one) for one in catalog.packages.values() if one.light != CLEAR]
    return {one.package.id: [paint_worn(catalog, one), worn_text(catalog, one, "made")] for one in lenses}


def views_script(catalog: Catalog) -> str:
    """The words of the drawings, where designs are read through, and what lenses look like that have a color."""
    designs = {one.id: one.design for one in catalog.packages.values()}
    segments = {name: [one.segment_width, one.segment_depth] for name, one in designs.items() if one.segment_width}
    near = {name: one.near_below for name, one in designs.items() if one.near_below}
    tables: dict[str, dict[str, Any]] = {"near": near, "segments": segments, "worn": worn_data(catalog)}
    bare = {name: {**BARE, **one} for name, one in tables.items()}
    places: dict[str, Any] = {"working": catalog.shop.defaults.working_distance, **bare}
    texts = compact(said(VIEWS))
    return f"Object.assign(globalThis.bevelShop.words.page,{texts});\nglobalThis.bevelDesigns={compact(places)};\n"
