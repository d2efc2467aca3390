"""Prism there and back: in words, in degrees, between two eyes, and as decentration."""

import numpy
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from quoting.kernel import power, prism
from tests.kernel.jobs import hundredths, steady

AXES = st.integers(1, 180).map(float)
FORMS = st.tuples(hundredths(-20, 20), hundredths(-6, 6), AXES)
AMOUNTS = hundredths(-10, 10)
EYES = st.sampled_from(["R", "L"])
PRISMS = st.tuples(AMOUNTS, AMOUNTS)


# Base in 360 degree notation, seen facing the wearer: NFOS-12, prism base, module 1a
@pytest.mark.parametrize(
    ("eye", "direction", "base"),
    [
        ("R", "in", 0.0),
        ("R", "out", 180.0),
        ("R", "up", 90.0),
        ("R", "down", 270.0),
        ("L", "in", 180.0),
        ("L", "out", 0.0),
        ("L", "up", 90.0),
        ("L", "down", 270.0),
    ],
)
def test_each_base_has_its_direction_in_degrees_and_back(eye, direction, base):
    part = prism.toward(2.0, direction)
    assert prism.base_360(eye, *part) == [2.0, base]
    assert prism.from_base_360(eye, 2.0, base) == part


@pytest.mark.parametrize(
    ("direction", "part"), [("in", [2.0, 0.0]), ("out", [-2.0, 0.0]), ("up", [0.0, 2.0]), ("down", [0.0, -2.0])]
)
def test_words_and_signs_say_the_same(direction, part):
    assert prism.toward(2.0, direction) == part
    assert prism.in_or_out(part[0]) + prism.up_or_down(part[1]) == direction


def test_a_hair_of_prism_has_a_base_already():
    assert (prism.in_or_out(1e-12), prism.in_or_out(-1e-12)) == ("in", "out")
    assert (prism.up_or_down(1e-12), prism.up_or_down(-1e-12)) == ("up", "down")


def test_what_is_no_eye_and_no_direction_is_refused():
    for eye in ("", "B", "r", "right"):
        with pytest.raises(ValueError, match="R or L"):
            prism.base_360(eye, 1.0, 0.0)
        with pytest.raises(ValueError, match="R or L"):
            prism.from_base_360(eye, 1.0, 0.0)
    for direction in ("", "In", "left"):
        with pytest.raises(ValueError, match="in, out, up or down"):
            prism.toward(1.0, direction)


@steady(200)
@given(EYES, PRISMS)
def test_360_notation_there_and_back(eye, part):
    amount, base = prism.base_360(eye, *part)
    assert 0.0 <= base < 360.0
    assert prism.from_base_360(eye, amount, base) == pytest.approx(list(part), abs=1e-9)


@steady(200)
@given(PRISMS)
def test_mirrored_eyes_have_mirrored_bases(part):
    right, left = prism.base_360("R", *part), prism.base_360("L", *part)
    assert left[0] == right[0]
    if right[0] > 0.0:
        assert (left[1] + right[1]) % 360.0 == pytest.approx(180.0, abs=1e-9)


@steady()
@given(st.lists(PRISMS, max_size=5), EYES)
def test_prisms_combine_as_they_lie_in_the_eye(parts, eye):
    """Long way around: each in degrees, put together as seen from the front, and back."""
    seen = [prism.base_360(eye, *part) for part in parts]
    whole = sum((numpy.array(power.components(*one)) for one in seen), numpy.zeros(2))
    back = prism.from_base_360(eye, *power.resultant(*map(float, whole)))
    assert prism.combined([list(part) for part in parts]) == pytest.approx(back, abs=1e-9)


def test_no_prism_at_all_combines_to_none():
    assert prism.combined([]) == [0.0, 0.0]


@steady(200)
@given(PRISMS, hundredths(0, 1))
def test_splitting_and_recombining_is_the_identity(part, share):
    right, left = prism.split_between(*part, share)
    assert prism.of_the_pair(right, left) == pytest.approx(list(part), abs=1e-9)
    assert right == pytest.approx([part[0] * share, part[1] * share], abs=1e-9)


@steady()
@given(PRISMS)
def test_half_and_half_the_eyes_have_the_same_in_and_opposite_up(part):
    right, left = prism.split_between(*part, 0.5)
    assert left == [right[0], -right[1]]


