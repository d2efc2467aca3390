"""What of a shop goes with nothing else in it: the engine is asked until the first fit."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from itertools import chain

from quoting.catalog.in_time import as_on
from quoting.catalog.model import Frame, Package, Size
from quoting.catalog.sense import sense
from quoting.catalog.shop import Catalog
from quoting.catalog.sound import PRICES, Sound
from quoting.findings import Finding, in_order
from quoting.offers import Choice, Offers

# So often the engine is asked at most; where that is not enough, it is said
MOST_ASKED = 800
REFUSED = "no"


def whole_sense(catalog: Catalog, day: date, most: int = 0) -> list[Finding]:
    """All that is odd about a catalog that could be read, on the day that is reckoned with, in order.

    The engine is asked at most ``most`` times, MOST_ASKED for 0.
    """
    return in_order([*sense(catalog, day), *alone(Offers(catalog, day), most)])


def sound_sense(sound: Sound, day: date) -> list[Finding]:
    """What can be said of a shop of which not all could be read, in order; the engine is asked of whole ones only."""
    catalog = as_on(sound.catalog, day) if PRICES in sound.whole else sound.catalog
    return in_order(sense(catalog, day, sound.whole))


class Searching:
    """Looks for a first fit for each package and each size; the catalog's order does not change what is found."""

    def __init__(self, offers: Offers, most: int) -> None:
        self.offers = offers
        self.left = most
        self.seen = {"packages": 0, "sizes": 0}  # of how many it is known whether anything fits
        self.fitting: set[str] = set()  # ids of packages that were seen to fit
        catalog = offers.catalog
        self.sizes = [(frame, size) for frame in catalog.frames.values() for size in frame.sizes]
        self.packages = list(catalog.packages.values())

    def fits(self, frame: Frame, size: Size, package: Package) -> bool:
        """Whether the package fits this size at any power that is tried, weak ones first."""
        choice = Choice(frame, size, frame.colorways[0], package)
        for power in powers(self.offers, package):
            if self.left <= 0:
                raise EnoughError
            self.left -= 1
            if self.offers.fit_at(choice, power)["verdict"] != REFUSED:
                self.fitting.add(package.id)
                return True
        return False

    def packages_alone(self) -> Iterator[Finding]:
        """Packages that fit no size of any frame."""
        for package in self.packages:
            fits = package.id in self.fitting or any(self.fits(frame, size, package) for frame, size in self.sizes)
            self.seen["packages"] += 1
            if fits:
                continue
            said = (
                f"the package `{package.id}` fits no frame of this shop at plano or at any power where its price bands "
                "or the columns of the lens board begin or end"
            )
            hint = "see its blanks, base curves and heights, or add a frame for it; `bevelbook fit` says why not"
            yield Finding(package.mark, "fits-no-frame", said, hint, "warning")

    def lens_for(self, frame: Frame, size: Size) -> bool:
        """Whether any package fits this size.  What fitted before is asked first: it mostly fits again."""
        for at, package in enumerate(self.packages):
            if self.fits(frame, size, package):
                self.packages.insert(0, self.packages.pop(at))
                return True
        return False

    def sizes_alone(self) -> Iterator[Finding]:
        """Sizes that no package fits."""
        for frame, size in self.sizes:
            fits = self.lens_for(frame, size)
            self.seen["sizes"] += 1
            if not fits:
                said = (
                    f"no lens package fits the frame `{frame.id}` in the size {size.label} at plano or at any power "
                    "where price bands or the columns of the lens board begin or end"
                )
                hint = "see its box, curve and mounting, or add lenses for it; `bevelbook fit` says why not"
                yield Finding(size.mark, "no-lens-fits", said, hint, "warning")


class EnoughError(Exception):
    """The engine was asked as often as it may be."""


def powers(offers: Offers, package: Package) -> list[float]:
    """The powers to try, D: ends of price bands and of the board's columns, and plano, where the package has them."""
    catalog = offers.catalog
    tried = {0.0, *(end for band in catalog.shop.bands for end in (band.low, band.high))}
    tried |= {end for band in package.prices for end in (band.low, band.high)}
    made = [one for one in tried if any(part.low <= one <= part.high for part in package.ranges)]
    return sorted(made, key=lambda one: (abs(one), one))


def alone(offers: Offers, most: int = 0) -> list[Finding]:
    """Packages that fit no frame, and sizes that no package fits; a note where the shop is too large to ask for all."""
    search, found = Searching(offers, most or MOST_ASKED), []
    try:
        for finding in chain(search.packages_alone(), search.sizes_alone()):
            found.append(finding)
    except EnoughError:
        packages = f"{search.seen['packages']} of {len(search.packages)} packages"
        sizes = f"{search.seen['sizes']} of {len(search.sizes)} sizes"
        said = f"the shop is too large to see each time what goes with each: {packages} and {sizes} were tried"
        hint = "`bevelbook check --thorough` tries all, which can take minutes"
        found.append(Finding(offers.catalog.shop.mark, "not-all-tried", said, hint, "note"))
    return found
