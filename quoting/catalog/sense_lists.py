"""Sense of price lists in time: of their order, and of what those say that do not hold yet."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from datetime import date
from itertools import pairwise

from quoting.catalog.in_time import as_on, frame_priced, lens_priced
from quoting.catalog.sense_prices import apart
from quoting.catalog.shop import Catalog, PriceList
from quoting.findings import Finding, Mark
from quoting.money import written

# A price that more than doubles or halves from one list to the next is a slip rather than a rise (practice)
AT_ONCE = 2
FIGURES = re.compile(r"([0-9]+)")
FAR_DAYS = 2 * 366  # nobody announces prices longer before (practice): the year is mistyped
Check = Callable[[Catalog], Iterable[Finding]]


def sense_of_lists(catalog: Catalog, day: date, checks: Sequence[Check]) -> Iterator[Finding]:
    """What is odd about the order of the lists, and about each that begins after the day.

    ``catalog`` has the prices of the day; ``checks`` are those of prices, run again for the day of each later list.
    """
    lists = catalog.price_lists
    yield from _crossed(lists)
    known = {(one.mark, one.code) for check in checks for one in check(catalog)}
    for prices in lists:
        if prices.effective > day and prices is not catalog.price_list:
            yield from _far_off(prices, day)
            yield from _jumps(catalog, prices)
            catalog = _with(catalog, prices)
            for one in (one for check in checks for one in check(catalog)):
                if (one.mark, one.code) not in known:
                    known.add((one.mark, one.code))
                    yield replace(one, message=f"{one.message} (from {prices.effective} on)")


def _with(catalog: Catalog, prices: PriceList) -> Catalog:
    """The catalog once a later list holds, too."""
    return as_on(replace(catalog, price_list=prices, price_lists=(prices,)), prices.effective)


def _crossed(lists: Sequence[PriceList]) -> Iterator[Finding]:
    """Of two lists in order of their days the later one has the later version, where versions are numbers or days."""
    for first, then in pairwise(lists):
        parts = FIGURES.split(first.version), FIGURES.split(then.version)
        alike = len(parts[0]) == len(parts[1]) and parts[0][::2] == parts[1][::2]
        if alike and [int(one) for one in parts[0][1::2]] > [int(one) for one in parts[1][1::2]]:
            said = (
                f"the price list {first.version} holds from {first.effective} on, so {then.version} takes its place "
                f"on {then.effective}, though its version is the later one"
            )
            hint = "correct `effective` or `version`: of all lists that began, the one with the latest day counts"
            yield Finding(first.mark, "lists-crossed", said, hint, "warning")


def _far_off(prices: PriceList, day: date) -> Iterator[Finding]:
    if (prices.effective - day).days > FAR_DAYS:
        said = f"the price list {prices.version} holds from {prices.effective} on, more than two years from {day}"
        yield Finding(prices.mark, "list-far-off", said, "see whether the year is right", "warning")


def _jumps(catalog: Catalog, prices: PriceList) -> Iterator[Finding]:
    """Prices that a list more than doubles or halves."""
    for lens in prices.lenses:
        before = catalog.packages[lens.package]
        for band in lens_priced(before, lens).prices:
            old = next((one.lens_cents for one in before.prices if one.low <= band.low <= one.high), band.lens_cents)
            yield from _jump(f"`{lens.package}`", old, band.lens_cents, band.mark if lens.bands else lens.mark, prices)
    for said in prices.frames:
        frame = catalog.frames[said.frame]
        for one, new in zip(frame.colorways, frame_priced(frame, said).colorways, strict=True):
            yield from _jump(f"`{frame.id}` in `{one.id}`", one.price_cents, new.price_cents, said.mark, prices)


def _jump(what: str, old: int, new: int, mark: Mark, prices: PriceList) -> Iterator[Finding]:
    if apart(old, new, AT_ONCE):
        said = f"{what} costs {written(new)} from {prices.effective} on, and {written(old)} before"
        yield Finding(mark, "price-jump", said, "see whether the decimal point is in its place", "warning")
