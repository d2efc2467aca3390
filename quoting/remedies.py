"""What would make a lens fit, of all that the shop has: every line is an answer of the engine to the changed question.

The kernel tries changes of one number, other sizes and other mountings; here the shop's other packages join them.  The
page does the same in theme/static/js/remedy.js.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from quoting.catalog.model import Mounting, Package, Size
from quoting.kernel import records
from quoting.kernel.remedies import best_of, ordered
from quoting.kernel.remedies import remedies as changes
from quoting.offers import Ask, Choice, Offer, Offers

# What is said to cost so many cents stands behind all that has a price
NO_PRICE = 1_000_000_000


@dataclass(frozen=True, slots=True)
class Remedy:
    """One change, the codes of the reasons that are gone with it, and the verdict then.

    Where the change is a number, it may be from ``low`` to ``high``; the others say what is taken instead.
    """

    what: str
    codes: tuple[str, ...]
    verdict: str
    low: float = 0.0
    high: float = 0.0
    size: Size | None = None
    package: Package | None = None
    mounting: str = ""


def mountings(offers: Offers, other_than: Mounting) -> list[records.Mounting]:
    """What the other mountings of the shop hold."""
    return [
        {"mounting": name, "min_edge": one.min_edge, "edge_caution": one.edge_caution, "edge_no": one.edge_no}
        for name, one in offers.catalog.shop.mountings.items()
        if name != other_than
    ]


def remedies(offers: Offers, offer: Offer, ask: Ask) -> list[Remedy]:
    """What would make it fit, best first; nothing where it fits, or where a number of the question is impossible."""
    choice = offer.choice
    job, estimated = offers.job(choice, ask)
    sizes = [size for size in choice.frame.sizes if size != choice.size]
    jobs = [offers.job(Choice(choice.frame, size, choice.colorway, choice.package), ask)[0] for size in sizes]
    others = mountings(offers, choice.frame.mounting)
    found = changes(job, jobs, others, "height" not in estimated)
    choices: list[Choice] = []
    if offer.fit["verdict"] == "no" and offer.fit["right"]["fault"] != "impossible":
        found += _packages(offers, offer, ask, choices)
    return [_told(one, choices, sizes, others) for one in ordered(found)]


def _packages(offers: Offers, offer: Offer, ask: Ask, choices: list[Choice]) -> list[records.Remedy]:
    """The best package of the same design here, else in another size; and the best like it of another design."""
    mine, here = offer.choice.package, offer.choice
    same = [one for one in offers.catalog.packages.values() if one.design.id == mine.design.id and one.id != mine.id]
    like = [
        one
        for one in offers.catalog.packages.values()
        if one.design.id != mine.design.id and one.design.kind == mine.design.kind and one.light == mine.light
    ]
    sizes = [size for size in here.frame.sizes if size != here.size]

    def best(what: str, which: Iterable[Choice]) -> list[records.Remedy]:
        tried = [offers.offer(choice, ask) for choice in which]
        cents = [one.bill["total_cents"] if one.bill["priced"] else NO_PRICE for one in tried]
        number = best_of([one.fit["verdict"] for one in tried], cents)
        if number < 0:
            return []
        choices.append(tried[number].choice)
        codes = list(dict.fromkeys(one["code"] for one in offer.fit["reasons"] if one["verdict"] == "no"))
        verdict = tried[number].fit["verdict"]
        at = len(choices) - 1
        return [{"what": what, "codes": codes, "low": 0.0, "high": 0.0, "number": at, "verdict": verdict}]

    found = best("package", (Choice(here.frame, here.size, here.colorway, one) for one in same))
    if not found:
        pairs = (Choice(here.frame, size, here.colorway, one) for size in sizes for one in same)
        found = best("package-in-size", pairs)
    return found + best("instead", (Choice(here.frame, here.size, here.colorway, one) for one in like))


def _told(
    one: records.Remedy, choices: list[Choice], sizes: list[Size], others: list[records.Mounting]
) -> Remedy:
    """A remedy of the kernel with what its number stands for."""
    what, number = one["what"], one["number"]
    size, package, mounting = None, None, ""
    if what == "size":
        size = sizes[number]
    elif what == "mounting":
        mounting = others[number]["mounting"]
    elif what in ("package", "package-in-size", "instead"):
        package = choices[number].package
        size = choices[number].size if what == "package-in-size" else None
    return Remedy(what, tuple(one["codes"]), one["verdict"], one["low"], one["high"], size, package, mounting)
