"""Which surcharges can still come on top of a price that a page shows: not those it holds, nor those that cannot be.

The prices of a board hold what follows from frame, size and power.  What a prescription's prism, cylinder or PD asks
for, and what is wished, comes on top of them.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Callable, Iterable

from quoting.catalog.model import Package
from quoting.catalog.shop import Catalog, Surcharge
from quoting.site.cells import Cell

# These follow from the frame, or from the power that a board's column is worked out for
IN_THE_PRICE = ("mounting", "wrap", "power")


def can_ask_for(package: Package, surcharge: Surcharge) -> bool:
    """Whether a lens of this package can be one that the surcharge is due for."""
    return {
        "prism": package.prism > 0,
        "cylinder": any(part.cylinder > surcharge.over for part in package.ranges),
        "blank": any(part.diameter > surcharge.over for part in package.ranges),
        "mounting": surcharge.mounting != "drilled" or package.material.drillable,
        "tint": package.material.tint_depth > surcharge.over
        and (package.light == "clear" or package.treatments.tint_over),
        "mirror": package.treatments.mirror,
        "slab-off": package.design.kind in ("progressive", "bifocal"),
    }.get(surcharge.when, True)


def on_package(catalog: Catalog, package: Package) -> list[str]:
    """What can come on top of a package's own price, in the words of the price list."""
    return [_within(one) for one in catalog.price_list.surcharges if can_ask_for(package, one)]


def on_board(catalog: Catalog, cells: Callable[[], Iterable[Cell]]) -> list[str]:
    """What can come on top of the prices in the cells of a frame's boards, in the words of the price list."""
    packages = list(catalog.packages.values())
    return [
        _within(one)
        for one in catalog.price_list.surcharges
        if one.when not in IN_THE_PRICE
        and any(can_ask_for(package, one) for package in packages)
        and not (one.when == "blank" and _holds(cells(), one))
    ]


def _holds(cells: Iterable[Cell], surcharge: Surcharge) -> bool:
    """Whether every price in these cells holds a surcharge."""
    return all(surcharge.id in cell.charged for cell in cells if cell.cents is not None)


def _within(surcharge: Surcharge) -> str:
    """Its text within a sentence."""
    return surcharge.text[:1].lower() + surcharge.text[1:]
