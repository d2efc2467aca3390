"""Frame × package × band or prescription, and what comes of it: the one door of the engine.

Everything that shows a verdict, a thickness or a price (site, command line, links, sheets) asks here.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from quoting.band import band_prescription
from quoting.catalog.model import Colorway, Frame, Package, Size
from quoting.catalog.shop import Band, Catalog, Region
from quoting.catalog.tints import Mix
from quoting.fitted import Fitted
from quoting.ground import Ground
from quoting.held import Held
from quoting.kernel import quote, records
from quoting.kernel.price import bill
from quoting.kernel.ranges import ranges_that_fit
from quoting.prescription.halves import monocular
from quoting.prescription.model import Prescription
from quoting.prescription.wishes import NOTHING, Wishes
from quoting.remembered import Memory, digest, make_room
from quoting.tables import eye_table, front_key, limits_table, options_table, package_table
from quoting.terms import Pricing


@dataclass(frozen=True, slots=True)
class Measures:
    """What was measured on the customer; None where nobody did.  Pupil heights above the lowest point of the box."""

    height_right: float | None = None
    height_left: float | None = None
    tilt: float | None = None  # as worn; else the frame's own
    wrap: float | None = None
    child: bool = False


@dataclass(frozen=True, slots=True)
class Choice:
    """One thing a customer can point at."""

    frame: Frame
    size: Size
    colorway: Colorway
    package: Package


@dataclass(frozen=True, slots=True)
class Offer:
    """The engine's answer to one choice."""

    choice: Choice
    fit: records.Fit
    bill: records.Bill
    estimated: tuple[str, ...]  # which of "pd", "height", "outline" were not measured
    has_right: bool
    has_left: bool

    @property
    def lenses_cents(self) -> int:
        """The lenses alone, surcharges included; 0 where they have no price."""
        return sum(line["cents"] for line in self.bill["lines"] if line["kind"] == "lenses")

    @property
    def weight(self) -> float:
        """Weight of the lenses in g, both where there are two."""
        return sum(lens["weight"] for lens in self.lenses())

    @property
    def thickest(self) -> float:
        """The thickest edge of all, mm."""
        return max((lens["edge_max"] for lens in self.lenses()), default=0.0)

    def not_given(self, ask: Ask) -> list[str]:
        """The discounts that were named and are not in the bill; none where there is no bill."""
        given = {line["id"] for line in self.bill["lines"] if line["code"] == "discount"}
        return [name for name in ask.discounts if name not in given] if self.bill["priced"] else []

    def lenses(self) -> list[records.Lens]:
        """The lenses that are made, right before left."""
        sides = ((self.has_right, self.fit["right"]), (self.has_left, self.fit["left"]))
        return [lens for wanted, lens in sides if wanted]


@dataclass(frozen=True, slots=True)
class Ask:
    """What one customer brings: prescription, measurements, where the parcel goes, discounts named, other wishes."""

    rx: Prescription
    measures: Measures = Measures()
    region: str = ""  # "" means the shop's usual one
    discounts: tuple[str, ...] = ()
    wishes: Wishes = NOTHING
    mix: Mix | None = None  # what the tint of the wishes is mixed of, where that is said
    mirror: str = ""  # which of the shop's mirrors that of the wishes is


