"""The length of a bevel: great circles and circles of latitude are known; the rest against a fine walk."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.kernel import bevel, boxing, outline
from tests.kernel.jobs import frames, steady
from tests.kernel.outlines import random_outlines, sides_of

# 530 / 10.6: a sphere of 50 mm
CURVE_50 = 10.6


def walked(xs, ys, radius):
    """Brute force: 2000 straight steps along each lifted side."""
    length = 0.0
    for (px, py), (qx, qy) in sides_of(xs, ys):
        before = None
        for i in range(2001):
            x, y = px + (qx - px) * i / 2000, py + (qy - py) * i / 2000
            here = (x, y, radius - math.sqrt(radius**2 - x * x - y * y))
            length += math.dist(before, here) if before else 0.0
            before = here
    return length


def test_a_side_through_the_axis_is_an_arc_of_a_great_circle():
    """Arc of a chord, 2R·asin(c/2R): both sides of this flat figure."""
    assert bevel.bevel_length([30.0, -30.0], [0.0, 0.0], CURVE_50) == pytest.approx(200 * math.asin(0.6), abs=1e-9)
    assert bevel.bevel_length([0.0, 0.0], [-30.0, 30.0], CURVE_50) == pytest.approx(200 * math.asin(0.6), abs=1e-9)


def test_a_side_that_ends_on_the_axis_is_half_of_it():
    assert bevel.lifted_side(0.0, 0.0, 30.0, 0.0, 0.02) == pytest.approx(50 * math.asin(0.6), abs=1e-10)
    assert bevel.lifted_side(-40.0, 0.0, 30.0, 0.0, 0.02) == pytest.approx(
        50 * (math.asin(0.6) + math.asin(0.8)), abs=1e-10
    )


def test_a_side_beside_the_axis_is_an_arc_of_a_smaller_circle():
    """30 mm beside the axis of a sphere of 50 mm the plane cuts a circle of 40 mm."""
    assert bevel.lifted_side(30.0, -20.0, 30.0, 20.0, 0.02) == pytest.approx(80 * math.asin(0.5), abs=1e-10)
    assert bevel.lifted_side(30.0, 20.0, 30.0, -20.0, 0.02) == pytest.approx(80 * math.asin(0.5), abs=1e-10)
    assert bevel.lifted_side(30.0, -20.0, 30.0, 20.0, -0.02) == pytest.approx(80 * math.asin(0.5), abs=1e-10)


def test_a_side_without_length_has_none_on_the_sphere():
    assert bevel.lifted_side(30.0, 5.0, 30.0, 5.0, 0.02) == 0.0


def test_a_side_along_the_rim_of_the_sphere_is_half_a_circle():
    assert bevel.lifted_side(0.0, -50.0, 0.0, 50.0, 0.02) == pytest.approx(50 * math.pi, abs=1e-9)


@pytest.mark.parametrize(("chord", "arc"), [(0.0, 0.0), (25.0, 25 * math.pi / 3), (50.0, 25 * math.pi)])
def test_arc_of_a_chord(chord, arc):
    assert bevel.arc_of(chord, 25.0) == pytest.approx(arc, abs=1e-10)


def test_a_chord_a_breath_too_long_is_a_diameter():
    assert bevel.arc_of(50.0 + 1e-12, 25.0) == pytest.approx(25 * math.pi, abs=1e-9)


def test_a_fine_circle_about_the_axis_keeps_its_length():
    """All of it lies at one depth: 2πr, whatever the sphere."""
    xs, ys = outline.from_radii([24.0] * 3600)
    assert bevel.bevel_length(xs, ys, 6.0) == pytest.approx(math.tau * 24.0, abs=1e-4)


def test_on_a_flat_front_the_bevel_is_the_perimeter():
    for xs, ys in random_outlines(6, 5):
        assert bevel.bevel_length(xs, ys, 0.0) == outline.perimeter(xs, ys)
        assert bevel.bevel_length(xs, ys, 0.001) == pytest.approx(outline.perimeter(xs, ys), abs=1e-6)


def test_the_bevel_is_what_fine_steps_along_the_sphere_measure():
    for xs, ys in random_outlines(10, 6):
        assert bevel.bevel_length(xs, ys, CURVE_50) == pytest.approx(walked(xs, ys, 50.0), abs=1e-5)


@steady(30)
@given(frames(), st.integers(1, 119), st.floats(0.5, 6))
def test_mirror_start_and_side_of_the_sphere_do_not_matter_and_it_is_never_shorter_than_flat(frame, start, curve):
    xs, ys = frame["xs"], frame["ys"]
    length = bevel.bevel_length(xs, ys, curve)
    assert length >= outline.perimeter(xs, ys) - 1e-9
    assert bevel.bevel_length(*boxing.mirrored(xs, ys), curve) == pytest.approx(length, rel=1e-12)
    assert bevel.bevel_length(xs[start:] + xs[:start], ys[start:] + ys[:start], curve) == pytest.approx(length)
    assert bevel.bevel_length(xs, ys, -curve) == pytest.approx(length, rel=1e-12)


@steady(20)
@given(frames(), st.floats(0.5, 3))
def test_a_deeper_curve_makes_a_longer_bevel(frame, curve):
    xs, ys = frame["xs"], frame["ys"]
    assert bevel.bevel_length(xs, ys, curve * 1.5) >= bevel.bevel_length(xs, ys, curve) - 1e-9


def test_a_curve_reaches_as_far_as_its_radius():
    """530/10.6 is a radius of 50 mm."""
    assert bevel.curve_reaches([30.0], [39.99], CURVE_50)
    assert not bevel.curve_reaches([30.0], [40.01], CURVE_50)
    assert not bevel.curve_reaches([30.0], [40.01], -CURVE_50)
    assert bevel.curve_reaches([500.0], [0.0], 0.0)
    assert bevel.curve_reaches([2.0], [0.0], 265.0)


def test_beyond_the_sphere_there_is_no_length():
    with pytest.raises(ValueError, match=r"math domain|nonnegative"):
        bevel.bevel_length([51.0, 0.0, -51.0], [0.0, 30.0, 0.0], CURVE_50)
