"""A language that nobody speaks: each text in brackets, so that what a page says without it is seen at sight."""

from __future__ import annotations

import re
from gettext import NullTranslations

from quoting.catalog.shop import Catalog
from quoting.languages import CONTEXT, Tongue

OPEN, CLOSE = "⟦", "⟧"
WORD = re.compile(r"[^\W\d_]{2,}")
# Signs and abbreviations that stand in every language: units, the boxing system's letters, the currency
SIGNS = {"mm", "cm", "DBL", "ED", "USD", "EUR"}


class Bracketed(NullTranslations):
    """Every text in brackets, as it is."""

    def gettext(self, message: str) -> str:
        """One text."""
        return f"{OPEN}{message.rpartition(CONTEXT)[2]}{CLOSE}"

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        """One of two."""
        return self.gettext(msgid1 if n == 1 else msgid2)

    def pgettext(self, context: str, message: str) -> str:
        """One text in its context."""
        return self.gettext(message)

    def npgettext(self, context: str, msgid1: str, msgid2: str, n: int) -> str:
        """One of two in their context."""
        return self.ngettext(msgid1, msgid2, n)


PSEUDO = Tongue("en", "en_US", ".", Bracketed())


def owners(catalog: Catalog) -> list[str]:
    """The words of a shop's own data, the longest first."""
    shop, prices = catalog.shop, catalog.price_list
    words = [shop.name, shop.tagline, shop.email, shop.phone, shop.url, prices.version, *shop.address, *shop.cautions]
    words += [one.text for one in (*prices.surcharges, *prices.discounts)] + [one.name for one in prices.regions]
    words += [f"{one.text[:1].lower()}{one.text[1:]}" for one in prices.surcharges]
    for frame in catalog.frames.values():
        words += [frame.name, frame.maker, frame.material, frame.about, *(one.name for one in frame.colorways)]
    for pack in catalog.packages.values():
        words += [pack.name, pack.maker, pack.coating, pack.about]
        words += [pack.material.name, pack.design.name, pack.design.about]
    return sorted({word for word in words if word}, key=len, reverse=True)


def outside(text: str) -> str:
    """What of a text stands outside of all brackets."""
    found, depth = [], 0
    for sign in text:
        depth += sign == OPEN
        if depth == 0:
            found.append(sign)
        depth -= sign == CLOSE
    return "".join(found)


def unsaid(text: str, own: list[str]) -> list[str]:
    """The words of a text that no catalog has and that are not the owner's."""
    rest = " ".join(outside(text).split())
    for words in own:
        rest = rest.replace(words, " ")
    return [word for word in WORD.findall(rest) if word not in SIGNS]
