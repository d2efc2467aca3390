"""The language that pages and quotes are written in; its texts come from a GNU gettext catalog, one file a language.

A text stands in the code in English and is marked: ``_("...")`` where it is said, `marked` where it waits in a table.
The catalogs are ``theme/languages/es.po`` and so on, read as they are, so a language more is a file more.  What is not
in a catalog is said in English.  Numbers, amounts and days follow the locale.

>>> with speaking(tongue("es_ES")):
...     print(_("right eye"), decimals("5.04"))
ojo derecho 5,04
>>> print(_("right eye"), decimals("5.04"))
right eye 5.04
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass, field
from functools import cache
from gettext import NullTranslations
from pathlib import Path
from typing import NamedTuple, TypeVar

from quoting.locales import decimal_sign, locale_in, plural_samples, read_catalog
from quoting.places import shared

# The language of the texts in the code
SOURCE = "en"
# What gettext puts between the context of a text and the text
CONTEXT = "\x04"

# A decimal point: numbers in texts and catalogs are written with it, whatever the locale
POINT = re.compile(r"(?<=[0-9])\.(?=[0-9])")

Texts = TypeVar("Texts")


@dataclass(frozen=True, slots=True)
class Tongue:
    """A language as it is written in one country."""

    language: str  # the name of its catalog: en, es, pt_BR
    locale: str  # such as es_ES: how numbers, amounts and days are written
    decimal: str
    texts: NullTranslations = field(compare=False, repr=False)


_spoken: ContextVar[Tongue] = ContextVar("spoken")


def folder() -> Path:
    """Where the catalogs lie."""
    return shared("theme") / "languages"


def languages() -> tuple[str, ...]:
    """All languages there are, that of the code first."""
    return (SOURCE, *sorted(path.stem for path in folder().glob("*.po")))


def language_of(locale: str) -> str:
    """The language of a locale, that of the code where there is no catalog for it.

    >>> language_of("es_MX"), language_of("en_GB"), language_of("is_IS")
    ('es', 'en', 'en')
    """
    there = languages()
    return next((name for name in (locale, locale.partition("_")[0]) if name in there), SOURCE)


@cache
def tongue(locale: str, language: str = "") -> Tongue:
    """The language in the country of a locale; the locale's own one where none is named."""
    name = language or language_of(locale)
    written = locale_in(name, locale) if language else locale
    texts = NullTranslations() if name == SOURCE else read_catalog(folder() / f"{name}.po")
    return Tongue(name, written, decimal_sign(written), texts)


def spoken() -> Tongue:
    """The language that is spoken now; that of the code where nobody said another."""
    return _spoken.get(None) or tongue("en_US")


def spoken_locale(usual: str) -> str:
    """The locale of the language that is spoken; the usual one where nobody said any."""
    one = _spoken.get(None)
    return one.locale if one else usual


@contextmanager
def speaking(one: Tongue) -> Iterator[Tongue]:
    """Speak a language for a while."""
    before = _spoken.set(one)
    try:
        yield one
    finally:
        _spoken.reset(before)


def marked(texts: Texts) -> Texts:
    """A text, or a table of texts, that is said later: it is in the catalogs, and stays as it is.

    Of a table its values are texts, and its keys are not.
    """
    return texts


def in_context(context: str, text: str) -> str:
    """A text that means something else elsewhere, so that other languages may say it in another way.

    >>> _(in_context("the base of a prism", "in"))
    'in'
    """
    return f"{context}{CONTEXT}{text}"


class Counted(NamedTuple):
    """A text that changes with a number, which stands in it in braces under the name ``by``."""

    by: str
    one: str
    many: str


def by_number(by: str, one: str, many: str) -> Counted:
    """A marked text that is said later, of one and of many."""
    return Counted(by, one, many)


def forms(text: Counted) -> dict[str, str]:
    """All forms of such a text in the language that is spoken, by CLDR's names for them.

    >>> forms(by_number("n", "{n} frame", "{n} frames"))
    {'by': 'n', 'one': '{n} frame', 'other': '{n} frames'}
    """
    kinds = plural_samples(spoken().locale)
    return {"by": text.by} | {kind: ngettext(text.one, text.many, number) for kind, number in kinds.items()}


def _(text: str) -> str:
    """A marked text in the language that is spoken; what stands in braces there is filled in afterwards."""
    return decimals(spoken().texts.gettext(text).rpartition(CONTEXT)[2]) if text else ""


def ngettext(one: str, many: str, count: int) -> str:
    """One of two texts, by a number; other languages may have more than two."""
    return decimals(spoken().texts.ngettext(one, many, count))


def pgettext(context: str, text: str) -> str:
    """A text within a context."""
    return decimals(spoken().texts.pgettext(context, text))


def npgettext(context: str, one: str, many: str, count: int) -> str:
    """One of two texts within a context, by a number."""
    return decimals(spoken().texts.npgettext(context, one, many, count))


# In which order letters stand; a letter with a sign of its own that is not among them goes with the one without it
ALPHABET = marked("abcdefghijklmnopqrstuvwxyz")


def in_order(text: str) -> tuple[list[int], str]:
    """A key to sort names by, as a dictionary of the language sorts them.

    >>> sorted(["Zeta", "Ángel", "alba", "Ñu", "Nube"], key=in_order)
    ['alba', 'Ángel', 'Ñu', 'Nube', 'Zeta']
    """
    alphabet = _(ALPHABET)
    letters: list[int] = []
    for sign in unicodedata.normalize("NFC", text.casefold()):
        plain = sign if sign in alphabet else unicodedata.normalize("NFD", sign)[0]
        letters.append(alphabet.index(plain) + 0x110000 if plain in alphabet else ord(plain))
    return letters, text


def decimals(written: str) -> str:
    """Numbers that were written with decimal points, also within a text, with the decimal sign of the locale."""
    sign = spoken().decimal
    return written if sign == "." else POINT.sub(sign, written)
