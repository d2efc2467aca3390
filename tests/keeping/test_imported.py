"""A maker's list against the catalog: what changes, what does not, and what in it is told to be odd."""

import io
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from openpyxl import Workbook

from quoting.catalog.load import load_written
from quoting.findings import Mark, errors
from quoting.keeping import columns
from quoting.keeping.cells import Cell, Row, Sheet
from quoting.keeping.changing import checked, in_place
from quoting.keeping.columns import ColumnMap, chosen, own_map, read_map
from quoting.keeping.exported import as_csv, as_workbook
from quoting.keeping.imported import imported
from quoting.keeping.price_codes import PRICE_CODES
from quoting.keeping.prices_in import PriceColumn
from quoting.keeping.proposing import proposed
from quoting.keeping.sheet import read_sheet, read_workbook
from quoting.keeping.sheet_text import read_csv

MAP = """maker: Pennock
columns: {code: Article, price: Price, from: From, to: To}
per: lens
codes:
  P-1: plain-150
  P-2: [thin-160]
"""
FULL = (
    ("P-1", "-4.00", "+2.00", "21.00"),
    ("P-2", "-8.00", "-4.25", "75.00"),
    ("P-2", "-4.00", "+2.00", "61.50"),
    ("P-2", "+2.25", "+6.00", "72.50"),
    ("flow-160", "-6.00", "+4.00", "150.00"),
)


@pytest.fixture
def map_of(corner):
    """A column map of this text, read."""

    def read(text=MAP):
        path = corner / "imports" / "pennock.yaml"
        path.parent.mkdir(exist_ok=True)
        path.write_text(text, encoding="utf-8")
        used, findings = read_map(path, load_written(corner)[0])
        assert findings == []
        return used

    return read


def listed(rows, headings=("Article", "From", "To", "Price")):
    return read_csv("\n".join(";".join(row) for row in (headings, *rows)).encode(), "list.csv")


def changed(result):
    return {(change.spot.id, change.spot.low): change.cents for change in result.changes}


def replaced(at, **new):
    names = ("code", "low", "high", "price")
    row = tuple(new.get(name, old) for name, old in zip(names, FULL[at], strict=True))
    return (*FULL[:at], row, *FULL[at + 1 :])


def codes(result):
    return [finding.code for finding in result.findings]


def test_old_and_new_prices_are_told_by_package_and_band(stand, map_of):
    result = imported(stand(), listed(FULL), map_of())
    assert result.findings == []
    assert changed(result) == {("plain-150", -4.0): 2100, ("thin-160", -4.0): 6150}
    assert result.unchanged == 3
    assert (result.unknown, result.missing) == ({}, [])


def test_what_stands_beside_an_amount_and_is_no_sign_of_the_currency_is_named(stand, map_of):
    rows = (("P-1", "-4.00", "+2.00", "21.00 net"), *FULL[1:])
    (found,) = imported(stand(), listed(rows), map_of()).findings
    assert (found.code, found.message.partition(" stands")[0]) == ("not-a-price", "`net`")


def test_francs_are_written_as_swiss_lists_write_them(stand):
    shop = replace(stand().catalog.shop, currency="CHF", locale="de_CH")
    used = ColumnMap("", {}, False, False, "", "", "", "", {}, Mark("list", 1, 1))
    for text in ("Fr. 73.50", "73.50 CHF", "SFr. 73.50", "73.50 fr"):
        row = Row(2, "", (Cell(text),))
        column = PriceColumn(shop, Sheet("list", (row,), ()), 0, used)
        assert (column.decide([row]), column.read(row)) == ([], 7350), text


def test_what_the_catalog_and_the_file_do_not_share_is_named(stand, map_of):
    rows = (*FULL[:2], ("P-9", "0.00", "+2.00", "9.00"), ("Plastic lenses", "", "", ""))
    result = imported(stand(), listed(rows), map_of())
    assert result.unknown == {"P-9": "A4"}
    assert result.missing == ["thin-160 from -4.00 to +2.00", "thin-160 from +2.25 to +6.00", "flow-160"]
    assert changed(result) == {("plain-150", -4.0): 2100}


