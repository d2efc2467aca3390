"""Power along a ray: exact on the axis, Coddington's equations off it, and bundles of close rays everywhere else."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.kernel import astigmatic, power, ray, thickness
from tests.kernel.jobs import hundredths, steady
from tests.kernel.traced_by_numpy import power_by_bundle, through
from tests.kernel.worn_cases import lenses

AXIS = [0.0, 0.0, 1.0]
UPRIGHT = [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0]]


def slanted(degrees, turned):
    s, turned = math.sin(math.radians(degrees)), math.radians(turned)
    return [s * math.cos(turned), s * math.sin(turned), math.cos(math.radians(degrees))]


@steady(120)
@given(
    hundredths(-15, 12),
    hundredths(-6, 6),
    st.integers(1, 180).map(float),
    hundredths(0, 12),
    st.floats(0.5, 9),
    hundredths(1.48, 1.9),
    st.sampled_from((0.0, -1.0, 0.8)),
)
def test_on_the_axis_the_power_is_the_back_vertex_power(sphere, cylinder, axis, front, center, index, conic):
    """That of the thick lens, whatever the conic: aspheric surfaces differ from spheres off their axis alone."""
    made = thickness.grind(sphere, cylinder, axis, front, conic, index)
    path = ray.path_to_eye(made, center, 0.0, 0.0, AXIS)
    found = astigmatic.power_along(made, center, path, UPRIGHT)
    assert found == pytest.approx(power.matrix(sphere, cylinder, axis), abs=1e-9)
    assert astigmatic.deviation(path, UPRIGHT) == [0.0, 0.0]


def test_the_power_is_that_of_a_bundle_of_close_rays():
    """200 lenses, toric, conic and with prism, rays from anywhere: five rays 0.02 mm apart by another trace.

    Central differences of second order: what is left is far below 0.0001 D.
    """
    worst = 0.0
    for made, center, rng in lenses(200, "bundles"):
        point = [rng.uniform(-6, 6), rng.uniform(-6, 6), -8.0]
        path = ray.path_from_object(made, center, point, slanted(rng.uniform(0, 25), rng.uniform(0, 360)))
        sides = astigmatic.crosswise(path["after"])
        wanted = power_by_bundle(made, center, point, path["before"], sides)
        assert wanted[0, 1] == pytest.approx(wanted[1, 0], abs=2e-4)
        xx, xy, yy = astigmatic.power_along(made, center, path, sides)
        worst = max(worst, np.abs(np.array([[xx, xy], [xy, yy]]) - wanted).max())
    assert worst < 1e-4


def coddington(made, center, path):
    """Tangential and sagittal power of a spherical lens by Coddington's equations, for a ray in the x = 0 plane.

    n′cos²i′/t′ = n cos²i/t + (n′cos i′ − n cos i)/r and n′/s′ = n/s + (n′cos i′ − n cos i)/r, as in Welford.
    """
    index = made["index"]
    inside = np.array(path["inside"])
    back_power = made["sphere"] - made["front"] / (1 - center / 1000 / index * made["front"])
    curves = made["front"] / (1000 * (index - 1)), -back_power / (1000 * (index - 1))
    points = np.array(path["front"]), np.array(path["back"]) - [0.0, 0.0, center]
    rays = (np.array(path["before"]), 1.0, inside, index), (inside, index, np.array(path["after"]), 1.0)
    t = s = 0.0  # reduced vergences 1/t and 1/s, 1/mm
    way = np.linalg.norm(np.array(path["back"]) - path["front"])
    for curve, point, (d, n, e, m) in zip(curves, points, rays, strict=True):
        normal = np.array([0.0, 0.0, 1.0]) - curve * point
        cos, cos_behind = normal @ d, normal @ e
        bend = (m * cos_behind - n * cos) * curve
        t = (n * cos**2 * t + bend) / (m * cos_behind**2)
        s = (n * s + bend) / m
        if way:
            t, s, way = t / (1 - way * t), s / (1 - way * s), 0.0
    return 1000 * t, 1000 * s


def test_coddingtons_equations_hold_for_spherical_lenses_at_any_slant():
    for made, center, rng in lenses(100, "coddington", toric=False, conic=False, prism=False):
        path = ray.path_from_object(made, center, [0.0, rng.uniform(-8, 8), -5.0], slanted(rng.uniform(0, 35), 90.0))
        xx, xy, yy = astigmatic.power_along(made, center, path, astigmatic.crosswise(path["after"]))
        assert (yy, xx, xy) == pytest.approx((*coddington(made, center, path), 0.0), abs=1e-9)


def test_a_lens_turned_about_its_axis_turns_the_power_it_gives():
    """Lens, ray and the eye's two directions turned together by any angle: the same power."""
    for made, center, rng in lenses(40, "turned", prism=False):
        turn = rng.uniform(0, 360)
        c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))

        def about(a, c=c, s=s):
            return [a[0] * c - a[1] * s, a[0] * s + a[1] * c, a[2]]

        direction = slanted(rng.uniform(0, 30), rng.uniform(0, 360))
        place = [rng.uniform(-6, 6), rng.uniform(-6, 6), 0.0]
        sides = astigmatic.crosswise(direction)
        one = ray.path_to_eye(made, center, place[0], place[1], direction)
        other_made = made | {"axis": power.axis_within(made["axis"] + turn)}
        other = ray.path_to_eye(other_made, center, *about(place)[:2], about(direction))
        turned = [about(side) for side in sides]
        assert astigmatic.power_along(other_made, center, other, turned) == pytest.approx(
            astigmatic.power_along(made, center, one, sides), abs=1e-8
        )
        assert astigmatic.deviation(other, turned) == pytest.approx(astigmatic.deviation(one, sides), abs=1e-9)


