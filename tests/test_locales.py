"""Locales and currencies are those that exist, and every one that exists can write an amount."""

import pytest
from babel import Locale, localedata

from quoting import locales


# BCP 47 (RFC 5646, section 2.2.1) takes the shortest language code, ISO 3166-1 has GB and no UK.
@pytest.mark.parametrize("name", ["xx_YY", "xx_DE", "en_QQ", "eng_US", "en_UK", "en-US", "en", "de_ZZ", "", "_", "c_C"])
def test_a_locale_that_does_not_exist_under_this_name_is_known_as_such(name):
    assert not locales.locale_exists(name)


@pytest.mark.parametrize("name", ["en_US", "de_AT", "fr_CA", "pt_BR", "nb_NO", "zh_TW", "sr_RS", "he_IL", "fil_PH"])
def test_languages_in_countries_where_they_are_spoken_are_locales(name):
    assert locales.locale_exists(name)


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("en_UK", "en_GB"),
        ("eng_US", "en_US"),
        ("iw_IL", "he_IL"),  # BCP 47 registry: iw was replaced by he
        ("de_FR", "de_DE"),
        ("no_NO", "nb_NO"),
        ("xx_DE", "de_DE"),
        ("xx_YY", ""),
        ("", ""),
    ],
)
def test_the_locale_that_was_meant_exists(written, meant):
    assert locales.locale_meant(written) == meant
    assert not meant or locales.locale_exists(meant)


def test_every_locale_that_exists_writes_every_amount():
    found = {Locale.parse(name) for name in localedata.locale_identifiers()}
    names = {f"{one.language}_{one.territory}" for one in found if one.territory and len(one.territory) == 2}
    names = {name for name in names if locales.locale_exists(name)}
    assert len(names) > 500
    for name in names:
        figures = [c for c in locales.written_amount(123456, "EUR", name) if c.isdecimal()]
        assert "".join(figures) == "123456", name


# ISO 4217, minor units (from memory).
@pytest.mark.parametrize(
    ("code", "digits"), [("EUR", 2), ("USD", 2), ("GBP", 2), ("CHF", 2), ("JPY", 0), ("KRW", 0), ("KWD", 3), ("BHD", 3)]
)
def test_a_currency_has_the_decimals_of_its_minor_unit(code, digits):
    assert locales.currency_in_use(code)
    assert locales.decimals(code) == digits


# ISO 4217: XXX is no currency, XTS is for tests, XAU is gold; the mark and the franc were withdrawn for the euro.
@pytest.mark.parametrize("code", ["XXQ", "XXX", "XTS", "XAU", "DEM", "FRF", "eur", ""])
def test_what_nobody_pays_with_is_not_in_use(code):
    assert not locales.currency_in_use(code)


# ISO 4217 names the countries with each code; the euro is Kosovo's too, without a treaty.
@pytest.mark.parametrize(
    ("locale", "codes"), [("en_US", ("USD",)), ("de_AT", ("EUR",)), ("sq_XK", ("EUR",)), ("xx_YY", ()), ("", ())]
)
def test_a_country_has_the_currency_one_pays_with_there(locale, codes):
    assert locales.currencies_of(locale) == codes


# Unicode CLDR number patterns (from memory): sign, group and decimal marks, a no-break space before the euro sign.
@pytest.mark.parametrize(
    ("locale", "currency", "written"),
    [("en_US", "USD", "$1,234.50"), ("de_DE", "EUR", "1.234,50\xa0€"), ("en_GB", "GBP", "£1,234.50")],
)
def test_amounts_are_written_as_the_country_writes_them(locale, currency, written):
    assert locales.written_amount(123450, currency, locale) == written
