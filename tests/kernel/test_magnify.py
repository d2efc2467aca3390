"""Spectacle magnification against paraxial chief rays and the traced ones; differences against all meridians."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.kernel import magnify, power, ray, surfaces, thickness
from tests.kernel.jobs import hundredths, steady
from tests.kernel.worn_cases import lenses


def test_the_pupil_lies_three_millimeters_behind_the_cornea():
    """(practice)"""
    assert magnify.PUPIL_BEHIND_CORNEA_MM == 3.0


@pytest.mark.parametrize(("straight", "wanted"), [(0.0, 1.0), (10.0, 1 / 0.84), (-10.0, 1 / 1.16)])
def test_power_alone_magnifies_by_one_over_one_minus_distance_times_power(straight, wanted):
    assert magnify.power_factor(straight, 16.0) == pytest.approx(wanted, abs=1e-12)


def paraxial(front, back, center, index, pupil_mm):
    """Angle behind over angle before of the ray through the pupil's center, by refraction and transfer (Gauss)."""
    height, slope = pupil_mm / 1000.0, -1.0  # at the back, 1 radian toward the axis at the pupil
    inside = (slope + back * height) / index
    height -= center / 1000.0 * inside
    return slope / (index * inside + front * height)


@steady()
@given(hundredths(0, 10), hundredths(-15, 4), st.floats(0, 9), hundredths(1.48, 1.9), st.floats(8, 20))
def test_magnification_is_that_of_a_chief_ray_through_the_pupil(front, back, center, index, pupil_mm):
    straight = surfaces.back_vertex_power(front, back, center, index)
    wanted = paraxial(front, back, center, index, pupil_mm)
    assert magnify.magnification(front, center, index, straight, pupil_mm) == pytest.approx(wanted, rel=1e-9)


def test_the_magnification_matrix_is_that_of_traced_rays_through_the_pupil():
    """Rays that leave for the pupil 0.01 degrees off the axis, traced to the object: directions behind by before."""
    tiny = 2e-4
    for made, center, rng in lenses(40, "magnified", conic=False, prism=False):
        pupil_mm = rng.uniform(10, 20)
        shape = surfaces.shape_factor(made["front"], center, made["index"])
        found = magnify.magnified(shape, made["sphere"], made["cylinder"], made["axis"], pupil_mm)
        columns = []
        for x, y in ((tiny, 0.0), (0.0, tiny)):
            path = ray.path_to_eye(made, center, -x * pupil_mm, -y * pupil_mm, ray.unit([x, y, 1.0]))
            columns.append([path["before"][0] / path["before"][2], path["before"][1] / path["before"][2]])
        wanted = tiny * np.linalg.inv(np.array(columns).T)
        assert found == pytest.approx([wanted[0, 0], wanted[0, 1], wanted[1, 1]], abs=2e-5)


@steady()
@given(hundredths(-15, 10), hundredths(-6, 6), st.integers(1, 180).map(float), st.floats(8, 20))
def test_along_its_axis_a_lens_magnifies_by_its_sphere_and_across_by_the_other_power(sphere, cylinder, axis, pupil_mm):
    xx, xy, yy = magnify.magnified(1.02, sphere, cylinder, axis, pupil_mm)
    matrix = np.array([[xx, xy], [xy, yy]])
    for angle, straight in ((axis, sphere), (axis + 90.0, sphere + cylinder)):
        way = np.array([math.cos(math.radians(angle)), math.sin(math.radians(angle))])
        assert matrix @ way == pytest.approx(1.02 * magnify.power_factor(straight, pupil_mm) * way, abs=1e-9)


def test_image_difference_is_in_percent_of_the_left_image():
    assert magnify.image_difference(1.02, 1.0) == pytest.approx(2.0)
    assert magnify.image_difference(1.0, 1.02) == pytest.approx(-100 * (1 - 1 / 1.02))
    assert magnify.image_difference(1.3, 1.3) == 0.0


FORMS = st.tuples(hundredths(-9, 6), hundredths(-5, 5), st.integers(1, 180).map(float))


@steady(100)
@given(FORMS, FORMS)
def test_the_greatest_difference_is_that_of_the_worst_meridian(one, other):
    """All meridians in steps of half a degree; the left eye's matrix is mirrored into the right eye's view."""
    right = magnify.magnified(1.01, *one, 15.0)
    left = magnify.magnified(1.02, *other, 15.0)
    apart = []
    for step in range(360):
        c, s = math.cos(math.pi * step / 360), math.sin(math.pi * step / 360)
        big = right[0] * c * c + 2 * right[1] * c * s + right[2] * s * s
        small = left[0] * c * c - 2 * left[1] * c * s + left[2] * s * s
        apart.append(100 * (big - small) / ((left[0] + left[2]) / 2))
    worst = max(apart, key=abs)
    found = magnify.greatest_difference(right, left)
    assert abs(found) == pytest.approx(abs(worst), abs=0.005)
    if abs(abs(max(apart)) - abs(min(apart))) > 0.01:
        assert found * worst > 0.0


@steady()
@given(FORMS)
def test_mirrored_eyes_see_images_of_one_size(form):
    """In its own nasal frame each of two mirrored eyes has the same matrix."""
    mirrored = magnify.magnified(1.01, *form, 15.0)
    as_right = magnify.magnified(1.01, form[0], form[1], power.axis_within(180.0 - form[2]), 15.0)
    assert as_right == pytest.approx([mirrored[0], -mirrored[1], mirrored[2]], abs=1e-12)
    assert magnify.greatest_difference(as_right, [as_right[0], -as_right[1], as_right[2]]) == pytest.approx(
        0.0, abs=1e-9
    )


@pytest.mark.parametrize(
    ("right", "left", "wanted"),
    [
        ([1.06, 0.0, 1.02], [1.0, 0.0, 1.0], 6.0),
        ([0.94, 0.0, 0.98], [1.0, 0.0, 1.0], -6.0),
        ([1.02, 0.0, 1.06], [1.0, 0.0, 1.0], 6.0),
        ([1.0, 0.03, 1.0], [1.0, 0.0, 1.0], 3.0),  # as much more along 45 as less along 135: told with plus
        ([1.0, 0.03, 1.0], [1.0, 0.03, 1.0], 6.0),  # mirror images cross
        ([1.2, 0.0, 1.2], [1.0, 0.0, 1.4], 16.0 + 2.0 / 3.0),
    ],
)
def test_the_greatest_difference_has_its_sign(right, left, wanted):
    assert magnify.greatest_difference(right, left) == pytest.approx(wanted)


def test_a_pupil_at_the_focus_sees_nothing():
    with pytest.raises(ZeroDivisionError):
        magnify.power_factor(62.5, 16.0)
    straight = thickness.grind(62.5, 0.0, 180.0, 10.0, 0.0, 1.5)
    with pytest.raises(ZeroDivisionError):
        magnify.magnified(1.0, straight["sphere"], 0.0, 180.0, 16.0)
