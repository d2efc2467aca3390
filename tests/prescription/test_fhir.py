"""FHIR VisionPrescription: the examples of the standard, and what is not a prescription for glasses."""

import json
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.findings import errors
from quoting.prescription.fhir import read_fhir
from quoting.prescription.model import EyeRx

FOLDER = Path(__file__).parent / "fhir"
GLASSES = (FOLDER / "33123.json").read_text(encoding="utf-8")
CONTACTS = (FOLDER / "33124.json").read_text(encoding="utf-8")


def changed(change):
    """The example for glasses, after a change to its parsed form."""
    resource = json.loads(GLASSES)
    change(resource, resource["lensSpecification"])
    return json.dumps(resource, indent=1)


def codes(text):
    """Codes with their severity, without those that the example has anyway."""
    return [(f.code, f.severity) for f in read_fhir(text).findings if f.code != "prism-vertical"]


# HL7 FHIR R4 and R5, example VisionPrescription/33123 ("General Glasses"); see fhir/SOURCES.md
def test_the_example_for_glasses_reads():
    reading = read_fhir(GLASSES)
    assert errors(reading.findings) == []
    rx = reading.prescription
    assert rx.right == EyeRx(-2.00, add=2.00, prism_up=-0.5)
    assert rx.left == EyeRx(-1.00, -0.50, 180, add=2.00, prism_up=0.5)
    assert rx.written == date(2014, 6, 15)
    assert rx.source == "FHIR VisionPrescription/33123"


def test_the_people_in_a_resource_are_not_repeated():
    reading = read_fhir(GLASSES)
    told = repr(reading.prescription) + repr([token.meaning for token in reading.tokens])
    assert "Donald" not in told
    assert "Careful" not in told


# HL7 FHIR R4 and R5, example VisionPrescription/33124: contact lenses
def test_the_example_for_contact_lenses_is_refused_in_plain_words():
    reading = read_fhir(CONTACTS)
    assert reading.prescription is None
    assert {finding.code for finding in reading.findings} == {"contact-lenses"}
    assert "glasses cannot be made from it" in reading.findings[0].message
    assert '"product"' in reading.findings[0].mark.text


def test_every_value_has_a_token_at_its_key():
    tokens = {token.meaning: token.mark for token in read_fhir(GLASSES).tokens}
    line = GLASSES.splitlines().index('      "cylinder": -0.50,') + 1
    assert (tokens["left eye, cylinder -0.50 D"].line, tokens["left eye, cylinder -0.50 D"].column) == (line, 7)


# The shape of DSTU2 and STU3, before R4 (HL7 FHIR, change notes of VisionPrescription)
def test_older_versions_are_refused_by_name():
    text = '{"resourceType": "VisionPrescription", "status": "active", "dateWritten": "2014-06-15",\n "dispense": []}'
    finding = errors(read_fhir(text).findings)[0]
    assert (finding.code, finding.mark.line, finding.mark.column) == ("fhir-version", 2, 2)
    assert "R4, R4B and R5" in finding.message


# HL7 FHIR value set fm-status
@pytest.mark.parametrize(
    ("status", "severity"),
    [("cancelled", "error"), ("entered-in-error", "error"), ("draft", "warning"), ("final", "error"), (3, "error")],
)
def test_only_an_active_prescription_is_read_without_a_word(status, severity):
    assert codes(changed(lambda root, lenses: root.update(status=status))) == [("status", severity)]
    assert codes(changed(lambda root, lenses: root.pop("status"))) == [("status", "warning")]


CHANGES = {
    "eye-code": (lambda root, lenses: lenses[0].update(eye="OD"), "error"),
    "eye-twice": (lambda root, lenses: lenses[1].update(eye="right"), "error"),
    "sphere-missing": (lambda root, lenses: lenses[0].pop("sphere"), "error"),
    "axis-missing": (lambda root, lenses: lenses[1].pop("axis"), "error"),
    "axis-alone": (lambda root, lenses: lenses[1].pop("cylinder"), "warning"),
    "axis-range": (lambda root, lenses: lenses[1].update(axis=181), "error"),
    "axis-not-whole": (lambda root, lenses: lenses[1].update(axis=92.5), "error"),
    "axis-zero": (lambda root, lenses: lenses[1].update(axis=0), "note"),
    "not-a-number": (lambda root, lenses: lenses[0].update(sphere="-2.00"), "error"),
    "not-a-power": (lambda root, lenses: lenses[0].update(sphere=-200), "error"),
    "off-step": (lambda root, lenses: lenses[0].update(sphere=-2.3), "warning"),
    "add-minus": (lambda root, lenses: lenses[0].update(add=-2), "error"),
    "prism-unreadable": (lambda root, lenses: lenses[0]["prism"][0].update(base="nasal"), "error"),
    "not-used": (lambda root, lenses: lenses[0].update(backCurve=8.7), "warning"),
    "prescriber-note": (lambda root, lenses: lenses[0].update(note=[{"text": "slab-off"}]), "warning"),
    "unknown-field": (lambda root, lenses: lenses[0].update(cyl=-0.5), "warning"),
    "product-unknown": (lambda root, lenses: lenses[0].pop("product"), "warning"),
    "modifier-unknown": (lambda root, lenses: lenses[0].update(modifierExtension=[]), "error"),
    "lens-missing": (lambda root, lenses: root.update(lensSpecification=[]), "error"),
    "one-eye": (lambda root, lenses: lenses.pop(), "warning"),
    "undated": (lambda root, lenses: root.update(dateWritten="2014-06"), "warning"),
    "wrong-shape": (lambda root, lenses: lenses.append("left"), "error"),
}


