"""One lens in other forms: there and back it is the same lens, and by another route too."""

import math

import numpy
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from quoting.kernel import forms, power
from tests.kernel.jobs import hundredths, quarters, steady

AXES = st.integers(1, 180).map(float)
FORMS = st.tuples(hundredths(-20, 20), hundredths(-6, 6), AXES)
MOVES_MM = hundredths(-20, 20)


def same_lens(one, other):
    """Equal as power vectors, so that a sphere's axis does not matter."""
    return power.vector(*one) == pytest.approx(power.vector(*other), abs=1e-9)


def by_numpy(sphere, cylinder, axis):
    """The power matrix by turning the principal powers, not by the kernel's sines."""
    turn = math.radians(axis)
    rotation = numpy.array([[math.cos(turn), -math.sin(turn)], [math.sin(turn), math.cos(turn)]])
    return rotation @ numpy.diag([sphere, sphere + cylinder]) @ rotation.T


def entries(matrix):
    return [matrix[0, 0], matrix[0, 1], matrix[1, 1]]


@steady(200)
@given(FORMS)
def test_crossed_cylinders_put_together_are_the_lens(form):
    made = forms.crossed_form(*form)
    assert same_lens(forms.from_crossed_form(*made), form)
    assert (made[1] - made[3]) % 180.0 == 90.0


def test_each_crossed_cylinder_has_the_power_of_one_principal_meridian_to_the_bit():
    assert forms.crossed_form(-8.12, 0.12, 0.0) == [-8.12, 90.0, -8.0, 180.0]
    assert forms.crossed_form(2.0, 0.0, 35.0) == [2.0, 125.0, 2.0, 35.0]


def test_crossed_cylinders_at_any_angle_are_one_lens():
    """Two equal cylinders at 45 degrees: mean power 1, cylinder √2 (rule of Stokes' lens, from memory)."""
    found = forms.from_crossed_form(1.0, 90.0, 1.0, 45.0)
    assert found[:2] == pytest.approx([1.0 + math.sqrt(2) / 2, -math.sqrt(2)], abs=1e-12)
    assert found[2] == pytest.approx(157.5, abs=1e-9)


@steady(200)
@given(FORMS, quarters(-12, 12))
def test_a_toric_gives_the_prescription_back_to_the_bit(form, base):
    sphere_curve, made_base, base_axis, cross, cross_axis = forms.toric(*form, base)
    assert made_base == base
    assert (base_axis - cross_axis) % 180.0 == 90.0
    assert forms.from_toric(sphere_curve, base, cross, cross_axis) == power.minus_form(*form)


@steady(200)
@given(FORMS, quarters(-12, 12))
def test_the_base_curve_of_a_toric_is_its_flatter_one(form, base):
    cross = forms.toric(*form, base)[3]
    assert abs(cross) >= abs(base)
    assert cross * base >= 0.0


@steady(200)
@given(FORMS, quarters(-12, 12))
def test_surfaces_of_a_toric_add_up_along_every_meridian(form, base):
    sphere_curve, made_base, base_axis, cross, cross_axis = forms.toric(*form, base)
    whole = forms.sum_of([[sphere_curve, 0.0, 180.0], [0.0, made_base, base_axis], [0.0, cross, cross_axis]])
    assert same_lens(whole, form)


@steady(200)
@given(FORMS, quarters(-12, 12))
def test_from_the_base_or_from_the_sphere_curve_it_is_the_same_toric(form, base):
    made = forms.toric(*form, base)
    assert forms.toric_behind(*form, made[0]) == made


def test_a_base_of_zero_is_a_plano_cylinder_with_its_minus_cylinder_on_the_back():
    assert forms.toric(2.0, -1.0, 180.0, 0.0) == [2.0, 0.0, 90.0, -1.0, 180.0]
    assert forms.toric(2.0, -1.0, 180.0, 0.25) == [0.75, 0.25, 180.0, 1.25, 90.0]
    assert forms.toric_behind(2.0, -1.0, 180.0, 2.0) == [2.0, 0.0, 90.0, -1.0, 180.0]
    assert forms.toric_behind(2.0, -1.0, 180.0, 1.0) == [1.0, 0.0, 180.0, 1.0, 90.0]


def test_a_sphere_curve_between_the_principal_powers_has_no_toric():
    for sphere_curve in (1.01, 1.5, 1.99):
        with pytest.raises(ValueError, match="between the principal powers"):
            forms.toric_behind(2.0, -1.0, 180.0, sphere_curve)


def test_a_sphere_on_a_toric_base_is_a_sphere():
    assert forms.toric(-2.0, 0.0, 35.0, 6.0) == [-8.0, 6.0, 90.0, 6.0, 180.0]
    assert forms.toric_behind(-2.0, 0.0, 35.0, -2.0) == [-2.0, 0.0, 90.0, 0.0, 180.0]
    assert forms.from_toric(-8.0, 6.0, 6.0, 35.0) == [-2.0, 0.0, 180.0]


