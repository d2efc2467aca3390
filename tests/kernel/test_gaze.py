"""Looking about: straight ahead nothing changes, along its axis a lens is itself, elsewhere another trace agrees."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.kernel import gaze, power, ray, sight, thickness
from tests.kernel.jobs import hundredths, steady
from tests.kernel.traced_by_numpy import power_by_bundle
from tests.kernel.worn_cases import lenses

LEVEL = [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]]
FORMS = st.tuples(hundredths(-9, 6), hundredths(-4, 3), st.integers(1, 180).map(float))


def test_the_center_of_rotation_lies_27_millimeters_behind_the_lens():
    """(practice) 13 mm to the cornea and 14 mm more."""
    assert gaze.ROTATION_BEHIND_CORNEA_MM == 14.0
    made = thickness.with_prism(thickness.grind(-6.0, -2.0, 180.0, 4.0, 0.0, 1.6), 0.0, 6.0)
    back = sight.worn_axes(10.0, 5.0)[2]
    place = gaze.center_of_rotation(made, 2.0, 5.0, back, 13.0)
    left_at = ray.along(place, back, -27.0)
    c = thickness.back_surface(made, 2.0)[1]
    assert left_at == pytest.approx([0.0, 5.0, 2.0 + (1 - math.sqrt(1 - 25 * c * c)) / c + 5.0 * 0.1])


@steady(60)
@given(FORMS, st.floats(-5, 20), st.floats(-5, 25), st.floats(-5, 5), st.floats(8, 18))
def test_straight_ahead_the_eye_meets_what_it_meets(form, tilt, wrap, up, vertex):
    made = thickness.with_prism(thickness.grind(*form, 5.0, -0.5, 1.6), 1.0, -1.0)
    axes = sight.worn_axes(tilt, wrap)
    straight = sight.met(made, 3.0, up, axes)
    assert gaze.met_in_gaze(made, 3.0, up, axes, vertex, 0.0, 0.0) == pytest.approx(straight, abs=1e-8)


@steady(60)
@given(FORMS, st.floats(-15, 15), st.sampled_from(("tilt", "wrap")))
def test_along_the_axis_of_the_lens_the_eye_meets_its_vertex_power(form, angle, which):
    """A center dropped by 27 mm · sin of the tilt: looking down by the tilt, the eye looks along the axis.

    So the rule for the optical center does what it promises.  The vertex sphere lies behind the vertex there, by how
    much closer to the eye the fitting point is: the power is that of the lens, moved.
    """
    made = thickness.grind(*form, 5.0, 0.0, 1.6)
    axes = sight.worn_axes(angle, 0.0)
    up = 27.0 * math.sin(math.radians(angle))
    turns_at = gaze.center_of_rotation(made, 3.0, up, axes[2], 13.0)
    assert turns_at[:2] == pytest.approx([0.0, 0.0], abs=1e-9)
    found = gaze.met_in_gaze(made, 3.0, up, axes, 13.0, -angle, 0.0)
    moved = power.at_vertex_both(*form, turns_at[2] - 3.0 - 27.0)
    assert found == pytest.approx([*power.matrix(*moved), 0.0, 0.0], abs=1e-8)


def test_in_any_gaze_the_eye_meets_what_a_bundle_of_rays_brings_it():
    """80 lenses as worn, up to 25 degrees about: another trace to where the ray leaves the back, then by its focus."""
    for made, center, rng in lenses(80, "gazes"):
        axes = sight.worn_axes(rng.uniform(-5, 15), rng.uniform(-5, 15))
        up, vertex = rng.uniform(-4, 4), rng.uniform(10, 16)
        gaze_up, gaze_in = rng.uniform(-25, 25), rng.uniform(-25, 25)
        found = gaze.met_in_gaze(made, center, up, axes, vertex, gaze_up, gaze_in)
        turns_at = np.array(gaze.center_of_rotation(made, center, up, axes[2], vertex))
        a, u = math.radians(gaze_in), math.radians(gaze_up)
        across, back = (
            (math.cos(a), 0.0, math.sin(a)),
            (-math.sin(a) * math.cos(u), -math.sin(u), math.cos(a) * math.cos(u)),
        )
        eye = np.array([across, np.cross(back, across), back]) @ np.array(axes)
        before = np.array([-found[3] / 100.0, -found[4] / 100.0, 1.0])
        before = before @ eye / np.linalg.norm(before)
        path = ray.path_from_object(
            made, center, ray.along(ray.back_hit(made, center, turns_at, eye[2]), before, -9.0), before
        )
        start = np.array(path["front"])
        for _ in range(40):
            path = ray.path_from_object(made, center, list(start), list(before))
            missed = turns_at - path["back"]
            start = start + missed - (missed @ eye[2]) * eye[2]
        assert path["after"] == pytest.approx(eye[2], abs=1e-8)
        there = power_by_bundle(made, center, path["front"], before, eye[:2])
        way = np.linalg.norm(turns_at - path["back"]) - vertex - 14.0
        wanted = there @ np.linalg.inv(np.eye(2) - way / 1000.0 * there)
        assert found[:3] == pytest.approx([wanted[0, 0], wanted[0, 1], wanted[1, 1]], abs=2e-4)


@steady(40)
@given(FORMS, st.floats(-20, 20), st.floats(-20, 20), st.floats(0, 15))
def test_mirrored_eyes_meet_the_same_in_mirrored_gazes(form, gaze_up, gaze_in, wrap):
    sphere, cylinder, axis = form
    made = thickness.grind(sphere, cylinder, axis, 5.0, 0.0, 1.6)
    other = made | {"axis": power.axis_within(180.0 - axis)}
    one = gaze.met_in_gaze(made, 3.0, 2.0, sight.worn_axes(8.0, wrap), 13.0, gaze_up, gaze_in)
    two = gaze.met_in_gaze(other, 3.0, 2.0, sight.worn_axes(8.0, -wrap), 13.0, gaze_up, -gaze_in)
    assert two == pytest.approx([one[0], -one[1], one[2], -one[3], one[4]], abs=1e-9)


@pytest.mark.parametrize(
    ("made", "gaze_up"),
    [
        (thickness.grind(-20.0, 0.0, 180.0, 0.5, 0.0, 1.5), 60.0),  # past the end of the back
        (thickness.with_prism(thickness.grind(0.0, 0.0, 180.0, 0.0, 0.0, 1.5), 0.0, 60.0), 45.0),  # reflected inside
        (thickness.with_prism(thickness.grind(0.0, 0.0, 180.0, 0.0, 0.0, 2.5), 0.0, 150.0), -44.0),  # turned back
    ],
)
def test_where_no_ray_comes_to_the_eye_nothing_is_met(made, gaze_up):
    assert gaze.met_in_gaze(made, 2.0, 0.0, LEVEL, 13.0, gaze_up, 0.0) == []


def test_a_focal_line_on_the_way_to_the_eye_has_no_power(monkeypatch):
    made = thickness.grind(-4.0, 0.0, 180.0, 4.0, 0.0, 1.6)
    monkeypatch.setattr(gaze, "power_along", lambda *_: [])
    assert gaze.met_in_gaze(made, 2.0, 0.0, LEVEL, 13.0, 5.0, 0.0) == []
    monkeypatch.setattr(gaze, "power_along", lambda *_: [100.0, 0.0, 100.0])
    monkeypatch.setattr(gaze, "gone_on", lambda *_: [])
    assert gaze.met_in_gaze(made, 2.0, 0.0, LEVEL, 13.0, 5.0, 0.0) == []
