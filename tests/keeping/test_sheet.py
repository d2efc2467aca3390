"""Price lists as they come: encodings, signs between columns, workbooks; what cannot be decided is told."""

import io
from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from openpyxl import Workbook

from quoting.keeping.sheet import read_sheet, workbook
from quoting.keeping.sheet_bounds import MOST_BYTES
from quoting.keeping.sheet_text import read_csv

TABLE = (
    ("Artikel", "Bezeichnung", "von", "Preis"),
    ("A-1", "Größe XL, gehärtet", "-6,00", "1.024,50"),
    ("A-2", "Plan; entspiegelt", "+0,25", "46,00"),
    ("A-3", 'Zoll 2" | Maß', "0,00", "9,90"),
)


def joined(rows, sign):
    return "\r\n".join(
        sign.join(f'"{cell.replace(chr(34), chr(34) * 2)}"' if sign in cell or '"' in cell else cell for cell in row)
        for row in rows
    )


def cells(sheet):
    return tuple(tuple(cell.text for cell in row.cells) for row in sheet.rows)


@pytest.mark.parametrize("sign", [";", ",", "\t", "|"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "cp1252", "utf-16"])
def test_any_usual_sign_and_encoding_gives_the_same_cells(sign, encoding):
    sheet = read_csv(joined(TABLE, sign).encode(encoding), "list.csv")
    assert sheet.findings == ()
    assert cells(sheet) == TABLE
    assert [row.number for row in sheet.rows] == [1, 2, 3, 4]
    named = {"utf-8": "UTF-8", "utf-8-sig": "UTF-8", "cp1252": "Windows-1252", "utf-16": "UTF-16"}[encoding]
    assert named in sheet.said[0]


def test_lines_of_a_title_and_empty_lines_do_not_hide_the_headings():
    text = "Maker GmbH;;;\n\nPreise 2027, netto;;;\n" + joined(TABLE, ";") + "\n;;;\n"
    sheet = read_csv(text.encode(), "list.csv")
    assert cells(sheet)[2:] == TABLE
    assert sheet.rows[2].number == 4


def test_decimal_commas_are_no_signs_between_columns():
    text = "Code;Price\nA;24,00\nB;25,50\nC;26,10\n"
    assert cells(read_csv(text.encode(), "list.csv"))[1] == ("A", "24,00")


def test_a_first_line_may_say_the_sign():
    assert cells(read_csv(b"sep=,\r\nCode,Price\r\nA,24.00\r\n", "list.csv")) == (("Code", "Price"), ("A", "24.00"))
    assert read_csv(b"sep=,\r\nCode,Price\r\nA,24.00\r\n", "list.csv").rows[1].number == 3


def test_a_sign_that_is_named_is_taken():
    sheet = read_csv(b"A^24.00\nB^25.00\n", "list.csv", delimiter="^")
    assert cells(sheet) == (("A", "24.00"), ("B", "25.00"))


@pytest.mark.parametrize(
    ("raw", "code"),
    [
        (b"one\ntwo\nthree\n", "sheet-columns"),
        (b"1;2\n3;4\n", "sheet-columns"),
        (b"", "sheet-columns"),
        (b"Code;Price\nA\0;1\n", "sheet-encoding"),
        (b"Code;Price\n\x81;1\n", "sheet-encoding"),
        (b'Code;Price\nA;"' + b"x" * 200_000 + b'"\n', "sheet-columns"),
    ],
)
def test_what_cannot_be_decided_is_told(raw, code):
    assert [finding.code for finding in read_csv(raw, "list.csv").findings] == [code]


@given(st.binary(max_size=400))
def test_nothing_in_a_file_raises(raw):
    sheet = read_csv(raw, "list.csv")
    assert sheet.rows or sheet.findings or not raw.strip()


def test_a_cell_is_marked_where_its_letters_stand():
    sheet = read_csv(b"Code;More;Price\nA;A;A\n", "list.csv")
    marks = [sheet.rows[1].mark("list.csv", at) for at in range(3)]
    assert [(mark.line, mark.column, mark.length) for mark in marks] == [(2, 1, 1), (2, 3, 1), (2, 5, 1)]


def saved(rows, tabs=("Prices",)):
    book = Workbook()
    book.active.title = tabs[0]
    for name in tabs[1:]:
        book.create_sheet(name)
    for row in rows:
        book[tabs[-1]].append(row)
    held = io.BytesIO()
    book.save(held)
    return held.getvalue()


@pytest.fixture
def in_file(tmp_path):
    def make(raw, name="list.xlsx"):
        path = tmp_path / name
        path.write_bytes(raw)
        return path

    return make


def test_a_workbook_gives_texts_numbers_and_days(in_file):
    rows = [
        ["Code", "Price", "Day", "New"],
        [1001, 24.5, date(2027, 1, 1), True],
        [None, None],
        ["A  b", "24,00 €", 2e-05, ""],
    ]
    sheet = read_sheet(in_file(saved(rows)))
    assert cells(sheet) == (
        ("Code", "Price", "Day", "New"),
        ("1001", "24.5", "2027-01-01", "yes"),
        ("A b", "24,00 €", "0.00002"),
    )
    assert [cell.number for cell in sheet.rows[1].cells] == [1001, Decimal("24.5"), None, None]
    assert [row.number for row in sheet.rows] == [1, 2, 4]


def test_a_formula_whose_result_was_not_saved_is_known_as_one(in_file):
    sheet = read_sheet(in_file(saved([["Code", "Price"], ["A", "=1+1"], ["B", 2]])))
    assert [row.cell(1).unfinished for row in sheet.rows] == [False, True, False]
    assert cells(sheet)[1:] == (("A", ""), ("B", "2"))


def test_of_several_tabs_one_must_be_named(in_file):
    path = in_file(saved([["Code"], ["A"]], ("Notes", "Prices")))
    assert [finding.code for finding in read_sheet(path).findings] == ["sheet-tab"]
    assert [finding.code for finding in read_sheet(path, "Price").findings] == ["sheet-tab"]
    assert cells(read_sheet(path, "Prices")) == (("Code",), ("A",))


@pytest.mark.parametrize(
    ("raw", "name"),
    [
        (b"no workbook", "list.xlsx"),
        (b"PK\x03\x04 cut short", "list.xlsx"),
        (saved([["Code"]])[:-200], "list.xlsx"),
        (saved([["Code"]]), "list.csv"),
        (b"\xd0\xcf\x11\xe0 an old workbook", "list.xls"),
    ],
)
def test_what_is_no_spreadsheet_is_told(in_file, raw, name):
    assert [finding.code for finding in read_sheet(in_file(raw, name)).findings] == ["sheet-unreadable"]


def test_a_file_that_is_not_there_or_too_large_is_told(tmp_path, in_file):
    assert [finding.code for finding in read_sheet(tmp_path / "none.csv").findings] == ["sheet-unreadable"]
    large = in_file(b"a;b\n" * (MOST_BYTES // 4 + 1), "large.csv")
    assert [finding.code for finding in read_sheet(large).findings] == ["sheet-unreadable"]


def test_a_workbook_of_ours_is_read_again_as_it_was(in_file):
    rows = [["Code", "Price"], ["A", Decimal("24.10")], ["B", Decimal("1999.99")]]
    sheet = read_sheet(in_file(workbook(rows, "prices")))
    assert [row.cells[1].number for row in sheet.rows[1:]] == [Decimal("24.1"), Decimal("1999.99")]
