"""A fault of writing hides its own entry or field, and nothing else: what is wrong beside it is told at once."""

import time
from itertools import pairwise

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from quoting.catalog.load import load
from quoting.nodes import MOST_BYTES, read_text
from quoting.written.items import alone, items, without
from tests.catalog.mangling import FILES, shop

FRAME = """  - id: {id}
    name: Tarn
    family: panto
    mounting: full-rim-plastic
    material: acetate
    curve: {curve}
    wrap: 5
    tilt: 8
    sizes:
      - {{a: 48, b: 42, dbl: 21, ed: 50.5, temple: 145}}
    colorways:
      - {{id: slate, name: Slate, version: sun, price: 129.00, front: "#444a52", temples: "#444a52", stock: in-stock}}
"""
OPEN_QUOTE = FRAME.format(id="a", curve="4").replace('52", stock', "52, stock")
# What of the second frame is written otherwise, and the code that tells it
FAULTS = {
    "a tab": ("    family:", "\tfamily:", "tab"),
    "no comma": ("a: 48, b", "a: 48 b", "unclosed-bracket"),
    "a color without quotes": ('front: "#444a52"', "front: #444a52", "unclosed-bracket"),
    "a quote that is not closed": ('temples: "#444a52"', 'temples: "#444a52', "unclosed-quote"),
    "a quote that a later one closes": ("name: Tarn", 'name: "Tarn', "unclosed-quote"),
    "a quote of the last field before a list": ("material: acetate", 'material: "acetate', "unclosed-quote"),
    "no colon": ("    family: panto", "    family panto", "not-yaml"),
    "a brace that is not closed": ("temple: 145}", "temple: 145", "unclosed-bracket"),
    "a bracket that nobody opened": ("tilt: 8", "tilt: ]", "not-yaml"),
    "a dash that stands too far out": ("  - id", " - id", "not-yaml"),
    "a sign that YAML keeps": ("name: Tarn", "name: @Tarn", "not-yaml"),
}


def told(**files):
    with shop(**files) as folder:
        catalog, findings = load(folder)
    return catalog, [(one.code, one.mark.file.rpartition("/")[2], one.mark.line) for one in findings]


@pytest.mark.parametrize("fault", FAULTS)
def test_frames_beside_one_that_cannot_be_read_are_checked(fault):
    old, new, code = FAULTS[fault]
    second = FRAME.format(id="reed", curve="4.0")
    assert old in second
    text = "maker: Fellmark\nframes:\n" + FRAME.format(id="tarn", curve="40") + second.replace(old, new, 1)
    text += FRAME.format(id="alder", curve="flat")
    catalog, found = told(frames__other=text)
    assert catalog is None
    here = [(one, line) for one, file, line in found if file == "other.yaml"]
    (own,) = [line for one, line in here if one == code]
    assert 15 <= own <= 27
    assert {(one, line) for one, line in here} == {(code, own), ("out-of-range", 8), ("not-a-number", 32)}


def test_lines_that_nobody_could_check_are_named():
    text = "maker: Fellmark\nframes:\n" + FRAME.format(id="reed", curve="[") + "\n# the end\n"
    with shop(frames__other=text) as folder:
        (finding,) = load(folder)[1]
    assert finding.unchecked == "the rest of lines 3 to 14"
    assert str(finding).endswith("\nnot checked yet: the rest of lines 3 to 14")
    assert finding.as_dict()["unchecked"] == finding.unchecked


def test_an_entry_that_stands_too_far_in_takes_the_one_before_it_along_and_that_is_said():
    frames = [FRAME.format(id=name, curve=curve) for name, curve in (("tarn", "4"), ("reed", "5"), ("alder", "40"))]
    text = "maker: Fellmark\nframes:\n" + "".join([frames[0], frames[1].replace("  - id", "   - id"), frames[2]])
    with shop(frames__other=text) as folder:
        found = [(one.code, one.mark.line, one.unchecked) for one in load(folder)[1]]
    assert found == [("not-yaml", 15, "the rest of lines 3 to 26"), ("out-of-range", 32, "")]


def test_ids_in_what_cannot_be_read_are_not_missed_elsewhere():
    lenses = FILES["lenses/hallstrand.yaml"].decode()
    for old, new in (("id: sv, name: Pl", "id: sv, name: [Pl"), ("id: r150,", "id: 'r150,"), ("curve", "\tcurve")):
        catalog, found = told(lenses__hallstrand=lenses.replace(old, new, 1))
        assert catalog is None
        assert len(found) == 1, found


@pytest.mark.parametrize("old", ["version: 2026-09", "tax_included: no", "effective: 2026-09-01"])
def test_a_field_that_cannot_be_read_is_not_missing(old):
    prices = FILES["prices/2026-09.yaml"].decode()
    assert told_prices(prices.replace(old, f'{old.partition(" ")[0]} "never')) == ["unclosed-quote"]
    assert told_prices(prices.replace(old, old.replace(":", ""))) == ["not-yaml"]


def told_prices(text):
    """The codes of the only price list of the shop."""
    with shop() as folder:
        (folder / "prices" / "2026-09.yaml").write_text(text, encoding="utf-8")
        return [one.code for one in load(folder)[1]]