@steady()
@given(st.floats(0, 85), st.floats(0, 360))
def test_the_crosswise_directions_are_at_right_angles_to_the_ray_and_each_other(degrees, turned):
    direction = slanted(degrees, turned)
    across, up = astigmatic.crosswise(direction)
    assert [ray.dot(across, direction), ray.dot(up, direction), ray.dot(across, up)] == pytest.approx([0, 0, 0])
    assert [ray.dot(across, across), ray.dot(up, up), across[1]] == pytest.approx([1.0, 1.0, 0.0])
    assert across[0] >= 0.0
    assert up[1] >= 0.0


@steady()
@given(*[st.floats(-0.02, 0.02)] * 3, st.floats(0, 9))
def test_a_wavefront_goes_on_as_its_inverse_says(xx, xy, yy, way):
    q = np.array([[xx, xy], [xy, yy]])
    wanted = q @ np.linalg.inv(np.eye(2) + way * q)
    assert astigmatic.gone_on([xx, xy, yy], way) == pytest.approx([wanted[0, 0], wanted[0, 1], wanted[1, 1]], abs=1e-15)


def test_a_lens_with_its_focus_on_its_own_back_has_no_power_to_tell():
    """Index 1.5, front +20: radius 25 mm, focus 75 mm behind it inside the glass.  The back is never asked."""
    ball = thickness.grind(0.0, 0.0, 180.0, 20.0, 0.0, 1.5)
    path = {
        "hit": True,
        "before": AXIS,
        "front": [0.0, 0.0, 0.0],
        "inside": AXIS,
        "back": [0.0, 0.0, 75.0],
        "after": AXIS,
    }
    assert astigmatic.power_along(ball, 2.0, path, UPRIGHT) == []


@pytest.mark.parametrize(("part", "there"), [(1.0, False), (1.0 - 1e-10, False), (1.0 - 1e-8, True), (1.01, True)])
def test_a_wavefront_has_no_curvature_at_a_focal_line(part, there):
    """A cylindrical wavefront that converges at 100 mm, looked at just before, there and behind."""
    assert bool(astigmatic.gone_on([-0.01, 0.0, 0.0], 100.0 * part)) == there


@pytest.mark.parametrize(("form", "matrix"), [((-2.0, -1.0, 90.0), [-3.0, 0.0, -2.0]), ((3.0, 0.0, 180.0), [3, 0, 3])])
def test_a_power_matrix_reads_as_a_prescription(form, matrix):
    assert tuple(astigmatic.as_power(matrix)) == form


@steady()
@given(hundredths(-12, 12), hundredths(-6, -0.05), st.integers(1, 180).map(float))
def test_a_prescription_comes_back_from_its_matrix(sphere, cylinder, axis):
    assert astigmatic.as_power(power.matrix(sphere, cylinder, axis)) == pytest.approx(
        [sphere, cylinder, axis], abs=1e-8
    )


@pytest.mark.parametrize(("prism_x", "prism_y"), [(2.0, 0.0), (0.0, 3.0), (-1.5, -2.5)])
def test_a_prism_bends_light_toward_its_base_by_about_its_amount(prism_x, prism_y):
    """One prism diopter is 1 cm in 1 m; the wedge is that of thin prisms, which is right to a hundredth."""
    made = thickness.with_prism(thickness.grind(0.0, 0.0, 180.0, 0.0, 0.0, 1.5), prism_x, prism_y)
    path = ray.path_to_eye(made, 2.0, 0.0, 0.0, AXIS)
    assert astigmatic.deviation(path, UPRIGHT) == pytest.approx([prism_x, prism_y], abs=0.01)
    assert path["before"][0] * prism_x <= 0.0
    assert path["before"][1] * prism_y <= 0.0


def test_the_prism_off_center_is_prentices_for_a_thin_weak_lens():
    made = thickness.grind(-1.0, -1.0, 30.0, 0.5, 0.0, 1.5)
    path = ray.path_to_eye(made, 0.01, 3.0, -4.0, AXIS)
    wanted = power.prentice(-1.0, -1.0, 30.0, -3.0, 4.0)
    assert astigmatic.deviation(path, UPRIGHT) == pytest.approx(wanted, abs=0.002)


def test_the_prism_is_the_tangent_of_the_angle_between_the_directions_before_and_behind():
    for made, center, rng in lenses(40, "angles"):
        direction = slanted(rng.uniform(0, 30), rng.uniform(0, 360))
        path = ray.path_from_object(made, center, [rng.uniform(-6, 6), rng.uniform(-6, 6), -8.0], direction)
        _, _, _, out = through(made, center, path["front"], direction)
        x, y = astigmatic.deviation(path, astigmatic.crosswise(path["after"]))
        angle = math.acos(np.clip(out @ direction, -1.0, 1.0))
        assert math.hypot(x, y) == pytest.approx(100 * math.tan(angle), abs=1e-5)
