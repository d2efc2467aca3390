"""Each check of a verification by itself: what it compares, with which tolerance, and when there is none at all.

Tolerances as in tests/kernel/test_tolerance.py; prism from places by Prentice's rule, worked by hand.
"""

from typing import get_type_hints

import pytest

from quoting.kernel.records import Check, Readings
from quoting.kernel.tolerance_ansi import NO_LIMIT, distance_within
from quoting.kernel.verified import NOT_READ, axis_off, lacking, lens_checks, nothing_read
from quoting.kernel.verified_pair import alone_checks, highest, pair_checks, tint_check


def lens(**values):
    return nothing_read() | values


def power(sphere, cylinder=0.0, axis=180.0, **more):
    return lens(sphere=sphere, cylinder=cylinder, axis=axis, **more)


def told(checks):
    """Everything of each check but its verdict, as (code, eye, ordered, found, tolerance, off), on six decimals."""
    fields = ("ordered", "found", "tolerance", "off")
    return [(one["code"], one["eye"], *(round(one[field], 6) for field in fields)) for one in checks]


def of_lens(ordered, found, standard="ansi", kind="single-vision"):
    return told(lens_checks(standard, kind, "L", ordered, found))


def of_pair(right, left, found, standard="ansi", kind="single-vision"):
    return told(pair_checks(standard, kind, right, left, found))


def test_readings_and_checks_have_the_fields_of_their_records():
    assert nothing_read() == dict.fromkeys(get_type_hints(Readings), NOT_READ)
    assert set(tint_check(20.0, 21.0)[0]) == set(get_type_hints(Check))


def test_power_by_ansi_is_compared_in_the_meridian_of_the_highest_power():
    """-2.00 -1.00 x 30: its highest power is -3.00, along the second meridian; 2.00 -1.00 has it along the first."""
    minus, plus = power(-2.0, -1.0, 30.0), power(2.0, -1.0, 30.0)
    assert of_lens(minus, power(-2.1, -1.05, 33.0)) == [
        ("power", "L", -3.0, -3.15, 0.13, -0.15), ("cylinder", "L", -1.0, -1.05, 0.13, -0.05),
        ("axis", "L", 30.0, 33.0, 3.0, 3.0),
    ]  # fmt: skip
    assert of_lens(plus, power(2.1, -1.05, 28.0)) == [
        ("power", "L", 2.0, 2.1, 0.13, 0.1), ("cylinder", "L", -1.0, -1.05, 0.13, -0.05),
        ("axis", "L", 30.0, 28.0, 3.0, 2.0),
    ]  # fmt: skip


def test_of_an_ordered_sphere_the_highest_power_that_was_read_counts():
    assert of_lens(power(-2.0), power(-2.0, -0.1, 40.0)) == [
        ("power", "L", -2.0, -2.1, 0.13, -0.1), ("cylinder", "L", 0.0, -0.1, 0.13, -0.1),
    ]  # fmt: skip
    assert of_lens(power(2.0), power(2.05, -0.1, 40.0))[0] == ("power", "L", 2.0, 2.05, 0.13, 0.05)
    assert of_lens(power(0.0), power(0.12, -0.1, 40.0))[0] == ("power", "L", 0.0, 0.12, 0.13, 0.12)
    assert of_lens(power(3.0, -1.0, 90.0), power(2.95, -1.0, 90.0))[0] == ("power", "L", 3.0, 2.95, 0.13, -0.05)


def test_power_by_iso_is_compared_in_both_meridians():
    assert of_lens(power(-2.0, -1.0, 30.0), power(-2.1, -1.05, 33.0), "iso") == [
        ("power-flatter", "L", -2.0, -2.1, 0.12, -0.1), ("power-steeper", "L", -3.0, -3.15, 0.12, -0.15),
        ("cylinder", "L", -1.0, -1.05, 0.12, -0.05), ("axis", "L", 30.0, 33.0, 4.0, 3.0),
    ]  # fmt: skip


def test_by_iso_power_and_cylinder_have_tolerances_of_their_own():
    """Up to 3 D and 0.75 of cylinder: 0.12 for each meridian, 0.09 for the cylinder (from memory, as the table)."""
    assert [one[4] for one in of_lens(power(2.5, -0.5, 90.0), power(2.5, -0.5, 90.0), "iso")] == [0.12, 0.12, 0.09, 9.0]


def test_the_axis_of_next_to_no_ordered_cylinder_is_not_held():
    codes = [one[0] for one in of_lens(power(-2.0, -0.1, 90.0), power(-2.0, -0.12, 30.0))]
    assert codes == ["power", "cylinder"]


