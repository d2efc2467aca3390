"""What stands in a YAML file is read as written, and what cannot be is told where it stands."""

from datetime import date

import pytest
import yaml

from quoting import nodes
from quoting.nodes import read, read_text

LOADERS = [yaml.SafeLoader, getattr(yaml, "CSafeLoader", yaml.SafeLoader)]


@pytest.fixture(params=LOADERS, ids=["python", "c"], autouse=True)
def _both_parsers(request, monkeypatch):
    monkeypatch.setattr(nodes, "LOADER", request.param)


@pytest.fixture
def record_from_doc(request):
    """The test's docstring is its input."""
    return read_text(request.function.__doc__, "doc.yaml")


def codes(record):
    return [finding.code for finding in record.findings]


def place(finding):
    return finding.mark.line, finding.mark.column


def told(text, ask):
    """The one finding when ``ask`` reads a field of this text."""
    record = read_text(text, "doc.yaml")
    ask(record)
    record.close()
    assert len(record.findings) == 1
    return record.findings[0]


# A plain load after YAML 1.1 (yaml.org/type: int, bool, float) makes 8, 90, False and 129.9 of these four.
def test_the_field_decides_the_type_from_the_written_text(record_from_doc):
    """{axis: 010, ratio: 1:30, sign: no, price: 129.90}"""
    assert record_from_doc.whole("axis", 1, 180) == 10
    assert record_from_doc.text("ratio") == "1:30"
    assert record_from_doc.text("sign") == "no"
    assert record_from_doc.money("price") == 12990
    assert record_from_doc.made("good") == "good"


def test_quoted_numbers_are_as_good_as_unquoted_ones(record_from_doc):
    """{a: "52.5", b: '38', curve: 4}"""
    assert record_from_doc.length("a", 20, 75) == 52.5
    assert record_from_doc.length("b", 20, 75) == 38
    assert record_from_doc.number("curve", 0, 12) == 4
    assert record_from_doc.close()


def test_every_kind_of_field_is_read(record_from_doc):
    """
    id: dark-tortoise
    mounting: drilled
    sphere: −2.25
    eighth: +0.125
    rate: 8.25
    finished: Yes
    effective: 2026-09-01
    front: "#3B2A1E"
    currency: EUR
    tilt: -4
    about: >
      Two lines
      of text.
    address: [12 Mill Lane, "8"]
    """
    read = record_from_doc
    assert read.word("id") == "dark-tortoise"
    assert read.choice("mounting", ("drilled", "semi-rimless")) == "drilled"
    assert read.power("sphere", -30, 30) == -2.25
    assert read.power("eighth", -30, 30) == 0.125
    assert read.percent("rate") == 825
    assert read.flag("finished") is True
    assert read.day("effective") == date(2026, 9, 1)
    assert read.color("front") == "#3b2a1e"
    assert read.form("currency", "[A-Z]{3}", "three letters", "EUR") == "EUR"
    assert read.angle("tilt", -10, 30) == -4
    assert read.text("about") == "Two lines of text."
    assert read.texts("address") == ("12 Mill Lane", "8")
    assert read.close()
    assert read.findings == []


def test_what_may_be_left_out_takes_its_default(record_from_doc):
    """{name: Tarn}"""
    assert record_from_doc.text("about", default="") == ""
    assert record_from_doc.flag("finished", default=False) is False
    assert record_from_doc.texts("notes", default=()) == ()
    assert record_from_doc.records("curves", "this row", needed=False) == []
    assert not record_from_doc.has("weight")
    assert record_from_doc.text("name") == "Tarn"
    assert record_from_doc.close()


def test_a_missing_field_is_told_once_and_when_closed(record_from_doc):
    """{name: Tarn}"""
    assert record_from_doc.length("a", 20, 75) == 20  # harmless
    record_from_doc.length("a", 20, 75)
    record_from_doc.text("name")
    assert record_from_doc.findings == []
    assert not record_from_doc.sound("a")
    assert record_from_doc.sound("name")
    assert not record_from_doc.close()
    assert codes(record_from_doc) == ["missing"]
    assert "47.5" in record_from_doc.findings[0].hint


def test_a_misspelled_field_is_one_finding_not_two(record_from_doc):
    """{famly: panto}"""
    record_from_doc.choice("family", ("oval", "panto"))
    record_from_doc.close()
    assert codes(record_from_doc) == ["unknown-key"]
    assert record_from_doc.findings[0].hint == "did you mean `family`?"


