"""Sense of prices: of the bands of a lens, of lenses of one design, of colorways and frames that are alike."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from itertools import pairwise
from statistics import median_low

from quoting.catalog.model import Frame, Package, PriceBand
from quoting.catalog.shop import Catalog
from quoting.catalog.steps import power
from quoting.findings import Finding, Mark
from quoting.money import written

# A price so many times that of its like is a slipped decimal point rather than a better lens (practice)
APART, LIKE = 5, 3
SLIPPED = "see whether the decimal point is in its place"


def sense_of_prices(catalog: Catalog) -> Iterator[Finding]:
    """Everything that is odd about the prices of lenses and frames."""
    yield from sense_of_lens_prices(catalog)
    yield from sense_of_frame_prices(catalog)


def sense_of_lens_prices(catalog: Catalog) -> Iterator[Finding]:
    """Everything that is odd about the prices of lenses."""
    for package in catalog.packages.values():
        yield from _stronger_cheaper(package)
        yield from _bands_apart(package)
    yield from _lenses_apart(catalog)


def sense_of_frame_prices(catalog: Catalog) -> Iterator[Finding]:
    """Everything that is odd about the prices of frames."""
    yield from _frames_apart(catalog)
    for frame in catalog.frames.values():
        yield from _colorways_apart(frame)


def _warning(mark: Mark, code: str, message: str, hint: str = SLIPPED) -> Finding:
    return Finding(mark, code, message, hint, "warning")


def _stronger_cheaper(package: Package) -> Iterator[Finding]:
    """Outward from plano a lens does not get cheaper, where each power of the one band is beyond all of the other."""
    bands = package.prices
    start = min(range(len(bands)), key=lambda at: distance(bands[at]))
    for outward in (bands[start::-1], bands[start:]):
        for weaker, stronger in pairwise(outward):
            beyond = distance(stronger) > max(-weaker.low, weaker.high)
            dear = stronger.lens_cents < weaker.lens_cents and not apart(stronger.lens_cents, weaker.lens_cents)
            if beyond and dear:
                said = (
                    f"`{package.id}` costs less from {_powers(stronger)} ({written(stronger.lens_cents)}) "
                    f"than from {_powers(weaker)} ({written(weaker.lens_cents)}), though the lens is stronger"
                )
                hint = "see whether the two were exchanged"
                yield _warning(stronger.mark, "cheaper-though-stronger", said, hint)


def _bands_apart(package: Package) -> Iterator[Finding]:
    """Neighboring bands of which one costs many times the other: of the two, the one that stands out is told, once."""
    bands = package.prices
    pairs = [(at, at + 1) for at in range(len(bands) - 1) if apart(bands[at].lens_cents, bands[at + 1].lens_cents)]

    def standing_out(at: int) -> tuple[int, bool, float]:
        far = sum(at in pair for pair in pairs)
        return far, far == (at > 0) + (at < len(bands) - 1), distance(bands[at])

    told: dict[int, int] = {}
    for pair in pairs:
        odd = max(pair, key=standing_out)
        told.setdefault(odd, sum(pair) - odd)
    for odd, beside in told.items():
        band, other = bands[odd], bands[beside]
        said = (
            f"`{package.id}` costs {written(band.lens_cents)} from {_powers(band)} "
            f"and {written(other.lens_cents)} beside it, from {_powers(other)}"
        )
        yield _warning(band.mark, "price-apart", said)


def distance(band: PriceBand) -> float:
    """How far the powers of a band are from plano, D."""
    return max(band.low, -band.high, 0.0)


def _powers(band: PriceBand) -> str:
    return f"{power(band.low)} to {power(band.high)}"


def apart(one: int, other: int, times: int = APART) -> bool:
    """Whether one of two amounts is more than so many times the other."""
    return one > times * other or other > times * one


def _lenses_apart(catalog: Catalog) -> Iterator[Finding]:
    """Among packages of one design, one that costs many times more or less than the others do."""
    designs: dict[str, list[Package]] = defaultdict(list)
    for package in catalog.packages.values():
        designs[package.design.id].append(package)
    for design, packages in designs.items():
        bands = [min(package.prices, key=distance) for package in packages]
        for at, usual in _unlike([band.lens_cents for band in bands], LIKE):
            said = (
                f"`{packages[at].id}` costs {written(bands[at].lens_cents)} a lens where others of the design "
                f"`{design}` cost about {written(usual)}"
            )
            yield _warning(bands[at].mark, "price-apart", said)


def _colorways_apart(frame: Frame) -> Iterator[Finding]:
    """Among the colorways of one frame, one that costs many times more or less than the others do."""
    for at, usual in _unlike([one.price_cents for one in frame.colorways], 2):
        one = frame.colorways[at]
        others = f"the others about {written(usual)}" if len(frame.colorways) > 2 else f"the other {written(usual)}"
        said = f"the colorway `{one.id}` of `{frame.id}` costs {written(one.price_cents)}, {others}"
        yield _warning(one.mark, "price-apart", said)


def _frames_apart(catalog: Catalog) -> Iterator[Finding]:
    """Among the frames of one maker, one that costs many times more or less than the others do."""
    makers: dict[str, list[Frame]] = defaultdict(list)
    for frame in catalog.frames.values():
        makers[frame.maker].append(frame)
    for maker, frames in makers.items():
        amounts = [median_low(one.price_cents for one in frame.colorways) for frame in frames]
        for at, usual in _unlike(amounts, LIKE):
            said = f"`{frames[at].id}` costs {written(amounts[at])}, the frames of {maker} about {written(usual)}"
            yield _warning(frames[at].colorways[0].mark, "price-apart", said)


def _unlike(amounts: Sequence[int], least: int) -> Iterator[tuple[int, int]]:
    """Which amounts are far from the median of all, and that median; nothing where there are fewer than ``least``."""
    if len(amounts) < least:
        return
    usual = median_low(amounts)
    for at, cents in enumerate(amounts):
        if apart(cents, usual):
            yield at, usual
