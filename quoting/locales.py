"""Which languages, countries and currencies there are, and how an amount is written there (Unicode CLDR).

The only file that knows Babel.

>>> locale_exists("en_US"), locale_exists("xx_YY"), locale_meant("en_UK")
(True, False, 'en_GB')
>>> currency_in_use("EUR"), currency_in_use("XXQ"), decimals("EUR"), decimals("JPY")
(True, False, 2, 0)
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from functools import cache
from gettext import GNUTranslations
from io import BytesIO
from pathlib import Path

from babel import Locale, UnknownLocaleError, __version__
from babel.core import get_global
from babel.dates import format_date
from babel.messages.mofile import write_mo
from babel.messages.pofile import PoFileError, read_po
from babel.numbers import (
    format_currency,
    get_currency_precision,
    get_currency_symbol,
    get_decimal_symbol,
    get_territory_currencies,
)

# Whose word for amounts and days it is
WRITER = f"Babel {__version__}"


def locale_exists(name: str) -> bool:
    """Whether CLDR knows this ``language_COUNTRY`` under just this name; another spelling of it is not enough."""
    return bool(name) and _spelled(name) == name


def locale_meant(name: str) -> str:
    """The locale that was probably meant by one that does not exist, or nothing.

    Other codes for the same come first (``en_UK``), then the language in its usual country, then the usual language
    of the country (CLDR's likely subtags).
    """
    language, _, country = name.partition("_")
    usual = get_global("likely_subtags")
    guesses = [_spelled(name)]
    for known in (usual.get(language, ""), usual.get(f"und_{country}", "")):
        parts = known.split("_")
        guesses.append(f"{parts[0]}_{parts[-1]}")
    return next((guess for guess in guesses if locale_exists(guess)), "")


def _spelled(name: str) -> str:
    """The ``language_COUNTRY`` that Babel finds under this name, or nothing."""
    try:
        found = Locale.parse(name)
    except (UnknownLocaleError, ValueError):
        return ""
    return f"{found.language}_{found.territory}" if found.territory else ""


@cache
def currencies() -> tuple[str, ...]:
    """The codes (ISO 4217) that are legal tender somewhere, with no end known, in order of the alphabet."""
    countries = get_global("territory_currencies")
    return tuple(sorted({code for country in countries for code in get_territory_currencies(country, date.max)}))


def currencies_of(locale: str) -> tuple[str, ...]:
    """What one pays with in the country of a locale, the usual one first; nothing where there is no such country."""
    country = locale.partition("_")[2]
    return tuple(get_territory_currencies(country, date.max)) if country in get_global("territory_currencies") else ()


def currency_in_use(code: str) -> bool:
    """Whether one pays with it anywhere: neither withdrawn, nor a metal, nor a code for tests."""
    return code in currencies()


def signs(currency: str, locale: str) -> frozenset[str]:
    """What stands beside amounts in this currency: its code, its sign in the locale, its sign in English.

    >>> sorted(signs("EUR", "de_AT")), sorted(signs("CAD", "en_CA"))
    (['EUR', '€'], ['$', 'CA$', 'CAD'])
    """
    return frozenset({currency, get_currency_symbol(currency, locale), get_currency_symbol(currency, "en")})


def decimals(currency: str) -> int:
    """How many decimals an amount in this currency is written with."""
    return int(get_currency_precision(currency))


def decimal_sign(locale: str) -> str:
    """What stands between the whole and the decimals of a number.

    >>> decimal_sign("en_US"), decimal_sign("es_ES"), decimal_sign("es_MX")
    ('.', ',', '.')
    """
    return str(get_decimal_symbol(locale))


@cache
def language_name(language: str) -> str:
    """What a language is called in it, as a word that stands alone.

    >>> language_name("es"), language_name("pt_BR")
    ('Español', 'Português (Brasil)')
    """
    name = Locale.parse(language).get_display_name(language) or language
    return name[0].upper() + name[1:]


def written_day(day: date, locale: str) -> str:
    """A day as this locale writes it, of middle length.

    >>> written_day(date(2026, 11, 25), "en_US"), written_day(date(2026, 11, 25), "es_ES")
    ('Nov 25, 2026', '25 nov 2026')
    """
    return str(format_date(day, "medium", locale=locale))


def locale_in(language: str, locale: str) -> str:
    """The locale of a language in the country of another locale; in its usual country where nobody knows that one.

    >>> locale_in("es", "en_US"), locale_in("en", "es_MX"), locale_in("pt_BR", "es_AR")
    ('es_US', 'en_US', 'pt_BR')
    """
    country = locale.partition("_")[2]
    guesses = (locale if locale.partition("_")[0] == language else language, f"{language}_{country}")
    return next((one for one in guesses if locale_exists(one)), "") or locale_meant(f"{language}_")


def read_catalog(path: Path) -> GNUTranslations:
    """The texts of a GNU gettext catalog (.po), as it lies there.   Raises OSError, and ValueError where it is none."""
    try:
        with path.open("rb") as file:
            catalog = read_po(file, abort_invalid=True)
    except (PoFileError, ValueError) as error:
        raise ValueError(f"{path}: {error}") from error
    compiled = BytesIO()
    write_mo(compiled, catalog)
    compiled.seek(0)
    return GNUTranslations(compiled)


@cache
def plural_samples(locale: str) -> dict[str, int]:
    """A number for each form that a noun has beside whole numbers in a language (CLDR plural rules), the least of each.

    >>> plural_samples("en_US"), plural_samples("pl_PL")
    ({'one': 1, 'other': 0}, {'one': 1, 'few': 2, 'many': 0})
    """
    rule = Locale.parse(locale).plural_form
    found: dict[str, int] = {}
    for number in range(1001):
        found.setdefault(rule(number), number)
    return {name: found[name] for name in ("zero", "one", "two", "few", "many", "other") if name in found}


def written_amount(cents: int, currency: str, locale: str) -> str:
    """An amount, counted in hundredths of its currency, as this locale writes it.

    >>> written_amount(-12990, "USD", "en_US")
    '-$129.90'
    """
    return str(format_currency(Decimal(cents) / 100, currency, locale=locale))


@dataclass(frozen=True, slots=True)
class AmountForm:
    """How amounts in a currency are written, as data: what a page needs to write them as `written_amount` does."""

    before: str
    after: str
    before_less: str  # the same around an amount below zero
    after_less: str
    decimal: str
    group: str
    last: int  # digits in the group before the decimal sign
    others: int  # digits in each group before that one


@cache
def amount_form(currency: str, locale: str) -> AmountForm:
    """The form of amounts, read off two that are written so: twelve millions and as much below zero.

    >>> amount_form("EUR", "de_DE").after, amount_form("INR", "en_IN").others
    ('\\xa0€', 2)
    """
    more, less = (written_amount(cents, currency, locale) for cents in (1234567891, -1234567891))
    groups = re.findall(r"\d+", more)
    signs = re.findall(r"(?<=\d)\D+(?=\d)", more)
    around, around_less = re.split(r"\d.*\d", more), re.split(r"\d.*\d", less)
    return AmountForm(
        before=around[0],
        after=around[1],
        before_less=around_less[0],
        after_less=around_less[1],
        decimal=signs[-1],
        group=signs[0] if len(signs) > 1 else "",
        last=len(groups[-2]),
        others=len(groups[-3]) if len(groups) > 2 else len(groups[-2]),
    )
