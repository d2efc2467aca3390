"""What a tinted lens comes to: its figures at the top, at the reference point and below, in each state."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from dataclasses import dataclass

from quoting.catalog.model import Package
from quoting.catalog.shop import Catalog
from quoting.catalog.tints import Mix
from quoting.kernel import records
from quoting.kernel.filters import filters
from quoting.light.glass import CLEAR, Stack, glass_of, states, takes, tint_of

# Where figures are given, as shares of the box from its top: the reference point is the box center (ISO 8624) until
# somebody has measured the pupil
TOP, CENTER, BOTTOM = 0.0, 0.5, 1.0
PLACES = (TOP, CENTER, BOTTOM)


@dataclass(frozen=True, slots=True)
class Seen:
    """A lens in one state with its figures at the top, at the reference point and at the lowest point."""

    stack: Stack
    at: tuple[records.Filter, records.Filter, records.Filter]

    @property
    def reference(self) -> records.Filter:
        """At the reference point."""
        return self.at[1]

    @property
    def darkest(self) -> records.Filter:
        """Where it passes least."""
        return min(self.at, key=lambda one: one["percent"])


def seen(catalog: Catalog, package: Package, mix: Mix | None, mirror: str = "", state: str = CLEAR) -> Seen:
    """One state of a tinted lens."""
    stack = glass_of(catalog, package, state, mirror)
    limits = catalog.shop.limits
    one, two, three = filters(
        stack.glass, tint_of(catalog, mix), list(PLACES), limits.driving_least, limits.night_least
    )
    return Seen(stack, (one, two, three))


def all_states(catalog: Catalog, package: Package, mix: Mix | None, mirror: str = "") -> list[Seen]:
    """Clear first, then darkened by temperature."""
    return [seen(catalog, package, mix, mirror, state) for state in states(catalog, package)]


def usual_package(catalog: Catalog, depth: float) -> Package | None:
    """The lens on which a mix is shown where nobody names one: the first clear one that takes it, or any clear one."""
    clear = [one for one in catalog.packages.values() if one.light == CLEAR]
    taking = [one for one in clear if not takes(catalog, one, depth)]
    return next(iter([*taking, *clear]), None)
