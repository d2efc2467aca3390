"""A language that nobody speaks: each text in brackets, so that what a page says without it is seen at sight."""

from __future__ import annotations

import re
from datetime import date
from gettext import NullTranslations
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from quoting.catalog.load import load
from quoting.catalog.shop import Catalog
from quoting.findings import errors
from quoting.languages import CONTEXT, Tongue
from quoting.places import shared
from quoting.site import editions
from quoting.site.build import build

DAY = date(2026, 11, 25)
ATTRIBUTES = ("alt", "aria-label", "label", "placeholder", "title")
METADATA = re.compile(r"^(?:Title|Summary): (.*)$", re.MULTILINE)
OPEN, CLOSE = "⟦", "⟧"
WORD = re.compile(r"[^\W\d_]{2,}")
ADDRESS = re.compile(r"https?://\S+")
# Signs and abbreviations that stand in every language: units, the boxing system's letters, the currency
SIGNS = {"mm", "cm³", "DBL", "ED", "USD", "EUR"}


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
    words += [sentence for sentences in shop.cautions_for.values() for sentence in sentences]
    words += [one.text for one in (*prices.surcharges, *prices.discounts)] + [one.name for one in prices.regions]
    words += [f"{one.text[:1].lower()}{one.text[1:]}" for one in prices.surcharges]
    for frame in catalog.frames.values():
        words += [frame.name, frame.maker, frame.material, frame.about, *(one.name for one in frame.colorways)]
    for pack in catalog.packages.values():
        words += [pack.name, pack.maker, pack.coating, pack.about]
        words += [pack.material.name, pack.design.name, pack.design.about]
    book = catalog.tints
    light = [*book.dyes.values(), *book.mirrors.values(), *book.photochromics, *book.polarizers, *book.coats]
    words += [one.name for one in light]
    for mix in book.mixes.values():
        words += [mix.name, mix.about, mix.code]
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
    rest = ADDRESS.sub(" ", " ".join(outside(text).split()))
    for words in own:
        rest = rest.replace(words, " ")
    return [word for word in WORD.findall(rest) if word not in SIGNS]


def build_bracketed(output: Path) -> Path:
    """The demo's site in this language."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(editions, "tongue", lambda *_: PSEUDO)
        # Texts come from the catalogs, and the memory of a build is known by those; these come from nowhere
        patch.setenv("XDG_CACHE_HOME", str(output.parent / "cache"))
        assert errors(build(shared("demo_catalog"), output, DAY).findings) == []
    return output


def own_words() -> list[str]:
    """The words of the demo shop and of its articles, the longest first."""
    prose = [path.read_text(encoding="utf-8") for path in shared("content").rglob("*.md")]
    words = owners(load(shared("demo_catalog"), DAY)[0]) + [line for text in prose for line in METADATA.findall(text)]
    return sorted(words, key=len, reverse=True)


def said(html: str) -> list[str]:
    """All that a page says: its text, and what is said of its parts.  Not what prose says, which is the owner's."""
    page = BeautifulSoup(html, "html.parser")
    for part in page.select("script, style, time, wbr, .prose"):
        part.decompose()
    page.smooth()  # where a word may be broken, it is one word still
    texts = [page.get_text("\n")]
    texts += [one[name] for one in page.find_all(True) for name in ATTRIBUTES if one.get(name)]
    return [*texts, *(one["content"] for one in page.select('meta[name="description"]'))]