def test_a_row_may_hold_the_powers_of_several_prices_but_not_cut_one(stand, map_of):
    wide = (("P-2", "-10.00", "+8.00", "70.00"),)
    assert changed(imported(stand(), listed(wide), map_of())) == {("thin-160", low): 7000 for low in (-8.0, -4.0, 2.25)}
    turned = (("P-2", "+8.00", "-10.00", "70.00"),)
    assert changed(imported(stand(), listed(turned), map_of())) == {
        ("thin-160", low): 7000 for low in (-8.0, -4.0, 2.25)
    }
    result = imported(stand(), listed((("P-2", "-8.00", "0.00", "70.00"),)), map_of())
    assert codes(result) == ["cuts-band"]
    assert "+2.00" in result.findings[0].message


@pytest.mark.parametrize(
    ("rows", "code", "place"),
    [
        (replaced(0, price="21.005"), "not-a-price", (2, "21.005")),
        (replaced(0, price="21.00 / box"), "not-a-price", (2, "21.00 / box")),
        (replaced(0, price="€ 21.00"), "other-currency", (2, "€ 21.00")),
        (replaced(0, price="21.00 EUR"), "other-currency", (2, "21.00 EUR")),
        (replaced(0, price="999999.00"), "not-a-price", (2, "999999.00")),
        (replaced(0, price="21,00"), "point-or-comma", (2, "21,00")),
        (replaced(0, low="-4.10"), "not-a-band", (2, "-4.10")),
        (replaced(0, high=""), "not-a-band", (2, "")),
        ((*FULL, ("plain-150", "-4.00", "+2.00", "22.00")), "two-prices", (7, "22.00")),
        ((("P-1", "-4.00", "+2.00", "1.234"),), "point-or-comma", (2, "1.234")),
        ((("X", "-4.00", "+2.00", "21.00"),), "nothing-known", (2, "X")),
    ],
)
def test_what_cannot_be_understood_is_told_at_its_cell(stand, map_of, rows, code, place):
    result = imported(stand(), listed(rows), map_of())
    assert code in codes(result)
    finding = next(one for one in result.findings if one.code == code)
    assert finding.severity == "error"
    assert finding.hint
    line, text = place
    assert finding.mark.line == line
    assert finding.mark.text[finding.mark.column - 1 :].startswith(text)


def test_a_row_without_a_price_changes_nothing_and_is_told(stand, map_of):
    rows = replaced(0, price="on request")
    result = imported(stand(), listed((*rows, ("P-1", "-4.00", "+2.00", ""))), map_of())
    assert [(one.code, one.severity) for one in result.findings] == [("no-price", "warning")] * 2
    assert changed(result) == {("thin-160", -4.0): 6150}
    assert result.missing == ["plain-150"]


def test_the_same_price_twice_is_no_fault(stand, map_of):
    result = imported(stand(), listed((*FULL, FULL[0])), map_of())
    assert result.findings == []
    assert result.unchanged == 3


def test_prices_of_pairs_are_halved_and_half_a_cent_is_said(stand, map_of):
    used = map_of(MAP.replace("per: lens", "per: pair"))
    result = imported(stand(), listed(replaced(0, price="42.01")), used)
    assert changed(result)["plain-150", -4.0] == 2101
    assert any("rounded" in one for one in result.said)


def test_the_shops_own_currency_may_stand_beside(stand, map_of):
    for price in ("$21.00", "21.00 USD", "USD 21.00", "$ 21.00"):
        assert changed(imported(stand(), listed(replaced(0, price=price)), map_of()))["plain-150", -4.0] == 2100


def test_a_list_without_powers_prices_packages_of_one_price_only(stand, map_of):
    used = map_of(MAP.replace(", from: From, to: To", ""))
    result = imported(stand(), listed((("P-1", "21.00"), ("P-2", "70.00")), ("Article", "Price")), used)
    assert codes(result) == ["which-band"]
    assert changed(result) == {("plain-150", -4.0): 2100}
    used = map_of(MAP.replace(", from: From, to: To", "") + "all_powers: yes\n")
    result = imported(stand(), listed((("P-1", "21.00"), ("P-2", "70.00")), ("Article", "Price")), used)
    assert result.findings == []
    assert changed(result) == {("plain-150", -4.0): 2100} | {("thin-160", low): 7000 for low in (-8.0, -4.0, 2.25)}


def test_a_column_may_be_named_by_its_letter(stand, map_of):
    used = map_of(MAP.replace("price: Price", "price: column D").replace("code: Article", "code: column A"))
    assert changed(imported(stand(), listed(FULL), used))["plain-150", -4.0] == 2100


