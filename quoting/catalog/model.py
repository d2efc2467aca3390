"""What a shop keeps: frames, lens packages, and what they cost.

Lengths in millimeters, powers and curves in diopters, angles in degrees, density in g/cm³, money in cents,
rates in basis points (1/100 of a percent).  Boxes after ISO 8624, words after ISO 13666.
Every part remembers where it was written (``mark``), so that a later finding can point there.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from typing import Literal, get_args

from quoting.findings import Mark

Family = Literal["round", "oval", "panto", "rectangle", "square", "pilot", "cat-eye", "trapezoid"]
Mounting = Literal["full-rim-plastic", "full-rim-metal", "semi-rimless", "drilled"]
Kind = Literal["single-vision", "anti-fatigue", "progressive", "bifocal"]
Light = Literal["clear", "photochromic", "polarized"]
Version = Literal["optical", "sun"]
Stock = Literal["in-stock", "to-order", "sold-out"]
When = Literal["prism", "cylinder", "blank", "mounting", "wrap"]
On = Literal["frame", "lenses", "goods"]

FAMILIES: tuple[str, ...] = get_args(Family)
MOUNTINGS: tuple[str, ...] = get_args(Mounting)
KINDS: tuple[str, ...] = get_args(Kind)


@dataclass(frozen=True, slots=True)
class Material:
    id: str
    name: str
    index: float  # at the reference wavelength the maker states
    abbe: float
    density: float  # g/cm³
    min_center: float  # of a lens surfaced to order
    impact_resistant: bool
    drillable: bool
    tint_depth: int  # deepest tint it takes, percent absorption; 0: none
    mark: Mark = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Design:
    id: str
    name: str
    kind: Kind
    min_height: float  # least fitting (or segment) height above the lowest point of the box; 0: none
    min_above: float  # least distance from cross (or segment top) to the top of the box; 0: none
    boost: float  # anti-fatigue: the fixed plus low down, D; else 0
    segment_width: float  # bifocal: width of the segment; else 0
    conic: float  # k of the front surface, 0: a sphere
    base_from: float  # flattest nominal base curve (at 1.530) it is made on
    base_to: float  # steepest
    position_of_wear: bool  # made for the frame's tilt and wrap
    wrap: bool  # offered for wrap frames
    about: str  # one or two plain sentences for the customer
    mark: Mark = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class PowerRange:
    """Both principal powers must lie in low..high, the cylinder within its limit, the add in its range."""

    low: float
    high: float
    cylinder: float  # largest |cylinder|
    add_from: float  # 0 and 0 where the design has no add
    add_to: float
    diameter: float  # largest blank for these powers
    mark: Mark = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Step:
    """A value that holds for spheres (or strongest principal powers) from low to high, both included."""

    low: float
    high: float
    value: float
    mark: Mark = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class PriceBand:
    """What one lens costs when its strongest principal power lies in low..high."""

    low: float
    high: float
    lens_cents: int
    mark: Mark = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Package:
    id: str
    name: str
    maker: str
    design: Design
    material: Material
    light: Light
    coating: str  # in words, such as "hard coat and anti-reflective"
    finished: bool  # from a drawer of finished powers; else surfaced to order
    ranges: tuple[PowerRange, ...]
    curves: tuple[Step, ...]  # base curve chart by spherical equivalent; empty: Vogel's rule
    centers: tuple[Step, ...]  # finished lenses: center thickness by strongest principal power
    min_center: float  # surfaced lenses: the package's or the material's minimum
    prism: float  # most prescribed prism per eye
    prices: tuple[PriceBand, ...]
    about: str
    mark: Mark = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Size:
    """The box of one lens (ISO 8624) and what belongs to it."""

    a: float
    b: float
    dbl: float
    ed: float
    temple: float
    weight: float  # of the empty frame, g; 0: not known
    mark: Mark = field(compare=False, repr=False)

    @property
    def key(self) -> str:
        """``52-18``: unique within a frame, used in links and on the command line."""
        return f"{self.a:g}-{self.dbl:g}"

    @property
    def label(self) -> str:
        """As printed on temples: ``52□18 145``."""
        return f"{self.a:g}□{self.dbl:g} {self.temple:g}"


@dataclass(frozen=True, slots=True)
class Colorway:
    id: str
    name: str
    version: Version  # sun: sold with plano sun lenses; optical: with clear demo lenses
    price_cents: int
    front: str  # "#rrggbb", for the drawing
    temples: str
    stock: Stock
    mark: Mark = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Frame:
    id: str
    name: str
    maker: str
    family: Family
    mounting: Mounting
    material: str  # in words
    curve: float  # front curve of the frame, D nominal at 1.530
    wrap: float  # face-form angle
    tilt: float  # pantoscopic tilt
    sizes: tuple[Size, ...]
    colorways: tuple[Colorway, ...]
    about: str
    mark: Mark = field(compare=False, repr=False)


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


@dataclass(frozen=True, slots=True)
class Surcharge:
    id: str
    text: str
    when: When
    over: float  # for cylinder (D), blank (mm), wrap (degrees); else 0
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
class PriceList:
    version: str
    effective: date
    tax_included: bool  # prices already hold the tax
    surcharges: tuple[Surcharge, ...]
    discounts: tuple[Discount, ...]
    regions: tuple[Region, ...]  # the first is the usual one
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
    cautions: tuple[str, ...]
    mark: Mark = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Catalog:
    shop: Shop
    materials: dict[str, Material]
    designs: dict[str, Design]
    packages: dict[str, Package]
    frames: dict[str, Frame]
    price_list: PriceList
    marks: dict[str, Mark] = field(default_factory=dict, compare=False, repr=False)
