"""The periodic cubic spline: against its closed form on equal angles, and by what defines it on others."""

import math
import random

import pytest

from quoting.kernel import periodic

UNEVEN = [3.0, 40.0, 77.5, 120.0, 121.0, 200.0, 260.0, 355.0]
RADII = [22.0, 25.0, 27.0, 21.0, 20.5, 24.0, 26.0, 23.0]


def equal(count):
    return [360.0 * i / count for i in range(count)]


def slope(curve, angle, side):
    """Slope just beside an angle, from the cubic itself: three exact differences of a cubic."""
    h = 0.01 * side
    r = [periodic.radius_at(curve, angle + i * h) for i in range(4)]
    return (-11 * r[0] + 18 * r[1] - 9 * r[2] + 2 * r[3]) / (6 * h)


@pytest.mark.parametrize(("count", "waves"), [(8, 1), (12, 2), (36, 5), (3, 1), (5, 2)])
def test_bends_of_a_wave_on_equal_angles(count, waves):
    """Closed form: on equal steps h a cosine is an eigenvector, bend = −(6/h²)·(2 − 2cos kh)/(4 + 2cos kh)·cosine."""
    h = 360.0 / count
    turn = math.cos(math.tau * waves / count)
    factor = -6.0 / h**2 * (2 - 2 * turn) / (4 + 2 * turn)
    waved = [math.cos(math.radians(waves * angle)) for angle in equal(count)]
    bends = periodic.bends_of(equal(count), [25.0 + 2.0 * one for one in waved])
    assert bends == pytest.approx([2.0 * factor * one for one in waved], abs=1e-12)


def test_the_bends_solve_their_system_on_uneven_angles():
    """de Boor: the slopes of the two cubics that meet at an angle are equal."""
    steps = periodic.steps_between(UNEVEN)
    bends = periodic.bends_of(UNEVEN, RADII)
    count = len(UNEVEN)
    for i in range(count):
        before, after = i - 1, (i + 1) % count
        from_left = (RADII[i] - RADII[before]) / steps[before] + steps[before] * (2 * bends[i] + bends[before]) / 6
        from_right = (RADII[after] - RADII[i]) / steps[i] - steps[i] * (2 * bends[i] + bends[after]) / 6
        assert from_left == pytest.approx(from_right, abs=1e-13)


def test_the_curve_passes_through_every_radius():
    curve = periodic.curve_through(UNEVEN, RADII)
    assert [periodic.radius_at(curve, angle) for angle in UNEVEN] == RADII
    assert periodic.radius_at(curve, 363.0) == RADII[0]
    assert periodic.radius_at(curve, -5.0) == RADII[-1]
    assert periodic.radius_at(curve, -157.0 - 360.0) == pytest.approx(periodic.radius_at(curve, 203.0), abs=1e-12)


@pytest.mark.parametrize("angle", UNEVEN)
def test_neither_the_radius_nor_its_slope_jumps_where_two_cubics_meet(angle):
    curve = periodic.curve_through(UNEVEN, RADII)
    assert periodic.radius_at(curve, angle - 1e-9) == pytest.approx(periodic.radius_at(curve, angle + 1e-9), abs=1e-7)
    assert slope(curve, angle, -1) == pytest.approx(slope(curve, angle, 1), abs=1e-7)


def test_the_bend_is_the_second_derivative():
    curve = periodic.curve_through(UNEVEN, RADII)
    for angle, bend in zip(UNEVEN, curve[2], strict=True):
        r = [periodic.radius_at(curve, angle + i * 0.01) for i in range(4)]
        assert (2 * r[0] - 5 * r[1] + 4 * r[2] - r[3]) / 1e-4 == pytest.approx(bend, abs=1e-6)


def test_a_circle_stays_a_circle_through_whatever_angles():
    curve = periodic.curve_through(UNEVEN, [25.0] * len(UNEVEN))
    assert [periodic.radius_at(curve, angle / 7) for angle in range(2600)] == pytest.approx([25.0] * 2600, abs=1e-12)


def test_points_lie_at_their_angle():
    curve = periodic.curve_through(UNEVEN, RADII)
    for angle in (0.0, 33.0, 90.0, 200.0, 359.0):
        x, y = periodic.point_at(curve, angle)
        assert math.hypot(x, y) == pytest.approx(periodic.radius_at(curve, angle))
        assert math.degrees(math.atan2(y, x)) % 360 == pytest.approx(angle, abs=1e-9)


def test_interval_is_the_one_an_angle_lies_in():
    """Against a walk from the start."""
    for count in range(1, 12):
        angles = [10.0 + 3.0 * i for i in range(count)]
        for tenth in range(480):
            angle = tenth / 10
            walked = max([i for i in range(count) if angles[i] <= angle], default=0)
            assert periodic.interval(angles, angle) == walked


def test_tridiagonal_solves_what_it_was_given():
    seeded = random.Random(4)
    for count in (1, 2, 3, 9):
        side = [seeded.uniform(0.1, 1) for _ in range(count)]
        middle = [seeded.uniform(3, 4) for _ in range(count)]
        wanted = [seeded.uniform(-5, 5) for _ in range(count)]
        right = [
            middle[i] * wanted[i]
            + (side[i - 1] * wanted[i - 1] if i else 0.0)
            + (side[i] * wanted[i + 1] if i + 1 < count else 0.0)
            for i in range(count)
        ]
        assert periodic.tridiagonal(side, middle, right) == pytest.approx(wanted, abs=1e-12)
