"""The shop's own file: places, money and mountings, and whether what a hint proposes is taken."""

import pytest

from tests.catalog.mangling import FILES, checked, shop

SHOP_FILE = FILES["shop.yaml"].decode()


def shop_findings(*changes):
    """The findings once texts of shop.yaml are exchanged for others."""
    text = SHOP_FILE
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    with shop(shop=text) as folder:
        return checked(folder)[1]


@pytest.mark.parametrize(
    ("locale", "hint"),
    [
        ("xx_YY", "write language and country of the shop, such as en_US or de_AT"),
        ("en_UK", "did you mean `en_GB`?"),
        ("xx_DE", "did you mean `de_DE`?"),
    ],
)
def test_a_locale_nobody_knows_is_told_with_the_one_that_was_meant(locale, hint):
    (finding,) = shop_findings(("en_US", locale))
    assert (finding.code, finding.hint) == ("unknown-locale", hint)
    assert finding.mark.text == f"  locale: {locale}"
    assert (finding.mark.column, finding.mark.length) == (11, 5)


# ISO 4217 (from memory): none of these is a currency that one pays with.
@pytest.mark.parametrize(
    ("code", "locale", "hint"),
    [
        ("EUE", "en_US", "did you mean `EUR`?"),
        ("USS", "en_US", "did you mean `USD`?"),
        ("GPB", "en_GB", "did you mean `GBP`?"),
        ("XXQ", "de_DE", "write the three letters that stand on bank statements, such as EUR"),
        ("XXQ", "ja_JP", "write the three letters that stand on bank statements, such as EUR or USD"),
    ],
)
def test_a_currency_nobody_pays_with_is_told_with_the_one_that_was_meant(code, locale, hint):
    (finding,) = shop_findings(("EUR", code), ("en_US", locale))
    assert (finding.code, finding.hint) == ("unknown-currency", hint)
    assert finding.mark.text == f"  currency: {code}"


# ISO 4217, minor units (from memory).
@pytest.mark.parametrize(("code", "said"), [("JPY", "no decimals"), ("KRW", "no decimals"), ("KWD", "3 decimals")])
def test_a_currency_that_is_not_counted_in_hundredths_is_told(code, said):
    (finding,) = shop_findings(("EUR", code))
    assert finding.code == "currency-decimals"
    assert said in finding.message


@pytest.mark.parametrize(("code", "locale"), [("USD", "es_US"), ("GBP", "cy_GB"), ("CHF", "de_CH"), ("TWD", "zh_TW")])
def test_currencies_and_locales_in_use_are_taken(code, locale):
    assert shop_findings(("EUR", code), ("en_US", locale)) == []


def mounting_lines():
    return [line for line in SHOP_FILE.splitlines(keepends=True) if line.startswith("  ") and "min_edge" in line]


# What benches usually hold (practice): thinnest edge, caution and no by thickest edge, rim as drawn.
USUAL = {
    "full-rim-plastic": "{min_edge: 1.0, edge_caution: 8.0, edge_no: 11.0, rim: 3.5}",
    "full-rim-metal": "{min_edge: 1.0, edge_caution: 5.0, edge_no: 7.0, rim: 1.4}",
    "semi-rimless": "{min_edge: 2.0, edge_caution: 6.0, edge_no: 8.0, rim: 1.6}",
    "drilled": "{min_edge: 2.0, edge_caution: 6.0, edge_no: 8.0, rim: 0.0}",
}


@pytest.mark.parametrize("mounting", USUAL)
def test_a_missing_mounting_is_proposed_with_its_own_figures(mounting):
    (line,) = [line for line in mounting_lines() if line.startswith(f"  {mounting}:")]
    (finding,) = shop_findings((line, ""))
    assert finding.hint == f"add {mounting}: {USUAL[mounting]} (names with values)"


@pytest.mark.parametrize("field", ["min_edge", "edge_caution", "edge_no", "rim"])
@pytest.mark.parametrize("mounting", USUAL)
def test_a_missing_limit_is_proposed_as_is_usual_for_its_mounting(mounting, field):
    (line,) = [line for line in mounting_lines() if line.startswith(f"  {mounting}:")]
    pairs = dict(pair.split(": ") for pair in USUAL[mounting].strip("{}").split(", "))
    rest = ", ".join(f"{name}: {value}" for name, value in pairs.items() if name != field)
    (finding,) = shop_findings((line, f"  {mounting}: {{{rest}}}\n"))
    assert finding.hint.startswith(f"add {field}: {pairs[field]} (")


def test_mountings_as_they_are_proposed_are_taken():
    block = "mountings:\n" + "".join(mounting_lines())
    (finding,) = shop_findings((block, ""))
    proposed = finding.hint.removeprefix("add ").removesuffix(" (names with values)")
    assert proposed.startswith("mountings: ")
    assert shop_findings((block, proposed + "\n")) == []