def test_a_fault_below_makes_the_records_above_unsound_but_not_their_other_fields():
    record = read_text("name: Tarn\nsizes:\n  - {a: 52,5}\n  - {a: 50}\n", "doc.yaml")
    sizes = record.records("sizes", "this size")
    values = [size.made(size.length("a", 20, 75)) for size in sizes]
    record.text("name")
    assert values == [None, 50]
    assert not record.sound("sizes")
    assert record.sound("name")
    assert not record.close()


def test_warnings_leave_a_record_sound(record_from_doc):
    """{a: 52}"""
    record_from_doc.length("a", 20, 75)
    record_from_doc.fault("a", "taller-than-wide", "said", "hint", "warning")
    assert record_from_doc.close()
    assert codes(record_from_doc) == ["taller-than-wide"]


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("a: 52,5", "write a decimal point, not a comma: 52.5"),
        ("a: -52,5 mm", "write a decimal point, not a comma, and the number alone: -52.5"),
        ("a: 52 mm", "write the number alone: 52"),
        ("a: 5.2cm", "write the number alone, in mm: 52"),
        ("a: 2 in", "write the number alone, in mm"),
        ("a: 5.2", "if that is in cm, write it in mm: 52"),
        ("a: \u201352", "write the minus as a hyphen: -52"),
        ("a: 1.052,5", "write it without thousands marks: 1052.5"),
        ("a: wide", "write for example 47.5"),
        ("a: 1_0", "write for example 47.5"),
        ("a: 0x20", "write for example 47.5"),
        ("a: .inf", "write for example 47.5"),
        ("a: nan", "write for example 47.5"),
        ("a: \u0663\u0665", "write for example 47.5"),  # other digits than 0 to 9
    ],
)
def test_a_number_that_is_none_is_told_with_what_to_write(text, hint):
    finding = told(text, lambda record: record.length("a", 20, 75))
    assert finding.hint == hint
    assert place(finding) == (1, 4)


@pytest.mark.parametrize(
    "text", ["p: 129.905", "p: 1e3", "p: -1", "p: 129 EUR", "p: 129,90", "p: $129", "p: 12345678901"]
)
def test_money_that_is_none_never_becomes_an_amount(text):
    assert told(text, lambda record: record.money("p")).code in {"not-an-amount", "out-of-range"}


@pytest.mark.parametrize("text", ["d: 2026-02-29", "d: 1.9.2026", "d: 20260901", "d: 2026-W36-2", "d: 2026-9-1"])
def test_a_day_that_is_none_is_told(text):
    assert told(text, lambda record: record.day("d")).code == "not-a-date"


@pytest.mark.parametrize(
    ("said", "hint"),
    [
        ("1.9.2026", "write 2026-09-01"),
        ("01.09.26", "write 2026-09-01"),
        ("2026-9-1", "write 2026-09-01"),
        ("20260901", "write 2026-09-01"),
        ("2026-09-01 00:00:00", "write 2026-09-01"),
        ("September 1st, 2026", "write 2026-09-01"),
        ("1 Sept. 2026", "write 2026-09-01"),
        ("14/5/2026", "write 2026-05-14"),
        ("9/1/2026", "write 2026-01-09 or 2026-09-01"),
        ("31.11.2026", "write for example 2026-09-01"),
        ("ma 1 2026", "write for example 2026-09-01"),
        ("next month", "write for example 2026-09-01"),
        ("2026-11-31", "look at a calendar: there is no such day"),
    ],
)
def test_a_day_written_another_way_is_proposed(said, hint):
    assert told(f"d: {said}", lambda record: record.day("d")).hint == hint


def test_powers_keep_to_their_steps():
    assert told("p: -2.10", lambda record: record.power("p", -30, 30)).hint == "the nearest are -2.125 and -2.00"
    assert (
        told("p: 0.125", lambda record: record.power("p", -30, 30, step=0.25)).hint == "the nearest are +0.00 and +0.25"
    )
    assert told("p: plano", lambda record: record.power("p", -30, 30)).hint == "write 0.00"


@pytest.mark.parametrize("text", ["a: 1\na: 2\nc: 3\n", "a: 1\n? [x]\n: 2\n"])
def test_a_record_with_a_name_twice_or_none_is_not_made_and_what_is_missing_is_told_too(text):
    record = read_text(text, "doc.yaml")
    values = record.whole("a", 0, 9), record.whole("b", 0, 9), record.whole("c", 0, 9, 0)
    assert record.made(values) is None
    assert "missing" in {one.code for one in record.findings}


