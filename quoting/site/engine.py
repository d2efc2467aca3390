"""``data/engine.js``: the part of the kernel that pages need, as one script; ``data/remedies.js``: what comes later."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from functools import cache
from typing import Any

from quoting.remembered import recalled
from quoting.site.assets import squeezed
from quoting.site.page_data import compact, remedy_words
from quoting.site.to_js import emit, kernel_paths
from quoting.site.to_js_bundle import bundle
from quoting.site.to_js_needed import Roots

# What the scripts of the theme call: the answer to a job, what they draw of it, the range that fits
ROOTS: Roots = {
    "edge": ("extreme_on_rim",),
    "elementary": ("cos_deg", "sin_deg"),
    "layout": ("fitting_height", "near_inset"),
    "lens": ("nasal",),
    "outline": ("from_box",),
    "power": ("components", "in_meridian", "vector"),
    "price": ("bill",),
    "quote": ("answer_among",),
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
# What they call once something does not fit, and the modules that nothing else needs
LATER: Roots = {"remedies": ("best_of", "ordered", "remedies")}
LATER_ALONE = ("altered.js", "attempts.js", "other_frame.js", "remedies.js")

# What they call where a tint is shown
LIGHT: Roots = {
    "coated": ("transmitted",),
    "consequences": ("consequences",),
    "filters": ("filters", "skin"),
    "lens_paint": ("lens_paint",),
    "scene": ("scene",),
    "spectrum": ("flat", "product"),
    "tinting": ("dye_layers",),
    "colors": ("srgb", "xyz"),
}
LIGHT_ALONE = (
    "coated.js",
    "colors.js",
    "consequences.js",
    "filters.js",
    "lens_paint.js",
    "luminous.js",
    "observer.js",
    "scene.js",
    "spectrum.js",
    "tinting.js",
)


def scripts() -> dict[str, str]:
    """File name -> script, emitted once a program.   Raises OutsideSubsetError where the kernel left its subset."""
    return dict(recalled("scripts", _are_scripts, _scripts))


@cache
def _scripts() -> dict[str, str]:
    return emit(kernel_paths(), short=True, roots={**ROOTS, **LATER, **LIGHT})


def _are_scripts(kept: Any) -> bool:
    names = {*LATER_ALONE, *LIGHT_ALONE}
    return isinstance(kept, dict) and names < kept.keys() and all(isinstance(one, str) for one in kept.values())


def engine_script() -> str:
    """The script of every page; lines stay.   Raises OutsideSubsetError where the kernel left its subset."""
    apart = (*LATER_ALONE, *LIGHT_ALONE)
    return squeezed(bundle({name: script for name, script in scripts().items() if name not in apart}))


def remedies_script() -> str:
    """What is asked once something does not fit, and the words for it; needs the engine before it."""
    later = squeezed(bundle({name: script for name, script in scripts().items() if name in LATER_ALONE}))
    return f"{later}globalThis.bevelRemedies={compact(remedy_words())};\n"


def light_script() -> str:
    """The kernel of light, asked for where a tint is shown; needs the engine before it."""
    return squeezed(bundle({name: script for name, script in scripts().items() if name in LIGHT_ALONE}))
