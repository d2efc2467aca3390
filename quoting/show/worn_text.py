"""What is said beside a front of the lenses that it is drawn with: name and light, and never silently dark."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.catalog.shop import Catalog
from quoting.languages import _, marked
from quoting.light.glass import CLEAR
from quoting.light.lens_worn import LensWorn
from quoting.show.tint_words import PAGE, SENTENCES, percents

TEXTS = marked({
    "sun": "Its sun lenses are drawn as they look: {name}, {light}.",
    "made": "The lenses are drawn as they look: {name}, {light}.",
    "even": "{percent} % of the light, filter category {category}",
    "fading": "{top} % of the light at the top, {bottom} % at the bottom, filter category {category} in the middle",
    "mirrored": "{name} under the mirror {mirror}",
    "dark": "{name}, dark at {degrees} °C",
    "unknown": "How much light these lenses pass is not stated: the drawing tells nothing of it.",
})  # fmt: skip


def worn_text(catalog: Catalog, lens: LensWorn, key: str) -> str:
    """Sentences of a lens; ``key``: ``sun`` for those that a colorway is sold with, ``made`` for a combination."""
    if not lens.known(catalog):
        return _(TEXTS["unknown"])
    seen = lens.seen(catalog)
    top, middle, bottom = seen.at
    if lens.mix is not None and lens.mix.fades:
        ends = {"top": percents(top["percent"]), "bottom": percents(bottom["percent"])}
        light = _(TEXTS["fading"]).format(category=middle["category"], **ends)
    else:
        light = _(TEXTS["even"]).format(percent=percents(middle["percent"]), category=middle["category"])
    said = [_(TEXTS[key]).format(name=name_of(catalog, lens), light=light)]
    if seen.darkest["percent"] <= catalog.shop.limits.driving_least:
        said.append(_(SENTENCES["day-never"]))
    return " ".join(said)


def name_of(catalog: Catalog, lens: LensWorn) -> str:
    """The mix, or what the lens is without one; its mirror and its state."""
    name = lens.mix.name if lens.mix is not None else lens.package.name
    if lens.mirror:
        name = _(TEXTS["mirrored"]).format(name=name, mirror=catalog.tints.mirrors[lens.mirror].name)
    if lens.state != CLEAR:
        return _(TEXTS["dark"]).format(name=name, degrees=lens.state)
    return name if lens.package.light != "photochromic" else f"{name}, {_(PAGE['state-clear'])}"
