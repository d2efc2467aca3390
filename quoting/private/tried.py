"""A raise that is only tried: the words and the rounding of ``prices raise``, and what it would make of each price."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from quoting.catalog.shop import Catalog
from quoting.keeping.raised import CENT, Rule, percent, picked, raised, rounding
from quoting.keeping.standing import Spot
from quoting.private.margins import Key


@dataclass(frozen=True, slots=True)
class Raise:
    """Which prices are raised and how, as it was typed, and what each becomes."""

    which: str
    change: str
    command: str  # what does it
    prices: Mapping[Key, int]  # those that change, cents


def prices_raised(catalog: Catalog, which: str, change: str, rounded: tuple[str, str] | None) -> dict[Key, int]:
    """The prices of a catalog that a raise would change, in cents.   Raises WordError (`quoting.keeping.raised`)."""
    rule = Rule(percent(change), rounding(*rounded) if rounded else CENT)
    return {one.spot.key: one.cents for one in raised(picked(spots(catalog), which, catalog), rule)}


def spots(catalog: Catalog) -> Iterator[Spot]:
    """The prices of a catalog; nothing is written, so they are marked where the package or colorway has its mark."""
    for package in catalog.packages.values():
        for band in package.prices:
            yield Spot(
                "lens", package.maker, package.id, "", package.name, band.low, band.high,
                band.lens_cents, Path(band.mark.file), band.mark, "", False,
            )  # fmt: skip
    for frame in catalog.frames.values():
        for color in frame.colorways:
            yield Spot(
                "frame", frame.maker, frame.id, color.id, frame.name, 0.0, 0.0,
                color.price_cents, Path(color.mark.file), color.mark, "", False,
            )  # fmt: skip
