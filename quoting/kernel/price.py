"""What it costs: a list of lines in whole cents, each with a reason.

Every share is rounded half up to the cent, line by line: (cents · basis points + 5000) // 10000.  The total is the sum
of the lines.  Tax is added by kind of line, or, where prices already hold it, told beside the total.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.bounds import IMPOSSIBLE
from quoting.kernel.checked_money import money_faults
from quoting.kernel.discounts import discount_lines
from quoting.kernel.lines import add_line, share, share_within
from quoting.kernel.power import on_step
from quoting.kernel.records import Bill, Eye, Job, Lens, Line, Money, Options, Package, Surcharge
from quoting.kernel.rules import grid

NO_PRICE = -1


def lens_cents(pack: Package, strongest: float) -> int:
    """Price of one lens at this strongest principal power; NO_PRICE where no band holds it."""
    power = on_step(strongest)
    for band in pack["prices"]:
        if power >= band["low"] and power <= band["high"]:
            return band["cents"]
    return NO_PRICE


def of_kind(lines: list[Line], kind: str) -> int:
    """Sum of the lines of a kind."""
    cents = 0
    for line in lines:
        if line["kind"] == kind:
            cents += line["cents"]
    return cents


def lens_lines(job: Job, right: Lens, left: Lens, lines: list[Line]) -> bool:
    """One line for a pair at one price, else a line an eye.   False where one has no price or is not made."""
    right_cents = 0
    left_cents = 0
    if job["has_right"] and right["fault"] != "":
        return False
    if job["has_left"] and left["fault"] != "":
        return False
    if job["has_right"]:
        right_cents = lens_cents(job["package"], right["strongest"])
    if job["has_left"]:
        left_cents = lens_cents(job["package"], left["strongest"])
    if right_cents == NO_PRICE or left_cents == NO_PRICE:
        return False
    if job["has_right"] and job["has_left"] and right_cents == left_cents:
        add_line(lines, "lenses", "", "lenses", "B", 2, right_cents + left_cents)
        return True
    if job["has_right"]:
        add_line(lines, "lens", "", "lenses", "R", 1, right_cents)
    if job["has_left"]:
        add_line(lines, "lens", "", "lenses", "L", 1, left_cents)
    return True


def applies(surcharge: Surcharge, job: Job, eye: Eye, lens: Lens) -> bool:
    """Whether a surcharge is due for one lens."""
    if surcharge["when"] == "prism":
        return abs(eye["prism_in"]) + abs(eye["prism_up"]) > 0.0
    if surcharge["when"] == "cylinder":
        return grid(abs(eye["cylinder"])) > surcharge["over"]
    if surcharge["when"] == "blank":
        return grid(lens["blank_exact"]) > surcharge["over"]
    if surcharge["when"] == "wrap":
        return job["frame"]["wrap"] > surcharge["over"]
    if surcharge["when"] == "mounting":
        return job["frame"]["mounting"] == surcharge["mounting"]
    if surcharge["when"] == "power":
        return on_step(abs(lens["strongest"])) > surcharge["over"]
    return wished(surcharge, job["options"])


def wished(surcharge: Surcharge, options: Options) -> bool:
    """Whether a surcharge is due for what the customer wished.   Raises ValueError where it is for nothing known."""
    if surcharge["when"] == "tint":
        return grid(options["tint_depth"]) > surcharge["over"]
    if surcharge["when"] == "mirror":
        return options["mirror"]
    if surcharge["when"] == "slab-off":
        return options["slab_off"]
    if surcharge["when"] == "rush":
        return options["rush"]
    raise ValueError("no such surcharge")


def surcharge_lines(job: Job, right: Lens, left: Lens, lines: list[Line]) -> None:
    """Surcharges in the order of the price list: for each lens that asks for one, or once for the pair."""
    for surcharge in job["money"]["surcharges"]:
        for_right = job["has_right"] and applies(surcharge, job, job["right"], right)
        for_left = job["has_left"] and applies(surcharge, job, job["left"], left)
        cents = surcharge["cents"]
        if not for_right and not for_left:
            continue
        if not surcharge["per_lens"]:
            add_line(lines, "surcharge", surcharge["id"], "lenses", "B", 1, cents)
        elif for_right and for_left:
            add_line(lines, "surcharge", surcharge["id"], "lenses", "B", 2, cents + cents)
        elif for_right:
            add_line(lines, "surcharge", surcharge["id"], "lenses", "R", 1, cents)
        else:
            add_line(lines, "surcharge", surcharge["id"], "lenses", "L", 1, cents)


def tax_line(lines: list[Line], kind: str, cents: int, basis_points: int, included: bool) -> int:
    """Adds the tax on one kind of line, or returns the part of it that is already inside."""
    if basis_points == 0:
        return 0
    if included:
        return share_within(cents, basis_points)
    add_line(lines, "tax", kind, "tax", "B", 1, share(cents, basis_points))
    return 0


def charged(job: Job, right: Lens, left: Lens, lines: list[Line]) -> bool:
    """The lines of what is bought: frame, lenses, surcharges.   False where a lens has no price or is not made."""
    add_line(lines, "frame", "", "frame", "B", 1, job["money"]["frame_cents"])
    if not lens_lines(job, right, left, lines):
        return False
    surcharge_lines(job, right, left, lines)
    return True


def settled(money: Money, lines: list[Line]) -> Bill:
    """What is bought, with discounts, shipping and tax behind it."""
    region = money["region"]
    left_over = discount_lines(money, of_kind(lines, "frame"), of_kind(lines, "lenses"), lines)
    shipping = region["shipping_cents"]
    if region["free_from_cents"] > 0 and left_over[0] + left_over[1] >= region["free_from_cents"]:
        shipping = 0
    add_line(lines, "shipping", "", "shipping", "B", 1, shipping)
    inside = tax_line(lines, "frame", left_over[0], region["tax_frame"], money["tax_included"])
    inside += tax_line(lines, "lenses", left_over[1], region["tax_lenses"], money["tax_included"])
    inside += tax_line(lines, "shipping", shipping, region["tax_shipping"], money["tax_included"])
    total = 0
    for line in lines:
        total += line["cents"]
    return {"priced": True, "lines": lines, "total_cents": total, "tax_included_cents": inside}


def bill(job: Job, right: Lens, left: Lens) -> Bill:
    """All lines, in the order: frame, lenses, surcharges, discounts, shipping, tax.

    Unpriced where a lens or an amount is impossible, or a power has no price.
    """
    lines: list[Line] = []
    impossible = right["fault"] == IMPOSSIBLE or left["fault"] == IMPOSSIBLE or len(money_faults(job["money"])) > 0
    if impossible or not charged(job, right, left, lines):
        return {"priced": False, "lines": [], "total_cents": 0, "tax_included_cents": 0}
    return settled(job["money"], lines)
