"""In which version a color is sold, optical or sun, and what that means for who buys it.  The page says the same."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from dataclasses import replace

from quoting.catalog.model import Colorway, Frame
from quoting.catalog.shop import Shop
from quoting.languages import _, marked
from quoting.offers import Ask, Choice, Offer, Offers
from quoting.show.amounts import money

# Sentences by what they say; names in braces are filled in here and by the page
VERSIONS = marked(
    {
        "name-sun": "{color}, sun version",
        "is-optical": "Optical version",
        "is-sun": "{color} is the sun version: your lenses go into it; its original lenses come in the parcel",
        "is-sun-only": (
            "{color} is sold as a sun version only: your lenses go into it; its original lenses come in the parcel"
        ),
        "other-optical": "The optical version of {color} costs {price} without lenses",
        "other-sun": "The sun version of {color} costs {price} without lenses",
        "in-all": "The optical version of {color} costs {price} without lenses, and {total} in all with these",
        "to-order": "It has to be ordered",
        "sold-out": "It is sold out at present",
        "gone": "{color} is sold out at present",
        "show": "Show it",
    }
)


def color_text(color: Colorway) -> str:
    """The color's name, with its version where that is not the usual one."""
    return _(VERSIONS["name-sun"]).format(color=color.name) if color.sun else color.name


def version_text(color: Colorway) -> str:
    """What the version means: whose lenses come with it, and where they end."""
    return _(VERSIONS[f"is-{color.version}"]).format(color=color.name)


def other_lines(other: Colorway, shop: Shop, total: str = "") -> list[str]:
    """What the same color costs in the version that was not chosen, alone or in all; and that it is not at hand."""
    key = "in-all" if total else "other-sun" if other.sun else "other-optical"
    price = money(other.price_cents, shop.currency, shop.locale)
    said = _(VERSIONS[key]).format(color=other.name, price=price, total=total)
    return [said] if other.stock == "in-stock" else [said, _(VERSIONS[other.stock])]


def version_lines(frame: Frame, color: Colorway, shop: Shop, total: str = "") -> list[str]:
    """What is to be said of a colorway: nothing of an optical one that is to be had, which is the usual thing.

    ``total`` is what the same lenses come to in the optical version, where there is one and they have a price.
    """
    other = frame.other_version(color)
    gone = [_(VERSIONS["gone"]).format(color=color.name)] if color.stock == "sold-out" else []
    if not color.sun:
        return gone
    return [*gone, version_text(color), *(other_lines(other, shop, total) if other is not None else [])]


def in_other_version(offer: Offer, ask: Ask, offers: Offers) -> Offer | None:
    """The same size and lenses in the color's other version; None where the color is sold in one alone."""
    choice: Choice = offer.choice
    other = choice.frame.other_version(choice.colorway)
    return None if other is None else offers.offer(replace(choice, colorway=other), ask)


def quoted_version_lines(offer: Offer, ask: Ask, offers: Offers) -> list[str]:
    """The same for a quote: with what it comes to in all in the optical version."""
    shop, choice, other = offers.catalog.shop, offer.choice, in_other_version(offer, ask, offers)
    priced = other.bill if other is not None and other.bill["priced"] else None
    total = money(priced["total_cents"], shop.currency, shop.locale) if priced is not None else ""
    return version_lines(choice.frame, choice.colorway, shop, total)


def version_dict(choice: Choice) -> dict[str, object]:
    """For programs: the version of the colorway, and the colorway that is its other version, with the frame's price."""
    other = choice.frame.other_version(choice.colorway)
    about = (
        {"colorway": other.id, "version": other.version, "stock": other.stock, "frame_cents": other.price_cents}
        if other
        else None
    )
    return {"version": choice.colorway.version, "original_lenses": choice.colorway.sun, "other_version": about}


def quoted_version_dict(offer: Offer, ask: Ask, offers: Offers) -> dict[str, object]:
    """The same for a quote: with what it comes to in all in the other version."""
    found = version_dict(offer.choice)
    about, other = found["other_version"], in_other_version(offer, ask, offers)
    if isinstance(about, dict) and other is not None:
        about["total_cents"] = other.bill["total_cents"] if other.bill["priced"] else None
    return found
