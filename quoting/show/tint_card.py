"""The recipe card of an ordered tint, for the dyer and for the wearer's record."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.lens_calculators import category
from quoting.languages import _
from quoting.orders.model import Order
from quoting.orders.verifying import through_of
from quoting.show.amounts import mm, plain
from quoting.show.order_parts import TINT, Part, Row

# ISO 12312-1: category 4 is not for driving; below 75 percent not at night
NO_CATEGORY = 5
NOT_FOR_DRIVING = 4
NIGHT_PERCENT = 75.0


def tint_part(order: Order) -> Part:
    """The recipe card of a tint."""
    tint = order.tint
    assert tint is not None
    through = through_of(order)
    number = category(through)
    darker = _("{percent} % with the lens: darker than any filter category")
    known = _("{percent} % with the lens: filter category {category}")
    lets = (known if number < NO_CATEGORY else darker).format(percent=mm(through), category=f"{number:g}")
    rows = [
        Row(_("Takes"), (_("{percent} % of the light at its darkest").format(percent=plain(tint.depth)),)),
        Row(_("Lets through"), (lets,)),
        Row(_("Fade"), (_("gradient, darkest at the top") if tint.gradient else _("one depth all over"),)),
        Row(_("Recipe code"), (tint.recipe or _("to be written by the dyer: {line}").format(line="_" * 16),)),
        *([Row(_("Dyes"), (tint.mix,))] if tint.mix else []),
        Row(_("Driving"), (_driving(number, through),)),
    ]
    return Part(_("Tint recipe card"), tuple(rows), TINT)


def _driving(number: float, through: float) -> str:
    if number >= NOT_FOR_DRIVING:
        return _("not for driving")
    return _("not for driving at night or twilight") if through < NIGHT_PERCENT else _("see the lens's own limits")
