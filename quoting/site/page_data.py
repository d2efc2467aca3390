"""What the pages' own engine is given: the shop's tables, the same ones the build computes with, and the words.

``data/shop.js`` is one for all pages; what belongs to one frame stands in its page as a block of JSON.  Both come from
the catalog alone: nothing of ``private/`` is read here.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import asdict
from typing import Any

from markupsafe import Markup

from quoting.band import USUAL_ADD
from quoting.catalog.model import Colorway, Frame, Package, Size
from quoting.catalog.shop import ABOUT, Catalog, Discount
from quoting.kernel.treatments import filter_category, passed
from quoting.languages import Counted, _, decimals, forms, spoken
from quoting.locales import amount_form
from quoting.prescription.wishes import NOTHING
from quoting.show.cautions import STRONG_PLUS_D, about, sentences
from quoting.show.lens_paint import Stops
from quoting.show.lines import LINE_TEXTS
from quoting.show.page_words import PAGE
from quoting.show.reasons import BIFOCAL, SIDES, WAYS, WORDS
from quoting.show.remedies import REMEDIES, UNITS, then
from quoting.show.slip_words import SLIP
from quoting.show.terms import KINDS, LIGHTS, PLACES, kind, mounting
from quoting.show.text import ESTIMATES, FAULTS
from quoting.show.versions import VERSIONS
from quoting.show.words_lens import Words
from quoting.tables import (
    discount_table,
    limits_table,
    options_table,
    package_table,
    region_table,
    surcharge_table,
    true_ed,
)

# What would end a block of JSON inside a page, as JSON may write it instead
UNSAFE = {ord("<"): "\\u003c", ord(">"): "\\u003e", ord("&"): "\\u0026", 0x2028: "\\u2028", 0x2029: "\\u2029"}


def compact(value: Any) -> str:
    """JSON without needless blanks that can stand in a page and in a script.

    >>> print(compact({"name": "</script>"}))
    {"name":"\\u003c/script\\u003e"}
    """
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"), allow_nan=False).translate(UNSAFE)


def categories(package: Package) -> list[int]:
    """The filter category of a lens, two for a photochromic: clear and dark; none where nobody stated its light."""
    table = package_table(package)
    stated = [light for light in (passed(table, False), passed(table, True)) if light > 0]
    return list(dict.fromkeys(filter_category(light) for light in stated))


def package_data(package: Package) -> dict[str, Any]:
    """A lens package: its table, and what a row of the board shows and filters by."""
    design, material = package.design, package.material
    return {
        "id": package.id,
        "name": package.name,
        "maker": package.maker,
        "design": design.name,
        "designId": design.id,
        "kindText": kind(design.kind).lower(),
        "material": material.name,
        "light": package.light,
        "coating": package.coating,
        "tintable": material.tint_depth > 0 and (package.light == "clear" or package.treatments.tint_over),
        "categories": categories(package),
        "notes": about(package),
        "about": package.about or design.about,
        "table": package_table(package),
    }


def discount_data(one: Discount) -> dict[str, Any]:
    """A discount with the days on which it holds; the page asks its own clock."""
    return {
        "text": one.text,
        "starts": one.starts.isoformat() if one.starts else "",
        "ends": one.ends.isoformat() if one.ends else "",
        "asked": one.asked,
        "table": discount_table(one),
    }


def said(table: Mapping[str, str | Counted]) -> dict[str, str | dict[str, str]]:
    """A table of texts in the language of the site; of those that change with a number all forms."""
    return {key: forms(text) if isinstance(text, Counted) else _(text) for key, text in table.items()}


def told(one: Words) -> dict[str, str]:
    """What a reason says to a customer, and how its numbers are written."""
    return {"unit": one.unit, "customer": _(one.customer)}


def words() -> dict[str, Any]:
    """Everything the page says with the same words as the build."""
    return {
        "reasons": {code: told(one) for code, one in WORDS.items()},
        "bifocal": {code: told(one) for code, one in BIFOCAL.items()},
        "sides": {eye: _(name).capitalize() for eye, name in SIDES.items()},  # they begin sentences
        "ways": said(WAYS),
        "places": said(PLACES),
        "lights": said(LIGHTS),
        "lines": said(LINE_TEXTS),
        "versions": said(VERSIONS),
        "estimates": said(ESTIMATES),
        "faults": said(FAULTS),
        "page": said(PAGE),
    }


def remedy_words() -> dict[str, Any]:
    """What would make it fit, in words."""
    return {
        "changes": {what: _(text) for what, text in REMEDIES.items()},
        "units": UNITS,
        "then": {verdict: then(verdict) for verdict in ("fits", "caution", "no")},
    }


def slip_script() -> str:
    """``data/slip-words.js``: what is said of a pasted slip, asked for with its reader."""
    return f"Object.assign(globalThis.bevelShop.words.page,{compact(said(SLIP))});\n"


def shop_data(catalog: Catalog) -> dict[str, Any]:
    """The shop's tables and words."""
    shop, prices = catalog.shop, catalog.price_list
    return {
        "name": shop.name,
        "email": shop.email,
        "currency": shop.currency,
        "money": asdict(amount_form(shop.currency, spoken().locale)),
        "decimal": spoken().decimal,
        "language": spoken().language.replace("_", "-"),
        "list": {"version": prices.version, "effective": prices.effective.isoformat()},
        "defaults": {
            "pd": shop.defaults.pd,
            "child_pd": shop.defaults.child_pd,
            "pupil_above_center": shop.defaults.pupil_above_center,
            "vertex": shop.defaults.vertex,
        },
        "months": shop.prescription_months,
        "usual_add": USUAL_ADD,
        "limits": limits_table(shop.limits),
        "options": options_table(NOTHING),
        "mountings": {
            name: {
                "text": mounting(name),
                "min_edge": one.min_edge,
                "edge_caution": one.edge_caution,
                "edge_no": one.edge_no,
            }
            for name, one in shop.mountings.items()
        },
        "surcharges": [{"text": one.text, "table": surcharge_table(one)} for one in prices.surcharges],
        "discounts": [discount_data(one) for one in prices.discounts],
        "regions": [{"id": one.id, "name": one.name, "table": region_table(one)} for one in prices.regions],
        "tax_included": prices.tax_included,
        "kinds": list(KINDS),
        "cautions": {word: sentences(shop, word) for word in ABOUT},
        "strong_plus": STRONG_PLUS_D,
        "packages": [package_data(one) for one in catalog.packages.values()],
        "words": words(),
    }


