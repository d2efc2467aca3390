"""What one customer is granted beyond the price list: a line changed for a reason, two pairs in one parcel.

Discounts, shipping and tax follow from what was changed, by the kernel's own rules.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from quoting.kernel.checked_money import money_faults
from quoting.kernel.price import bill, charged, settled
from quoting.kernel.records import Bill, Job, Lens, Line, Money, Region

Pricing = Callable[[Job, Lens, Lens], Bill]
SHIPPING = "shipping"


class NoSuchLineError(ValueError):
    """A line was to be changed that is not in the bill; says in one sentence which there are."""


@dataclass(frozen=True, slots=True)
class Change:
    """Another amount for a line: ``line`` is its name, see `line_name`."""

    line: str
    cents: int
    reason: str


def line_name(line: Line) -> str:
    """What a line is called where it is to be changed: a surcharge by its id, a lens by its eye.

    >>> line_name({"code": "lens", "id": "", "kind": "lenses", "eye": "R", "count": 1, "cents": 9900})
    'lens R'
    """
    if line["code"] == "lens":
        return f"lens {line['eye']}"
    return line["id"] if line["code"] == "surcharge" else line["code"]


def goods(found: Bill) -> int:
    """What frame and lenses come to after discounts, cents: what free shipping is decided by."""
    return sum(line["cents"] for line in found["lines"] if line["kind"] in ("frame", "lenses", "discount"))


def pricing(changes: Iterable[Change] = (), others: Iterable[Bill] = (), goes_with: bool = False) -> Pricing:
    """How a pair is priced for this customer.

    ``others`` are the bills of pairs in the same parcel, ``goes_with`` says that shipping is paid with one of them.
    The pricing raises NoSuchLineError where a changed line is not in the bill.
    """
    changed = {one.line: one.cents for one in changes}
    beside = sum(goods(one) for one in others)

    def priced(job: Job, right: Lens, left: Lens) -> Bill:
        region = _region(job["money"]["region"], changed.get(SHIPPING), beside, goes_with)
        money: Money = {**job["money"], "region": region}
        job = {**job, "money": money}
        lines: list[Line] = []
        plain = bill(job, right, left)
        if not plain["priced"] or money_faults(money) or not charged(job, right, left, lines):
            return plain
        names = [line_name(line) for line in lines] + [SHIPPING]
        for name in changed:
            if name not in names:
                raise NoSuchLineError(f"no line {name!r} in this bill: there is {', '.join(names)}")
        for line in lines:
            line["cents"] = changed.get(line_name(line), line["cents"])
        return settled(money, lines)

    return priced


def _region(region: Region, shipping: int | None, beside: int, goes_with: bool) -> Region:
    """The region with what shipping comes to here."""
    if goes_with:
        return {**region, "shipping_cents": 0}
    if shipping is not None:
        return {**region, "shipping_cents": shipping, "free_from_cents": 0}
    free_from = region["free_from_cents"]
    return {**region, "free_from_cents": max(1, free_from - beside) if free_from else 0}
