"""What differs between two builds of a site, as values: for the text, for programs, for the page."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass


@dataclass(frozen=True, slots=True)
class Side:
    """One of the two builds."""

    name: str
    day: str
    price_list: str
    effective: str


@dataclass(frozen=True, slots=True)
class VerdictChange:
    """A package in a frame size, over neighboring bands that change alike."""

    frame: str
    size: str
    package: str
    low: float
    high: float
    before: str
    after: str


@dataclass(frozen=True, slots=True)
class PriceChange:
    """A price before and after, in cents; None where there is none."""

    kind: str  # lens (a pair), frame or combination
    id: str  # package, frame, or the page of the combination
    what: str  # the colorway, or the title of the combination; "" for a lens
    low: float | None  # the band of a lens
    high: float | None
    before: int | None
    after: int | None
    where: tuple[str, ...] = ()  # frame and size, for a lens

    @property
    def cents(self) -> int:
        """By how much; 0 where one of the two is missing."""
        return 0 if self.before is None or self.after is None else self.after - self.before

    @property
    def percent(self) -> float | None:
        """The same in percent; None where there is none."""
        return None if not self.before or self.after is None else (self.after - self.before) * 100 / self.before


@dataclass(frozen=True, slots=True)
class EdgeChange:
    """The thickest edge of a package in a frame size, where it changes most, in mm."""

    frame: str
    size: str
    package: str
    low: float
    high: float
    before: float
    after: float


@dataclass(frozen=True, slots=True)
class LeadChange:
    """An address without a page: where it led and where it will; None for nowhere."""

    page: str
    before: str | None
    after: str | None


@dataclass(frozen=True, slots=True)
class Changes:
    """Everything that differs.  What is in lists of prices and edges has the largest first."""

    before: Side
    after: Side
    currency: str
    locale: str
    pages_new: Sequence[str]
    pages_changed: Sequence[str]
    pages_gone: Mapping[str, str]  # page: where its links will lead
    leads: Sequence[LeadChange]  # of addresses that were no pages before either
    places_gone: Sequence[str]  # rows of boards that links pointed to, on pages that stand
    bands_new: Sequence[tuple[float, float]]
    bands_gone: Sequence[tuple[float, float]]
    verdicts: Sequence[VerdictChange]
    lens_prices: Sequence[PriceChange]
    frame_prices: Sequence[PriceChange]
    combinations: Sequence[PriceChange]
    edges: Sequence[EdgeChange]
    other_currency: str = ""  # that of the earlier build, where it differs; then no price is compared

    @property
    def none(self) -> bool:
        """Whether the two say the same."""
        pages = (self.pages_new, self.pages_changed, self.pages_gone, self.leads, self.places_gone)
        figures = (self.verdicts, self.lens_prices, self.frame_prices, self.combinations, self.edges)
        return not any((*pages, *figures, self.bands_new, self.bands_gone, self.other_currency))

    def as_dict(self) -> dict[str, object]:
        """For programs; its form is in DEVELOPERS.md."""
        found: dict[str, object] = asdict(self)
        for name in ("lens_prices", "frame_prices", "combinations"):
            prices: Sequence[PriceChange] = getattr(self, name)
            found[name] = [
                {**asdict(one), "cents": one.cents, "percent": None if one.percent is None else round(one.percent, 2)}
                for one in prices
            ]
        return found
