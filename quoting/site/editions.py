"""A site in several languages: the first stands at the top, each other one as a whole in a folder of its name.

Pages that come from the catalog are in all of them and name each other; prose is in the language it is written in, and
what has the same place in two languages is one page in both.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from urllib.parse import urlsplit

from quoting.catalog.shop import Shop
from quoting.languages import Tongue, tongue
from quoting.locales import language_name

# What stands in every edition beside the first page, whatever prose there is
SHARED = ("frames/", "lenses/", "quote/")
# Lists of prose; each edition has them, but nothing leads to one that is empty
LISTS = ("combinations/", "guides/")


@dataclass(frozen=True, slots=True)
class Edition:
    """The site in one language."""

    tongue: Tongue
    folder: str  # "" for the first one, else "es/"

    @property
    def tag(self) -> str:
        """The language as pages name it (BCP 47)."""
        return self.tongue.language.replace("_", "-")

    @property
    def name(self) -> str:
        """What its speakers call it."""
        return language_name(self.tongue.language)

    def address(self, shop: Shop) -> str:
        """Where the top of this edition will stand; "" where that is not known."""
        return f"{shop.url.rstrip('/')}/{self.folder}".rstrip("/") if shop.url else ""

    def from_anywhere(self, shop: Shop) -> str:
        """The way to the top of this edition from any address of its host; "." where that is not known."""
        address = self.address(shop)
        return f"/{urlsplit(address).path.strip('/')}".rstrip("/") if address else "."

    def elsewhere(self, page: str, root: str, shop: Shop, written: Mapping[str, Collection[str]]) -> list[Elsewhere]:
        """Where a page's readers go for the other languages.

        ``root`` leads to the top of this edition; ``written`` holds the pages of prose of each language.
        """
        found = []
        for one in editions(shop):
            if one != self:
                same = all(is_there(page, written.get(each.tongue.language, ())) for each in (self, one))
                target = one.folder + (page if same else "index.html")
                found.append(Elsewhere(one, f"{self.from_root(root)}/{target}", target, same))
        return found

    def from_root(self, root: str) -> str:
        """The way from this edition's top, which a page reaches by ``root``, to the top of the site."""
        return f"{root}/.." if self.folder else root


def editions(shop: Shop) -> tuple[Edition, ...]:
    """The languages a shop speaks, its own first."""
    if not shop.languages:
        return (Edition(tongue(shop.locale), ""),)
    first, *others = shop.languages
    found = [Edition(tongue(shop.locale, name), f"{name}/") for name in others]
    return (Edition(tongue(shop.locale, first), ""), *found)


def tongue_of(shop: Shop, language: str | None) -> Tongue:
    """A language as this shop writes it; its own where none is named."""
    return tongue(shop.locale, language) if language else editions(shop)[0].tongue


def address_in(shop: Shop, language: str | None) -> str:
    """Where the pages in a language stand; the first ones where there are none in it, or none is named."""
    there = editions(shop)
    return next((one for one in there if one.tongue.language == language), there[0]).address(shop)


def language_of(link: str, shop: Shop) -> str:
    """The language in whose edition a link leads to the page of a quote; the first one's where that is not told."""
    known = editions(shop)
    told = (one for one in known[1:] if one.address(shop) and link.startswith(f"{one.address(shop)}/quote/"))
    return next(told, known[0]).tongue.language


def edition_of(page: str, shop: Shop) -> Edition:
    """The edition in which a page of the site stands."""
    known = editions(shop)
    return next((one for one in known[1:] if page.startswith(one.folder)), known[0])


def is_there(page: str, prose: Collection[str]) -> bool:
    """Whether a page stands in an edition that has these pages of prose."""
    listed = next((folder for folder in LISTS if page == f"{folder}index.html"), None)
    if listed is not None:
        return any(one.startswith(listed) for one in prose)
    return page == "index.html" or page.startswith(SHARED) or page in prose


@dataclass(frozen=True, slots=True)
class Elsewhere:
    """The same page in another language, or the first one where there is no such page."""

    edition: Edition
    link: str  # from the page
    page: str  # in the site
    same: bool
