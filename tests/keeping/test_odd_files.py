"""Whatever a maker's file holds: it is read, or told with a place and a remedy, in bounded time and memory."""

import random
import subprocess
import sys
import time
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from quoting.catalog.codes import CODES
from quoting.catalog.load import load_written
from quoting.findings import errors
from quoting.keeping.columns import read_map
from quoting.keeping.entry_codes import ENTRY_CODES
from quoting.keeping.frames_csv import taken
from quoting.keeping.imported import imported
from quoting.keeping.maps import maps_read
from quoting.keeping.price_codes import PRICE_CODES
from quoting.keeping.proposing import makers_in, proposed
from quoting.keeping.sheet import read_sheet
from quoting.keeping.sheet_text import read_csv
from quoting.keeping.standing import standing
from tests.keeping.books import DAY, bombs, book, list_with, number, sheet, text
from tests.keeping.conftest import CORNER
from tests.keeping.conftest import DAY as TODAY

ROOT = Path(__file__).parents[2]
MAP = "maker: Pennock\ncolumns: {code: Article, price: Price, from: From, to: To}\nper: lens\ncodes: {P-1: plain-150}\n"
LIST = "Article;Price;From;To\nP-1;21,50;-4,00;+2,00\nthin-160;61,50;-4,00;+2,00\n"
FRAMES = (
    "Brand;Model;Shape;Rim;Material;Curve;Wrap;Tilt;A;B;DBL;ED;Temple;Color;Version;Price;Front;Temple color;Stock\n"
    "Skerrow;Fern;oval;full-rim-metal;titanium;4,0;5;8;50;38;18;51,5;140;Moss;optical;150,00;#445544;#445544;in-stock\n"
)
ALL_CODES = CODES | PRICE_CODES | ENTRY_CODES
MEGABYTES = 1500  # of address space, what Python and its libraries take included
PATIENCE = 600  # seconds for one file in a process of its own, on a slow machine that does much else

odd = settings(deadline=None, max_examples=150, suppress_health_check=list(HealthCheck))


@pytest.fixture(scope="module")
def now():
    return standing(CORNER, load_written(CORNER)[0], TODAY)


@pytest.fixture(scope="module")
def used(tmp_path_factory, now):
    path = tmp_path_factory.mktemp("map") / "pennock.yaml"
    path.write_text(MAP, encoding="utf-8")
    found, findings = read_map(path, now.catalog)
    assert findings == []
    return found


def sound(findings):
    """Each has a place, a known code and a remedy."""
    for one in findings:
        assert one.code in ALL_CODES
        assert one.hint, one
        assert one.mark.line >= 1
        assert one.mark.column >= 1
        assert len(str(one)) < 2500
        assert "\x1b" not in str(one)
    return findings


def told(one, now, used):
    """All that is found in a sheet, whatever is wanted of it."""
    proposed(one, now.catalog, "Pennock")
    makers_in(one, now.catalog)
    frames = taken(one, now.catalog, {}, {}, "")
    sound([*one.findings, *frames.findings])
    if one.findings:
        return sound(one.findings)
    result = imported(now, one, used)
    assert all(0 <= change.cents <= 10_000_000 for change in result.changes)
    return sound(result.findings)


ODD_CELLS = {
    "1e308": (number("B2", "1e308"), "not-a-price"),
    "infinite": (number("B2", "1e999"), "no-price"),
    "many-digits": (number("B2", "9" * 4000), "not-a-price"),
    "below-zero": (number("B2", "-20"), "not-a-price"),
    "a-day": (number("B2", "46000", DAY), "not-a-price"),
    "a-day-beyond-all": (number("B2", "1e12", DAY), "no-price"),
    "an-error": ('<c r="B2" t="e"><v>#DIV/0!</v></c>', "not-a-price"),
    "yes": ('<c r="B2" t="b"><v>1</v></c>', "no-price"),
    "a-formula-without-result": ('<c r="B2"><f>A1*2</f></c>', "formula-not-computed"),
    "a-text-that-is-not-there": ('<c r="B2" t="s"><v>99999</v></c>', "sheet-unreadable"),
    "no-number": (number("B2", "abc"), "sheet-unreadable"),
    "no-day": ('<c r="B2" t="d"><v>2026-99-99</v></c>', "sheet-unreadable"),
    "escapes": (text("B2", "21_x001B_[2J.50"), "not-a-price"),
}