def test_two_equal_keys_are_told_at_the_second_with_the_line_of_the_first():
    record = read_text("a: 1\nb: 2\na: 3\n", "doc.yaml")
    (finding,) = record.findings
    assert finding.code == "duplicate-key"
    assert place(finding) == (3, 1)
    assert "line 1" in finding.message


def test_a_comma_in_braces_is_told_for_every_number_it_splits():
    record = read_text("{a: 52,5, b: 42,5, dbl:21}", "doc.yaml")
    for name in ("a", "b", "dbl"):
        record.length(name, 10, 75)
    record.close()
    assert codes(record) == ["comma-splits", "comma-splits", "no-space"]
    assert [finding.hint.rsplit(": ", 2)[-2:] for finding in record.findings] == [
        ["a", "52.5"],
        ["b", "42.5"],
        ["dbl", "21"],
    ]


@pytest.mark.parametrize(
    ("text", "code", "line", "column"),
    [
        ("", "empty-file", 1, 1),
        ("# only a comment\n", "empty-file", 1, 1),
        ("---\n", "empty-file", 1, 1),
        ("just words", "wrong-shape", 1, 1),
        ("- a\n- b\n", "wrong-shape", 1, 1),
        ("a: 1\n---\nb: 2\n", "second-document", 2, 1),
        ("a: 1\n...\nb: 2\n", "second-document", 3, 1),
        ("a: &x 1\n", "anchor", 1, 4),
        ("a: *x\n", "anchor", 1, 4),
        ("a: !!str 5\n", "tag", 1, 4),
        ("a: !yes 5\n", "tag", 1, 4),
        ("a:\n\tb: 1\n", "tab", 2, 1),
        ("a:\n  - 1\n\t- 2\n", "tab", 3, 1),
        ('a: "b\nc: 1\n', "unclosed-quote", 1, 4),
        ("a: [1, 2\nb: 3\n", "unclosed-bracket", 1, 4),
        ("a: {b: 1 c: 2}\n", "unclosed-bracket", 1, 11),
        ("a: {b: #3b2a1e, c: 1}\n", "unclosed-bracket", 1, 8),
        ("a: b: c\n", "not-yaml", 1, 5),
        ("a: 1\nb\nc: 2\n", "not-yaml", 2, 1),
        ("a: @b\n", "not-yaml", 1, 4),
        ("a: \x07\n", "invisible-character", 1, 4),
        ("a: b\u2028c\n", "invisible-character", 1, 5),
        ("a: \u202eb\n", "invisible-character", 1, 4),
        ("[a, b]: 1\n", "not-a-name", 1, 1),
        ("a: " + "[" * 30, "too-deep", 1, 24),
        ("{" * 22, "too-deep", 1, 22),
        ("a: \ud800", "not-utf-8", 1, 4),
        (r'a: "\xZZ"', "not-yaml", 1, 7),
    ],
)
def test_what_is_not_read_is_told_at_its_place(text, code, line, column):
    record = read_text(text, "doc.yaml")
    finding = record.findings[0]
    assert (finding.code, *place(finding)) == (code, line, column)
    assert finding.hint


def test_brackets_without_end_are_refused_before_they_cost_anything():
    assert codes(read_text("[" * 1_000_000, "doc.yaml")) == ["too-deep"]
    assert codes(read_text("a: {" * 1_000_000, "doc.yaml")) == ["too-deep"]


def test_an_alias_is_told_once_and_its_field_stays_silent():
    record = read_text("a: *wide\nb: 38\n", "doc.yaml")
    assert record.length("a", 20, 75) == 20
    assert record.length("b", 20, 75) == 38
    assert not record.close()
    assert codes(record) == ["anchor"]


def test_aliases_that_would_grow_without_end_are_refused_at_once():
    rows = ["a: &a [x, x, x, x, x, x, x, x, x]"]
    for one, two in zip("abcdefgh", "bcdefghi", strict=True):
        rows.append(f"{two}: &{two} [{', '.join([f'*{one}'] * 9)}]")
    record = read_text("\n".join(rows), "doc.yaml")
    assert set(codes(record)) == {"anchor"}
    assert len(record.findings) == 9 + 8 * 9


def test_more_values_than_a_file_may_hold_are_refused(monkeypatch):
    monkeypatch.setattr(nodes, "MOST_NODES", 100)
    assert codes(read_text("a: [" + "1, " * 200 + "]", "doc.yaml")) == ["file-too-large"]


