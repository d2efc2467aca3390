"""Sense of a whole catalog: what each file allows, and is hardly meant once all of them lie side by side.

Everything here is a warning or a note: the shop can be built, and who knows better leaves it as it is.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from datetime import date

from quoting.catalog.checks import on_day
from quoting.catalog.model import Frame
from quoting.catalog.sense_colors import sense_of_colors
from quoting.catalog.sense_languages import sense_of_languages
from quoting.catalog.sense_lists import sense_of_lists
from quoting.catalog.sense_options import sense_of_options, takes_mirror, takes_tint
from quoting.catalog.sense_prices import sense_of_frame_prices, sense_of_lens_prices, sense_of_prices
from quoting.catalog.sense_tints import sense_of_tints
from quoting.catalog.shop import Catalog, Surcharge
from quoting.catalog.sound import ALL, FRAMES, LENSES, PRICES, SHOP, TINTS
from quoting.catalog.steps import power
from quoting.findings import Finding, Mark

Check = Callable[[Catalog, date], Iterable[Finding]]
# (practice) temples as printed: children's from 110 mm, the longest 160; empty frames: rimless 3 g, thick acetate 70 g
TEMPLES, WEIGHTS = (110, 160), (3, 70)


def sense(catalog: Catalog, day: date, whole: frozenset[str] = ALL) -> list[Finding]:
    """All that is odd about a catalog as a whole on the day that is reckoned with.

    Where not all of it is ``whole``, what can be said of the parts that are: each check says what it needs.
    """
    return [finding for check, needed in CHECKS if whole >= needed for finding in check(catalog, day)]


def _warning(mark: Mark, code: str, message: str, hint: str) -> Finding:
    return Finding(mark, code, message, hint, "warning")


def past_discounts(catalog: Catalog, day: date) -> Iterator[Finding]:
    """Discounts of the list in force that ended before the day."""
    prices = catalog.price_list
    for one in prices.discounts:
        if one.ends is not None and prices.effective <= one.ends < day:
            said = f"the discount `{one.id}` ended on {one.ends}; nobody gets it any more"
            yield _warning(one.mark, "discount-past", said, "delete it, or give it a later `until`")


def same_model(catalog: Catalog) -> Iterator[Finding]:
    """Two frames of one maker with the same name: customers cannot tell them apart."""
    seen: dict[tuple[str, str], Frame] = {}
    for frame in catalog.frames.values():
        first = seen.setdefault((frame.maker.casefold(), frame.name.casefold()), frame)
        if first is not frame:
            said = f"{frame.maker} has another frame of the name {frame.name} at {first.mark}"
            hint = "make one frame of them, with several sizes or colorways, or give one another name"
            yield _warning(frame.mark, "same-model", said, hint)


def implausible(catalog: Catalog) -> Iterator[Finding]:
    """Temples and weights that the fields allow, but frames hardly have."""
    for frame in catalog.frames.values():
        for size in frame.sizes:
            if not TEMPLES[0] <= size.temple <= TEMPLES[1]:
                said = (
                    f"the size {size.label} has a temple of {size.temple:g} mm; most have {TEMPLES[0]} to {TEMPLES[1]}"
                )
                yield _warning(size.mark, "implausible", said, "read the length from the temple again")
            if size.weight and not WEIGHTS[0] <= size.weight <= WEIGHTS[1]:
                said = (
                    f"the size {size.label} weighs {size.weight:g} g; empty frames weigh {WEIGHTS[0]} to {WEIGHTS[1]}"
                )
                yield _warning(size.mark, "implausible", said, "weigh it again without lenses, or leave `weight` out")


def too_tall(catalog: Catalog) -> Iterator[Finding]:
    """Designs that need more height, below and above the cross together, than any lens of the shop has."""
    tallest = max(size.b for frame in catalog.frames.values() for size in frame.sizes)
    for design in catalog.designs.values():
        needed = design.min_height + design.min_above
        if design.min_height and needed > tallest:
            said = (
                f"the design `{design.id}` needs {needed:g} mm of height (`min_height` and `min_above`), "
                f"and the tallest lens of all frames has {tallest:g}"
            )
            yield _warning(design.mark, "too-tall", said, "correct the heights, or add a frame that is deep enough")


def empty_columns(catalog: Catalog) -> Iterator[Finding]:
    """Columns of the lens board that stay empty on every page, since no package has any of their powers."""
    ranges = [part for package in catalog.packages.values() for part in package.ranges]
    for band in catalog.shop.bands:
        if not any(part.low <= band.high and band.low <= part.high for part in ranges):
            said = f"no package has any power of the column {power(band.low)} to {power(band.high)} of the lens board"
            hint = "delete this row of `bands`, or add packages in these powers"
            yield _warning(band.mark, "empty-column", said, hint)


def never_due(catalog: Catalog) -> Iterator[Finding]:
    """Surcharges for what no frame and no package of the shop has."""
    for one in catalog.price_list.surcharges:
        why = NEVER[one.when](catalog, one) if one.when in NEVER else ""
        if why:
            said = f"the surcharge `{one.id}` is never due: {why}"
            yield Finding(
                one.mark, "never-due", said, "correct it, or leave it for when the shop has such goods", "note"
            )


def _mounting(catalog: Catalog, one: Surcharge) -> str:
    has = any(frame.mounting == one.mounting for frame in catalog.frames.values())
    return "" if has else f"no frame has the mounting {one.mounting}"


def _reach(most: float, over: float, what: str, unit: str) -> str:
    return "" if most > over else f"{what} {most:g} {unit}"


def _blank(catalog: Catalog, one: Surcharge) -> str:
    most = max(part.diameter for package in catalog.packages.values() for part in package.ranges)
    return _reach(most, one.over, "the largest blank of all packages has", "mm")


def _cylinder(catalog: Catalog, one: Surcharge) -> str:
    most = max(part.cylinder for package in catalog.packages.values() for part in package.ranges)
    return _reach(most, one.over, "the highest cylinder of all packages is", "D")


def _power(catalog: Catalog, one: Surcharge) -> str:
    ranges = [part for package in catalog.packages.values() for part in package.ranges]
    return _reach(max(max(-p.low, p.high) for p in ranges), one.over, "the strongest power is", "D")


def _tint(catalog: Catalog, one: Surcharge) -> str:
    most = max((one.material.tint_depth for one in catalog.packages.values() if takes_tint(one)), default=0)
    return _reach(most, one.over, "the deepest tint that a material takes is", "%")


def _prism(catalog: Catalog, _: Surcharge) -> str:
    return "" if any(package.prism for package in catalog.packages.values()) else "no package is made with a prism"


def _mirror(catalog: Catalog, _: Surcharge) -> str:
    return "" if any(map(takes_mirror, catalog.packages.values())) else "no package takes a mirror"


# A wrap can be measured on the customer, and rush and slab-off are the shop's own work: these are always possible
NEVER: dict[str, Callable[[Catalog, Surcharge], str]] = {
    "mounting": _mounting,
    "blank": _blank,
    "cylinder": _cylinder,
    "power": _power,
    "tint": _tint,
    "prism": _prism,
    "mirror": _mirror,
}


def _any_day(check: Callable[[Catalog], Iterable[Finding]]) -> Check:
    return lambda catalog, _: check(catalog)


def _lists(catalog: Catalog, day: date) -> Iterator[Finding]:
    yield from sense_of_lists(catalog, day, (sense_of_prices, never_due))


# What each needs as a whole: a frame that could not be read may be the tallest, or the one with that mounting
CHECKS: tuple[tuple[Check, frozenset[str]], ...] = (
    (on_day, frozenset({PRICES})),
    (past_discounts, frozenset({PRICES})),
    (_any_day(same_model), frozenset()),
    (_any_day(implausible), frozenset()),
    (_any_day(too_tall), frozenset({FRAMES})),
    (_any_day(empty_columns), frozenset({SHOP, LENSES})),
    (_any_day(never_due), frozenset({FRAMES, LENSES, PRICES})),
    (_any_day(sense_of_colors), frozenset()),
    (_any_day(sense_of_options), frozenset()),
    (_any_day(sense_of_lens_prices), frozenset({LENSES, PRICES})),
    (_any_day(sense_of_frame_prices), frozenset({FRAMES, PRICES})),
    (_any_day(sense_of_tints), frozenset({SHOP, LENSES, TINTS})),
    (_any_day(sense_of_languages), ALL),
    (_lists, frozenset({FRAMES, LENSES, PRICES})),
)
