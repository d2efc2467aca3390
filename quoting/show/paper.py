"""What makes an offer a quote: a number, a day, an end, and the page to look at."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import base64
import hashlib
import json
from datetime import date, timedelta

from quoting.offers import Ask, Choice, Offer, Offers
from quoting.show.cautions import on_paper
from quoting.show.contract import answer_dict, asked_dict, offer_dict
from quoting.show.text import Paper
from quoting.show.versions import quoted_version_dict


def number_of(content: dict[str, object], issued: date) -> str:
    """A number that the same quote of the same day gets again: the day and five letters of its content's SHA-256."""
    canonical = json.dumps(content, sort_keys=True, separators=(",", ":"), ensure_ascii=True)
    letters = base64.b32encode(hashlib.sha256(canonical.encode()).digest()).decode()[:5]
    return f"{issued:%y%m%d}-{letters}"


def page_of(choice: Choice) -> str:
    """The frame's page within the site, at the package's row of the board."""
    return f"frames/{choice.frame.id}/index.html#{choice.size.key}-{choice.package.id}"


def paper_of(offer: Offer, ask: Ask, offers: Offers, site: str) -> Paper:
    """The quote's number, dates and link; ``site`` is where the pages stand, "" where that is not known."""
    shop = offers.catalog.shop
    content = asked_dict(offer, ask, offers.catalog) | {"offer": offer_dict(offer, ask, offers)}
    page = page_of(offer.choice)
    return Paper(
        number_of(content, offers.day),
        offers.day,
        offers.day + timedelta(days=shop.quote_days),
        f"{site.rstrip('/')}/{page}" if site else page,
    )


def quote_dict(offer: Offer, ask: Ask, offers: Offers, paper: Paper) -> dict[str, object]:
    """A quote for programs."""
    return {
        "number": paper.number,
        "issued": paper.issued.isoformat(),
        "expires": paper.expires.isoformat(),
        "link": paper.link,
        **asked_dict(offer, ask, offers.catalog),
        **quoted_version_dict(offer, ask, offers),
        "offer": answer_dict(offer, ask, offers),
        "cautions": on_paper(offers.catalog.shop, offer, ask),
    }