@pytest.mark.parametrize("code", CHANGES)
def test_a_resource_that_is_not_sound_is_told(code):
    change, severity = CHANGES[code]
    reading = read_fhir(changed(change))
    assert (code, severity) in codes(changed(change))
    assert (reading.prescription is None) == (severity == "error")


def test_the_product_code_alone_says_contact_lenses():
    def coded(root, lenses):
        for lens in lenses:
            lens["product"]["coding"][0]["code"] = "contact"

    assert {code for code, _ in codes(changed(coded))} == {"contact-lenses"}


def test_two_specifications_for_one_eye_are_not_put_together():
    def split(root, lenses):
        lenses[1] = {"product": lenses[1]["product"], "eye": "right", "cylinder": -0.5, "axis": 180}

    assert ("eye-twice", "error") in codes(changed(split))


def test_contact_lenses_without_a_product_are_recognized_by_what_only_they_have():
    def bare(root, lenses):
        for lens in lenses:
            del lens["product"]
            lens["backCurve"] = 8.7

    assert {code for code, _ in codes(changed(bare))} == {"contact-lenses"}


# In FHIR an oblique prism is a pair of in or out with up or down (value set vision-base-codes has no angles)
def test_an_oblique_prism_is_a_pair():
    pair = [{"amount": 2, "base": "in"}, {"amount": 1.5, "base": "up"}]
    rx = read_fhir(changed(lambda root, lenses: lenses[0].update(prism=pair))).prescription
    assert (rx.right.prism_in, rx.right.prism_up) == (2.0, 1.5)
    clash = [{"amount": 2, "base": "in"}, {"amount": 1.5, "base": "out"}]
    assert ("given-twice", "error") in codes(changed(lambda root, lenses: lenses[0].update(prism=clash)))


def test_one_of_two_equal_keys_does_not_vanish():
    text = GLASSES.replace('"sphere": -2.00,', '"sphere": -2.00,\n      "sphere": 2.00,')
    finding = read_fhir(text).findings[0]
    assert (finding.code, finding.severity) == ("key-twice", "error")
    assert finding.mark.line == GLASSES[: GLASSES.index('"sphere": -2.00')].count("\n") + 2


@pytest.mark.parametrize(
    ("text", "code", "place"),
    [
        ("", "not-json", (1, 1)),
        ("OD -2.25", "not-json", (1, 1)),
        ('{"resourceType": "VisionPrescription",\n "status": }', "not-json", (2, 12)),
        ('{"resourceType": "VisionPrescription",\n "status": NaN}', "not-a-number", (2, 12)),
        ("[" * 500 + "]" * 500, "too-deep", (1, 1)),
        ("[1, 2]", "not-a-prescription", (1, 1)),
        ('{"resourceType": "Bundle"}', "not-a-prescription", (1, 2)),
        (" " * 200_001, "file-too-large", (1, 1)),
    ],
)
def test_what_is_no_vision_prescription_is_refused_at_its_place(text, code, place):
    finding = read_fhir(text).findings[0]
    assert (finding.code, (finding.mark.line, finding.mark.column)) == (code, place)


def test_a_missing_date_is_told_once_with_what_to_ask_for():
    text = changed(lambda root, lenses: root.pop("dateWritten"))
    reading = read_fhir(text, today=date(2014, 7, 1), max_age_months=24)
    (finding,) = [one for one in reading.findings if one.code == "undated"]
    assert finding.hint == "ask the prescriber on which day it was written"


def test_values_are_quoted_back_as_json_has_them():
    message = read_fhir(changed(lambda root, lenses: lenses[0].update(sphere=True))).findings[0].message
    assert "`true`" in message
    assert "`null`" in read_fhir(changed(lambda root, lenses: lenses[0]["prism"][0].pop("base"))).findings[0].message


# The columns of any JSON: nothing else in the file may hide or move a value
PLAIN = st.recursive(
    st.none() | st.booleans() | st.integers(-300, 300) | st.floats(-300, 300) | st.text(max_size=8),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=8), inner, max_size=4),
    max_leaves=12,
)
FIELDS = ["product", "eye", "sphere", "cylinder", "axis", "prism", "add", "note", "color", "power"]


ROOT_FIELDS = ["id", "status", "dateWritten", "extra"]


@given(st.dictionaries(st.sampled_from(FIELDS), PLAIN), st.sampled_from(ROOT_FIELDS), PLAIN)
def test_no_resource_makes_it_fail_and_every_finding_lies_in_the_text(fields, key, value):
    text = changed(lambda root, lenses: (lenses[0].update(fields), root.update({key: value})))
    lines = text.split("\n")
    reading = read_fhir(text)
    for mark in [one.mark for one in (*reading.findings, *reading.tokens)]:
        assert mark.text == lines[mark.line - 1]
        assert mark.column - 1 + mark.length <= len(mark.text)
    assert (reading.prescription is None) == bool(errors(reading.findings))


@given(st.text(max_size=300) | st.text(alphabet='{}[]",:\\ eE+-.01n', max_size=60))
def test_no_text_makes_it_fail(text):
    assert errors(read_fhir(text).findings)


@given(st.integers(0, len(GLASSES) - 1), st.text(max_size=3), st.integers(0, 5))
def test_no_damage_to_a_resource_makes_it_fail(at, extra, cut):
    reading = read_fhir(GLASSES[:at] + extra + GLASSES[at + cut :])
    assert (reading.prescription is None) == bool(errors(reading.findings))


def test_the_age_is_told_only_when_the_day_is_known():
    assert "too-old" not in {f.code for f in read_fhir(GLASSES).findings}
    late = read_fhir(GLASSES, today=date(2016, 6, 16), max_age_months=24)
    assert "too-old" in {f.code for f in late.findings}
