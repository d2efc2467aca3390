"""What a page tells machines about itself: JSON-LD in the words of schema.org.

Types and properties: https://schema.org (Product, AggregateOffer, Offer, Article, Organization), as published there.
Prices are those of the price list, in the shop's currency, without shipping; what a lens costs in a frame depends on
the prescription and is never claimed here.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from markupsafe import Markup

from quoting.catalog.model import Frame, Package, Stock
from quoting.catalog.shop import Shop
from quoting.languages import _
from quoting.money import written
from quoting.show.terms import family, mounting
from quoting.show.versions import color_text
from quoting.site.page_data import compact

CONTEXT = "https://schema.org"
AVAILABLE: dict[Stock, str] = {
    "in-stock": f"{CONTEXT}/InStock",
    "to-order": f"{CONTEXT}/BackOrder",
    "sold-out": f"{CONTEXT}/OutOfStock",
}


def block(value: dict[str, Any], top: str, path: str) -> Markup:
    """JSON that can stand in a page; with the page's address where that of the site's ``top`` is known."""
    place = {"url": f"{top}/{path}"} if top else {}
    return Markup(compact({"@context": CONTEXT, **value, **place}))


def range_of(cents: list[int], shop: Shop) -> dict[str, Any]:
    """From the least price to the greatest."""
    return {
        "@type": "AggregateOffer",
        "priceCurrency": shop.currency,
        "lowPrice": written(min(cents)),
        "highPrice": written(max(cents)),
        "offerCount": len(cents),
        "seller": {"@type": "Organization", "name": shop.name},
    }


def frame_product(frame: Frame, shop: Shop, photos: Sequence[str] = ()) -> dict[str, Any]:
    """A frame with an offer for each of its colorways; ``photos`` are addresses within the site."""
    prices = range_of([color.price_cents for color in frame.colorways], shop)
    prices["offers"] = [
        {
            "@type": "Offer",
            "name": color_text(color),
            "price": written(color.price_cents),
            "priceCurrency": shop.currency,
            "availability": AVAILABLE[color.stock],
        }
        for color in frame.colorways
    ]
    return {
        "@type": "Product",
        "name": f"{frame.maker} {frame.name}",
        "description": frame.about or f"{family(frame.family)}, {mounting(frame.mounting)}, {frame.material}",
        "brand": {"@type": "Brand", "name": frame.maker},
        **({"image": [f"{shop.url.rstrip('/')}/{photo}" for photo in photos]} if photos and shop.url else {}),
        "category": _("Spectacle frame"),
        "material": frame.material,
        "size": ", ".join(size.label for size in frame.sizes),
        "offers": prices,
    }


def package_product(package: Package, shop: Shop) -> dict[str, Any]:
    """A lens package, offered as a pair."""
    return {
        "@type": "Product",
        "name": f"{package.maker} {package.name}",
        "description": package.about or package.design.about or package.design.name,
        "brand": {"@type": "Brand", "name": package.maker},
        "category": _("Spectacle lenses, a pair"),
        "material": package.material.name,
        "offers": range_of([2 * band.lens_cents for band in package.prices], shop),
    }


def article_text(title: str, summary: str, day: str, shop: Shop) -> dict[str, Any]:
    """An article or guide of the shop."""
    return {
        "@type": "Article",
        "headline": title,
        "description": summary,
        "datePublished": day,
        "author": {"@type": "Organization", "name": shop.name},
    }
