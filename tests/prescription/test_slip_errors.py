"""What cannot be read on a slip is refused at its place, quoted, with what to do; nothing is guessed."""

import pytest

from quoting.findings import errors
from quoting.prescription.text import MOST_CHARACTERS, read_slip

GOOD = "OD -1.00 -0.50 x 90\nOS -1.25 DS\n"

# slip; code; line and column; the quoted text; a word of the hint
ERRORS = [
    ("OD -225 DS", "point-missing", (1, 4), "-225", "-2.25"),
    ("OD -2.25 -75 x 90", "point-missing", (1, 10), "-75", "-0.75"),
    ("OD -2.25 -050 x 90", "point-missing", (1, 10), "-050", "-0.50"),
    ("OD +1025", "point-missing", (1, 4), "+1025", "+10.25"),
    ("OD +1.00 add 200", "point-missing", (1, 10), "add 200", "2.00"),
    ("OD 2.25 DS", "sign-missing", (1, 4), "2.25", "-2.25 or +2.25"),
    ("OD -2.25 0.75 x 90", "sign-missing", (1, 10), "0.75", "-0.75 or +0.75"),
    ("OD - 2.25 DS", "dash-or-minus", (1, 4), "- 2.25", "-2.25"),
    ("OD -2.25.5", "unreadable", (1, 4), "-2.25.5", ""),
    ("OD nan / OS -1.00", "sphere-missing", (1, 4), "nan", "plano"),
    ("OD inf", "sphere-missing", (1, 4), "inf", "plano"),
    ("OD % / OS -1.00", "sphere-missing", (1, 4), "%", "plano"),
    ("OD ∞ / OS -2.50", "unreadable", (1, 4), "∞", "plano"),
    ("R ∞ L -2.50", "unreadable", (1, 3), "∞", "plano"),
    ("OD -2.25 ∞", "unreadable", (1, 10), "∞", "distance"),
    ("OD --2.25", "unreadable", (1, 4), "--2.25", ""),
    ("OD ±2.25", "unreadable", (1, 4), "±2.25", ""),
    ("OD -2.25 ± x", "unreadable", (1, 10), "±", ""),
    ("OD ~2.25", "unreadable", (1, 4), "~2.25", ""),
    ("OD -2½", "unreadable", (1, 4), "-2½", ""),
    ("OD -2.25 -0.75 x 9O", "unreadable", (1, 18), "9O", ""),
    ("OD -250.00", "not-a-power", (1, 4), "-250.00", ""),
    ("OD -2.25 -0.75 x 190", "axis-range", (1, 16), "x 190", "slip"),
    ("OD -2.25 -0.75 x 92.5", "axis-not-whole", (1, 16), "x 92.5", "090"),
    ("OD -2.25 -0.75 x -90", "axis-sign", (1, 16), "x -90", "090"),
    ("OD -2.25 -0.75 axis", "unreadable", (1, 16), "axis", "x 090"),
    ("OD -2.25 -0.75 x", "unreadable", (1, 16), "x", "x 090"),
    ("OD -2.25 -0.75 +2.00", "unreadable", (1, 16), "+2.00", "axis"),
    ("OD -2.25 -0.75 x 90 45", "unreadable", (1, 21), "45", ""),
    ("OD -2.25 DS 180", "unreadable", (1, 13), "180", ""),
    ("OD +1.00 add -2.00", "add-minus", (1, 10), "add -2.00", ""),
    ("OD +1.00 ADD:", "unreadable", (1, 10), "ADD", "+2.00"),
    ("OD +1.00 add two", "unreadable", (1, 14), "two", "digits"),
    ("OD minus two", "unreadable", (1, 4), "minus", ""),
    ("OD -1.00 prism 2", "base-missing", (1, 10), "prism 2", "BI"),
    ("OD -1.00 prism -2 BI", "prism-sign", (1, 10), "prism -2 BI", "2 BI"),
    ("OD -1.00 2^ @ 400", "base-range", (1, 10), "2^ @ 400", "BI"),
    ("OD -1.00 BI", "unreadable", (1, 10), "BI", "amount"),
    ("OD -1.00 2 BI 1 BO", "given-twice", (1, 15), "", "keep"),
    ("OD -1.00 add 2.00 add 2.25", "given-twice", (1, 19), "", "keep"),
    ("prism 2 BI OD -1.00", "eye-missing", (1, 1), "prism 2 BI", "OD"),
    ("OS -1.00 prism 2 BI OD", "eye-behind", (1, 21), "OD", "before"),
    ("-2.25 -0.75 x 90, -2.50", "eye-missing", (1, 1), "-2.25 -0.75 x 90, -2.50", "OD"),
    ("sphere -2.25", "eye-missing", (1, 1), "sphere -2.25", "OD"),
    ("OD balance", "balance-lens", (1, 4), "balance", "prescriber"),
    ("OD -1.00 PD 630", "not-a-pd", (1, 10), "PD 630", "63"),
    ("OD -1.00 PD 6.3 cm", "not-a-pd", (1, 10), "PD 6.3", "63"),
    ("OD -1.00 PD 31,32", "not-a-pd", (1, 10), "PD 31,32", "31.5/32"),
    ("OU -1.00 PD 32", "pd-unclear", (1, 10), "PD 32", "R 31.5"),
    ("OD -1.00 PD 63/45", "pd-unclear", (1, 10), "PD 63/45", "near PD"),
    (GOOD + "PD 63\n60 High Street", "unreadable", (4, 1), "60", "PD"),
    (GOOD + "PD 63, 60 High Street", "unreadable", (3, 8), "60", "PD"),
    ("OD -1.00 63", "unreadable", (1, 10), "63", "PD"),
    ("OD -1.00 63%", "unreadable", (1, 10), "63%", ""),
    ("OD -1.00 90 mm", "unreadable", (1, 13), "mm", ""),
    ("OD -1.00 2026-02-30", "date-impossible", (1, 10), "2026-02-30", "year-month-day"),
    (GOOD + "call 555-1234", "unreadable", (3, 6), "555", ""),
    (GOOD + "call 555-1234", "unreadable", (3, 9), "-1234", ""),
    (GOOD + "\nI am 45.", "unreadable", (4, 6), "45", "PD"),
    (GOOD + "SPH CYL", "unreadable", (3, 5), "CYL", ""),
    ("SPH  CYL  AXIS  ADD\nOD  +1.00            +2", "table-row-unclear", (2, 1), "OD  +1.00            +2", "dash"),
    ("SPH CYL AXIS ADD\nOD +1.00  +2.00", "table-row-unclear", (2, 1), "OD +1.00  +2.00", "dash"),
    ("SPH CYL AXIS ADD\nOD +1.00 +2.00", "table-row-unclear", (2, 1), "OD +1.00 +2.00", "dash"),
    ("SPH|CYL|AXIS\nOD|-1.00|-0.50|90|+2.00", "table-row-unclear", (2, 1), "OD|-1.00|-0.50|90|+2.00", ""),
    ("SPH|CYL|AXIS\nOD -1.00|-0.50|90", "table-row-unclear", (2, 1), "OD -1.00|-0.50|90", ""),
    ("SPH|CYL|AXIS\nOD|-1.00 -0.50|x|90", "unreadable", (2, 10), "-0.50", ""),
]


