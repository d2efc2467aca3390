"""The tint that somebody asked for: a mix of the tint book, or a recipe as pages write it into addresses.

A recipe is written ``brown~2+rose~1,75``: dyes with their parts, and the light in percent that they take; of one that
fades then also the light taken at the bottom, and where the fade begins and ends in percent of the height:
``brown~2,75,10,20,80``.  The page reads and writes the same in ``theme/static/js/tinge.js``.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
from dataclasses import replace

from quoting.catalog.shop import Catalog
from quoting.catalog.tints import Mix
from quoting.choosing import UnknownError, number, pick
from quoting.findings import Mark
from quoting.offers import Ask
from quoting.quoted import records

TYPED = Mark("", 1, 1)
RECIPE = re.compile(r"[a-z0-9-]+~[0-9.]+(?:\+[a-z0-9-]+~[0-9.]+)*(?:,[0-9.]+){1,4}")
# A tint that is said by the light it takes alone
DEPTH = re.compile(r"[-+]?[0-9][0-9.,]*(?: |$)")
WRITTEN = "write a recipe such as brown~2+rose~1,75, or brown~2,75,10,20,80 where it fades"
# The most that a dye takes, percent; a part has two decimals, as a quote keeps it
MOST = 99.0
LARGEST_PART = 1000.0
# As many dyes as a quote has room for, see quoting/quoted/form.py
MOST_DYES = 6


def mix_typed(catalog: Catalog, text: str) -> Mix:
    """The mix of that id, order code or name, or one that is mixed by a recipe.   Raises UnknownError.

    One that was mixed has no id, no code and no name.
    """
    folded = " ".join(text.split()).casefold()
    mixes = catalog.tints.mixes
    if (named := _named(catalog, text)) is not None:
        return named
    if "~" in folded:
        return _mixed(catalog, folded)
    if not mixes:
        raise UnknownError(f"there is no mix {text!r}: this shop has no tint book (tints.yaml)")
    return pick("mix", mixes, text.strip())


def _named(catalog: Catalog, text: str) -> Mix | None:
    folded = " ".join(text.split()).casefold()
    by = ({one.id.casefold(), one.code.casefold(), one.name.casefold()} for one in catalog.tints.mixes.values())
    return next((one for one, names in zip(catalog.tints.mixes.values(), by, strict=True) if folded in names), None)


def _mixed(catalog: Catalog, text: str) -> Mix:
    if not RECIPE.fullmatch(text):
        raise UnknownError(f"{text!r} is no recipe: {WRITTEN}")
    recipe, *numbers = text.split(",")
    parts: dict[str, float] = {}
    for piece in recipe.split("+"):
        name, _, share = piece.partition("~")
        dye = pick("dye", catalog.tints.dyes, name)
        parts[dye.id] = round(parts.get(dye.id, 0.0) + _number(share, text), 2)
    ends = [_number(one, text) for one in numbers]
    top, bottom, first, last = ends if len(ends) == 4 else (ends[0], ends[0], 0.0, 100.0)
    if (
        len(ends) not in (1, 4)
        or len(parts) > MOST_DYES
        or not all(0 < share <= LARGEST_PART for share in parts.values())
        or not 0 < max(top, bottom) <= MOST
        or not 0 <= first < last <= 100
    ):
        raise UnknownError(f"{text!r} is no recipe that can be mixed: {WRITTEN}")
    return Mix("", "", "", parts, top, bottom, first / 100, last / 100, "", TYPED)


def _number(written: str, text: str) -> float:
    try:
        return round(float(written), 2)
    except ValueError as fault:
        raise UnknownError(f"{text!r} is no recipe: {WRITTEN}") from fault


def mix_kept(tint: records.Tint) -> Mix:
    """The mix of a quote as it was issued, whatever the tint book says today."""
    bottom = tint["top"] if tint["bottom"] is None else tint["bottom"]
    return Mix(
        tint["id"],
        tint["name"],
        tint["code"],
        {dye["id"]: dye["share"] / 100 for dye in tint["dyes"]},
        tint["top"] / 100,
        bottom / 100,
        tint["fade_from"] / 10000,
        tint["fade_to"] / 10000,
        "",
        TYPED,
    )


def tinted(ask: Ask, catalog: Catalog, text: str) -> Ask:
    """The same with a tint: a mix, or its depth alone such as ``80`` or ``80 gradient``; "" for none.

    Raises UnknownError.
    """
    text = text.strip()
    if DEPTH.match(text) and (same := _named(catalog, text)) is not None:
        said = f"tint: {text!r} is a depth and the mix {same.name} of the tint book"
        raise UnknownError(f"{said}: write the name of the mix, or {text}.0 for the depth")
    if text and not DEPTH.match(text):
        mix = mix_typed(catalog, text)
        return replace(ask, mix=mix, wishes=replace(ask.wishes, tint_depth=mix.deepest, tint_gradient=mix.fades))
    deep, _, fading = text.partition(" ")
    if fading not in ("", "gradient"):
        raise UnknownError(f"tint: write 80, or {deep} gradient; not {text!r}")
    depth = number(deep, "tint", 0, 100) if deep else 0.0
    return replace(ask, mix=None, wishes=replace(ask.wishes, tint_depth=depth, tint_gradient=bool(fading)))


def in_book(mix: Mix | None, catalog: Catalog) -> Mix | None:
    """The mix in the words of this catalog where its book has just that one, else as it is."""
    if mix is None or mix.id not in catalog.tints.mixes:
        return mix
    today = catalog.tints.mixes[mix.id]
    return today if recipe_of(today) == recipe_of(mix) else mix


def recipe_of(mix: Mix) -> tuple[object, ...]:
    """All that makes a mix what it is: its code and what is in it."""
    fade = (mix.bottom, mix.fade_from, mix.fade_to) if mix.fades else ()
    return mix.code, tuple(mix.parts.items()), mix.top, *fade


def without(mix: Mix, catalog: Catalog) -> list[str]:
    """The dyes of a mix that the shop has no more."""
    return [name for name in mix.parts if name not in catalog.tints.dyes]