@pytest.mark.parametrize(
    ("encoding", "code"),
    [
        ("utf-8", ""),
        ("utf-8-sig", ""),
        ("latin-1", "not-utf-8"),
        ("utf-16", "not-utf-8"),
        ("utf-32", "not-utf-8"),
        ("utf-16-le", "not-utf-8"),
        ("utf-16-be", "not-utf-8"),
        ("utf-32-be", "not-utf-8"),
    ],
)
def test_files_are_utf8_with_or_without_a_byte_order_mark(tmp_path, encoding, code):
    path = tmp_path / "tarn.yaml"
    path.write_bytes("ok: yes\nname: Fjällvik\n".encode(encoding))
    record = read(path, "tarn.yaml")
    assert codes(record) == ([code] if code else [])
    assert record.text("name") == ("" if code else "Fjällvik")
    if encoding == "latin-1":
        assert place(record.findings[0]) == (2, 9)
    if encoding.startswith("utf-16"):
        assert record.findings[0].message == "this file is saved as UTF-16; we read UTF-8"


def test_lines_may_end_as_on_any_system():
    for ending in ("\n", "\r\n", "\r"):
        record = read_text(f"a: 1{ending}b: 2{ending}c: x{ending}", "doc.yaml")
        for name in "abc":
            record.whole(name, 0, 9)
        record.close()
        assert [place(finding) for finding in record.findings] == [(3, 4)]
        assert record.findings[0].mark.text == "c: x"


def test_a_file_that_is_not_there_or_no_file_gives_an_unreadable_record(tmp_path):
    for path, code in ((tmp_path / "no.yaml", "no-such-file"), (tmp_path, "not-a-file")):
        record = read(path)
        assert not record.readable
        assert record.length("a", 20, 75) == 20
        assert record.records("sizes", "this size") == []
        assert record.record("tax", "`tax`").percent("frame") == 0
        assert not record.close()
        assert codes(record) == [code]
        assert record.findings[0].mark.file == str(path)


def test_an_unquoted_color_is_told_as_a_comment():
    finding = told("front: #3b2a1e\n", lambda record: record.color("front"))
    assert finding.code == "empty-value"
    assert "quotes" in finding.hint


# A comment begins at a # behind white space: YAML 1.2.2, section 6.6, production [75]
@pytest.mark.parametrize(
    "broken",
    [
        '  - {id: navy, front: #223556, temples: "#223556"}\n  - {id: berry, front: "#7d2c4f"}\n',
        "  - {id: navy, front: #223556}\n\n  - id: plain\n    name: Plain\n",
        "  - {id: navy, front: #223556}\nmaker: Nubwick\n",
        "  - {id: navy, front: #223556, temples: #223556}\n  - {id: berry, front: #7d2c4f, temples: #7d2c4f}\n",
        '  - {id: navy,\n     front: #223556,\n     temples: "#223556"}\n',
        "  - {id: navy, front: #223556}\n",
    ],
)
def test_a_color_without_quotes_that_hides_its_brace_is_told_at_its_own_place(broken):
    text = "# colors\ncolorways: # two of them\n" + broken
    findings = read_text(text, "doc.yaml").findings
    lines = text.split("\n")
    first = [number for number, one in enumerate(lines, 1) if "front: #" in one]
    assert [place(one) for one in findings] == [(number, lines[number - 1].index("#") + 1) for number in first]
    hint = 'put the color in quotes, such as "#3b2a1e"'
    assert {(one.code, one.hint) for one in findings} == {("unclosed-bracket", hint)}


def test_a_comment_in_brackets_is_not_taken_for_the_fault_of_another_line():
    text = "a: [1, # one\n 2]\nb: {c: 1, # one\n d: 2\ne: 3\n"
    (finding,) = read_text(text, "doc.yaml").findings
    assert "#" not in finding.message
    assert finding.code == "unclosed-bracket"


@pytest.mark.parametrize(
    ("amount", "hint"),
    [
        ("1,140.00", "write it without thousands marks: price: 1140.00"),
        ("1.140,00", "write it without thousands marks: price: 1140.00"),
        ("1,140", "write price: 1140 if the comma parts thousands, price: 1.140 if decimals"),
        ("98,5", "write a decimal point, not a comma: price: 98.5"),
    ],
)
def test_an_amount_that_a_comma_cuts_in_braces_is_written_out(amount, hint):
    record = read_text(f"a: {{price: {amount}}}", "doc.yaml").record("a", "this")
    record.text("price")
    record.close()
    assert [(finding.code, finding.hint) for finding in record.findings] == [("comma-splits", hint)]


