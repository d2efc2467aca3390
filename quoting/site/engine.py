"""``data/engine.js``: the part of the kernel that the pages need, as one script."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from functools import cache

from quoting.site.assets import squeezed
from quoting.site.to_js import emit, kernel_paths
from quoting.site.to_js_bundle import bundle

# What the scripts of the theme call: the answer to a job, what they draw of it, the range that fits
ROOTS = {
    "lens": ("nasal",),
    "outline": ("from_box",),
    "power": ("components", "vector"),
    "quote": ("answer",),
    "ranges": ("ranges_that_fit",),
    "rules": ("largest_blank",),
    "section": ("section",),
    "thickness": ("grind", "rim_around", "with_prism"),
}


@cache
def engine_script() -> str:
    """The script, emitted once a process; lines stay.   Raises OutsideSubsetError where the kernel left its subset."""
    return squeezed(bundle(emit(kernel_paths(), short=True, roots=ROOTS)))
