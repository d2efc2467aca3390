"""An issued quote as wishes again: the same frames, lenses, eyes and measurements, for today's prices."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from typing import Any

from quoting.catalog.in_language import in_language
from quoting.catalog.shop import Catalog
from quoting.choosing import UnknownError, choice_of, pick
from quoting.dyeing import in_book, mix_kept
from quoting.issuing import Wanted
from quoting.offers import Ask, Measures
from quoting.prescription.wishes import Wishes
from quoting.quoted import records
from quoting.show.recorded import prescription_of, size_key
from quoting.terms import Change


def wanted_again(quote: records.Quote, catalog: Catalog, plain: bool = False) -> list[list[Wanted]]:
    """What the quote was for, with what was changed for this customer unless ``plain``.

    Raises UnknownError where the shop has something of it no more.
    """
    return [[_pair(quote, pair, catalog, plain) for pair in pairs] for pairs in quote["alternatives"]]


def changed_lines(quote: records.Quote) -> list[records.Line]:
    """The lines that were changed for this customer."""
    every = (line for pairs in quote["alternatives"] for pair in pairs for line in pair["lines"])
    return [line for line in every if line["listed"] is not None]


def _change(line: records.Line, catalog: Catalog) -> Change:
    """The change of a line, by the name the line has in a bill.   Raises UnknownError for a surcharge that is gone."""
    key = line["key"].split()
    if key[0] != "surcharge":
        name = line["key"] if key[0] == "lens" else key[0]
        return Change(name, line["cents"], line["reason"])
    spoken = (in_language(catalog, tongue) for tongue in catalog.shop.languages or ("",))
    known = {one.text: one.id for words in (*spoken, catalog) for one in words.price_list.surcharges}
    if line["text"] not in known:
        raise UnknownError(f"the price list has no surcharge {line['text']!r} any more, which was changed in the quote")
    return Change(known[line["text"]], line["cents"], line["reason"])


def _pair(quote: records.Quote, pair: records.Pair, catalog: Catalog, plain: bool) -> Wanted:
    frame, lens = quote["frames"][pair["frame"]], quote["lenses"][pair["lens"]]
    package = pick("package", catalog.packages, lens["id"])
    choice = choice_of(catalog, frame["id"], size_key(frame), frame["color"], package)
    regions = [region.id for region in catalog.price_list.regions]
    if quote["region"] not in regions:
        raise UnknownError(f"the price list has no region {quote['region']!r} any more")
    known = {one.id for one in catalog.price_list.discounts}
    named = tuple(name for name in pair["discounts"] if name in known)
    rx = prescription_of(quote["prescriptions"][pair["prescription"]])
    mix = None if pair["tint"] is None else in_book(mix_kept(quote["tints"][pair["tint"]]), catalog)
    mirror = pair["mirror"]["id"] if pair["mirror"] is not None else ""
    ask = Ask(rx, _measures(pair["measures"]), quote["region"], named, _wishes(pair["wishes"]), mix, mirror)
    changed = [line for line in pair["lines"] if line["listed"] is not None and not plain]
    return Wanted(choice, ask, tuple(_change(line, catalog) for line in changed))


def _measures(given: records.Measures) -> Measures:
    right, left, tilt, wrap = (
        None if value is None else value / 100
        for value in (given["height_right"], given["height_left"], given["tilt"], given["wrap"])
    )
    return Measures(right, left, tilt, wrap, bool(given["child"]))


def _wishes(wishes: records.Wishes) -> Wishes:
    others: dict[str, Any] = {name: True for name in wishes["others"] if name in Wishes.__slots__}
    return Wishes(tint_depth=wishes["tint_depth"] / 100, **others)
