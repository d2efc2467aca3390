"""The record card of a pair: what was ordered, made and measured, so that any optician can make it again."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from quoting.catalog.shop import ABOUT, Shop
from quoting.kernel.power import strongest
from quoting.kernel.records import Check
from quoting.orders.model import Order
from quoting.show.cautions import STRONG_PLUS_D, sentences
from quoting.show.clauses import STANDARDS, numbers, what
from quoting.show.ordered import Part, Row, parts, text_of

# What goes onto the card of the sheet's parts: what a wearer or another optician can use, nothing of bench and lab
ON_THE_CARD = ("Prescription", "Centration", "Lens", "Frame", "Tint recipe card")
# (practice) how people get used to new glasses
USED_TO = {
    "": (
        "Wear them from the morning on, for whole days, and do not change back to the old pair in between.",
        "Floors, steps and curbs may look nearer, farther or slanted for some days. Hold the rail.",
        "If you still do not see well, or have headaches, after two weeks, come back with this card.",
    ),
    "progressive": ("Point your nose at what you look at; for reading, lower your eyes and not your head.",),
    "bifocal": ("Look over the line when you walk, and below it when you read.",),
    "anti-fatigue": ("Near work should tire you less; far off you should see as with ordinary lenses.",),
    "photochromic": ("They darken and clear fully only after some days of sun.",),
}
CARD_FOOT = "Bring this card to any optician. It is a record of these glasses and no prescription."


def card_parts(order: Order, checks: list[Check], standard: str, day: str) -> list[Part]:
    """What was ordered, then what was measured of the finished pair."""
    found = [_for_the_wearer(part) for part in parts(order) if part.title.startswith(ON_THE_CARD)]
    rows = []
    for check in checks:
        ordered, read, within = numbers(check)
        rows.append(Row(what(check), (f"{read} (ordered {ordered}, {within})",)))
    title = f"Measured on {day} by {STANDARDS[standard].split(' (')[0]}"
    return [*found, *([Part(title, tuple(rows))] if rows else [])]


def _for_the_wearer(part: Part) -> Part:
    """A part of the sheet without what it tells the lab of the outline."""
    rows = (Row(row.label, tuple(value.split("; outline")[0] for value in row.values)) for row in part.rows)
    return Part(part.title, tuple(rows))


def about_order(order: Order) -> list[str]:
    """What cautions there are about an ordered pair."""
    lens = order.lens
    found = {"quote", lens.kind, lens.light, "impact-resistant" if lens.impact_resistant else "not-impact-resistant"}
    if order.tint is not None:
        found.add("tinted")
    if any(strongest(side.sphere, side.cylinder) >= STRONG_PLUS_D for _, side in order.sides()):
        found.add("strong-plus")
    return [word for word in ABOUT if word in found]


def cautions_of(order: Order, shop: Shop) -> list[str]:
    """What must be read with this lens; what is about ordering alone is left out, since that is over."""
    words = [word for word in ABOUT if word in about_order(order) and word != "quote"]
    last = "If your sight changes suddenly, see an eye doctor at once."
    return [*(sentence for word in words for sentence in sentences(shop, word)), last]


def used_to(order: Order) -> list[str]:
    """How to get used to them."""
    return [*USED_TO[""], *USED_TO.get(order.lens.kind, ()), *USED_TO.get(order.lens.light, ())]


def packing(order: Order) -> list[str]:
    """What belongs into the parcel."""
    frame = order.frame
    things = [f"{frame.maker} {frame.name} {frame.size}, {frame.color}, glazed with {order.lens.name}"]
    if frame.sun:
        things.append("the original plano sun lenses of the frame, in a bag of their own")
    return [*things, "case", "cleaning cloth", "the record card"]


def card_text(order: Order, checks: list[Check], standard: str, day: str, shop: Shop) -> str:
    """The card as text."""
    lines = [f"{shop.name}: record of order {order.id}", f"{order.day}, for {order.customer}"]
    lines += text_of(card_parts(order, checks, standard, day))
    for title, items in card_lists(order, shop):
        lines += ["", title, *(f"- {item}" for item in items)]
    return "\n".join([*lines, "", CARD_FOOT, ""])


def card_lists(order: Order, shop: Shop) -> list[tuple[str, list[str]]]:
    """Cautions, and how to get used to the pair."""
    return [("Please read", cautions_of(order, shop)), ("Getting used to them", used_to(order))]


def packing_text(order: Order, shop: Shop) -> str:
    """The packing list, a box to tick before each thing."""
    head = f"{shop.name}: parcel of order {order.id}"
    return "\n".join([head, *(f"[ ] {thing}" for thing in packing(order)), ""])


def parcel_text(order: Order, shop: Shop) -> str:
    """The letter in the parcel."""
    reach = " or ".join(part for part in (shop.email, shop.phone) if part)
    lines = [
        f"{order.customer},",
        "",
        f"here are your {order.frame.name} with {order.lens.name}.",
        "The card in the parcel says what was ordered and what we measured before they left.",
        "",
        *used_to(order),
        "",
        *cautions_of(order, shop),
        "",
        "Clean them with water and the cloth, never dry; lay them down folded; keep them out of hot cars.",
        f"If anything is not as it should be, write to {reach}: we will see to it.",
        "",
        shop.name,
        "",
    ]
    return "\n".join(lines)


def card_dict(order: Order, checks: list[Check], standard: str, day: str, shop: Shop) -> dict[str, Any]:
    """The card for programs: plain JSON, everything that is on it."""
    said = asdict(order)
    for name in ("form", "changes", "reasons", "note", "overruled", "remake_of", "remake_reason", "letter", "pair"):
        del said[name]
    return {
        "shop": shop.name,
        **said,
        "verified": {"day": day, "standard": standard, "checks": list(checks)} if checks else None,
        "cautions": cautions_of(order, shop),
        "getting_used": used_to(order),
        "packing": packing(order),
    }
