"""Where a curve touches its box and is farthest from its center, on circles where that is known."""

import math
from itertools import pairwise

import pytest

from quoting.kernel import periodic, touching
from quoting.kernel.trace import equal_angles
from tests.kernel.outlines import trace_of_ellipse

EQUAL = equal_angles(120)


@pytest.mark.parametrize(
    ("angle", "before", "wanted"),
    [
        (10.0, 350.0, 370.0),
        (90.0, 90.0, 90.0),
        (89.9, 90.0, 90.0),
        (0.0, 90.5, 360.0),
        (0.0, 90.0, 90.0),
        (20.0, 370.0, 380.0),
        (359.0, 1.0, 1.0),
        (180.0, 90.0, 180.0),
    ],
)
def test_the_next_touching_point_is_ahead_or_the_same(angle, before, wanted):
    """From a side of the box to the next it is less than 270°; 270 and more is the same point, a little behind."""
    assert touching.not_behind(angle, before) == wanted


def test_an_angle_is_kept_unless_it_is_a_neighbors():
    kept = [10.0]
    for angle in (10.004, 10.006, 10.010, 20.0, 369.996, 369.994):
        touching.keep(kept, angle, 370.0)
    assert kept == [10.0, 10.006, 20.0, 369.994]


def test_an_angle_just_far_enough_from_its_neighbors_is_kept():
    kept = [0.0]
    touching.keep(kept, touching.SAME_DEG, 1.0)
    assert kept == [0.0, touching.SAME_DEG]
    before = [-1.0]
    touching.keep(before, 0.0, touching.SAME_DEG)
    assert before == [-1.0, 0.0]


def test_the_best_angle_of_a_stretch_may_be_its_end():
    """On a circle about (0, 0) the greatest x of a stretch is at the end nearest to 0°."""
    curve = periodic.curve_through(EQUAL, [25.0] * 120)
    looked = touching.looked_over(curve)
    aim = [0.0, 1.0, 0.0]
    assert touching.best_between(curve, looked, 40.0, 100.0, aim) == pytest.approx(40.0, abs=1e-5)
    assert touching.best_between(curve, looked, 200.0, 300.2, aim) == pytest.approx(300.2, abs=1e-5)
    assert touching.best_between(curve, looked, 300.0, 400.0, aim) == pytest.approx(360.0, abs=1e-4)
    assert touching.best_between(curve, looked, 0.0, 360.0, [0.0, 0.6, 0.8]) == pytest.approx(53.130102, abs=1e-4)
    assert touching.best_between(curve, looked, 40.1, 40.3, aim) == pytest.approx(40.1, abs=1e-5)


def test_the_farthest_point_is_seen_from_the_point_aimed_at():
    """On a circle about (0, 0), seen from (u, v) it lies on the other side."""
    curve = periodic.curve_through(EQUAL, [25.0] * 120)
    aim = [1.0, -2.0 * 3.0, -2.0 * 4.0]
    found = touching.best_between(curve, touching.looked_over(curve), 0.0, 360.0, aim)
    assert found == pytest.approx(180.0 + 53.130102, abs=1e-4)


def test_an_ellipse_touches_its_box_at_its_vertices_and_its_center_is_found():
    """Traced from (5, −3): its vertices are (±26, 0) and (0, ±20) about its own center."""
    curve = periodic.curve_through(EQUAL, trace_of_ellipse(52.0, 40.0, EQUAL, 5.0, -3.0))
    touches = touching.touching(curve, touching.looked_over(curve))
    places = [(21.0, 3.0), (-5.0, 23.0), (-31.0, 3.0), (-5.0, -17.0)]
    wanted = [math.degrees(math.atan2(y, x)) % 360 for x, y in places]
    assert touches == pytest.approx(wanted, abs=0.2)
    assert touching.center_of_box(curve, touches) == pytest.approx([-5.0, 3.0], abs=0.001)


def test_the_fine_steps_start_at_0_and_go_once_around():
    curve = periodic.curve_through(EQUAL, [20.0 + i / 100 for i in range(120)])
    xs, ys = touching.looked_over(curve)
    assert (len(xs), len(ys)) == (720, 720)
    assert [xs[0], ys[0]] == periodic.point_at(curve, 0.0)
    assert [xs[719], ys[719]] == periodic.point_at(curve, 359.5)


def test_the_farthest_points_of_a_rectangle_with_rounded_corners_are_its_corners():
    """Radii with a hill at each of four angles: kept are the touching points and these hills."""
    hills = [40.0, 140.0, 220.0, 320.0]
    radii = [
        22.0 + sum(5.0 * math.exp(-((math.remainder(angle - hill, 360.0) / 15.0) ** 2)) for hill in hills)
        for angle in EQUAL
    ]
    curve = periodic.curve_through(EQUAL, radii)
    kept = touching.kept_angles(curve, touching.looked_over(curve), [20.0, 60.0, 160.0, 240.0], [0.0, 0.0])
    assert kept == pytest.approx([20.0, 40.0, 60.0, 140.0, 160.0, 220.0, 240.0, 320.0], abs=0.05)


@pytest.mark.parametrize("center", [[0.0, 0.0], [6.0, 0.0], [0.0, -5.0], [-4.0, 3.0]])
def test_the_farthest_point_of_each_quarter_is_seen_from_the_center_given(center):
    """Brute force: 0.01° steps.  Where it is the touching point itself there is one point."""
    hills = [40.0, 140.0, 220.0, 320.0]
    radii = [
        22.0 + sum(5.0 * math.exp(-((math.remainder(angle - hill, 360.0) / 30.0) ** 2)) for hill in hills)
        for angle in EQUAL
    ]
    curve = periodic.curve_through(EQUAL, radii)
    touches = [0.0, 90.0, 180.0, 270.0]
    wanted = []
    for start in touches:
        places = {i: periodic.point_at(curve, start + i / 100) for i in range(9001)}
        wanted += [start, start + max(places, key=lambda i, places=places: math.dist(places[i], center)) / 100]
    wanted = [angle for angle, after in pairwise([*wanted, 360.0]) if after > angle]
    kept = touching.kept_angles(curve, touching.looked_over(curve), touches, center)
    assert kept == pytest.approx(wanted, abs=0.02)
