"""The kernel's tables of frames and of a price list, made once and held while a board asks for them again and again.

A build goes frame by frame: what belongs to one is held for a few, so that memory does not grow with the shop.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from datetime import date

from quoting.catalog.model import Frame, Size
from quoting.catalog.shop import Catalog, Region
from quoting.kernel import records
from quoting.remembered import digest
from quoting.tables import frame_table, front_key, money_table

MOST = 32


class Held:
    """Tables of one catalog on one day.  They are shared: nobody may change what is in them."""

    def __init__(self, catalog: Catalog, day: date) -> None:
        self.catalog = catalog
        self.day = day
        # Each holds what its key names by id, so that no id is given twice
        self._names: dict[tuple[int, int], tuple[Frame, Size, str]] = {}
        self._frames: dict[tuple[int, int], tuple[Frame, Size, records.Frame]] = {}
        self._moneys: dict[tuple[int, int, tuple[str, ...]], tuple[Region, records.Money]] = {}

    def name(self, frame: Frame, size: Size) -> str:
        """One name for all frames that are alike to the kernel, whatever their own names and colorways."""
        key = (id(frame), id(size))
        if key not in self._names:
            table = frame_table(self.catalog.shop, frame, size, drawn=False)
            self._names[key] = frame, size, digest(front_key(table, frame.family))
        return self._names[key][2]

    def frame(self, frame: Frame, size: Size) -> records.Frame:
        """One size of a frame."""
        key = (id(frame), id(size))
        if key not in self._frames:
            if len(self._frames) >= MOST:
                self._frames.clear()
            self._frames[key] = frame, size, frame_table(self.catalog.shop, frame, size)
        return self._frames[key][2]

    def money(self, frame_cents: int, region: Region, discounts: tuple[str, ...]) -> records.Money:
        """What a quote for a frame at this price is priced by."""
        key = (frame_cents, id(region), discounts)
        if key not in self._moneys:
            if len(self._moneys) >= MOST:
                self._moneys.clear()
            table = money_table(self.catalog.price_list, frame_cents, region, self.day, discounts)
            self._moneys[key] = region, table
        return self._moneys[key][1]
