"""Cells that are merged downward hold for each of their rows; openpyxl writes the workbooks, as spreadsheets do."""

import io
import time

import pytest
from openpyxl import Workbook

from quoting.keeping.cells import Cell, Row
from quoting.keeping.merged import filled_down
from quoting.keeping.sheet import read_sheet
from quoting.keeping.sheet_bounds import MOST_ROWS

ROWS = (
    ("Prices of this spring", None, None, None),
    ("Article", "From", "To", "Price"),
    ("P-1", -4, 2, 20),
    ("P-2", -8, -4.25, 75),
    (None, -4, 2, 60),
    (None, None, None, None),
    (None, 2.25, 6, None),
    ("P-3", -6, 4, None),
)


@pytest.fixture
def read(tmp_path):
    def of(*ranges, formula=False):
        book = Workbook()
        tab = book.active
        for row in ROWS:
            tab.append(row)
        if formula:
            tab["F3"] = "=1+1"
        for one in ranges:
            tab.merge_cells(one)
        held = io.BytesIO()
        book.save(held)
        path = tmp_path / "list.xlsx"
        path.write_bytes(held.getvalue())
        return read_sheet(path)

    return of


def column(sheet, place):
    return [row.cell(place).text for row in sheet.rows]


@pytest.mark.parametrize("formula", [False, True])
def test_what_is_merged_downward_counts_in_each_row_that_holds_anything(read, formula):
    sheet = read("A4:A7", formula=formula)
    assert column(sheet, 0) == ["Prices of this spring", "Article", "P-1", "P-2", "P-2", "P-2", "P-3"]
    assert [row.number for row in sheet.rows] == [1, 2, 3, 4, 5, 7, 8]
    assert sheet.said == ("tab Sheet", "merged cells count for each row beside them, 2 in all")


def test_what_is_merged_to_the_right_is_a_title_and_stays_where_it_is(read):
    sheet = read("A1:D1")
    assert sheet.rows[0].cells == (Cell("Prices of this spring"),)
    assert sheet.said == ("tab Sheet",)
    assert column(sheet, 0)[4:] == ["", "", "P-3"]


def test_a_price_may_be_merged_as_well(read):
    sheet = read("A4:A7", "D5:D7")
    assert [(row.number, row.cell(3).number) for row in sheet.rows if row.cell(0).text == "P-2"] == [
        (4, 75),
        (5, 60),
        (7, 60),
    ]


def test_any_number_of_ranges_takes_no_long_time():
    rows = [Row(at, "", (Cell("x" if at == 1 else ""), Cell("y"))) for at in range(1, MOST_ROWS + 1)]
    start = time.process_time()
    filled, count = filled_down(rows, [(0, 1, 2**20)] * 10_000)
    assert time.process_time() - start < 60
    assert count == MOST_ROWS - 1
    assert {row.cell(0).text for row in filled} == {"x"}
