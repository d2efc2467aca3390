"""What is measured on an outline: exact on figures that need no computer, and against brute force."""

import math
import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.kernel import boxing, outline
from tests.kernel.jobs import FAMILIES, frames, hundredths, steady
from tests.kernel.outlines import random_outlines, sides_of

# 6 wide and 8 high, so that half of the diagonal is 5; counter-clockwise
RECTANGLE = [[3.0, 3.0, -3.0, -3.0], [-4.0, 4.0, 4.0, -4.0]]
# A notch from above down to y = 0 between x = −1 and 1
NOTCHED = [[3.0, 3.0, 1.0, 1.0, -1.0, -1.0, -3.0, -3.0], [-4.0, 4.0, 4.0, 0.0, 0.0, 4.0, 4.0, -4.0]]
LOZENGE = [[4.0, 0.0, -4.0, 0.0], [0.0, 2.0, 0.0, -2.0]]


def moved(points, x, y):
    return [[one + x for one in points[0]], [one + y for one in points[1]]]


def turned(points, start):
    """The same polygon from another start."""
    return [one[start:] + one[:start] for one in points]


def test_dimensions_of_a_rectangle_wherever_it_lies():
    assert boxing.dimensions(*RECTANGLE) == [6.0, 8.0, 10.0]
    assert boxing.dimensions(*moved(RECTANGLE, 10.0, -7.0)) == [6.0, 8.0, 10.0]


@pytest.mark.parametrize("family", FAMILIES)
def test_effective_diameter_is_that_of_a_dense_sampling(family):
    """Brute force: 200 points on each side of the polygon."""
    xs, ys = outline.from_box(52.0, 38.0, 57.0, family)
    dense = [
        math.hypot(p[0] + (q[0] - p[0]) * part / 200, p[1] + (q[1] - p[1]) * part / 200)
        for p, q in sides_of(xs, ys)
        for part in range(200)
    ]
    assert boxing.dimensions(xs, ys)[2] == pytest.approx(2 * max(dense), abs=1e-9)


def test_an_outline_counted_from_its_box_center_has_its_box_there():
    assert boxing.about_box_center(*moved(RECTANGLE, 10.0, -7.0)) == RECTANGLE
    for xs, ys in random_outlines(40, 1):
        left, right, low, high = outline.box(*boxing.about_box_center(xs, ys))
        assert (left + right, low + high) == pytest.approx((0, 0), abs=1e-12)
        assert [right - left, high - low] == pytest.approx(boxing.dimensions(xs, ys)[:2], abs=1e-12)


def test_boxing_again_changes_nothing():
    for xs, ys in random_outlines(40, 2):
        once = boxing.about_box_center(xs, ys)
        again = boxing.about_box_center(*once)
        assert again[0] == pytest.approx(once[0], abs=1e-13)
        assert again[1] == pytest.approx(once[1], abs=1e-13)


@steady(40)
@given(frames())
def test_the_mirror_image_measures_the_same_and_its_own_is_the_first(frame):
    xs, ys = frame["xs"], frame["ys"]
    other = boxing.mirrored(xs, ys)
    assert boxing.mirrored(*other) == [xs, ys]
    assert boxing.dimensions(*other) == pytest.approx(boxing.dimensions(xs, ys), abs=1e-12)
    assert outline.area(*other) == pytest.approx(outline.area(xs, ys), abs=1e-9)
    assert outline.perimeter(*other) == pytest.approx(outline.perimeter(xs, ys), abs=1e-9)
    assert sorted(zip(*other, strict=True)) == sorted((0.0 - x, y) for x, y in zip(xs, ys, strict=True))
    assert (other[0][0], other[1][0]) == (-xs[0], ys[0])


@steady(40)
@given(frames(), st.integers(1, 119), st.floats(0.2, 5))
def test_neither_the_start_nor_the_scale_changes_the_shape(frame, start, scale):
    xs, ys = frame["xs"], frame["ys"]
    again = turned([xs, ys], start)
    assert boxing.dimensions(*again) == boxing.dimensions(xs, ys)
    assert outline.area(*again) == pytest.approx(outline.area(xs, ys), rel=1e-12)
    assert outline.perimeter(*again) == pytest.approx(outline.perimeter(xs, ys), rel=1e-12)
    larger = [[x * scale for x in xs], [y * scale for y in ys]]
    wider = [one * scale for one in boxing.dimensions(xs, ys)]
    assert boxing.dimensions(*larger) == pytest.approx(wider, rel=1e-12)
    assert outline.area(*larger) == pytest.approx(outline.area(xs, ys) * scale**2, rel=1e-12)


@pytest.mark.parametrize(
    ("x", "y", "direction"),
    [(9.0, 0.0, 0.0), (9.0, 9.0, 45.0), (0.0, 9.0, 90.0), (-9.0, 0.0, 180.0), (0.0, -9.0, 270.0)],
)
def test_the_longest_radius_tells_its_direction(x, y, direction):
    points = moved(RECTANGLE, 0.0, 0.0)
    assert boxing.longest_direction([*points[0], x], [*points[1], y]) == pytest.approx(direction, abs=1e-12)
    assert boxing.longest_direction([x, *points[0]], [y, *points[1]]) == pytest.approx(direction, abs=1e-12)


def test_of_equal_radii_the_first_gives_the_direction():
    assert boxing.longest_direction([0.0, -5.0], [5.0, 0.0]) == 90.0
    assert boxing.longest_direction([-5.0, 0.0], [0.0, 5.0]) == 180.0