class Offers:
    """The engine over one catalog on one day.  Lens computations are kept by what they depend on."""

    def __init__(self, catalog: Catalog, day: date, memory: Memory | None = None) -> None:
        self.catalog = catalog
        self.day = day
        self.memory = memory or Memory(None)
        self._limits = limits_table(catalog.shop.limits)
        self._packages = {package.id: package_table(package) for package in catalog.packages.values()}
        self._made = {
            name: digest((self._limits, {part: value for part, value in table.items() if part != "prices"}))
            for name, table in self._packages.items()
        }  # all that a fit depends on; no price
        self._fits: dict[tuple[object, ...], records.Fit] = {}
        self._fitted = Fitted(self.memory, self._made.values(), catalog.shop.defaults)
        self._held = Held(catalog, day)
        self._ground = Ground()
        self._asked: tuple[Choice, float, tuple[records.Job, tuple[str, ...]]] | None = None

    def offer(self, choice: Choice, ask: Ask, pricing: Pricing = bill) -> Offer:
        """One choice for one customer; ``pricing`` where more counts than the price list."""
        job, estimated = self.job(choice, ask)
        fitted = self._fit(job, choice)
        priced = pricing(job, fitted["right"], fitted["left"])
        return Offer(choice, fitted, priced, estimated, job["has_right"], job["has_left"])

    def fitting(self, frame: Frame, size: Size, colorway: Colorway, ask: Ask) -> list[Offer]:
        """Every package in this frame for this customer, in the order of the catalog."""
        return [self.offer(Choice(frame, size, colorway, package), ask) for package in self.catalog.packages.values()]

    def range(self, choice: Choice, ask: Ask) -> list[records.Span]:
        """The spheres over which the package fits, then those with a caution; all else of the customer as it is."""
        return ranges_that_fit(self.job(choice, ask)[0])

    def cell(self, choice: Choice, band: Band) -> Offer:
        """A cell of the lens board: both eyes at the band's strongest power, with the shop's default measurements."""
        return self.at(choice, band.strongest)

    def at(self, choice: Choice, power: float) -> Offer:
        """The same at any power of a band, D."""
        job, estimated = self._band_job(choice, power)
        fitted = self.fit_at(choice, power)
        priced = bill(job, fitted["right"], fitted["left"])
        return Offer(choice, fitted, priced, estimated, job["has_right"], job["has_left"])

    def fit_at(self, choice: Choice, power: float) -> records.Fit:
        """What is fitted there, whatever it costs: the answer of an earlier build, or of a package that is alike."""
        front, package = self.front(choice.frame, choice.size), self._made[choice.package.id]

        def work_out() -> records.Fit:
            return self._ground.fit(self._band_job(choice, power)[0], front, package)

        return self._fitted.get(front, package, power, work_out)

    def _band_job(self, choice: Choice, power: float) -> tuple[records.Job, tuple[str, ...]]:
        """The question of a cell: it is asked for its lenses and then for its price."""
        if self._asked is None or self._asked[0] is not choice or self._asked[1] != power:
            self._asked = choice, power, self.job(choice, Ask(band_prescription(choice.package, power)))
        return self._asked[2]

    def front(self, frame: Frame, size: Size) -> str:
        """One name for all frames that are alike to the kernel."""
        return self._held.name(frame, size)

    def money(self, colorway: Colorway) -> records.Money:
        """What the boards of a frame are priced by in a colorway.  It is shared: nobody may change it."""
        return self._held.money(colorway.price_cents, self.region(""), ())

    def pass_on(self, frame: Frame, size: Size) -> None:
        """Keep what is known of a front for the next build, though nothing was asked of it."""
        self._fitted.pass_on(self.front(frame, size))

    def keep(self) -> None:
        """Write down what the boards asked, for the next build."""
        self._fitted.keep()

    def region(self, wanted: str) -> Region:
        """The region of that id, or the usual one for "".   Raises KeyError for an unknown id."""
        regions = {region.id: region for region in self.catalog.price_list.regions}
        return regions[wanted or next(iter(regions))]

    def job(self, choice: Choice, ask: Ask) -> tuple[records.Job, tuple[str, ...]]:
        """The question that the kernel is asked, and what of it was not measured."""
        rx, frame = ask.rx, self._held.frame(choice.frame, choice.size).copy()
        frame["tilt"] = frame["tilt"] if ask.measures.tilt is None else ask.measures.tilt
        frame["wrap"] = frame["wrap"] if ask.measures.wrap is None else ask.measures.wrap
        measures, estimated = self.measures(choice.size, ask)
        money = self._held.money(choice.colorway.price_cents, self.region(ask.region), tuple(ask.discounts))
        job: records.Job = {
            "frame": frame,
            "package": self._packages[choice.package.id],
            "limits": self._limits,
            "right": eye_table(rx.right),
            "left": eye_table(rx.left),
            "has_right": rx.right is not None,
            "has_left": rx.left is not None,
            "measures": measures,
            "money": money,
            "options": options_table(ask.wishes),
        }
        return job, estimated if frame["traced"] else (*estimated, "outline")

    def measures(self, size: Size, ask: Ask) -> tuple[records.Measures, tuple[str, ...]]:
        """Measured values where there are any, the shop's defaults elsewhere, and the names of what was not measured.

        A height that was measured on one eye alone stands for both, but the other is said to be an estimate.
        """
        defaults = self.catalog.shop.defaults
        sides = ("R" if ask.rx.right else "") + ("L" if ask.rx.left else "")
        usual = defaults.child_pd if ask.measures.child else defaults.pd
        right, left, pd_known = monocular(ask.rx.pd, usual, sides)
        height = size.b / 2 + defaults.pupil_above_center
        given = ask.measures
        own = {"R": given.height_right, "L": given.height_left}
        known = all(own[side] is not None for side in sides)
        estimated = (() if pd_known else ("pd",)) + (() if known else ("height",))
        first = given.height_right if given.height_right is not None else given.height_left
        second = given.height_left if given.height_left is not None else given.height_right
        return {
            "pd_right": right,
            "pd_left": left,
            "height_right": height if first is None else first,
            "height_left": height if second is None else second,
            "child": given.child,
            "vertex": defaults.vertex,
        }, estimated

    def _fit(self, job: records.Job, choice: Choice) -> records.Fit:
        """The kernel's answer, kept by what it depends on."""
        key = (
            choice.package.id,
            *front_key(job["frame"], choice.frame.family),
            *job["right"].values(),
            *job["left"].values(),
            job["has_right"],
            job["has_left"],
            *job["measures"].values(),
            *job["options"].values(),
        )
        if key not in self._fits:
            make_room(self._fits)
            self._fits[key] = quote.fit(job)
        return self._fits[key]