@pytest.mark.parametrize(
    ("one", "other", "off"),
    [(0.0, 180.0, 0.0), (0.0, 180.5, 0.5), (5.0, 190.0, 5.0), (10.0, 100.5, 89.5), (0.0, 90.0, 90.0), (1.0, 361.0, 0)],
)
def test_axes_beyond_half_a_turn_are_the_same_axes(one, other, off):
    assert axis_off(one, other) == axis_off(other, one) == off


@pytest.mark.parametrize("add", [0.75, 1.0, 2.0])
def test_an_ordered_addition_is_held_however_weak(add):
    assert of_lens(lens(add=add), lens(add=add + 0.25)) == [("add", "L", add, add + 0.25, 0.12, 0.25)]
    assert lacking("progressive", lens(add=add), nothing_read()) == ["add"]


def test_no_addition_that_was_not_ordered_is_held():
    assert of_lens(lens(add=0.0), lens(add=0.25)) == []
    assert of_lens(nothing_read(), lens(add=0.25)) == []
    assert of_lens(lens(add=2.0), nothing_read()) == []


def test_what_each_design_holds():
    ordered, found = lens(pd=31.0, height=20.0), lens(pd=31.5, height=20.5, segment_tilt=1.5)
    assert of_lens(ordered, found) == []
    assert of_lens(ordered, found, kind="bifocal") == [
        ("height", "L", 20.0, 20.5, 1.0, 0.5), ("segment-tilt", "L", 0.0, 1.5, 2.0, 1.5),
    ]  # fmt: skip
    assert of_lens(ordered, found, kind="progressive") == [
        ("cross-pd", "L", 31.0, 31.5, 1.0, 0.5), ("height", "L", 20.0, 20.5, 1.0, 0.5),
    ]  # fmt: skip


@pytest.mark.parametrize("field", ["prism_in", "prism_up"])
@pytest.mark.parametrize("amount", [1.0, -1.0, 0.5])
def test_ordered_prism_has_to_be_read(field, amount):
    assert lacking("single-vision", lens(**{field: amount}), nothing_read()) == [field]
    assert lacking("single-vision", lens(**{field: amount}), lens(**{field: 0.0})) == []


@pytest.mark.parametrize("field", ["pd", "height"])
def test_the_place_of_a_near_part_has_to_be_read_where_it_was_ordered(field):
    assert lacking("bifocal", lens(**{field: 30.0}), nothing_read()) == [field]
    assert lacking("bifocal", lens(**{field: 30.0}), lens(**{field: 30.0})) == []
    assert lacking("bifocal", nothing_read(), nothing_read()) == []
    assert lacking("bifocal", nothing_read(), lens(**{field: 30.0})) == []
    assert lacking("single-vision", lens(**{field: 30.0}), nothing_read()) == []


def test_the_highest_power_of_a_pair_of_weak_lenses():
    assert highest(power(0.5), power(-0.25), 90.0) == 0.5
    assert highest(power(-0.25), power(-0.75), 180.0) == 0.75
    assert highest(nothing_read(), nothing_read(), 90.0) == 0.0


def test_prism_of_a_pair():
    """-5.00 upright: 1.0 mm is 0.50; -7.00 across: 2.5 mm are 1.75.  Ordered are 2.0 in, of both 1.5 up apart."""
    right, left = power(-5.0, -2.0, 90.0, prism_in=0.5, prism_up=1.0), power(-1.0, prism_in=1.5, prism_up=-0.5)
    found = [lens(prism_in=0.25, prism_up=1.25), lens(prism_in=2.25, prism_up=-0.5)]
    assert of_pair(right, left, found) == [
        ("prism-up", "B", 1.5, 1.75, 0.5, 0.25), ("prism-across", "B", 2.0, 2.5, 1.75, 0.5),
    ]  # fmt: skip


def test_prism_by_iso_grows_with_what_was_ordered():
    """From memory as the table: up to 2 an allowance of 0.25, up to 10 of 0.37; with 0.05 and 0.1 of the power."""
    right, left = power(-4.0, prism_in=1.5, prism_up=1.5), power(-4.0, prism_in=1.5, prism_up=-1.5)
    found = [lens(prism_in=1.5, prism_up=1.5), lens(prism_in=1.5, prism_up=-1.5)]
    assert [one[4] for one in of_pair(right, left, found, "iso")] == [0.57, 0.77]
    small = [one | {"prism_in": 0.5, "prism_up": 0.5} for one in (right, left)]
    assert [one[4] for one in of_pair(*small, found, "iso")] == [0.45, 0.65]