def test_decimals_of_a_toric_leave_no_dust():
    """0.1 + 0.2 is not 0.3 in binary; the surfaces must not show it."""
    assert forms.toric(0.3, 0.1, 90.0, 0.2) == [0.1, 0.2, 180.0, 0.3, 90.0]
    assert forms.from_toric(0.1, 0.2, 0.3, 90.0) == [0.4, -0.1, 180.0]
    assert forms.toric_behind(0.3, 0.1, 90.0, 0.1) == [0.1, 0.2, 180.0, 0.3, 90.0]


@steady(200)
@given(FORMS)
def test_power_matrix_there_and_back(form):
    assert same_lens(forms.from_matrix(*power.matrix(*form)), form)
    assert power.matrix(*form) == pytest.approx(entries(by_numpy(*form)), abs=1e-9)


@steady(200)
@given(FORMS)
def test_a_matrix_has_the_principal_powers_that_a_general_library_finds(form):
    sphere, cylinder, _ = forms.from_matrix(*power.matrix(*form))
    assert [sphere + cylinder, sphere] == pytest.approx(list(numpy.linalg.eigvalsh(by_numpy(*form))), abs=1e-9)


@steady()
@given(st.lists(FORMS, max_size=5))
def test_a_sum_is_that_of_the_matrices_and_its_order_does_not_matter(lenses):
    found = forms.sum_of([list(one) for one in lenses])
    total = sum((by_numpy(*one) for one in lenses), numpy.zeros((2, 2)))
    assert power.matrix(*found) == pytest.approx(entries(total), abs=1e-9)
    assert same_lens(forms.sum_of([list(one) for one in reversed(lenses)]), found)


@steady()
@given(FORMS, FORMS)
def test_a_sum_of_two_is_the_crossed_one(one, other):
    assert same_lens(forms.sum_of([list(one), list(other)]), power.crossed(list(one), list(other)))


def test_a_sum_of_nothing_has_no_power():
    assert forms.sum_of([]) == [0.0, 0.0, 180.0]


@steady(200)
@given(FORMS, MOVES_MM)
def test_vertex_distance_by_matrix_is_that_of_each_principal_meridian(form, moved_mm):
    assert same_lens(forms.at_vertex_whole(*form, moved_mm), power.at_vertex_both(*form, moved_mm))


@steady(200)
@given(FORMS, MOVES_MM)
def test_vertex_distance_by_matrix_is_what_a_general_library_solves(form, moved_mm):
    whole = by_numpy(*form)
    moved = numpy.linalg.solve(numpy.eye(2) - moved_mm / 1000.0 * whole, whole)
    assert power.matrix(*forms.at_vertex_whole(*form, moved_mm)) == pytest.approx(entries(moved), abs=1e-8)


@steady()
@given(FORMS, MOVES_MM)
def test_there_and_back_in_vertex_distance_by_matrix(form, moved_mm):
    assert same_lens(forms.at_vertex_whole(*forms.at_vertex_whole(*form, moved_mm), -moved_mm), form)


def test_vertex_distance_by_matrix_has_no_answer_where_a_focal_line_falls_on_the_plane():
    with pytest.raises(ZeroDivisionError):
        forms.at_vertex_whole(20.0, -4.0, 180.0, 50.0)


@steady()
@given(hundredths(-6, 6), hundredths(-180, 180))
def test_what_an_axis_error_leaves_is_the_lens_less_the_one_that_was_made(cylinder, off_deg):
    """Long way around: the lens wanted and the opposite of the one made, as crossed cylinders."""
    found = power.crossed([0.0, cylinder, 90.0], [0.0, -cylinder, 90.0 + off_deg])
    assert forms.left_by_axis_error(cylinder, off_deg) == pytest.approx(-found[1], abs=1e-9)
    assert found[0] == pytest.approx(-found[1] / 2, abs=1e-9)


@steady()
@given(hundredths(-6, 6), hundredths(0, 90))
def test_axis_error_and_what_it_leaves_there_and_back(cylinder, off_deg):
    assume(cylinder != 0.0 and off_deg < 89.9)
    left = forms.left_by_axis_error(cylinder, off_deg)
    assert forms.axis_error_leaving(cylinder, left) == pytest.approx(off_deg, abs=1e-6)
    assert forms.axis_error_leaving(-cylinder, -left) == pytest.approx(off_deg, abs=1e-6)


def test_an_axis_off_by_30_degrees_leaves_as_much_as_there_was():
    """Rule of every dispensing text (from memory): the eye is then no better off than without a cylinder."""
    assert forms.left_by_axis_error(-2.0, 30.0) == pytest.approx(2.0, abs=1e-12)
    assert forms.left_by_axis_error(-2.0, 90.0) == 4.0
    assert forms.axis_error_leaving(2.0, 2.0) == pytest.approx(30.0, abs=1e-12)


def test_an_axis_error_leaves_at_most_twice_the_cylinder():
    assert forms.axis_error_leaving(-1.0, 2.0) == 90.0
    assert forms.axis_error_leaving(0.0, 0.0) == 0.0
    for cylinder, left in ((1.0, 2.01), (-1.0, -2.01), (0.0, 0.01)):
        with pytest.raises(ValueError, match="at most twice"):
            forms.axis_error_leaving(cylinder, left)