def test_small_outlines_have_a_longest_radius_too_and_a_point_has_the_direction_0():
    assert boxing.longest_direction([0.0, -0.5], [0.25, 0.0]) == 180.0
    assert boxing.longest_direction([0.0], [0.0]) == 0.0


def test_within_keeps_to_its_ends():
    assert [boxing.within(one, -1.0, 2.0) for one in (-1.5, -1.0, 0.5, 2.0, 2.5)] == [-1.0, -1.0, 0.5, 2.0, 2.0]


@pytest.mark.parametrize(
    ("y", "x_from", "x_to", "inside"),
    [
        (0.0, -9.0, 9.0, 6.0),
        (0.0, 0.0, 9.0, 3.0),
        (0.0, -2.0, 1.0, 3.0),
        (0.0, 4.0, 9.0, 0.0),
        (0.0, -9.0, -4.0, 0.0),
        (5.0, -9.0, 9.0, 0.0),
        (-5.0, -9.0, 9.0, 0.0),
    ],
)
def test_a_level_stretch_is_inside_as_far_as_the_rectangle_goes(y, x_from, x_to, inside):
    assert boxing.inside_across(*RECTANGLE, y, x_from, x_to) == inside


def test_a_stretch_across_a_notch_leaves_it_out():
    assert boxing.inside_across(*NOTCHED, 2.0, -9.0, 9.0) == 4.0
    assert boxing.inside_across(*NOTCHED, 2.0, -2.0, 0.5) == 1.0
    assert boxing.inside_across(*NOTCHED, -2.0, -9.0, 9.0) == 6.0
    assert boxing.inside_upward(*NOTCHED, 0.0, -9.0, 9.0) == 4.0
    assert boxing.inside_upward(*NOTCHED, 2.0, -1.0, 9.0) == 5.0


def test_slanting_sides_are_met_where_they_are():
    assert boxing.inside_across(*LOZENGE, 1.0, -9.0, 9.0) == 4.0
    assert boxing.inside_across(*LOZENGE, 0.0, -9.0, 9.0) == 8.0
    assert boxing.inside_across(*LOZENGE, -0.5, 0.0, 9.0) == 3.0
    assert boxing.inside_upward(*LOZENGE, 2.0, -9.0, 9.0) == 2.0
    assert boxing.inside_upward(*LOZENGE, -1.0, 0.0, 9.0) == 1.5


def test_inside_is_what_a_step_in_any_direction_would_leave():
    assert boxing.is_inside(*RECTANGLE, 0.0, 0.0)
    assert boxing.is_inside(*RECTANGLE, -2.9, 3.9)
    for x, y in [(3.1, 0.0), (-3.1, 0.0), (0.0, 4.1), (0.0, -4.1), (5.0, 5.0)]:
        assert not boxing.is_inside(*RECTANGLE, x, y)
    assert not boxing.is_inside(*NOTCHED, 0.0, 2.0)
    assert boxing.is_inside(*NOTCHED, 2.0, 2.0)
    assert boxing.is_inside(*NOTCHED, -2.0, 2.0)
    assert boxing.is_inside(*LOZENGE, 0.0, 0.0)
    assert boxing.is_inside(*LOZENGE, 1.9, 1.0)
    assert not boxing.is_inside(*LOZENGE, 2.1, 1.0)


@pytest.mark.parametrize(
    ("x", "y", "away"),
    [(1.0, 0.0, 2.0), (0.0, 3.5, 0.5), (-1.0, 0.0, 2.0), (0.0, -3.5, 0.5), (6.0, 8.0, 5.0), (-6.0, 0.0, 3.0)],
)
def test_the_nearest_edge_may_be_a_side_or_a_corner(x, y, away):
    assert boxing.nearest(*RECTANGLE, x, y) == away


def test_a_point_given_twice_does_not_disturb_the_nearest_edge():
    assert boxing.nearest([3.0, 3.0, 3.0, -3.0, -3.0], [-4.0, -4.0, 4.0, 4.0, -4.0], 1.0, 0.0) == 2.0


def test_a_nearest_edge_on_the_edge_is_no_distance_away():
    assert boxing.nearest(*RECTANGLE, 3.0, 1.0) == 0.0
    assert boxing.nearest(*LOZENGE, 2.0, 1.0) == pytest.approx(0.0, abs=1e-12)


def test_stretches_inside_are_those_counted_point_by_point():
    """Brute force: one point in 0.01 mm, asked one by one."""
    seeded = random.Random(3)
    for xs, ys in random_outlines(12, 3):
        y, x_from = seeded.uniform(-12, 12), seeded.uniform(-30, 0)
        counted = sum(boxing.is_inside(xs, ys, x_from + (i + 0.5) / 100, y) for i in range(3000)) / 100
        assert boxing.inside_across(xs, ys, y, x_from, x_from + 30.0) == pytest.approx(counted, abs=0.1)


@steady(40)
@given(frames(), hundredths(-20, 20), hundredths(-15, 15), hundredths(0, 20))
def test_a_level_stretch_of_the_mirror_image_is_the_mirrored_stretch(frame, x, y, long):
    xs, ys = frame["xs"], frame["ys"]
    assert boxing.inside_across(*boxing.mirrored(xs, ys), y, -x - long, -x) == pytest.approx(
        boxing.inside_across(xs, ys, y, x, x + long), abs=1e-9
    )
