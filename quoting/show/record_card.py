"""The record card of a pair: what was ordered, made and measured, so that any optician can make it again."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from dataclasses import asdict, dataclass, field
from typing import Any

from quoting.catalog.shop import ABOUT, Shop
from quoting.kernel.power import strongest
from quoting.kernel.records import Check
from quoting.languages import _, decimals, marked
from quoting.orders.model import Order
from quoting.show.amounts import power
from quoting.show.cautions import FOR_THE_ORDER, STRONG_PLUS_D, sentences
from quoting.show.clauses import STANDARDS, numbers, what
from quoting.show.order_parts import Part, Row
from quoting.show.ordered import as_power, shared_parts, text_of
from quoting.show.text import SHORT

# (practice) how people get used to new glasses
USED_TO = marked(
    {
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
)
(CARD_FOOT,) = marked(("Bring this card to any optician. It is a record of these glasses and no prescription.",))


@dataclass(frozen=True, slots=True)
class Measured:
    """The verification that a pair passed; empty where there is none."""

    checks: list[Check] = field(default_factory=list)
    standard: str = "ansi"
    day: str = ""
    found: dict[str, dict[str, float | None]] = field(default_factory=dict)  # by eye, None where not read


def card_parts(order: Order, measured: Measured) -> list[Part]:
    """What was ordered, then what was measured of the finished pair: the powers as they were read, each check."""
    found = shared_parts(order)
    read = [eye for eye in "RL" if measured.found.get(eye, {}).get("sphere") is not None]
    label = _("{eye} lens as read")
    rows = [Row(label.format(eye=_(SHORT[eye])), (_as_read(measured.found[eye]),)) for eye in read]
    for check in measured.checks:
        ordered, taken, within = numbers(check)
        said = _("{found} (ordered {ordered}, {tolerance})").format(
            found=taken, ordered=ordered, tolerance=within.replace(" ", "\u00a0")
        )
        rows.append(Row(what(check), (decimals(said),)))
    standard = STANDARDS[measured.standard].split(" (")[0]
    title = _("Measured on {day}, held by {standard}").format(day=measured.day, standard=standard)
    return [*found, *([Part(title, tuple(rows))] if rows else [])]


def _as_read(values: dict[str, float | None]) -> str:
    """The power of a lens as the lensmeter read it, with its addition."""
    sphere, cylinder, axis, add = (values.get(name) or 0.0 for name in ("sphere", "cylinder", "axis", "add"))
    said = as_power((sphere, cylinder, axis or 180.0))
    return f"{said} {_('add {power}').format(power=power(add))}" if add else said


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
    last = _("If your sight changes suddenly, see an eye doctor at once.")
    over = {_(sentence) for sentence in FOR_THE_ORDER}
    return [*(said for word in words for said in sentences(shop, word) if said not in over), last]


def used_to(order: Order) -> list[str]:
    """How to get used to them."""
    words = ("", order.lens.kind, order.lens.light)
    return [_(sentence) for word in words for sentence in USED_TO.get(word, ())]


def packing(order: Order) -> list[str]:
    """What belongs into the parcel."""
    frame = order.frame
    named = f"{frame.maker} {frame.name} {decimals(frame.size)}, {frame.color}"
    things = [_("{frame}, glazed with {lens}").format(frame=named, lens=order.lens.name)]
    if frame.sun:
        things.append(_("the original plano sun lenses of the frame, in a bag of their own"))
    return [*things, _("case"), _("cleaning cloth"), _("the record card")]


def card_text(order: Order, measured: Measured, shop: Shop) -> str:
    """The card as text."""
    head = _("{shop}: record of order {number}").format(shop=shop.name, number=order.id)
    lines = [head, _("{day}, for {customer}").format(day=order.day, customer=order.customer)]
    lines += text_of(card_parts(order, measured))
    for title, items in card_lists(order, shop):
        lines += ["", title, *(f"- {item}" for item in items)]
    return "\n".join([*lines, "", _(CARD_FOOT), ""])


def card_lists(order: Order, shop: Shop) -> list[tuple[str, list[str]]]:
    """Cautions, and how to get used to the pair."""
    return [(_("Please read"), cautions_of(order, shop)), (_("Getting used to them"), used_to(order))]


def packing_text(order: Order, shop: Shop) -> str:
    """The packing list, a box to tick before each thing."""
    head = _("{shop}: parcel of order {number}").format(shop=shop.name, number=order.id)
    return "\n".join([head, *(f"[ ] {thing}" for thing in packing(order)), ""])


def parcel_text(order: Order, shop: Shop) -> str:
    """The letter in the parcel."""
    reach = _("{mail} or call {phone}").format(mail=shop.email, phone=shop.phone)
    about = {"frame": order.frame.name, "lens": order.lens.name}
    lines = [
        f"{order.customer},",
        "",
        _("here are your {frame} with {lens}.").format(**about),
        _("The card in the parcel says what was ordered and what we measured before they left."),
        "",
        *used_to(order),
        "",
        *cautions_of(order, shop),
        "",
        _("Clean them with water and the cloth, never dry; lay them down folded; keep them out of hot cars."),
        _("If anything is not as it should be, write to {place}: we will see to it.").format(place=reach),
        "",
        shop.name,
        "",
    ]
    return "\n".join(lines)


def card_dict(order: Order, measured: Measured, shop: Shop) -> dict[str, Any]:
    """The card for programs: plain JSON, everything that is on it."""
    said = asdict(order)
    for name in ("form", "changes", "reasons", "note", "overruled", "remake_of", "remake_reason", "letter", "pair"):
        del said[name]
    return {
        "shop": shop.name,
        **said,
        "verified": asdict(measured) if measured.checks else None,
        "cautions": cautions_of(order, shop),
        "getting_used": used_to(order),
        "packing": packing(order),
    }
