"""The tint book as a page: every mix on a lens that takes it, photochromics in their states, polarizers."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property

from markupsafe import Markup

from quoting.catalog.model import Frame, Package
from quoting.catalog.shop import Catalog
from quoting.catalog.tints import Mix
from quoting.kernel import records
from quoting.kernel.coated import transmitted
from quoting.kernel.filters import filters
from quoting.kernel.scene import scene
from quoting.kernel.spectrum import flat
from quoting.kernel.tinting import dye_layers
from quoting.languages import _
from quoting.light.glass import CLEAR, tint_of
from quoting.light.told import CENTER, Seen, all_states, usual_package
from quoting.show.front import front_svg
from quoting.show.looks import STOPS, tinted_front
from quoting.show.street import street
from quoting.show.tint_words import PAGE, SIGNALS, percents, sentence
from quoting.show.tints import consequences_of

PLACES = ("place-top", "place-middle", "place-bottom")


@dataclass(frozen=True, slots=True)
class Row:
    """One row of figures."""

    name: str
    light: str
    category: int
    uva: str
    driving: str


@dataclass(frozen=True)
class Shown:
    """A lens with or without a tint, as the page shows it."""

    catalog: Catalog
    package: Package
    mix: Mix | None
    seen: list[Seen]
    clear_front: str

    @property
    def id(self) -> str:
        """In the page's addresses."""
        return self.mix.id if self.mix else self.package.id

    def _stops(self, one: Seen) -> list[records.Filter]:
        limits = self.catalog.shop.limits
        heights = list(STOPS if self.mix is not None and self.mix.fades else STOPS[:1])
        tint = tint_of(self.catalog, self.mix)
        return filters(one.stack.glass, tint, heights, limits.driving_least, limits.night_least)

    def fronts(self) -> Iterator[tuple[str, Markup]]:
        """The front with these lenses in each state, with swatches on skin and on white."""
        for one in self.seen:
            name = state_text(one.stack.state) if len(self.seen) > 1 else ""
            id_ = f"look-{self.id}-{one.stack.state}"
            yield name, Markup(tinted_front(self.clear_front, self._stops(one), id_))

    def rows(self) -> Iterator[Row]:
        """The figures: of a gradient at the top, in the middle and at the bottom; of a photochromic lens by state."""
        for one in self.seen:
            if self.mix is not None and self.mix.fades:
                for place, at in zip(PLACES, one.at, strict=True):
                    yield _row(_(PAGE[place]), at, one)
            else:
                yield _row(state_text(one.stack.state), one.reference, one)

    def street(self) -> Markup:
        """The street through the middle of the lens, darkened at 23 °C where it darkens."""
        one = next((one for one in self.seen if one.stack.state == "23"), self.seen[-1])
        layer = dye_layers(tint_of(self.catalog, self.mix), [CENTER])[0]
        label = _(PAGE["street-label"]).format(name=self.mix.name if self.mix else self.package.name)
        return Markup(street(scene(transmitted(one.stack.glass, layer)), label))

    def sentences(self) -> list[str]:
        """What follows."""
        return [sentence(one) for one in consequences_of(self.catalog, self.seen)]

    def recipe(self) -> str:
        """The parts of a mix."""
        if self.mix is None:
            return ""
        parts = ", ".join(f"{share:g} {self.catalog.tints.dyes[dye].name}" for dye, share in self.mix.parts.items())
        key = "recipe-fading" if self.mix.fades else "recipe"
        return _(PAGE[key]).format(
            parts=parts,
            top=f"{self.mix.top:g}",
            bottom=f"{self.mix.bottom:g}",
            first=f"{100 * self.mix.fade_from:g}",
            last=f"{100 * self.mix.fade_to:g}",
        )

    def takers(self) -> list[str]:
        """The materials that take the mix."""
        deepest = self.mix.deepest if self.mix else 0.0
        return [one.name for one in self.catalog.materials.values() if deepest <= one.tint_depth]


def state_text(state: str) -> str:
    """A state in words."""
    return _(PAGE["state-clear"]) if state == CLEAR else _(PAGE["state-dark"]).format(degrees=state)


def driving_text(at: records.Filter) -> str:
    """Driving in a word or two."""
    return _(PAGE["drive-night" if at["night"] else "drive-day" if at["day"] else "drive-never"])


def _row(name: str, at: records.Filter, one: Seen) -> Row:
    known = "material" not in one.stack.unstated
    uva = f"{percents(at['uva'])} %" if known else "–"
    return Row(name, f"{percents(at['percent'])} %", at["category"], uva, driving_text(at))


class TintPage:
    """What the template asks for."""

    def __init__(self, catalog: Catalog) -> None:
        self.catalog = catalog
        self.signals = _(SIGNALS)
        self.street_note = _(PAGE["street-note"])

    @cached_property
    def frame(self) -> Frame:
        """The frame that wears the tints: the first of the shop with a full rim, or the first."""
        frames = list(self.catalog.frames.values())
        return next((one for one in frames if one.mounting.startswith("full-rim")), frames[0])

    @cached_property
    def clear_front(self) -> str:
        """Its front with clear lenses."""
        frame, color = self.frame, replace(self.frame.colorways[0], version="optical")
        rim = self.catalog.shop.mountings[frame.mounting].rim
        label = _(PAGE["front-label"]).format(frame=frame.name)
        return front_svg(frame, frame.sizes[0], color, rim, label, dimensions=False)

    @property
    def bare_front(self) -> Markup:
        """The same, for a script to put tints on."""
        return Markup(self.clear_front)

    def mixes(self) -> Iterator[Shown]:
        """Each mix on a lens that takes it."""
        for mix in self.catalog.tints.mixes.values():
            package = usual_package(self.catalog, mix.deepest)
            if package is not None:
                yield self._shown(package, mix)

    def darkening(self) -> Iterator[Shown]:
        """One lens of each photochromic and of each polarizer that is stated."""
        told = set()
        book = self.catalog.tints
        stated = [(one.packages, "photochromic") for one in book.photochromics]
        stated += [(one.packages, "polarized") for one in book.polarizers]
        for named, light in stated:
            packages = (one for one in self.catalog.packages.values() if one.light == light)
            package = next((one for one in packages if not named or one.id in named), None)
            if package is not None and package.id not in told:
                told.add(package.id)
                yield self._shown(package, None)

    def _shown(self, package: Package, mix: Mix | None) -> Shown:
        return Shown(self.catalog, package, mix, all_states(self.catalog, package, mix), self.clear_front)

    @cached_property
    def plain_street(self) -> Markup:
        """The street without any lens."""
        return Markup(street(scene(flat(1.0)), _(PAGE["street-plain"])))
