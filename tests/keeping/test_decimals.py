"""Amounts as lists write them: the column decides what parts hundredths, and what cannot be decided is not."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.keeping import decimals

# Number formats of Unicode CLDR 44: grouping and decimal signs of these locales (from memory)
FORMATS = {"en_US": (",", "."), "de_DE": (".", ","), "fr_FR": ("\u202f", ","), "de_CH": ("’", "."), "plain": ("", ".")}


def formatted(cents, group, sign):
    whole = f"{cents // 100:,}".replace(",", group)
    return f"{whole}{sign}{cents % 100:02d}"


@given(st.lists(st.integers(0, 9_999_999), min_size=1), st.sampled_from(sorted(FORMATS)))
def test_amounts_of_any_locale_are_read_back(amounts, name):
    group, sign = FORMATS[name]
    texts = [formatted(cents, group, sign) for cents in amounts]
    found = decimals.separator([decimals.apart(text).number for text in texts])
    assert found == sign
    assert [decimals.cents(text, found) for text in texts] == amounts


@pytest.mark.parametrize(
    ("numbers", "sign"),
    [
        (["24", "1500"], ""),
        (["1.234"], "?"),
        (["1,234", "2,500"], "?"),
        (["1.234", "24,5"], ","),
        (["1.234.567"], ","),
        (["0.125"], "."),
        (["1234.567"], "."),
    ],
)
def test_a_column_tells_what_parts_hundredths_or_nobody_can(numbers, sign):
    assert decimals.separator(numbers) == sign


def test_a_column_that_uses_both_is_refused():
    with pytest.raises(ValueError, match="both"):
        decimals.separator(["24,00", "24.00"])


@pytest.mark.parametrize("text", ["-24.00", "24.125", "1,23,456.00", "24.00 25.00", "12 Stk 24.00", "", "x", "24..00"])
def test_what_is_no_amount_is_refused(text):
    with pytest.raises(ValueError, match="not an amount"):
        decimals.cents(text, ".")


@pytest.mark.parametrize(
    ("text", "cents", "around"),
    [
        ("$24.00", 2400, ("$",)),
        ("24.00 EUR", 2400, ("EUR",)),
        ("CHF 1’024.50", 102_450, ("CHF",)),
        ("24.-", 2400, ()),
        ("24.—", 2400, ()),
        ("+24.5", 2450, ()),
    ],
)
def test_what_stands_around_an_amount_is_told_apart(text, cents, around):
    assert decimals.cents(text, ".") == cents
    assert decimals.apart(text).around == around


@pytest.mark.parametrize("text", ["-6.10", "6.125", "-6.00 bis", "", "sph", "100.00"])
def test_powers_lie_on_quarters(text):
    with pytest.raises(ValueError, match="power"):
        decimals.power(text)