def test_headings_that_are_not_there_or_twice_are_told(stand, map_of):
    used = map_of()
    result = imported(stand(), listed(FULL, ("Article", "From", "To", "Pric")), used)
    assert codes(result) == ["no-such-heading"]
    assert "did you mean" in result.findings[0].hint
    assert codes(imported(stand(), listed(FULL, ("Article", "From", "Price", "Price")), used)) == [
        "no-such-heading",
        "heading-twice",
    ]


def test_one_map_must_fit(stand, map_of, corner):
    used, sheet = map_of(), listed(FULL)
    path = corner / "imports/pennock.yaml"
    assert chosen("list.csv", [(path, used, sheet)]) == (used, [])
    other = listed(FULL, ("A", "B", "C", "D"))
    assert [one.code for one in chosen("x", [(path, used, other)])[1]] == ["no-map", "no-such-heading"]
    assert [one.code for one in chosen("x", [(path, used, sheet)] * 2)[1]] == ["which-map"]
    assert [one.code for one in chosen("x", [])[1]] == ["no-map"]


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ("maker: Pennock", "maker: Penock", "not-a-choice"),
        ("P-1: plain-150", "P-1: plain-105", "unknown-id"),
        ("P-2: [thin-160]", "P-2: [thin-160, thin]", "unknown-id"),
        ("P-1: plain-150", 'P-1: "?"', "not-an-id"),
        (", to: To", "", "missing"),
        ("per: lens", "per: box", "not-a-choice"),
        ("per: lens", "decimal: dot\nper: lens", "not-a-choice"),
        ("per: lens", "per: lens\npr: pair", "unknown-key"),
    ],
)
def test_what_is_wrong_with_a_map_is_told(corner, old, new, code):
    path = corner / "map.yaml"
    assert old in MAP
    path.write_text(MAP.replace(old, new), encoding="utf-8")
    used, findings = read_map(path, load_written(corner)[0])
    assert used is None
    assert [finding.code for finding in findings] == [code]


HEADINGS = [
    ("Artikel-Nr.", "Sph. von", "Sph. bis", "Preis je Glas"),
    ("Item code", "Sphere from", "Sphere to", "Price per lens"),
    ("Réf.", "De", "À", "Prix net"),
    ("SKU", "Min", "Max", "Net amount"),
]


@pytest.mark.parametrize("headings", HEADINGS, ids=lambda headings: headings[0])
def test_a_map_is_proposed_from_usual_headings_and_fits(stand, map_of, headings):
    now, sheet = stand(), listed((("plain-150", "-4.00", "+2.00", "21.00"), *FULL[4:]), headings)
    text = proposed(sheet, now.catalog, "Pennock")
    result = imported(now, sheet, map_of(text))
    assert result.findings == []
    assert changed(result) == {("plain-150", -4.0): 2100}


def test_what_a_proposal_cannot_know_is_left_to_its_reader(stand, corner):
    now = stand()
    text = proposed(listed(FULL, ("Foo", "Bar", "Baz", "Pair: EK")), now.catalog, "Pennock")
    assert 'code: "?"' in text
    assert "per: pair" in text
    path = corner / "map.yaml"
    path.write_text(text, encoding="utf-8")
    used, _ = read_map(path, now.catalog)
    assert columns.places(listed(FULL, ("Foo", "Bar", "Baz", "Pair: EK")), used.columns) is None
    text = proposed(listed(FULL), now.catalog, "Pennock")
    assert '#   "P-1": "?"' in text
    assert "flow-160" not in text.partition("# codes:")[2]


def test_a_code_beside_the_name_of_a_package_is_proposed_to_mean_it(stand, corner):
    now = stand()
    rows = (
        ("P-1", "PLAIN  1.50", "-4.00", "+2.00", "21.00"),
        ("P-2", "Other 1.60", "-8.00", "-4.25", "75.00"),
        ("P-2", "Thin 1.60", "-4.00", "+2.00", "75.00"),
        ("P-3", "Thin 1.60", "-4.00", "+2.00", "75.00"),
    )
    text = proposed(listed(rows, ("Article", "Name", "From", "To", "Price")), now.catalog, "Pennock")
    assert (
        """
codes:
  "P-1": plain-150
  "P-3": thin-160
#   "P-2": "?"
"""
        in text
    )
    path = corner / "map.yaml"
    path.write_text(text, encoding="utf-8")
    used, findings = read_map(path, now.catalog)
    assert (used.codes, findings) == ({"P-1": ("plain-150",), "P-3": ("thin-160",)}, [])


