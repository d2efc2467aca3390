"""What of a shop could be read, where some of it could not: so that what is odd about the rest is told at once, too."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from dataclasses import dataclass
from typing import cast

from quoting.catalog.model import Frame
from quoting.catalog.read_languages import FOLDER as LANGUAGES
from quoting.catalog.read_packages import Tables
from quoting.catalog.shop import Catalog, PriceList, Said, Shop
from quoting.catalog.table import Table
from quoting.catalog.tints import TintBook

# The kinds, by the names of their files
SHOP, FRAMES, LENSES, PRICES, SAID, TINTS = "shop", "frames", "lenses", "prices", LANGUAGES, "tints"
ALL = frozenset({SHOP, FRAMES, LENSES, PRICES, SAID, TINTS})


@dataclass(frozen=True, slots=True, eq=False)
class Sound:
    """The parts without a fault, and which kinds of them are whole: no file of that kind has an error.

    Of ``catalog`` nobody may ask for the shop or for price lists where these are not whole: they are not there.
    """

    catalog: Catalog  # prices as they stand beside packages and colorways
    whole: frozenset[str]
    photographed: tuple[Frame, ...]  # all frames, those with a fault too: their photos can be looked at


def sound_of(
    shop: Shop | None,
    frames: Table[Frame],
    tables: Tables,
    prices: tuple[tuple[PriceList, ...], bool],
    said: tuple[Said, ...],
    tints: TintBook,
    whole: frozenset[str],
) -> Sound:
    """What was read; ``prices`` are lists, and whether all there are could be made: one may name what is faulty."""
    lists, all_lists = prices
    made = tables.materials.made, tables.designs.made, tables.packages.made, frames.made
    there = whole - ({SHOP} if shop is None else set()) - (set() if lists and all_lists else {PRICES})
    first = cast(PriceList, lists[0] if lists else None)
    return Sound(Catalog(cast(Shop, shop), *made, first, lists, (), (), said, tints), there, tuple(frames.read))
