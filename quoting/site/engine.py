"""``data/engine.js``: the part of the kernel that the pages need, as one script."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from functools import cache

from quoting.site.assets import squeezed
from quoting.site.to_js import emit, kernel_paths
from quoting.site.to_js_bundle import bundle

# What the scripts of the theme call: the answer to a job, what they draw of it, the range that fits
ROOTS = {
    "edge": ("extreme_on_rim",),
    "elementary": ("cos_deg", "sin_deg"),
    "layout": ("fitting_height", "near_inset"),
    "lens": ("nasal",),
    "outline": ("from_box",),
    "power": ("components", "in_meridian", "vector"),
    "quote": ("answer",),
    "ranges": ("ranges_that_fit",),
    "rules": ("largest_blank",),
    "section": ("crossing_line", "section"),
    "thickness": (
        "back_surface",
        "edges",
        "grind",
        "lost_in_front",
        "place",
        "rim_around",
        "thickness_behind",
        "with_prism",
    ),
}


@cache
def engine_script() -> str:
    """The script, emitted once a process; lines stay.   Raises OutsideSubsetError where the kernel left its subset."""
    return squeezed(bundle(emit(kernel_paths(), short=True, roots=ROOTS)))
