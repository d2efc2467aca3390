"""The lens that somebody looks at in a drawing: a package with a mix, a mirror and a state."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from dataclasses import dataclass

from quoting.catalog.model import Colorway, Package
from quoting.catalog.shop import Catalog
from quoting.catalog.tints import Mix
from quoting.light.glass import CLEAR, glass_of
from quoting.light.told import Seen, seen, usual_package


@dataclass(frozen=True, slots=True)
class LensWorn:
    """What a front is drawn with."""

    package: Package
    mix: Mix | None = None
    mirror: str = ""  # id
    state: str = CLEAR

    @property
    def plain(self) -> bool:
        """Whether it is clear glass, as drawings have it anyway."""
        return self.package.light == CLEAR and self.mix is None and not self.mirror

    def known(self, catalog: Catalog) -> bool:
        """Whether the shop says anything of its light."""
        return "nothing" not in glass_of(catalog, self.package, self.state, self.mirror).unstated

    def seen(self, catalog: Catalog) -> Seen:
        """Its figures."""
        return seen(catalog, self.package, self.mix, self.mirror, self.state)


def sun_lens(catalog: Catalog, color: Colorway) -> LensWorn | None:
    """The sun lens that a colorway is sold with; None where its owner does not say, or no lens is there to show it."""
    wears = color.wears
    if wears is None:
        return None
    mix = catalog.tints.mixes.get(wears.tint)
    package = catalog.packages.get(wears.lens) or usual_package(catalog, mix.deepest if mix else 0.0)
    return LensWorn(package, mix, wears.mirror, wears.state or CLEAR) if package is not None else None