def size_data(size: Size) -> dict[str, Any]:
    """One size; an outline that was not traced is computed in the page, by the same kernel."""
    traced = {} if size.outline is None else {"xs": list(size.outline[0]), "ys": list(size.outline[1])}
    return traced | {
        "key": size.key,
        "label": decimals(size.label),
        "a": size.a,
        "b": size.b,
        "dbl": size.dbl,
        "ed": true_ed(size),
        "temple": size.temple,
        "weight": size.weight,
    }


def color_data(frame: Frame, color: Colorway) -> dict[str, Any]:
    """One colorway, with the one that is its other version where there is one; and its stock where told."""
    other = frame.other_version(color)
    data = {"id": color.id, "name": color.name, "version": color.version, "cents": color.price_cents}
    data |= {"front": color.front, "temples": color.temples}
    if other is not None:
        return {**data, "stock": color.stock, "other": other.id}
    return {**data, "stock": color.stock} if color.stock == "sold-out" else data


def frame_data(frame: Frame) -> dict[str, Any]:
    """What the engine needs to know of one frame."""
    return {
        "id": frame.id,
        "name": frame.name,
        "maker": frame.maker,
        "family": frame.family,
        "mounting": frame.mounting,
        "curve": frame.curve,
        "wrap": frame.wrap,
        "tilt": frame.tilt,
        "sizes": [size_data(size) for size in frame.sizes],
        "colors": [color_data(frame, color) for color in frame.colorways],
    }


def frame_block(frame: Frame) -> Markup:
    """The same as JSON that can stand in a page."""
    return Markup(compact(frame_data(frame)))  # compact leaves no character that could end the block


def fronts_script(frame: Frame, drawings: Mapping[str, str], paints: Mapping[str, Stops]) -> str:
    """``frames/ID/fronts.js``: the front of each size as SVG, by its key, and the colors of each colorway.

    A colorway whose sun lenses have a color of their own has the paint of them, too.
    """
    colors: dict[str, list[Any]] = {color.id: [color.front, color.temples] for color in frame.colorways}
    for name, stops in paints.items():
        colors[name] += [stops] if stops else []
    return f"globalThis.bevelFronts={compact({'sizes': dict(drawings), 'colors': colors})};\n"


def shop_script(catalog: Catalog) -> str:
    """``data/shop.js``: a script, since a page opened from disk may not fetch."""
    return f"globalThis.bevelShop={compact(shop_data(catalog))};\n"


def frames_script(catalog: Catalog) -> str:
    """``data/frames.js``: all frames, for the list that ranks them."""
    return f"globalThis.bevelFrames={compact([frame_data(frame) for frame in catalog.frames.values()])};\n"
