"""A verification in words: a row each, the verdict, and the note for the lab where a pair is to be made anew."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterable

from quoting.catalog.shop import Shop
from quoting.orders.model import Order
from quoting.orders.verifying import Verification, exchanged, missing
from quoting.show.clauses import STANDARDS, clause, numbers, sentence, what

RESULTS = {
    "pass": "PASS: every value that was read is within its tolerance.",
    "fail": "FAIL: to be made anew (bevelbook remake), unless a licensed optician decides otherwise.",
    "part": "NOT YET: what was read is within its tolerance, but too little was read to pass; read the rest as well.",
    "nothing": "Nothing was read, so nothing was verified.",
}


def verification_text(order: Order, one: Verification) -> str:
    """All checks and the verdict."""
    rows = [(what(check), *numbers(check), clause(check, one.standard), check["verdict"]) for check in one.checks]
    head = ("", "ordered", "found", "tolerance", "clause", "")
    wide = [max(len(row[at]) for row in [head, *rows]) for at in range(len(head))]
    lines = ["  ".join(f"{cell:<{wide[at]}}" for at, cell in enumerate(row)).rstrip() for row in (head, *rows)]
    by = f" by {one.by}" if one.by else ""
    head_line = f"Order {order.id}, verified {one.day}{by}, held by {STANDARDS[one.standard]}"
    told = [head_line, "", *lines, "", RESULTS[one.result]]
    if one.result == "fail" and exchanged(order, one):
        told.append("With right and left exchanged both powers would pass: is each lens in its own rim?")
    if one.compensated:
        told.append("Powers were held against those that the lab said it ground, not against the prescription.")
    if one.again:
        told.append(f"Did not pass before and must be read again: {', '.join(what(check) for check in one.again)}.")
    left_out = missing(order, one)
    if left_out:
        told.append(f"Not read: {', '.join(left_out)}.")
    return "\n".join(told)


def remake_note(order: Order, one: Verification, shop: Shop) -> str:
    """What the lab is told of a pair that did not pass; the wearer's name is not in it."""
    faults: Iterable[str] = (f"- {sentence(check, one.standard)}" for check in one.failed())
    return "\n".join(
        [
            f"{shop.name}: job {order.id} did not pass verification on {one.day}.",
            f"Held by {STANDARDS[one.standard]}.",
            "",
            *faults,
            "",
            f"Lens: {order.lens.maker} {order.lens.name}, {order.lens.material}. Please make it anew.",
            "",
        ]
    )
