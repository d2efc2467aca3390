"""New numbers in a file, every other byte as it was."""

import codecs

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.findings import Mark
from quoting.keeping.splice import NotPlainError, replaced, spliced
from quoting.nodes import read_text

BLANKS = st.sampled_from([" ", "  ", "     "])
REMARKS = st.sampled_from(["", " # per lens", "  # was 24.00, 25.00 from 1.1. on", " #", " # Größe × ⌀ 𝛼 lens: 1.00"])
QUOTES = st.sampled_from(["", '"', "'"])
AMOUNTS = st.integers(0, 999_999).map(lambda cents: f"{cents // 100}.{cents % 100:02d}")
NAMES = st.text(st.characters(exclude_categories=["C", "Z"], exclude_characters="\"'\\"), min_size=1, max_size=8)


@st.composite
def sheets(draw):
    """A YAML text in pieces, numbers apart: whatever stands between them must stay."""
    end = draw(st.sampled_from(["\n", "\r\n"]))
    pieces, numbers = [draw(st.sampled_from(["", f"# α comment: 24.00{end}", f"{end}{end}"])) + f"rows:{end}"], []
    for _ in range(draw(st.integers(1, 6))):
        quote, name = draw(QUOTES), draw(NAMES)
        if draw(st.booleans()):
            before = f'  - {{name: "{name}",{draw(BLANKS)}lens:{draw(BLANKS)}{quote}'
            after = f"{quote}{draw(st.sampled_from(['', ' ']))}}}{draw(REMARKS)}{end}"
        else:
            before = f'  - name: "{name}"{draw(REMARKS)}{end}    lens:{draw(BLANKS)}{quote}'
            after = f"{quote}{draw(REMARKS)}{end}{draw(st.sampled_from(['', end, f'# 1.00{end}']))}"
        pieces[-1] += before
        pieces.append(after)
        numbers.append(draw(AMOUNTS))
    pieces[-1] = pieces[-1].rstrip("\r\n") if draw(st.booleans()) else pieces[-1]
    return draw(st.sampled_from([b"", codecs.BOM_UTF8])), pieces, numbers


def joined(mark_of_bytes, pieces, numbers):
    text = pieces[0] + "".join(number + piece for number, piece in zip(numbers, pieces[1:], strict=True))
    return mark_of_bytes + text.encode("utf-8")


def marks(raw):
    root = read_text(raw.decode("utf-8"), "a.yaml")
    assert root.findings == []
    return [row.mark("lens") for row in root.records("rows", "this row")]


@given(sheets(), st.data())
def test_whatever_numbers_are_spliced_every_other_byte_stays(sheet, data):
    mark_of_bytes, pieces, old = sheet
    raw = joined(mark_of_bytes, pieces, old)
    new = [data.draw(st.none() | AMOUNTS) for _ in old]
    edits = [
        (mark, int(number.replace(".", ""))) for mark, number in zip(marks(raw), new, strict=True) if number is not None
    ]
    meant = [before if after is None else after for before, after in zip(old, new, strict=True)]
    assert spliced(raw, data.draw(st.permutations(edits))) == joined(mark_of_bytes, pieces, meant)


@given(sheets())
def test_to_splice_what_stands_there_changes_nothing(sheet):
    mark_of_bytes, pieces, old = sheet
    raw = joined(mark_of_bytes, pieces, old)
    same = [int(number.replace(".", "")) for number in old]
    assert spliced(raw, zip(marks(raw), same, strict=True)) == raw


@pytest.mark.parametrize(
    "value",
    ["|\n      24.00", '"2\\x34.00"', '"\n      24.00"', '"24.00\n      "', "x", "[24.00]"],
)
def test_a_number_that_does_not_stand_there_plainly_is_refused(value):
    text = f"rows:\n  - lens: {value}\n"
    (row,) = read_text(text, "a.yaml").records("rows", "this row")
    with pytest.raises(NotPlainError):
        spliced(text.encode(), [(row.mark("lens"), 100)])


def test_one_place_is_not_changed_twice():
    mark = Mark("a.yaml", 1, 4, "a: 24.00", 5)
    with pytest.raises(ValueError, match="two changes"):
        replaced(b"a: 24.00", [(mark, "1"), (mark, "2")])