@pytest.mark.parametrize(("slip", "code", "place", "quoted", "hint"), ERRORS, ids=[row[0] for row in ERRORS])
def test_what_cannot_be_read_is_refused_at_its_place(slip, code, place, quoted, hint):
    reading = read_slip(slip)
    assert reading.prescription is None
    found = [f for f in errors(reading.findings) if f.code == code and (f.mark.line, f.mark.column) == place]
    assert found, [f.line() for f in reading.findings]
    assert f"`{' '.join(quoted.split())}`" in found[0].message or not quoted
    assert hint in found[0].hint
    assert found[0].mark.length == len(quoted) or not quoted


# code; line and column: what is missing or said twice stands at what it is about
@pytest.mark.parametrize(
    ("slip", "code", "place"),
    [
        ("OD -2.25 -0.75\nOS -2.50", "axis-missing", (1, 10)),
        ("OD PD 31.5 OS -1.00\nOD add 2.00", "sphere-missing", (2, 1)),
        ("OD cyl -0.75 x 90", "sphere-missing", (1, 1)),
        ("OS -2.50\nOD", "sphere-missing", (2, 1)),
        ("OD -2.25 -0.75 x 90\nOD -2.50 -0.50 x 80", "eye-twice", (2, 4)),
        ("OU -2.25, OS -2.50", "eye-twice", (1, 14)),
        ("OD -2.25 x 90 x 80", "given-twice", (1, 15)),
        ("OD -1.00 PD 63 PD 64", "given-twice", (1, 16)),
        ("OD -1.00 2026-05-04 2026-05-05", "given-twice", (1, 21)),
        ("hello", "nothing-read", (1, 1)),
        ("", "nothing-read", (1, 1)),
        ("x" * (MOST_CHARACTERS + 1), "slip-too-long", (1, 1)),
    ],
)
def test_what_is_missing_or_said_twice_is_an_error(slip, code, place):
    reading = read_slip(slip)
    assert reading.prescription is None
    assert [(f.code, (f.mark.line, f.mark.column)) for f in errors(reading.findings)] == [(code, place)]


def test_all_faults_are_told_at_once():
    reading = read_slip("OD -225 -0.75 x 190\nOS 2.25 -0.50\nPD 630")
    assert [(f.code, f.mark.line) for f in errors(reading.findings)] == [
        ("point-missing", 1),
        ("axis-range", 1),
        ("sign-missing", 2),
        ("axis-missing", 2),
        ("not-a-pd", 3),
    ]


def test_an_axis_without_a_cylinder_is_a_warning_and_changes_nothing():
    reading = read_slip("OD -2.25 x 90\nOS -2.50")
    assert [(f.code, f.severity) for f in reading.findings] == [("axis-alone", "warning")]
    assert reading.prescription.right.axis == 180


def test_axis_000_is_read_as_180_with_a_note():
    reading = read_slip("OD -2.25 -0.50 x 000, OS -2.50")
    assert [(f.code, f.severity, f.mark.column) for f in reading.findings] == [("axis-zero", "note", 16)]


def test_an_addition_told_by_its_place_alone_is_a_warning():
    reading = read_slip("OD +1.00 -0.50 x 90 +2.00\nOS +1.00 DS +2.00")
    assert [(f.code, f.severity) for f in reading.findings] == [("add-by-place", "warning")] * 2


def test_a_pupillary_distance_without_its_number_is_a_warning():
    reading = read_slip(GOOD + "PD: I do not know")
    assert [(f.code, f.severity) for f in reading.findings] == [("pd-without-number", "warning")]
    assert reading.prescription is not None


def test_powers_without_an_eye_are_one_error_a_line():
    found = errors(read_slip("-2.25 -0.75 x 90\n-2.50 DS").findings)
    assert [(f.code, f.mark.line, f.mark.length) for f in found] == [("eye-missing", 1, 16), ("eye-missing", 2, 8)]
