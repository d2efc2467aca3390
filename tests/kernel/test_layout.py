"""Decentration and blanks against the points themselves; near PD; where the heights of each kind of lens are."""

import math

import pytest
from hypothesis import given

from quoting.kernel import layout
from tests.kernel.jobs import frames, hundredths, steady


@steady(100)
@given(frames(), hundredths(-12, 12), hundredths(-12, 12), hundredths(0, 3))
def test_exact_blank_is_that_of_the_farthest_point_and_the_rule_is_never_below(frame, x, y, allowance):
    """Brute force over the outline.  The outline's own ED is within 0.0001 mm of the printed one."""
    exact = layout.blank_exact(frame["xs"], frame["ys"], x, y, allowance)
    farthest = max(math.dist((x, y), point) for point in zip(frame["xs"], frame["ys"], strict=True))
    assert exact == pytest.approx(2 * farthest + allowance, abs=1e-12)
    assert exact <= layout.blank_by_rule(frame["ed"], x, y, allowance) + 1e-4


@steady(50)
@given(frames(), hundredths(-12, 12), hundredths(-12, 12))
def test_the_exact_blank_covers_every_point_and_nothing_smaller_does(frame, x, y):
    radius = layout.blank_exact(frame["xs"], frame["ys"], x, y, 0.0) / 2
    inside = [math.dist((x, y), point) for point in zip(frame["xs"], frame["ys"], strict=True)]
    assert all(distance <= radius + 1e-12 for distance in inside)
    assert any(distance > radius - 1e-9 for distance in inside)


def test_decentration_is_inward_for_a_pd_narrower_than_the_frame():
    assert layout.decentration_in(52.0, 18.0, 31.5) == 3.5
    assert layout.decentration_in(52.0, 18.0, 36.0) == -1.0
    assert layout.decentration_up(40.0, 24.0) == 4.0


@steady()
@given(hundredths(50, 75), hundredths(250, 1000))
def test_near_pd_is_narrower_the_nearer_one_reads(pd, working):
    assert layout.near_pd(pd, working - 50, 0.0) < layout.near_pd(pd, working, 0.0) < pd


def test_minus_lenses_ask_for_a_wider_near_pd_than_plus_lenses():
    """Through a minus lens the eyes turn less: Gerstman's formula, see tests/authorities."""
    assert layout.near_pd(63.0, 400.0, 6.0) < layout.near_pd(63.0, 400.0, 0.0) < layout.near_pd(63.0, 400.0, -6.0)


@steady()
@given(hundredths(54, 74), hundredths(250, 1000), hundredths(-12, 6))
def test_near_pd_is_where_the_line_of_sight_crosses_a_lens_centered_for_distance(pd, working, power):
    """The long way around: image of the near point by the thin lens, then the straight line from the eye's center
    of rotation, 27 mm behind the lens, to that image; the optical axis of the lens passes through that center."""
    image_mm = 1000.0 / (1000.0 / working - power)
    height = pd / 2 * image_mm / working
    inward = height * 27.0 / (27.0 + image_mm)
    assert layout.near_pd(pd, working, power) == pytest.approx(pd - 2 * inward, abs=1e-9)


@pytest.mark.parametrize(
    ("kind", "reference", "fitting"),
    [("single-vision", 20.0, 24.0), ("anti-fatigue", 20.0, 24.0), ("bifocal", 20.0, 19.0), ("progressive", 20.0, 24.0)],
)
def test_heights_of_each_kind(kind, reference, fitting):
    """(practice) optical center 4 mm lower for 8°, cross 4 mm above its point, segment 5 mm below the pupil."""
    assert layout.reference_height(kind, 24.0, 4.0) == reference
    assert layout.fitting_height(kind, 24.0) == fitting


def test_a_progressive_is_not_lowered_for_tilt():
    assert layout.reference_height("progressive", 24.0, 6.0) == layout.reference_height("progressive", 24.0, 0.0)
    assert layout.reference_height("single-vision", 24.0, 6.0) == 18.0
