"""Rules of thumb for tilt and wrap against their own formulas; how far they are from the trace, which decides."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.kernel import power, sight, surfaces, thickness, worn
from tests.kernel.jobs import hundredths, quarters, steady


@pytest.mark.parametrize("straight", [15.0, -15.0, 4.25])
@pytest.mark.parametrize("tilt", [0.0, 7.0, -7.0, 20.0])
def test_martins_sphere_and_cylinder_are_as_taught(straight, tilt):
    """S' = S (1 + sin² / 2n), C' = S' tan²: Brooks & Borish (formula from memory), written with the math library."""
    angle = math.radians(tilt)
    sphere = straight * (1 + math.sin(angle) ** 2 / (2 * 1.6))
    assert worn.martin(straight, tilt, 1.6) == pytest.approx([sphere, sphere * math.tan(angle) ** 2], abs=1e-12)


@steady()
@given(st.floats(-30, 30), st.floats(-30, 30))
def test_two_tilts_at_once_are_one(tilt, wrap):
    """The lens's axis by rotation matrices: wrapped about the frame's upright axis, then tilted about the level one."""
    p, w = math.radians(tilt), math.radians(wrap)
    wrapped = (math.sin(w), 0.0, math.cos(w))
    axis = (wrapped[0], wrapped[2] * math.sin(p), wrapped[2] * math.cos(p))
    angle, meridian = worn.compound_tilt(tilt, wrap)
    assert math.cos(math.radians(angle)) == pytest.approx(axis[2], abs=1e-12)
    assert math.sin(math.radians(angle)) == pytest.approx(math.hypot(axis[0], axis[1]), abs=1e-12)
    across = math.sin(math.radians(meridian)) * axis[0] - math.cos(math.radians(meridian)) * axis[1]
    assert across == pytest.approx(0.0, abs=1e-12)
    assert 0.0 <= angle < 90.0


@pytest.mark.parametrize(
    ("tilt", "wrap", "angle", "meridian"),
    [(0.0, 0.0, 0.0, 0.0), (10.0, 0.0, 10.0, 90.0), (0.0, 15.0, 15.0, 0.0), (-10.0, 0.0, 10.0, 270.0)],
)
def test_one_tilt_alone_is_itself(tilt, wrap, angle, meridian):
    assert worn.compound_tilt(tilt, wrap) == pytest.approx([angle, meridian])


@steady()
@given(quarters(-10, 10), quarters(-4, 4), st.integers(1, 180).map(float), st.floats(0, 20))
def test_tilted_both_is_tilted_where_there_is_one_tilt_alone(sphere, cylinder, axis, tilt):
    for both, about in (((tilt, 0.0), 180.0), ((0.0, tilt), 90.0)):
        one = worn.tilted_both(sphere, cylinder, axis, *both, 1.6)
        other = worn.tilted(sphere, cylinder, axis, tilt, about, 1.6)
        assert power.vector(*one) == pytest.approx(power.vector(*other), abs=1e-9)


@pytest.mark.parametrize("axis", [180.0, 90.0])
def test_tilt_works_on_the_mean_power_and_leaves_the_cylinder(axis):
    """-4.00 -2.00 tilted about 180: Martin on -5.00; then +1.00 along the axis and -1.00 across are put back."""
    sphere, cylinder = worn.martin(-5.0, 15.0, 1.6)
    xx, xy, yy = power.matrix(*worn.tilted(-4.0, -2.0, axis, 15.0, 180.0, 1.6))
    along_x = 1.0 if axis == 180.0 else -1.0
    assert [xx, xy, yy] == pytest.approx([sphere + along_x, 0.0, sphere + cylinder - along_x], abs=1e-12)


def test_two_equal_small_tilts_induce_a_cylinder_across_the_diagonal():
    """Tilted down and outward alike, the lens leans along 45 degrees; the minus cylinder stands at 135."""
    sphere, cylinder, axis = worn.tilted_both(-8.0, 0.0, 180.0, 2.0, 2.0, 1.6)
    assert axis == pytest.approx(135.0, abs=0.1)
    assert [sphere, cylinder] == pytest.approx(worn.martin(-8.0, 2.0 * math.sqrt(2.0), 1.6), abs=1e-4)


