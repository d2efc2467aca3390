"""Prices in time: which list is in force on a day, and what frames and lenses cost on it.

A price stands beside its package or colorway.  A list may hold another for it; that one counts from the list's day on,
under later lists as well, until one of them says something else.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from quoting.catalog.model import Frame, Package
from quoting.catalog.shop import Catalog, FramePrices, LensPrices, PriceList


def in_force(lists: Sequence[PriceList], day: date) -> PriceList:
    """The latest list that holds on the day; before all of them the earliest.  ``lists`` are in order of their days."""
    return next((one for one in reversed(lists) if one.effective <= day), lists[0])


def until(lists: Sequence[PriceList], day: date) -> tuple[PriceList, ...]:
    """The list in force and all before it."""
    return tuple(lists[: lists.index(in_force(lists, day)) + 1])


def as_on(written: Catalog, day: date) -> Catalog:
    """The catalog with the prices of a day, made from one with prices as they stand beside packages and colorways."""
    packages, frames = dict(written.packages), dict(written.frames)
    lists = written.price_lists or (written.price_list,)
    for prices in until(lists, day):
        for lens in prices.lenses:
            packages[lens.package] = lens_priced(packages[lens.package], lens)
        for frame in prices.frames:
            frames[frame.frame] = frame_priced(frames[frame.frame], frame)
    return replace(written, packages=packages, frames=frames, price_list=in_force(lists, day))


def changed(cents: int, basis_points: int) -> int:
    """An amount raised (or lowered) by basis points, half a cent up.

    >>> changed(2400, 400), changed(2450, 50), changed(2450, -50)
    (2496, 2462, 2438)
    """
    return (cents * (10_000 + basis_points) + 5_000) // 10_000


def lens_priced(package: Package, prices: LensPrices) -> Package:
    """A package at the prices of a list."""
    raised = tuple(replace(band, lens_cents=changed(band.lens_cents, prices.basis_points)) for band in package.prices)
    return replace(package, prices=prices.bands or raised)


def frame_priced(frame: Frame, prices: FramePrices) -> Frame:
    """A frame at the prices of a list; colorways it does not name keep theirs."""
    colorways = tuple(
        replace(one, price_cents=prices.colorways.get(one.id, changed(one.price_cents, prices.basis_points)))
        for one in frame.colorways
    )
    return replace(frame, colorways=colorways)
