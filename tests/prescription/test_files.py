"""A prescription in a file reads by its ending; a form's fields decide what their text means."""

from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.findings import errors
from quoting.prescription.file import read_file
from quoting.prescription.form import read_form
from quoting.prescription.model import Distances, EyeRx

FORM = """\
right: {sphere: -2.25, cylinder: -0.75, axis: 010, add: +2.00, prism: [{amount: 0.5, base: down}]}
left: {sphere: -2.50, add: 2.00}
pd: 63
written: 2026-05-04
"""


def write(folder, name, text):
    path = folder / name
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return path


def test_a_form_reads_and_axis_010_is_ten():
    rx = read_form(FORM).prescription
    assert rx.right == EyeRx(-2.25, -0.75, 10, add=2.0, prism_up=-0.5)
    assert rx.left == EyeRx(-2.50, add=2.0)
    assert (rx.pd, rx.written) == (Distances(63), date(2026, 5, 4))


@pytest.mark.parametrize(
    ("written", "expected"),
    [
        ("63", Distances(63)),
        ("63.5", Distances(63.5)),
        ("31.5/32", Distances(None, 31.5, 32)),
        ("63/60", Distances(63, near=60)),
        ("{right: 31.5, left: 32}", Distances(None, 31.5, 32)),
        ("\n  right: 31.5\n  left: 32", Distances(None, 31.5, 32)),
        ("{binocular: 63, near: 60}", Distances(63, near=60)),
    ],
)
def test_the_pupillary_distance_of_a_form_may_be_a_number_a_pair_or_named(written, expected):
    reading = read_form(f"right: {{sphere: -1.00}}\nleft: {{sphere: -1.00}}\npd: {written}\n")
    assert reading.findings == ()
    assert reading.prescription.pd == expected


# Base angles seen facing the wearer, 0 to the observer's right: nasal for the right eye (ISO 13666)
@pytest.mark.parametrize(("base", "inward", "up"), [("in", 2, 0), ("BD", 0, -2), ("180", -2, 0), ("90", 0, 2)])
def test_a_base_is_a_word_or_an_angle(base, inward, up):
    rx = read_form(f"right: {{sphere: plano, prism: [{{amount: 2, base: {base}}}]}}").prescription
    assert (rx.right.prism_in, rx.right.prism_up) == (inward, up)


@pytest.mark.parametrize("encoding", ["utf-16", "utf-16-le", "utf-16-be", "utf-32"])
@pytest.mark.parametrize("name", ["rx.txt", "rx.yaml", "rx.json"])
def test_a_text_in_another_encoding_is_named_with_the_remedy(tmp_path, name, encoding):
    (finding,) = read_file(write(tmp_path, name, "OD -2.25 DS\nOS -2.50 DS\n".encode(encoding))).findings
    named = encoding.upper().removesuffix("-LE").removesuffix("-BE")
    assert finding.message == f"this file is saved as {named}; we read UTF-8"
    assert finding.hint == "save it as UTF-8 in your editor"


def test_a_text_in_an_encoding_of_old_is_not_taken_for_a_photo(tmp_path):
    (finding,) = read_file(write(tmp_path, "rx.txt", "OD -2.25 -0.75 × 90\n".encode("latin-1"))).findings
    assert (finding.code, finding.hint) == ("not-text", "save it as UTF-8 in your editor")
    (photo,) = read_file(write(tmp_path, "rx.jpg", b"\xff\xd8\xff\xe0\x00\x10JFIF\x00\x01\x02")).findings
    assert "photo" in photo.hint


@pytest.mark.parametrize(
    ("old", "new", "code", "place"),
    [
        ("-2.25", "-225", "point-missing", (1, 17)),
        ("-2.25", "2.25", "sign-missing", (1, 17)),
        ("-2.25", "minus", "not-a-number", (1, 17)),
        (", axis: 010", "", "axis-missing", (1, 34)),
        ("010", "200", "axis-range", (1, 47)),
        ("+2.00", "-2.00", "add-minus", (1, 57)),
        ("0.5,", "-0.5,", "prism-sign", (1, 81)),
        ("down", "400", "base-range", (1, 92)),
        ("down", "nasal", "base-range", (1, 92)),
        ("pd: 63", "pd: 630", "not-a-pd", (3, 5)),
        ("pd: 63", "pd: 32", "not-a-pd", (3, 5)),
        ("pd: 63", "pd: {right: 320}", "not-a-pd", (3, 13)),
        ("2026-05-04", "04.05.2026", "not-a-date", (4, 10)),
        ("left:", "lefft:", "unknown-key", (2, 1)),
        ("{sphere: -2.50, add: 2.00}", "-2.50", "wrong-shape", (2, 7)),
        ("{sphere: -2.50, add: 2.00}", "{add: 2.00}", "sphere-missing", (2, 7)),
    ],
)
def test_a_fault_in_a_form_is_told_at_its_place(old, new, code, place):
    reading = read_form(FORM.replace(old, new, 1), "rx.yaml")
    assert reading.prescription is None
    assert (code, place) in [(f.code, (f.mark.line, f.mark.column)) for f in errors(reading.findings)]


@given(st.text(max_size=200) | st.text(alphabet="right: {}[]spheraxd-2.50,\n", max_size=80))
def test_no_text_makes_a_form_fail(text):
    reading = read_form(text)
    assert (reading.prescription is None) == bool(errors(reading.findings))


@given(st.integers(0, len(FORM) - 1), st.text(max_size=3), st.integers(0, 4))
def test_no_damage_makes_a_form_fail(at, extra, cut):
    reading = read_form(FORM[:at] + extra + FORM[at + cut :])
    assert (reading.prescription is None) == bool(errors(reading.findings))


def test_the_ending_decides_how_a_file_is_read(tmp_path):
    example = (Path(__file__).parent / "fhir" / "33123.json").read_bytes()
    assert read_file(write(tmp_path, "a.json", example)).prescription.right.sphere == -2.0
    assert read_file(write(tmp_path, "a.YML", FORM)).prescription.right.axis == 10
    assert read_file(write(tmp_path, "a.yaml", FORM)).prescription.right.axis == 10
    assert read_file(write(tmp_path, "a.txt", "OD -2.25 OS -2.50")).prescription.left.sphere == -2.5
    assert read_file(write(tmp_path, "slip", b"\xef\xbb\xbfOD -2.25 OS -2.50")).prescription.left.sphere == -2.5


def test_age_limits_reach_every_kind_of_file(tmp_path):
    for name, text in (("a.yaml", FORM), ("a.txt", "OU -1.00 DS 2026-05-04")):
        reading = read_file(write(tmp_path, name, text), today=date(2028, 1, 1), max_age_months=12)
        assert "too-old" in {finding.code for finding in reading.findings}


def test_a_file_that_cannot_be_read_is_a_finding(tmp_path):
    def code(path):
        reading = read_file(path)
        assert reading.prescription is None
        return [finding.code for finding in reading.findings]

    assert code(tmp_path / "none.txt") == ["no-such-file"]
    assert code(tmp_path) == ["unreadable-file"]
    assert code(write(tmp_path, "photo.txt", b"\xff\xd8\xff\xe0")) == ["not-text"]
    assert code(write(tmp_path, "long.txt", b"x" * 1_000_001)) == ["file-too-large"]