@pytest.mark.parametrize("name", ODD_CELLS)
def test_a_price_may_hold_anything(tmp_path, now, used, name):
    cell, code = ODD_CELLS[name]
    path = tmp_path / "list.xlsx"
    path.write_bytes(book(list_with(cell)))
    assert code in [one.code for one in told(read_sheet(path), now, used)]


@pytest.mark.parametrize(
    ("raw", "low"),
    [
        pytest.param(book(list_with(number("B2", "21.5"))), -4.0, id="plain"),
        pytest.param(book(list_with(number("B2", "21.5", formula="A1*2"))), -4.0, id="formula"),
        pytest.param(book(list_with(number("B2", "21.499999999999996"))), -4.0, id="dust"),
        pytest.param(book(list_with(number("B2", "21.5"), number("C2", "-4"))), -4.0, id="power-as-number"),
        pytest.param(
            book(list_with(number("B2", "21.5"), after='<row r="1048576"><c r="A1048576" s="1"/></row>')),
            -4.0,
            id="a-format-in-the-last-row",
        ),
        pytest.param(
            book(list_with(number("B2", "21.5")).replace("A1:D2", "A1:XFD1048576")), -4.0, id="dimension-of-everything"
        ),
        pytest.param(book(list_with(number("B2", "21.5")).replace("A1:D2", "A1:A1")), -4.0, id="dimension-too-small"),
        pytest.param(
            book(
                list_with(number("B2", "21.5")).replace(
                    "</sheetData>", '</sheetData><mergeCells><mergeCell ref="A1:XFD1048576"/></mergeCells>'
                )
            ),
            -4.0,
            id="merged",
        ),
    ],
)
def test_what_programs_write_is_read_all_the_same(tmp_path, now, used, raw, low):
    path = tmp_path / "list.xlsx"
    path.write_bytes(raw)
    (change,) = imported(now, read_sheet(path), used).changes
    assert (change.spot.id, change.spot.low, change.cents) == ("plain-150", low, 2150)


def test_the_columns_of_merged_headings_are_told_and_not_guessed(tmp_path, now, used):
    """A merged cell has its text in the first of its places; those behind it are empty."""
    path = tmp_path / "list.xlsx"
    merged = '<mergeCells><mergeCell ref="B1:C1"/></mergeCells>'
    rows = f'<row r="1">{text("A1", "Article")}{text("B1", "Price")}</row><row r="2">{text("A2", "P-1")}</row>'
    path.write_bytes(book(sheet(rows, after=merged)))
    assert "no-such-heading" in {one.code for one in told(read_sheet(path), now, used)}


READ = """
import resource, sys, time
from pathlib import Path
most = int(sys.argv[2]) * 1_000_000
resource.setrlimit(resource.RLIMIT_AS, (most, most))
from quoting.keeping.sheet import read_sheet
before = time.process_time()
found = read_sheet(Path(sys.argv[1]))
print([one.code for one in found.findings], time.process_time() - before < 60)
"""


def read_apart(path):
    """Codes, and whether it took less than 20 seconds of a processor, in a process that has no more than so much."""
    pytest.importorskip("resource", reason="this system sets no bound for a process")
    command = [sys.executable, "-c", READ, str(path), str(MEGABYTES)]
    done = subprocess.run(command, capture_output=True, text=True, check=False, timeout=PATIENCE, cwd=ROOT)
    assert done.stderr == ""
    return done.stdout.strip()


@pytest.mark.parametrize("name", bombs())
def test_a_small_workbook_does_not_exhaust_the_machine(tmp_path, name):
    path = tmp_path / "list.xlsx"
    path.write_bytes(bombs()[name])
    assert path.stat().st_size < 2_000_000
    assert read_apart(path) == "['sheet-unreadable'] True"


