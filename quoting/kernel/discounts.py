"""Which discounts are given: those that combine, in the order of the price list, or the best single one that does not.

Of the two ways the customer gets the one that takes more off; where both take the same, those that combine.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.lines import add_line, share
from quoting.kernel.records import Discount, Line, Money


def reduction(discount: Discount, cents: int) -> int:
    """What a discount takes off an amount, never more than the amount."""
    taken = discount["cents"]
    if discount["basis_points"] > 0:
        taken = share(cents, discount["basis_points"])
    if taken > cents:
        return cents
    return taken


def taken_off(discount: Discount, frame: int, lenses: int) -> list[int]:
    """What it takes off [frame, lenses]; one on all goods is split by their worth, half a cent to the frame."""
    if discount["on"] == "frame":
        return [reduction(discount, frame), 0]
    if discount["on"] == "lenses":
        return [0, reduction(discount, lenses)]
    goods = frame + lenses
    off = reduction(discount, goods)
    if off == 0:
        return [0, 0]
    from_frame = (off * frame * 2 + goods) // (2 * goods)
    return [from_frame, off - from_frame]


def give(discount: Discount, left: list[int], lines: list[Line]) -> list[int]:
    """One discount as a line; returns what is left of [frame, lenses]."""
    off = taken_off(discount, left[0], left[1])
    if off[0] + off[1] > 0:
        add_line(lines, "discount", discount["id"], "discount", "B", 1, 0 - off[0] - off[1])
    return [left[0] - off[0], left[1] - off[1]]


def discount_lines(money: Money, frame: int, lenses: int, lines: list[Line]) -> list[int]:
    """The discounts given, each as a line; returns what is left of [frame, lenses]."""
    together = [frame, lenses]
    found: list[Line] = []
    for discount in money["discounts"]:
        if discount["combinable"]:
            together = give(discount, together, found)
    for discount in money["discounts"]:
        if discount["combinable"]:
            continue
        alone: list[Line] = []
        left = give(discount, [frame, lenses], alone)
        if left[0] + left[1] < together[0] + together[1]:
            together = left
            found = alone
    for line in found:
        lines.append(line)
    return together