def test_the_optical_center_goes_down_a_millimeter_for_two_degrees():
    assert [worn.center_drop(tilt) for tilt in (0.0, 2.0, 12.0, -4.0)] == [0.0, 1.0, 6.0, -2.0]


@pytest.mark.parametrize("tilt", [15.0, -15.0])
@pytest.mark.parametrize(("center", "front"), [(2.0, 6.0), (4.0, 8.0)])
def test_the_estimate_of_the_prism_is_as_written(tilt, center, front):
    wanted = 100.0 * math.tan(math.radians(tilt)) * (center / 1000.0 / 1.586) * front
    assert worn.tilt_prism(front, center, 1.586, tilt) == pytest.approx(wanted, abs=1e-12)


def lens_for(straight, index, tilt, wrap=0.0, up=0.0):
    """A spherical lens on Vogel's base, as thick as a full-sized one, met as it is worn: power along x and y."""
    base = min(10.0, surfaces.vogel_base(straight))
    center = 2.0 if straight <= 0 else 2.0 + 0.6 * straight
    made = thickness.grind(straight, 0.0, 180.0, surfaces.true_power(base, index), 0.0, index)
    found = sight.met(made, center, up, sight.worn_axes(tilt, wrap))
    return found[0], found[2]


@pytest.mark.parametrize(("tilt", "apart"), [(0.0, 0.0), (5.0, 0.0154), (10.0, 0.063), (15.0, 0.143), (20.0, 0.264)])
def test_martin_is_this_far_from_the_trace_where_the_line_of_sight_meets_the_optical_center(tilt, apart):
    """Over -10 to +10 D and three indices, in any meridian: the greatest difference is `apart` D, or 3 % less.

    The two agree well where neither thickness nor form matters; the trace decides.
    """
    worst = 0.0
    for index in (1.498, 1.6, 1.74):
        for quarter in range(-40, 41):
            across, along = lens_for(quarter / 4.0, index, tilt)
            sphere, cylinder = worn.martin(quarter / 4.0, tilt, index)
            worst = max(worst, abs(across - sphere), abs(along - sphere - cylinder))
    assert 0.97 * apart - 1e-9 <= worst <= apart + 1e-9


def test_martin_overstates_a_tilt_for_which_the_optical_center_was_dropped():
    """-6.00 tilted by 12 degrees: Martin has -0.27 D of cylinder, and so has the trace through the optical center;
    6 mm above it, where the pupil stands once the center was dropped, the trace has less than a sixth of that."""
    cylinder = worn.martin(-6.0, 12.0, 1.6)[1]
    across, along = lens_for(-6.0, 1.6, 12.0)
    assert cylinder == pytest.approx(-0.275, abs=0.001)
    assert along - across == pytest.approx(cylinder, abs=0.02)
    across, along = lens_for(-6.0, 1.6, 12.0, up=worn.center_drop(12.0))
    assert abs(along - across) < abs(cylinder) / 6


@steady()
@given(hundredths(-10, 10), hundredths(0, 20), hundredths(0, 20))
def test_martin_names_the_principal_meridians_of_the_trace(straight, tilt, wrap):
    """A spherical lens, both tilts at once: the trace has its cylinder where Martin's formulas put it."""
    if abs(straight) < 1.0 or tilt + wrap < 5.0:
        return
    made = thickness.grind(straight, 0.0, 180.0, 6.0, 0.0, 1.6)
    found = sight.met(made, 2.0, 0.0, sight.worn_axes(tilt, wrap))
    rule = power.matrix(*worn.tilted_both(straight, 0.0, 180.0, tilt, wrap, 1.6))
    one, other = (found[0] - found[2], 2 * found[1]), (rule[0] - rule[2], 2 * rule[1])
    assert one[0] * other[1] - one[1] * other[0] == pytest.approx(0.0, abs=0.02 * math.hypot(*one) * math.hypot(*other))
    assert one[0] * other[0] + one[1] * other[1] > 0.0