@pytest.mark.parametrize("amount", ["1,140.00", "1.140,00", "1 140.00", "1'140.00", "1,140", "1 140"])
def test_thousands_marks_of_an_amount_are_told_as_such(amount):
    hint = told(f"price: {amount}", lambda record: record.money("price")).hint
    assert hint == "write it without thousands marks: 1140" + (".00" if len(amount) > 5 else "")


def test_a_mark_underlines_what_was_written():
    finding = told(
        "name: Tarn\nfamily:   pantoo  # a shape\n",
        lambda record: (record.text("name"), record.choice("family", ("panto",))),
    )
    assert (place(finding), finding.mark.length, finding.mark.text) == ((2, 11), 6, "family:   pantoo  # a shape")


def test_trade_words_stand_before_the_field():
    record = read_text("a: wide", "doc.yaml", {"a": "lens width"})
    record.length("a", 20, 75)
    assert record.findings[0].message.startswith("the lens width `a` must be")


# YAML 1.2.2, section 5.7, productions [42] to [60]: the escapes of double-quoted scalars; UAX #9: the bidi controls.
@pytest.mark.parametrize(
    ("escape", "point"),
    [
        (r"\0", "U+0000"),
        (r"\a", "U+0007"),
        (r"\b", "U+0008"),
        (r"\v", "U+000B"),
        (r"\f", "U+000C"),
        (r"\r", "U+000D"),
        (r"\e", "U+001B"),
        (r"\x7f", "U+007F"),
        (r"\N", "U+0085"),
        (r"\x9b", "U+009B"),
        (r"\L", "U+2028"),
        (r"\P", "U+2029"),
        (r"\u202E", "U+202E"),
        (r"\u2066", "U+2066"),
        (r"\uFEFF", "U+FEFF"),
    ],
)
def test_what_nobody_can_see_may_not_come_in_by_an_escape(escape, point):
    for text, column in ((f'a: "b{escape}[31mc"\n', 4), (f'a: ["b{escape}"]\n', 5), (f'{{"a{escape}": 1}}\n', 2)):
        record = read_text(text, "doc.yaml")
        asked = record.text("a") if "[" not in text[:5] else record.texts("a")
        assert not record.close()
        assert asked in ("", ())
        finding = record.findings[0]
        assert (finding.code, *place(finding)) == ("invisible-character", 1, column)
        assert point in finding.message
        assert all(c.isprintable() for found in record.findings for c in found.message + found.hint)


def test_escapes_of_what_can_be_seen_are_read(record_from_doc):
    r"""{name: "Fj\xE4llvik \"\u00d7\" \U0001F453", plain: 'a\e', marked: "\u05d0\u200f", tab: "a\tb"}"""
    assert record_from_doc.text("name") == 'Fjällvik "×" \U0001f453'
    assert record_from_doc.text("plain") == "a\\e"
    assert record_from_doc.text("marked") == "\u05d0\u200f"
    assert record_from_doc.text("tab") == "a b"
    assert record_from_doc.close()


def test_an_escape_that_yaml_does_not_have_is_told_with_single_quotes_as_the_way_out():
    assert "single quotes" in told(r'a: "frames\quills"', lambda record: None).hint


@pytest.mark.parametrize("escape", [r"\ud800", r"\U00110000", r"\UFFFFFFFF"])
def test_an_escape_of_no_character_is_told(escape):
    record = read_text(f'a: 1\nb: "x{escape}"\n', "doc.yaml")
    record.has("a"), record.text("b")
    assert not record.close()
    assert codes(record)[0] in {"not-yaml", "invisible-character"}
    assert record.findings[0].mark.line == 2


@pytest.mark.parametrize("text", [r'a: "b\nc"', "a: |\n  b\n  c\n", "a: >\n  b\n\n  c\n", "a: b\n\n  c\n"])
def test_line_breaks_belong_to_prose_only(text):
    assert told(text, lambda record: record.text("a")).code == "line-break"
    assert told(f"l:\n- {text.replace('a: ', '')}", lambda record: record.texts("l")).code == "line-break"
    record = read_text(text, "doc.yaml")
    assert record.prose("a") == "b c"
    assert record.close()


@pytest.mark.parametrize("text", ["a: b\n  c", 'a: "b\n  c"', "a: >\n  b\n  c\n", "a: |\n  b c\n"])
def test_a_text_on_one_line_may_be_folded_in_the_file(text):
    record = read_text(text, "doc.yaml")
    assert record.text("a") == "b c"
    assert record.close()


def test_nothing_that_was_read_can_steer_a_terminal():
    record = read_text("a: \x1b[2J\n", "doc.yaml")
    assert "\x1b" not in str(record.findings[0])
