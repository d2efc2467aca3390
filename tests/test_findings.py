"""A Finding repeats what a stranger wrote; a terminal must show it and not obey it."""

import unicodedata

from hypothesis import given
from hypothesis import strategies as st

from quoting.findings import Finding, Mark
from quoting.prescription.fhir import read_fhir

HARMFUL = {"Cc"}
# Unicode UAX #9, the explicit embeddings, overrides and isolates
BIDI = {chr(code) for code in (*range(0x202A, 0x202F), *range(0x2066, 0x206A))}


@given(st.text(), st.text(), st.text(), st.text())
def test_a_finding_shows_no_control_character(file, text, message, hint):
    said = str(Finding(Mark(file, 1, 1, text), "some-code", message, hint))
    assert said.count("\n") == (2 if text else 0) + bool(hint)
    for character in said.replace("\n", ""):
        assert unicodedata.category(character) not in HARMFUL
        assert character not in BIDI


def test_an_escape_inside_json_is_shown_and_not_obeyed():
    finding = read_fhir('{"resourceType": "A\\u001b[2Jx"}').findings[0]
    assert "\x1b" not in str(finding)
    assert "A�[2Jx" in str(finding)
