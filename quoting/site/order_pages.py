"""Order sheet, tint recipe card and record card as printed pages: each one file, nothing from elsewhere, no script."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterable, Sequence

from markupsafe import Markup

from quoting.catalog.model import Outline
from quoting.catalog.shop import Shop
from quoting.languages import _, spoken
from quoting.orders.model import Order
from quoting.places import shared
from quoting.show.centered import centered_svg
from quoting.show.order_parts import LENS, Part
from quoting.show.ordered import CHECKED, parts
from quoting.show.record_card import CARD_FOOT, Measured, card_lists, card_parts
from quoting.show.tint_card import tint_part
from quoting.site.assets import sheet_of
from quoting.site.bench_page import digest
from quoting.site.sheet_page import environment

# More rows than this are set smaller, so that they stay on one page
MANY_ROWS = 40

Listed = tuple[str, Sequence[str]]


def paper(
    shop: Shop,
    heading: str,
    under: Iterable[str],
    found: list[Part],
    foot: str,
    lists: Iterable[Listed] = (),
    picture: str = "",
) -> str:
    """A printed page of parts and lists, and of a drawing (SVG)."""
    style, listed = sheet_of(shared("theme") / "paper", ("order",)), list(lists)
    return (
        environment()
        .get_template("order.html")
        .render(
            language=spoken().language,
            title=f"{shop.name}: {heading}",
            shop=shop,
            heading=heading,
            under=list(under),
            parts=found,
            lists=listed,
            foot=foot,
            picture=Markup(picture),
            dense=sum(len(part.rows) for part in found) + sum(2 * len(items) for _, items in listed) > MANY_ROWS,
            style=Markup(style),
            style_hash=digest(style),
        )
    )


def sheet_page_of(order: Order, shop: Shop, traced: Outline | None = None) -> str:
    """The order sheet, with both lenses at life size; ``traced`` is the outline in the nasal frame, if there is one."""
    which = f"{order.day}, quote {order.quote}, alternative {order.letter}, pair {order.pair}"
    under = (which, f"For {order.customer}")
    return paper(shop, f"Order {order.id}", under, parts(order), CHECKED, picture=centered_svg(order, traced))


def card_page(order: Order, measured: Measured, shop: Shop) -> str:
    """The wearer's record card."""
    under = (
        _("Order {number} of {day}").format(number=order.id, day=order.day),
        _("for {customer}").format(customer=order.customer),
    )
    return paper(shop, _("Record card"), under, card_parts(order, measured), _(CARD_FOOT), card_lists(order, shop))


def tint_page(order: Order, shop: Shop) -> str:
    """The recipe card that goes to the dyer; the wearer's name is not on it."""
    lens = Part("Lens", next(part for part in parts(order) if part.what == LENS).rows)
    foot = "A dye's spectrum decides color and category: measure a sample before the lens is dyed."
    return paper(shop, f"Tint of order {order.id}", (order.day,), [tint_part(order), lens], foot)
