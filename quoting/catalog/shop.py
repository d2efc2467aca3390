"""The shop itself, its price list, and the catalog that holds everything.

Lengths in millimeters, powers in diopters, money in cents, rates in basis points (1/100 of a percent).
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from typing import Literal, get_args

from quoting.catalog.model import Design, Frame, Material, Mounting, Package, PriceBand
from quoting.catalog.tints import NO_TINTS, TintBook
from quoting.findings import Mark
from quoting.kernel.rules import IMBALANCE, READING_DROP_MM

When = Literal["prism", "cylinder", "blank", "mounting", "wrap", "power", "tint", "mirror", "slab-off", "rush"]
On = Literal["frame", "lenses", "goods"]
# What a caution can be about: every quote, what a lens is, or what its wearer needs of it
About = Literal[
    "quote",
    "anti-fatigue",
    "progressive",
    "bifocal",
    "photochromic",
    "polarized",
    "tinted",
    "strong-plus",
    "not-impact-resistant",
    "impact-resistant",
]
ABOUT: tuple[About, ...] = get_args(About)


@dataclass(frozen=True, slots=True)
class MountingLimits:
    min_edge: float  # thinnest edge the mounting can hold
    edge_caution: float  # from this thickest edge on: caution
    edge_no: float  # from this thickest edge on: no
    rim: float  # width of the rim in the drawing
    mark: Mark = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Limits:
    """The shop's own limits, where trade practice leaves a choice."""

    edging_allowance: float
    curve_difference: float  # lens curve against frame curve
    wrap_angle: float  # from here on a frame counts as a wrap
    wrap_curve: float
    pow_tilt: float  # designs not made for the position of wear: caution above this tilt
    pow_wrap: float
    # (practice) beyond twice the difference that is accepted, a lens does not hold in the rim
    curve_factor: float = 2.0
    # (practice) from this add on, an anti-fatigue boost is too little
    boost_add: float = 1.25
    reading_drop: float = READING_DROP_MM
    reading_imbalance: float = IMBALANCE
    # (practice, from memory) most people stand up to about 3 percent of difference in image size without complaint
    image_difference: float = 3.0
    # (practice) a gradient tint needs this lens height to fade over
    gradient_height: float = 28.0
    # ISO 12312-1, filter categories: at 8 percent and below (category 4) not for driving; below 75 percent not at night
    driving_least: float = 8.0
    night_least: float = 75.0


@dataclass(frozen=True, slots=True)
class Defaults:
    """What stands in for measurements until they are taken; every use of one is said."""

    pd: float
    child_pd: float
    pupil_above_center: float  # above the box center
    vertex: float
    working_distance: float  # for near PD


@dataclass(frozen=True, slots=True)
class Band:
    """A column of the lens board: strongest principal powers from low to high."""

    low: float
    high: float
    mark: Mark = field(compare=False, repr=False)

    @property
    def strongest(self) -> float:
        """The end farther from zero; the minus end where both are as far."""
        return self.low if abs(self.low) >= abs(self.high) else self.high

    @property
    def other(self) -> float:
        """The other end."""
        return self.high if self.strongest == self.low else self.low


@dataclass(frozen=True, slots=True)
class Surcharge:
    id: str
    text: str
    when: When
    over: float  # for cylinder and power (D), blank (mm), wrap (degrees), tint (percent); else 0
    mounting: str  # for when == "mounting"; else ""
    per: Literal["lens", "pair"]
    cents: int
    mark: Mark = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Discount:
    id: str
    text: str
    on: On
    basis_points: int  # one of the two is 0
    cents: int
    starts: date | None
    ends: date | None
    asked: bool  # only for who names it; else it applies by itself
    combinable: bool
    mark: Mark = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Region:
    id: str
    name: str
    shipping_cents: int
    free_from_cents: int  # goods at or above this ship free; 0: never
    tax_frame: int  # basis points
    tax_lenses: int
    tax_shipping: int
    mark: Mark = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class LensPrices:
    """What a price list says of one package: its bands anew, or by how much they change."""

    package: str
    bands: tuple[PriceBand, ...]  # empty where basis_points count
    basis_points: int
    mark: Mark = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class FramePrices:
    """What a price list says of one frame: prices of colorways, or by how much all of them change."""

    frame: str
    colorways: dict[str, int]  # id: cents; empty where basis_points count
    basis_points: int
    mark: Mark = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class PriceList:
    version: str
    effective: date
    tax_included: bool  # prices already hold the tax
    surcharges: tuple[Surcharge, ...]
    discounts: tuple[Discount, ...]
    regions: tuple[Region, ...]  # the first is the usual one
    mark: Mark = field(compare=False, repr=False)  # of the day it is effective from
    lenses: tuple[LensPrices, ...] = ()  # from that day on instead of what stood before
    frames: tuple[FramePrices, ...] = ()


@dataclass(frozen=True, slots=True)
class Redirect:
    """A page that moved.  Both are files of the site, such as ``frames/kestrel/index.html``."""

    old: str
    new: str
    written: str  # the old place as the owner wrote it
    mark: Mark = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class QuoteKey:
    """A public key by which quotes of this shop are known (Ed25519)."""

    id: str  # the first eight hexadecimal digits of its SHA-256
    public: bytes
    since: date
    retired: date | None  # from the day after on it signs nothing; what it signed before still counts
    recalled: bool  # it came into other hands: nothing it signed counts
    mark: Mark = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Shop:
    name: str
    tagline: str
    address: tuple[str, ...]
    email: str
    phone: str
    currency: str  # ISO 4217
    locale: str  # such as en_US
    quote_days: int
    prescription_months: int
    url: str  # where the site will stand; "" where not known (feeds and sitemap then use relative links)
    mountings: dict[Mounting, MountingLimits]
    limits: Limits
    defaults: Defaults
    bands: tuple[Band, ...]
    cautions: tuple[str, ...]  # said on every page with a price
    mark: Mark = field(compare=False, repr=False)
    redirects: tuple[Redirect, ...] = ()
    languages: tuple[str, ...] = ()  # of the site, the first at its top; empty: that of the locale alone
    cautions_for: dict[About, tuple[str, ...]] = field(default_factory=dict)  # said only beside what they are about
    standard: str = "ansi"  # by which finished lenses are verified: ansi or iso


@dataclass(frozen=True, slots=True)
class Said:
    """A text of the owner's files in the words of another language."""

    language: str
    text: str
    say: str
    mark: Mark = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Catalog:
    shop: Shop
    materials: dict[str, Material]
    designs: dict[str, Design]
    packages: dict[str, Package]
    frames: dict[str, Frame]
    price_list: PriceList  # the one in force
    price_lists: tuple[PriceList, ...] = ()  # all there are, in order of their days
    keys: tuple[QuoteKey, ...] = ()  # the newest first
    withdrawn: tuple[str, ...] = ()  # SHA-256 of the numbers of quotes that were called back
    said: tuple[Said, ...] = ()  # the owner's texts in other languages
    tints: TintBook = NO_TINTS
