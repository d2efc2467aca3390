"""A tint as a quote keeps it: the recipe, and what the lens passes with it, worked out once for all that show it."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math

from quoting.catalog.model import Package
from quoting.catalog.shop import Catalog
from quoting.catalog.tints import USUAL_TEMPERATURE, Mix
from quoting.kernel.records import Filter
from quoting.light.glass import CLEAR, states
from quoting.light.told import seen
from quoting.quoted import records
from quoting.show.lens_paint import Stop, paint_of

# Whether one may drive behind it, as quoting/quoted/form.py has it
TOO_DARK, NO_COLOR, BY_DAY, ALWAYS = range(4)


def hundredths(value: float) -> int:
    """Percentages and shares of dyes as the form has them."""
    return math.floor(value * 100 + 0.5)  # as the page does


def tint_record(mix: Mix, catalog: Catalog) -> records.Tint:
    """The recipe, with the names that its dyes have."""
    dyes = catalog.tints.dyes
    return {
        "id": mix.id,
        "code": mix.code,
        "name": mix.name,
        "dyes": [{"id": id_, "name": dyes[id_].name, "share": hundredths(share)} for id_, share in mix.parts.items()],
        "top": hundredths(mix.top),
        "bottom": hundredths(mix.bottom) if mix.fades else None,
        "fade_from": round(mix.fade_from * 10000) if mix.fades else 0,
        "fade_to": round(mix.fade_to * 10000) if mix.fades else 10000,
    }


def mirror_record(mirror: str, catalog: Catalog) -> records.Mirror | None:
    """The mirror on the front; None for none."""
    return {"id": mirror, "name": catalog.tints.mirrors[mirror].name} if mirror else None


def passed_records(catalog: Catalog, package: Package, mix: Mix | None, mirror: str) -> list[records.Passed]:
    """What the lens passes: clear, and darkened at 23 °C where it darkens; of a gradient in three places."""
    if mix is None and not mirror:
        return []
    shown = [state for state in states(catalog, package) if state in (CLEAR, str(USUAL_TEMPERATURE))]
    found = []
    for state in shown:
        one, paint = seen(catalog, package, mix, mirror, state), paint_of(catalog, package, mix, mirror, state)
        fades = mix is not None and mix.fades
        places = zip(one.at, (paint[0], paint[len(paint) // 2], paint[-1]), strict=True)
        rows = [_passed(at, stop, state, catalog.shop.limits.driving_least) for at, stop in places]
        found += rows if fades else rows[1:2]
    return found


def _passed(at: Filter, paint: Stop, state: str, driving_least: float) -> records.Passed:
    never = TOO_DARK if at["percent"] <= driving_least else NO_COLOR
    return {
        "percent": hundredths(at["percent"]),
        "category": at["category"],
        "driving": (ALWAYS if at["night"] else BY_DAY) if at["day"] else never,
        "color": paint.color.removeprefix("#"),
        "opacity": hundredths(paint.opacity),
        "state": state,
    }