def test_all_before_one_eye_leaves_none_before_the_other():
    assert prism.split_between(3.0, -2.0, 1.0) == [[3.0, -2.0], [0.0, 0.0]]
    assert prism.split_between(3.0, -2.0, 0.0) == [[0.0, 0.0], [3.0, 2.0]]


def test_base_up_before_both_eyes_does_nothing_and_base_in_before_both_adds():
    """Any dispensing text (from memory): yoked vertical prism moves both images alike."""
    assert prism.of_the_pair([0.0, 2.0], [0.0, 2.0]) == [0.0, 0.0]
    assert prism.of_the_pair([0.0, 2.0], [0.0, -2.0]) == [0.0, 4.0]
    assert prism.of_the_pair([1.5, 0.0], [1.5, 0.0]) == [3.0, 0.0]
    assert prism.of_the_pair([1.5, 0.0], [-1.5, 0.0]) == [0.0, 0.0]


@steady()
@given(PRISMS, st.integers(0, 359).map(float))
def test_a_part_along_a_direction_is_the_scalar_product(part, direction):
    turned = power.components(1.0, direction)
    assert prism.along(*part, direction) == pytest.approx(part[0] * turned[0] + part[1] * turned[1], abs=1e-9)
    assert prism.along(*part, direction + 180.0) == pytest.approx(-prism.along(*part, direction), abs=1e-9)


def solvable(form):
    return abs(form[0]) >= 0.01 and abs(form[0] + form[1]) >= 0.005


@steady(200)
@given(FORMS, PRISMS)
def test_decentration_gives_the_prism_that_was_wanted(form, part):
    assume(solvable(form))
    found = prism.decentration_for(*form, *part)
    assert power.prentice(*form, *found) == pytest.approx(list(part), abs=1e-8)


@steady(200)
@given(FORMS, PRISMS)
def test_the_prism_of_a_decentration_leads_back_to_it(form, place_mm):
    assume(solvable(form))
    found = prism.decentration_for(*form, *power.prentice(*form, *place_mm))
    assert found == pytest.approx(list(place_mm), abs=1e-8)


@steady(200)
@given(FORMS, PRISMS)
def test_decentration_is_what_a_general_library_solves(form, part):
    assume(abs(form[0]) >= 0.25 and abs(form[0] + form[1]) >= 0.25)
    fxx, fxy, fyy = power.matrix(*form)
    solved = 10.0 * numpy.linalg.solve(numpy.array([[fxx, fxy], [fxy, fyy]]), numpy.array(part))
    assert prism.decentration_for(*form, *part) == pytest.approx(list(solved), rel=1e-7, abs=1e-7)


@steady()
@given(FORMS, PRISMS)
def test_both_notations_need_the_same_decentration(form, part):
    assume(abs(form[0]) >= 0.25 and abs(form[0] + form[1]) >= 0.25)
    other = power.transposed(*form)
    assert prism.decentration_for(*other, *part) == pytest.approx(prism.decentration_for(*form, *part), abs=1e-8)


@steady()
@given(FORMS, PRISMS)
def test_a_mirrored_lens_has_mirrored_prism(form, place_mm):
    """The left eye of a symmetric pair, seen from the front: axis and horizontal place are mirrored."""
    found = power.prentice(*form, *place_mm)
    mirrored = power.prentice(form[0], form[1], 180.0 - form[2], -place_mm[0], place_mm[1])
    assert mirrored == pytest.approx([-found[0], found[1]], abs=1e-9)


# -8.12 + 8.12 is 0; 0.3 - 0.1 - 0.2 is -2.8e-17 in binary, and must count as 0 too
@pytest.mark.parametrize(
    "form", [(0.0, 0.0, 180.0), (0.0, -2.0, 90.0), (-8.12, 8.12, 30.0), (0.3 - 0.1, -0.2, 90.0), (2.0, -2.0, 45.0)]
)
def test_no_decentration_is_told_where_a_principal_power_is_zero(form):
    for part in ([2.0, 0.0], [0.0, 2.0], [0.0, 0.0]):
        with pytest.raises(ValueError, match="no single decentration"):
            prism.decentration_for(*form, *part)