def test_a_field_within_another_keeps_its_neighbors():
    text = FILES["shop.yaml"].decode().replace("  email:", "  email: @", 1).replace("currency: EUR", "currency: EUE", 1)
    text = text if "EUE" in text else text.replace("currency: USD", "currency: USE", 1)
    with shop(shop=text) as folder:
        assert sorted(one.code for one in load(folder)[1]) == ["not-yaml", "unknown-currency"]


def test_a_field_beside_one_that_cannot_be_read_is_still_looked_at_as_a_whole():
    """The locale is known to be none only once it is compared with those there are."""
    text = FILES["shop.yaml"].decode()
    at = text.index("  email: ")
    text = text[:at] + text[at:].replace("  email: ", "  email ", 1).replace("locale: en_US", "locale: en_UK", 1)
    with shop(shop=text) as folder:
        assert sorted(one.code for one in load(folder)[1]) == ["not-yaml", "unknown-locale"]


@pytest.mark.parametrize(
    "text",
    [
        'a: "one\n  two: of it"\n',
        'a: "one\ntwo of it"\n',
        "a: >\n  one\n  two: of it\nb: 1\n",
        'a: "one\n\n  two"\nb: 1\n',
        '{a: "one\ntwo: of it", b: 1}\n',
    ],
)
def test_a_text_may_be_broken_into_lines(text):
    record = read_text(text, "doc.yaml")
    assert (record.findings, record.complete) == ([], True)


def test_a_quote_is_told_where_it_opens_though_the_parser_stumbles_over_a_later_one():
    text = FRAME.format(id="reed", curve="40").replace(": Tarn", ': "Tarn').replace("acetate", '"acetate"')
    assert read_curves("frames:\n" + text) == [("unclosed-quote", 3)]


def test_of_a_discount_that_a_quote_has_swallowed_nothing_is_missed():
    text = FILES["prices/2026-09.yaml"].decode()
    start = text.index("discounts:")
    block = 'discounts:\n  - id: "autumn\n    text: "Autumn"\n    on: lenses\n'
    assert told_prices(text[:start] + block + text[text.index("regions:") :]) == ["unclosed-quote"]


def test_where_a_file_cannot_be_read_on_that_is_said():
    for text in ("a: 1\n---\nb: 2\n", "a: [[[[[[[[[[[[[[[[[[[[[[\nb: 2\n", "}\n]\n", "a: 1\nb\x07: 2\n"):
        record = read_text(text, "doc.yaml")
        assert not record.readable
        assert record.findings[-1].unchecked == "the rest of this file"


def test_of_a_text_of_one_line_no_rest_is_told():
    assert [one.unchecked for one in read_text("{a: 1, b", "--size").findings] == [""]


@given(st.text("ab:-#\"'{}[],&*!|> \t\n", max_size=120))
@settings(max_examples=400, deadline=None)
def test_whatever_is_written_each_fault_has_a_mark_and_items_are_whole_lines(text):
    record = read_text(text, "doc.yaml")
    record.close()
    lines = text.split("\n")
    assert all(1 <= one.mark.line <= len(lines) for one in record.findings)
    found = items(lines)
    assert all(one.first < one.end for one in found)
    assert all(one.end <= other.first for one, other in pairwise(found))
    assert len(without(lines, found)) == len(lines)
    assert all(alone(one, lines)[-1] == lines[one.end - 1] for one in found)


@given(st.integers(0, 5), st.sampled_from(sorted(FAULTS)))
@settings(max_examples=40, deadline=None)
def test_with_any_frame_broken_in_any_way_all_others_are_told_as_without_it(number, fault):
    assume(number or "too far out" not in fault)  # the first one says how far the others are indented
    old, new, code = FAULTS[fault]
    frames = [FRAME.format(id=f"f{at}", curve=str(40 + at)) for at in range(6)]
    whole = read_curves("frames:\n" + "".join(frames))
    assert len(whole) == 6
    frames[number] = frames[number].replace(old, new, 1)
    broken = read_curves("frames:\n" + "".join(frames))
    first = 2 + number * 12
    others = [one for one in whole if not first <= one[1] < first + 12]
    assert [one for one in broken if not first <= one[1] < first + 12] == others
    assert code in [one for one, line in broken if first <= line < first + 12]


def read_curves(text):
    record = read_text(text, "doc.yaml")
    for frame in record.records("frames", "this frame"):
        frame.number("curve", 0, 12)
    return [(one.code, one.mark.line) for one in record.findings]


@pytest.mark.parametrize(
    "text",
    [
        pytest.param("frames:\n" + "  - {id: a\n" * 700_000, id="each-entry"),
        pytest.param("frames:\n" + OPEN_QUOTE * 9_000, id="quotes"),
        pytest.param("a: 1\n" * 800_000 + "b\n", id="the-last-line"),
        pytest.param("a: {b: 1\n" + " x,\n" * 1_900_000, id="one-long-item"),
    ],
)
def test_nothing_takes_long(text):
    assert len(text) < MOST_BYTES
    start = time.process_time()
    record = read_text(text, "doc.yaml")
    assert record.findings
    assert time.process_time() - start < 60


def test_a_list_with_a_row_that_cannot_be_read_is_not_taken_for_one_with_a_gap():
    """The rows of the board are compared only once all are read."""
    shop_text = FILES["shop.yaml"].decode()
    at = shop_text.index("- {", shop_text.index("bands:"))
    broken = shop_text[:at] + "- [{" + shop_text[at + 3 :]
    with shop(shop=broken) as folder:
        assert {one.code for one in load(folder)[1]} == {"unclosed-bracket"}