@pytest.mark.parametrize(
    ("content", "codes"),
    [
        pytest.param(LIST + "P-1;21,50;-4,00;+2,00\n" * 600_000, ["sheet-unreadable"], id="rows"),
        pytest.param(LIST + ";" * 10_000_000, ["sheet-unreadable"], id="cells"),
        pytest.param(LIST + "x" * 15_000_000, ["sheet-columns"], id="a-long-field"),
        pytest.param(LIST + '"' + "x" * 15_000_000, ["sheet-columns"], id="an-open-quote"),
        pytest.param(LIST + '"' * 3_000_000, ["sheet-columns"], id="quotes"),
        pytest.param(LIST + "P-1;" + "9" * 100_000 + ";-4;2\n", [], id="digits"),
    ],
)
def test_a_text_does_not_exhaust_the_machine(tmp_path, content, codes):
    path = tmp_path / "list.csv"
    path.write_text(content, encoding="utf-8")
    assert read_apart(path) == f"{codes} True"


@given(st.data())
@odd
def test_bytes_of_a_text_may_be_anything(now, used, data):
    raw = data.draw(st.sampled_from([LIST, FRAMES])).encode()
    told(read_csv(mangled(raw, data), "list.csv"), now, used)


@given(st.data())
@odd
def test_a_tab_may_hold_anything(tmp_path_factory, now, used, data):
    path = tmp_path_factory.getbasetemp() / "odd.xlsx"
    path.write_bytes(book(mangled(list_with(number("B2", "21.5")).encode(), data)))
    told(read_sheet(path), now, used)


def mangled(raw, data):
    """With a few places cut out, doubled, or filled with what has a meaning somewhere."""
    for _ in range(data.draw(st.integers(1, 4))):
        start = data.draw(st.integers(0, len(raw)))
        end = data.draw(st.integers(start, min(len(raw), start + 30)))
        put = data.draw(
            st.sampled_from([b"", raw[start:end] * 2, b'"', b";", b"\n", b"<v>", b"</c>", b"1e999", b"&x;", b"\xff"])
            | st.binary(max_size=6)
            | st.text(max_size=6).map(lambda words: words.encode("utf-8", "replace"))
        )
        raw = raw[:start] + put + raw[end:]
    return raw


def test_a_workbook_cut_or_changed_anywhere_is_told(tmp_path, now, used):
    raw, path = book(list_with(number("B2", "21.5"))), tmp_path / "list.xlsx"
    drawn = random.Random(7)
    for _ in range(150):
        at = drawn.randrange(len(raw))
        broken = raw[:at] if drawn.random() < 0.3 else raw[:at] + drawn.randbytes(1) + raw[at + 1 :]
        path.write_bytes(broken)
        told(read_sheet(path), now, used)


@given(st.data())
@odd
def test_a_column_map_may_hold_anything(tmp_path_factory, now, data):
    shop = tmp_path_factory.getbasetemp() / "mapped"
    path = shop / "imports" / "pennock.yaml"
    path.parent.mkdir(parents=True, exist_ok=True)
    more = "tab: Prices\ndecimal: comma\ndelimiter: ;\nencoding: utf-8\nall_powers: yes\n"
    path.write_bytes(mangled((MAP + more).encode(), data))
    read, findings = maps_read(shop, now.catalog)
    sound(findings)
    assert bool(read) != bool(errors(findings))
    if read:
        ((_, used),) = read
        own = read_csv(LIST.encode(), "list.csv", used.delimiter, used.encoding)
        told(own, now, used)


@pytest.mark.parametrize(
    "name", ["idna", "punycode", "zip", "rot13", "base64", "utf-7", "no-such", "\0", "unicode_escape"]
)
def test_an_encoding_may_be_any_word(now, used, name):
    told(read_csv(LIST.encode(), "list.csv", encoding=name), now, used)


@pytest.mark.parametrize("sign", ['"', "\r", "\n", "\0", "é", "\U0001f453", " "])
def test_a_sign_between_columns_may_be_any(now, used, sign):
    told(read_csv(LIST.encode(), "list.csv", delimiter=sign), now, used)


def test_a_list_of_ten_thousand_rows_is_read_in_seconds(now, used):
    rows = "".join(f"P-{at};21,50;-4,00;+2,00\n" for at in range(10_000))
    before = time.process_time()
    told(read_csv(("Article;Price;From;To\n" + rows).encode(), "list.csv"), now, used)
    assert time.process_time() - before < 60
