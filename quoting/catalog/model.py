"""What a shop keeps: frames and lens packages.

Lengths in millimeters, powers and curves in diopters, angles in degrees, density in g/cm³, money in cents.
Every part remembers where it was written (``mark``), so that a later finding can point there.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal, get_args

from quoting.catalog.fastening import Groove, Hole
from quoting.findings import Mark

Family = Literal["round", "oval", "panto", "rectangle", "square", "pilot", "cat-eye", "trapezoid"]
Mounting = Literal["full-rim-plastic", "full-rim-metal", "semi-rimless", "drilled"]
Kind = Literal["single-vision", "anti-fatigue", "progressive", "bifocal"]
Light = Literal["clear", "photochromic", "polarized"]
Version = Literal["optical", "sun", "sun-only"]
Stock = Literal["in-stock", "to-order", "sold-out"]

# xs and ys of one lens in its nasal frame, about its box center, mm
Outline = tuple[tuple[float, ...], tuple[float, ...]]

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
    near_below: float = 0.0  # progressive: from the fitting cross down to the near reference point; 0: not stated
    segment_depth: float = 0.0  # bifocal: from the segment's top down to its lowest point; 0: not stated


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
    near: bool = False  # whether the near power (sphere and add or boost) has limits of its own
    near_from: float = 0.0
    near_to: float = 0.0


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
class Treatments:
    """What may be added to a package, and how much light it passes."""

    tint_over: bool = False  # a tint over a photochromic or polarized lens
    mirror: bool = False
    back_ar: bool = False  # the back is anti-reflective
    blue_filter: bool = False
    double_use: bool = False  # several of: photochromic or polarized, mirror, blue filter
    transmittance: float = 0.0  # percent of visible light that it passes, a photochromic when clear; 0: not stated
    darkened: float = 0.0  # photochromics: the same when dark; 0: not stated


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
    treatments: Treatments = Treatments()
    coat_depth: int = 100  # the deepest tint that may lie under its coat, percent of the light taken

    @property
    def tint_depth(self) -> int:
        """The deepest tint that both its material and its coat take."""
        return min(self.material.tint_depth, self.coat_depth)


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
    trace: str = ""  # the file in ``traces`` of the shop that its outline comes from; "": it is estimated
    outline: Outline | None = field(default=None, repr=False)  # of that trace
    holes: tuple[Hole, ...] = ()  # of a drilled frame; none: not stated

    @property
    def key(self) -> str:
        """``52-18``: unique within a frame, used in links and on the command line."""
        return f"{self.a:g}-{self.dbl:g}"

    @property
    def label(self) -> str:
        """As printed on temples: ``52□18 145``; with a decimal point, so people are shown ``decimals(label)``."""
        return f"{self.a:g}□{self.dbl:g} {self.temple:g}"


@dataclass(frozen=True, slots=True)
class Photo:
    """A photo of a frame or a colorway."""

    file: str  # in the folder ``photos`` of the shop, with / between parts
    alt: str  # what it shows, for who does not see it; "": the name of what it belongs to
    mark: Mark = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Wears:
    """What the sun lenses of a colorway are, for the drawing: ids of a mix, a package that they are like, a mirror."""

    tint: str = ""  # id of a mix; "": no dye
    lens: str = ""  # id of a package; "": that on which the tint book shows the mix
    mirror: str = ""
    state: str = ""  # of a photochromic lens: degrees Celsius at which it is dark; "": clear
    mark: Mark = field(default=Mark("", 1, 1), compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Colorway:
    id: str
    name: str
    version: Version  # optical: sold with clear demo lenses; sun: with plano sun lenses; sun-only: in no other way
    price_cents: int
    front: str  # "#rrggbb", for the drawing
    temples: str
    stock: Stock
    mark: Mark = field(compare=False, repr=False)
    photos: tuple[Photo, ...] = ()
    wears: Wears | None = None  # its sun lenses, where the owner says what they are

    @property
    def sun(self) -> bool:
        """Whether it is sold with plano sun lenses, which then come in the parcel beside the customer's own."""
        return self.version != "optical"


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
    photos: tuple[Photo, ...] = ()  # of no one colorway: a hinge, the frame as worn
    groove: Groove | None = None  # of a semi-rimless frame; None: not stated

    @property
    def to_be_had(self) -> tuple[Colorway, ...]:
        """The colorways that are not sold out, or all of them where each one is."""
        return tuple(one for one in self.colorways if one.stock != "sold-out") or self.colorways

    @property
    def shown_first(self) -> Colorway:
        """The colorway that stands for the frame: the first that is to be had."""
        return self.to_be_had[0]

    def other_version(self, colorway: Colorway) -> Colorway | None:
        """The same color as it is sold in the other version, sun for optical; None where it is not.

        Two colorways of one frame are one color where their names are the same, upper case or lower.
        """
        name = colorway.name.casefold()
        others = (one for one in self.colorways if one.sun != colorway.sun and one.name.casefold() == name)
        return next(others, None)
