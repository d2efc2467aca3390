"""What the form allows goes through unchanged; what it does not allow is refused, whichever way it comes."""

import json
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.quoted.form import FORM
from quoting.quoted.positional import FormError, day_number, packed, unpacked
from tests.quoted.quotes import largest, ordinary, plain

TEXT = st.text(st.characters(exclude_categories=("Cc", "Cs", "Cf", "Zl", "Zp")))
WORD = st.text("abcXYZ019 _-")
DAYS = st.dates(date(2000, 1, 1), date(2199, 12, 31)).map(day_number)


def values(kind):
    """Everything that a kind allows."""
    if kind.startswith("?"):
        return st.none() | values(kind[1:])
    name, _, limits = kind.partition(":")
    if name in FORM:
        return st.fixed_dictionaries({field[0]: values(field[1]) for field in FORM[name]})
    if name == "list":
        most, _, inner = limits.partition(":")
        return st.lists(values(inner), max_size=min(int(most), 3))
    return {
        "text": lambda: TEXT.map(lambda text: text[: int(limits)]),
        "word": lambda: WORD.map(lambda text: text[: int(limits)]),
        "whole": lambda: st.integers(*(int(one) for one in limits.split(":"))),
        "day": lambda: DAYS,
        "color": lambda: st.text("0123456789abcdef", min_size=6, max_size=6),
        "flag": lambda: st.integers(0, 1),
        "one": lambda: st.sampled_from(limits.split("|")),
    }[name]()


@pytest.mark.parametrize("record", FORM)
def test_every_record_comes_back_as_it_was(record):
    @given(values(record))
    def same(value):
        flat = json.loads(json.dumps(packed(FORM, record, value)))
        assert unpacked(FORM, record, flat) == value

    same()


@pytest.mark.parametrize("quote", [plain, ordinary, largest])
def test_real_quotes_come_back_as_they_were(quote):
    assert unpacked(FORM, "quote", packed(FORM, "quote", quote())) == quote()


# A kind, and what it does not take
REFUSED = [
    *[("whole:0:100", value) for value in (-1, 101, 1.0, True, "1", None, [])],
    *[("text:5", value) for value in ("sixsix", 5, None, "a\nb", "a\u0000", "a\u202eb", "a\u2066b", "\ud800")],
    *[("word:5", value) for value in ("sixsix", "a.b", "<b>", "a'b", "é", 5, None)],
    *[("day", value) for value in (20260230, 19991231, 22000101, 20261301, 0, "20260101", 20260101.0)],
    *[("color", value) for value in ("#12345", "12345", "1234567", "12345G", "ABCDEF", 123456, "12345\n")],
    *[("flag", value) for value in (2, -1, True, "0", None)],
    *[("one:a|b", value) for value in ("c", "", "a|b", 1, None)],
    *[("list:2:flag", value) for value in ([0, 0, 0], [2], {}, "01", None, [[0]])],
    *[("eye", value) for value in ([], [0, 0, 180, 0, 0, 0, 0], [None], {}, "eye", [0, "0"], [99999])],
]


@pytest.mark.parametrize(("kind", "value"), REFUSED, ids=str)
def test_what_a_kind_does_not_take_is_refused_with_its_place(kind, value):
    with pytest.raises(FormError, match=f"^{kind.split(':')[0]}"):
        unpacked(FORM, kind, value)


def test_what_cannot_be_read_is_not_written_either():
    broken = {**plain(), "note": "x" * 401}
    with pytest.raises(FormError, match=r"quote\.note: .* no text of at most 400"):
        packed(FORM, "quote", broken)
    with pytest.raises(FormError, match="not a record of these fields"):
        packed(FORM, "quote", {**plain(), "more": 1})


def test_defaults_at_the_end_are_left_out_and_others_stay():
    eye = {"sphere": 1000, "cylinder": 0, "axis": 180, "add": 2000, "prism_in": 0, "prism_up": 0}
    assert packed(FORM, "eye", eye) == [1000, 0, 180, 2000]
