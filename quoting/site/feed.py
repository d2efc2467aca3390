"""What an entry of the feed has beyond the article's own words: a picture, the verdict, the price, and the film."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
from typing import Any
from urllib.parse import urljoin

from markupsafe import Markup

from quoting.languages import _
from quoting.show.terms import verdict
from quoting.show.text import total_text
from quoting.site.combinations import Combination
from quoting.site.material import Material

LINE = Markup("<p>{}</p>")
PICTURE = Markup('<p><img src="{}" width="{}" height="{}" alt="{}"></p>')
LINK = Markup('<p><a href="{}">{}</a></p>')
# A tag, whatever stands in its attributes; an attribute that holds an address
TAG = re.compile(r"""<[a-zA-Z](?:[^<>"']|"[^"]*"|'[^']*')*>""")
ADDRESS = re.compile(r"""(\s(?:href|src)=)(["'])(.*?)\2""")


def from_anywhere(html: str, page: str) -> str:
    """The same with whole addresses: a reader of feeds does not know which page a link such as ``../`` is seen from.

    >>> from_anywhere('<a href="../b/">b</a> href="../b/"', "https://a.example/c/d/index.html")
    '<a href="https://a.example/c/b/">b</a> href="../b/"'
    """

    def whole(tag: re.Match[str]) -> str:
        return ADDRESS.sub(lambda one: f"{one[1]}{one[2]}{urljoin(page, one[3])}{one[2]}", tag[0])

    return TAG.sub(whole, html)


def picture(made: Combination, site: Material) -> Markup:
    """What stands before the words: the frame in its colorway, at half its pixels."""
    choice = made.offer.choice
    shown = site.preview(choice.frame, choice.size, choice.colorway, made.lens)
    address = f"{site.catalog.shop.url.rstrip('/')}/{shown.address}"
    return PICTURE.format(address, shown.width // 2, shown.height // 2, shown.alt)


def added(made: Combination, site: Material) -> Markup:
    """What stands behind the words of an article, as HTML."""
    offer, shop = made.offer, site.catalog.shop
    said = _("{frame} with {lens}, worked out for an example: {verdict}.")
    if offer.bill["priced"]:
        said = _("{frame} with {lens}, worked out for an example: {verdict}, {price} all in.")
    names = {"frame": offer.choice.frame.name, "lens": offer.choice.package.name}
    found = LINE.format(
        said.format(verdict=verdict(offer.fit["verdict"]), price=total_text(offer, shop), **names)
    )
    return found + (LINK.format(made.film.address, made.film.title) if made.film else "")


def complete(context: dict[str, Any], feed: Any, site: Material) -> None:
    """Give every entry of Pelican's feed what the page shows, and its author a name (RFC 4287, 3.2.1)."""
    feed.feed["title"] = site.feed_title
    made = {one.url: one for one in context["articles"] if getattr(one, "combination", None)}
    for entry in feed.items:
        entry["author_name"] = site.catalog.shop.name
        for name in ("content", "description"):
            entry[name] = from_anywhere(entry[name], entry["link"]) if entry[name] else entry[name]
        for url, article in made.items():
            if entry["link"].endswith(f"/{url}"):
                combination = article.combination
                entry["title"] = article.title  # it is text: Pelican takes what looks like a tag out of it
                entry["content"] = str(picture(combination, site)) + entry["content"] + str(added(combination, site))