@pytest.mark.parametrize("form", ["csv", "xlsx"])
def test_an_export_comes_back_as_it_was_and_one_changed_number_exactly(stand, form, tmp_path):
    now = stand()
    raw = as_csv(now.spots) if form == "csv" else as_workbook(now.spots)
    sheet = read_csv(raw, "out.csv") if form == "csv" else read_workbook(raw, "out.xlsx", "")
    result = imported(now, sheet, own_map(sheet))
    assert (result.changes, result.findings, result.missing, result.unknown) == ([], [], [], {})
    assert result.unchanged == len(now.spots) == 8
    path = tmp_path / f"out.{form}"
    new = [
        spot if spot.id != "reed" else type(spot)(**{**_fields(spot), "cents": spot.cents + 137}) for spot in now.spots
    ]
    path.write_bytes(as_csv(new) if form == "csv" else as_workbook(new))
    sheet = read_sheet(path)
    result = imported(now, sheet, own_map(sheet))
    assert errors(result.findings) == []
    assert {(one.spot.id, one.spot.colorway): one.cents - one.spot.cents for one in result.changes} == {
        ("reed", "gray"): 137,
        ("reed", "dusk"): 137,
    }


def test_an_export_that_a_spreadsheet_saved_in_its_own_way_comes_back(stand):
    now = stand()
    lines = as_csv(now.spots).decode("utf-8-sig").replace('"', "").splitlines()
    rows = [line.rsplit(",", 3) for line in lines]
    text = "\n".join(";".join([row[0].replace(",", ";"), *(one.replace(".", ",") for one in row[1:])]) for row in rows)
    text = text.replace("Alder; Slate", "Alder, Slate").replace("Reed; ", "Reed, ")
    sheet = read_csv(text.encode("cp1252"), "out.csv")
    result = imported(now, sheet, own_map(sheet))
    assert (result.changes, result.findings) == ([], [])
    assert result.unchanged == len(now.spots)


def _fields(spot):
    return {name: getattr(spot, name) for name in type(spot).__slots__}


@given(data=st.data())
@settings(max_examples=30, suppress_health_check=list(HealthCheck), deadline=None)
def test_whatever_numbers_an_export_is_given_come_back_exactly(stand, data):
    now = stand()
    form, read = data.draw(
        st.sampled_from([(as_csv, read_csv), (as_workbook, lambda raw, name: read_workbook(raw, name, ""))])
    )
    meant = {spot.key: data.draw(st.sampled_from([spot.cents]) | st.integers(0, 9_999_999)) for spot in now.spots}
    sheet = read(form([type(spot)(**{**_fields(spot), "cents": meant[spot.key]}) for spot in now.spots]), "out")
    result = imported(now, sheet, own_map(sheet))
    assert result.findings == []
    contents, findings = in_place(now, result.changes)
    assert findings == checked(now, contents, result.changes, now.day) == []
    assert {one.spot.key: one.cents for one in result.changes} == {
        spot.key: meant[spot.key] for spot in now.spots if meant[spot.key] != spot.cents
    }


def test_a_list_of_headings_alone_is_told(stand, map_of):
    assert codes(imported(stand(), listed(()), map_of())) == ["nothing-known"]


WILD = st.text(st.sampled_from("0129.,-+−–€$ '\u00a0%DplanoxUSEDkr\x1b"), max_size=9)


@given(rows=st.lists(st.tuples(st.sampled_from(["P-1", "P-2", "flow-160", "X", ""]), WILD, WILD, WILD), max_size=6))
@settings(max_examples=150, suppress_health_check=list(HealthCheck), deadline=None)
def test_whatever_stands_in_cells_is_a_price_or_a_finding(stand, map_of, rows):
    result = imported(stand(), listed(rows), map_of())
    for change in result.changes:
        assert 0 <= change.cents <= 10_000_000
    for finding in result.findings:
        assert finding.code in PRICE_CODES
        assert finding.hint
        assert "\x1b" not in str(finding)


def test_formulas_without_results_are_told_where_they_matter(stand, map_of):
    book = Workbook()
    for row in (
        ["=1+1"],
        ["Article", "From", "To", "Price", "Note"],
        ["P-1", -4, 2, "=20*1.05", "=1"],
        ["P-2", 0, 0, 9, "=2"],
    ):
        book.active.append(row)
    held = io.BytesIO()
    book.save(held)
    result = imported(stand(), read_workbook(held.getvalue(), "list.xlsx", ""), map_of())
    assert [(one.code, one.mark.line, one.mark.column) for one in result.findings] == [("formula-not-computed", 3, 4)]
