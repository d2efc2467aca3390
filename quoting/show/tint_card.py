"""The recipe card of an ordered tint, for the dyer and for the wearer's record."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.lens_calculators import category
from quoting.kernel.tolerance import tint_tolerance
from quoting.languages import _
from quoting.orders.model import Order, Tint
from quoting.orders.verifying import through_of
from quoting.show.amounts import mm, plain
from quoting.show.order_parts import TINT, Part, Row
from quoting.show.quote_words import TINTED
from quoting.show.tint_record import ALWAYS

# ISO 12312-1: category 4 is not for driving; below 75 percent not at night
NO_CATEGORY = 5
NOT_FOR_DRIVING = 4
NIGHT_PERCENT = 75.0


def tint_part(order: Order) -> Part:
    """The recipe card of a tint."""
    tint = order.tint
    assert tint is not None
    through = through_of(order)
    number = tint.category if tint.category >= 0 else category(through)
    darker = _("{percent} % with the lens: darker than any filter category")
    known = _("{percent} % with the lens: filter category {category}")
    lets = (known if number < NO_CATEGORY else darker).format(percent=mm(through), category=f"{number:g}")
    held = _("{percent} % ± {points}, read through the finished lens where it is darkest")
    made_of = _("{material}, index {index}").format(material=order.lens.material, index=plain(order.lens.index))
    rows = [
        *([Row(_("Mix"), (tint.name,))] if tint.name else []),
        Row(_("Takes"), (_("{percent} % of the light at its darkest").format(percent=plain(tint.depth)),)),
        Row(_("Lets through"), (lets,)),
        Row(_("To hold"), (held.format(percent=mm(through), points=plain(tint_tolerance())),)),
        Row(_("Fade"), (_fade(tint),)),
        Row(_("Recipe code"), (tint.recipe or _("to be written by the dyer: {line}").format(line="_" * 16),)),
        *([Row(_("Dyes"), (tint.mix,))] if tint.mix else []),
        Row(_("On"), (made_of,)),
        *([Row(_("Mirror"), (tint.mirror,))] if tint.mirror else []),
        Row(_("Driving"), (_driving(tint, number, through),)),
    ]
    return Part(_("Tint recipe card"), tuple(rows), TINT)


def _fade(tint: Tint) -> str:
    if not tint.gradient:
        return _("one depth all over")
    if tint.top == tint.bottom:
        return _("gradient, darkest at the top")
    ends = {"top": plain(tint.top), "bottom": plain(tint.bottom)}
    ends |= {"first": plain(100 * tint.fade_from), "last": plain(100 * tint.fade_to)}
    return _("takes {top} % at the top and {bottom} % at the bottom, fading at {first} to {last} % down").format(**ends)


def _driving(tint: Tint, number: float, through: float) -> str:
    if 0 <= tint.driving <= ALWAYS:
        return _(TINTED[f"tint-driving-{tint.driving}"])
    if number >= NOT_FOR_DRIVING:
        return _("not for driving")
    return _("not for driving at night or twilight") if through < NIGHT_PERCENT else _("see the lens's own limits")
