"""What of the costs is hardly meant: things that are sold at a loss, or for less than the floor."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from pathlib import Path

from quoting.catalog.shop import Catalog
from quoting.findings import Finding, in_order
from quoting.money import written
from quoting.private.margins import Books, Margin
from quoting.private.model import Costs
from quoting.private.read import read_costs
from quoting.private.till import Till
from quoting.show.amounts import band


def private_findings(folder: Path, catalog: Catalog | None, day: date | None) -> list[Finding]:
    """All that is to be said of a shop's private files, where it has any; without a day their shape alone."""
    costs, findings = read_costs(folder, catalog)
    if costs is None or catalog is None or day is None:
        return findings
    return [*findings, *costs_sense(catalog, costs, day)]


def costs_sense(catalog: Catalog, costs: Costs, day: date) -> list[Finding]:
    """All that is odd at the prices of the day in the usual region, once for each package, frame and surcharge."""
    books = Books(catalog, costs, Till.of(catalog, catalog.price_list.regions[0], day))
    alike: dict[tuple[str, str], list[Margin]] = {}
    for one in books.margins():
        alike.setdefault((one.kind, one.id), []).append(one)
    return in_order(finding for found in alike.values() for finding in odd(found, books.till))


def odd(margins: list[Margin], till: Till) -> Iterator[Finding]:
    """What is odd about one thing, told where it is worst."""
    worst = min((one for one in margins if one.cents is not None), key=lambda one: one.cents or 0, default=None)
    under = [one for one in margins if one.under_floor]
    if worst is not None and worst.cost is not None and worst.at_loss:
        said = f"{called(worst)} costs {written(worst.cost.cents)} and brings {written(worst.net)} without tax"
        hint = "see whether cost and price are both for one piece and their decimal points in place"
        yield Finding(worst.cost.mark, "cost-over-price", f"{said}{_more(margins, worst)}", hint, "warning")
    elif under:
        worst = min(under, key=lambda one: one.cents or 0)
        assert worst.cost is not None, "without a cost nothing is under the floor"
        assert worst.floor is not None, "without a floor neither"
        said = (
            f"{called(worst)} brings {written(worst.net)} without tax and costs {written(worst.cost.cents)}: "
            f"the {written(worst.cents or 0)} that is left is less than the floor"
        )
        least = till.least(worst.kind, worst.cost.cents, worst.floor)
        hint = f"a price of {written(least)} would keep it" if least else "see the cost and the floor"
        yield Finding(worst.mark, "under-floor", f"{said}{_more(under, worst)}", hint, "warning")


def called(one: Margin) -> str:
    """A thing in words.

    >>> called(Margin("frame", "tarn", "slate", (), 0, 0, 0, 0, None, (), None, None))
    '`tarn` in `slate`'
    """
    if one.kind == "lens":
        return f"one lens of `{one.id}` from {band(one.low, one.high)}"
    return f"`{one.id}` in `{one.colorway}`" if one.kind == "frame" else f"the surcharge `{one.id}`"


def _more(margins: list[Margin], told: Margin) -> str:
    others = sum(1 for one in margins if one is not told and (one.at_loss or one.under_floor))
    return f"; so it is with {others} more of its prices" if others else ""
