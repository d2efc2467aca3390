"""The checks that go beyond one field, against the geometry they rest on."""

import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.catalog.checks import SURELY_GREATEST, SURELY_LEAST, TENTH, diameter_example
from quoting.catalog.model import FAMILIES
from quoting.kernel.outline import effective_diameter_limits
from quoting.nodes import read_text
from tests.catalog.mangling import FILES, findings_after

FRAME_FILE = FILES["frames/pellbridge.yaml"].decode()


def codes_for(a, b, ed, family):
    text = FRAME_FILE.replace("a: 48, b: 42", f"a: {a}, b: {b}").replace("ed: 50.5", f"ed: {ed}")
    findings = findings_after("frames/pellbridge.yaml", text.replace("family: panto", f"family: {family}").encode())
    return {finding.code for finding in findings} - {"taller-than-wide"}


@pytest.mark.parametrize("family", FAMILIES)
@given(st.integers(25, 75), st.integers(15, 75))
def test_diameters_that_are_accepted_at_sight_lie_within_the_exact_limits(family, a, b):
    least, greatest = effective_diameter_limits(float(a), float(b), family)
    assert least <= SURELY_LEAST * max(a, b)
    assert SURELY_GREATEST * math.hypot(a, b) <= greatest


# ISO 8624: the effective diameter is twice the longest radius from the box center, so no lens has one
# shorter than the longer side of its box, or longer than the diagonal.
@pytest.mark.parametrize("family", FAMILIES)
def test_no_diameter_is_shorter_than_the_longer_side_or_longer_than_the_diagonal(family):
    for a, b in ((52, 38), (46, 46), (58, 30)):
        diagonal = math.hypot(a, b)
        assert codes_for(a, b, max(a, b) - 0.2, family) == {"ed-impossible"}
        assert codes_for(a, b, round(diagonal + 0.2, 1), family) == {"ed-impossible"}
        assert codes_for(a, b, round(0.9 * diagonal + 0.1 * max(a, b), 1), family) == set()


def test_a_round_lens_has_the_diameter_of_its_box():
    assert codes_for(46, 46, 46, "round") == set()


@pytest.mark.parametrize("family", FAMILIES)
def test_what_the_message_calls_possible_is_accepted(family):
    text = FRAME_FILE.replace("ed: 50.5", "ed: 25").replace("family: panto", f"family: {family}")
    (finding,) = findings_after("frames/pellbridge.yaml", text.encode())
    least, greatest = finding.hint.split(" is possible")[0].removeprefix("from ").split(" to ")
    assert codes_for(48, 42, least, family) == set()
    assert codes_for(48, 42, greatest, family) == set()


NUMBER = re.compile(r"[0-9]+\.[0-9]")


def proposed_for(a, b, family, written):
    """The ED that is proposed where another text than a length was written, or none."""
    text = FRAME_FILE.replace("a: 48, b: 42", f"a: {a}, b: {b}").replace("ed: 50.5, ", written)
    text = text.replace("family: panto", f"family: {family}")
    findings = findings_after("frames/pellbridge.yaml", text.encode())
    (hint,) = [finding.hint for finding in findings if "`ed`" in finding.message]
    return NUMBER.search(hint)[0]


@pytest.mark.parametrize("family", FAMILIES)
@pytest.mark.parametrize(("a", "b"), [(46, 40), (30, 24), (60, 50), (75, 15), (44, 46)])
def test_the_diameter_that_is_proposed_is_taken(family, a, b):
    proposed = proposed_for(a, b, family, "")
    assert codes_for(a, b, proposed, family) == set()
    assert proposed == proposed_for(a, b, family, "ed: wide, ") == proposed_for(a, b, family, "ed: 500, ")


def test_where_the_family_is_not_known_the_proposed_diameter_suits_all():
    proposed = proposed_for(46, 40, "pantaloon", "")
    for family in FAMILIES:
        assert codes_for(46, 40, proposed, family) == set()


@pytest.mark.parametrize("box", [("wide", 40), (46, "tall"), (460, 40)])
def test_without_a_box_some_diameter_is_proposed(box):
    assert proposed_for(*box, "panto", "") == "55.0"


@given(st.integers(25, 75), st.integers(15, 75))
def test_a_proposed_diameter_suits_every_family_in_any_box(a, b):
    record = read_text(f"{{a: {a}, b: {b}}}", "doc.yaml")
    record.length("a", 25, 75), record.length("b", 15, 75)
    for families in (FAMILIES, *((family,) for family in FAMILIES)):
        ed = float(diameter_example(record, float(a), float(b), families[0] if len(families) == 1 else ""))
        for family in families:
            least, greatest = effective_diameter_limits(float(a), float(b), family)
            assert least - TENTH <= ed <= greatest + TENTH
            assert 25 <= ed <= 105
