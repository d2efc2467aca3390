"""The tint of an order: as it was quoted, or, of a depth alone, as the shop's tint book or its dyer has it."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.catalog.shop import Catalog
from quoting.catalog.tints import Mix
from quoting.dyeing import mix_kept, recipe_of
from quoting.light.glass import CLEAR
from quoting.orders.model import Changed, Tint
from quoting.quoted import records
from quoting.show.tint_lines import plain
from quoting.show.tints import recipe


def quoted_tint(quote: records.Quote, pair: records.Pair, code: str) -> Tint | None:
    """The mix and mirror of a quote; ``code`` is what the dyer calls it.  None where a depth alone was quoted, or none.

    How much light it lets through is that of the quote, where it is darkest while clear.
    """
    if pair["tint"] is None:
        return None
    kept = quote["tints"][pair["tint"]]
    mix, clear = mix_kept(kept), [one for one in pair["passed"] if one["state"] == CLEAR]
    darkest = min(clear, key=lambda one: one["percent"], default=None)
    parts = tuple(f"{plain(dye['share'])} {dye['name']}" for dye in kept["dyes"])
    return Tint(
        mix.deepest, mix.fades, code or mix.code, ", ".join(parts), mix.id, mix.name, mix.top, mix.bottom,
        mix.fade_from, mix.fade_to, pair["mirror"]["name"] if pair["mirror"] else "",
        darkest["percent"] / 100 if darkest else 0.0, darkest["category"] if darkest else -1,
        min((one["driving"] for one in pair["passed"]), default=-1),
    )  # fmt: skip


def book_tint(mix: Mix, catalog: Catalog, depth: float, gradient: bool) -> Tint:
    """A mix of the tint book for a depth that was quoted without one."""
    return Tint(depth, gradient, mix.code, recipe(catalog, mix), mix.id, mix.name)


def changed_book(quote: records.Quote, pair: records.Pair, catalog: Catalog) -> list[Changed]:
    """That the tint book has a mix otherwise today, or no more: it is dyed as it was quoted."""
    if pair["tint"] is None or not quote["tints"][pair["tint"]]["id"]:
        return []
    kept = mix_kept(quote["tints"][pair["tint"]])
    today = catalog.tints.mixes.get(kept.id)
    if today is not None and recipe_of(today) == recipe_of(kept):
        return []
    now = recipe(catalog, today) if today is not None else "not in it any more"
    return [Changed(f"{kept.name} in the tint book", "as quoted, and dyed like that", now)]