def test_prism_that_was_ordered_in_one_direction_alone():
    """Nobody ordered any upright: the row is that of no prism."""
    right, left = power(-4.0, prism_in=1.5), power(-4.0, prism_in=1.5)
    found = [lens(prism_in=1.5), lens(prism_in=1.5)]
    assert of_pair(right, left, found, "iso") == [("prism-across", "B", 3.0, 3.0, 0.65, 0.0)]
    alone = alone_checks("iso", "single-vision", "R", power(-4.0, prism_in=3.0), lens(prism_in=3.0))
    assert told(alone) == [("alone-across", "R", 3.0, 3.0, 0.65, 0.0)]


def test_prism_of_one_lens_by_iso():
    ordered = power(-4.0, prism_in=3.0, prism_up=0.5)
    assert told(alone_checks("iso", "single-vision", "R", ordered, lens(prism_in=3.0, prism_up=0.5))) == [
        ("alone-up", "R", 0.5, 0.5, 0.45, 0.0), ("alone-across", "R", 3.0, 3.0, 0.77, 0.0),
    ]  # fmt: skip
    turned = power(-4.0, prism_in=0.5, prism_up=3.0)
    assert [one[4] for one in told(alone_checks("iso", "bifocal", "R", turned, turned))] == [0.57, 0.65]


def test_the_meridians_of_an_oblique_cylinder():
    """-5.00 -6.00 x 45 has -8.00 D upright and across, for one lens as for a pair: 0.8 up, 2.5 mm or 2.0 across."""
    ordered = power(-5.0, -6.0, 45.0, prism_in=0.0, prism_up=0.0)
    read = lens(prism_in=0.0, prism_up=0.0)
    assert [one[4] for one in of_pair(ordered, ordered, [read, read])] == [0.8, 2.0]
    assert [one[4] for one in told(alone_checks("ansi", "single-vision", "R", ordered, read))] == [0.8, 0.8]


def test_a_plano_pair_has_no_centers_to_measure():
    ordered, found = power(0.0, pd=31.0), [lens(pd=40.0), lens(pd=31.0)]
    assert of_pair(ordered, ordered, found) == of_pair(ordered, ordered, found, "iso") == []
    assert of_pair(ordered, ordered, found, kind="bifocal") == [("distance", "B", 62.0, 71.0, 2.5, 9.0)]


def test_so_weak_a_lens_that_its_center_may_be_anywhere():
    """0.67 prism diopters at 0.007 D are 957 mm (Prentice), at 0.001 D more than any number that stands for a limit."""
    assert distance_within("single-vision", 0.007) == pytest.approx(6.7 / 0.007)
    assert distance_within("single-vision", 0.001) == NO_LIMIT


def test_heights_of_a_pair():
    """1.5 mm more at -5.00 D are 0.75 prism diopters; segments are held by their heights."""
    right, left = power(-5.0, height=18.0), power(-5.0, height=17.0)
    found = [lens(height=19.5), lens(height=17.0)]
    assert of_pair(right, left, found) == [("heights-prism", "B", 1.0, 2.5, 0.5, 0.75)]
    assert of_pair(right, left, found, kind="bifocal") == [("heights", "B", 1.0, 2.5, 1.0, 1.5)]


def test_heights_stand_for_prism_only_where_there_are_heights_and_no_prism():
    right, left = power(-5.0, height=18.0), power(-5.0, height=17.0)
    prism = [lens(height=19.5, prism_up=0.0), lens(height=17.0, prism_up=0.0)]
    assert of_pair(right, left, prism) == []
    assert of_pair(right, left, [lens(height=19.5), nothing_read()]) == []
    assert of_pair(right, power(-5.0), [lens(height=19.5), lens(height=17.0)]) == []


def test_the_place_of_one_lens_stands_for_its_prism_only_where_none_was_read():
    """2 mm at -5.00 D are 1.0 prism diopters."""
    ordered = power(-5.0, pd=31.0, height=20.0)
    read = lens(pd=33.0, height=18.0)
    assert told(alone_checks("ansi", "single-vision", "L", ordered, read)) == [
        ("center-across", "L", 31.0, 33.0, 0.5, 1.0), ("center-up", "L", 20.0, 18.0, 0.5, -1.0),
    ]  # fmt: skip
    with_prism = read | {"prism_in": 0.0, "prism_up": 0.0}
    assert told(alone_checks("ansi", "single-vision", "L", ordered, with_prism)) == []
    assert told(alone_checks("ansi", "single-vision", "L", ordered, nothing_read())) == []
    assert told(alone_checks("ansi", "single-vision", "L", power(-5.0), read)) == []


def test_tint_is_held_to_points_of_percent():
    assert told(tint_check(20.0, 24.0)) == [("tint", "B", 20.0, 24.0, 5.0, 4.0)]
