"""Decentration and blanks against the points themselves; near PD; where the heights of each kind of lens are."""

import math

import pytest
from hypothesis import given

from quoting.kernel import boxing, layout, outline
from tests.kernel.jobs import FAMILIES, frames, hundredths, steady
from tests.kernel.outlines import blank_exact


@steady(100)
@given(frames(), hundredths(-12, 12), hundredths(-12, 12), hundredths(0, 3))
def test_exact_blank_is_that_of_the_farthest_point_and_the_rule_is_never_below(frame, x, y, allowance):
    """Brute force over the outline.  The outline's own ED is within 0.0001 mm of the printed one."""
    exact = blank_exact(frame["xs"], frame["ys"], x, y, allowance)
    farthest = max(math.dist((x, y), point) for point in zip(frame["xs"], frame["ys"], strict=True))
    assert exact == pytest.approx(2 * farthest + allowance, abs=1e-12)
    assert exact <= layout.blank_by_rule(frame["ed"], x, y, allowance) + 1e-4


@steady(50)
@given(frames(), hundredths(-12, 12), hundredths(-12, 12))
def test_the_exact_blank_covers_every_point_and_nothing_smaller_does(frame, x, y):
    radius = blank_exact(frame["xs"], frame["ys"], x, y, 0.0) / 2
    inside = [math.dist((x, y), point) for point in zip(frame["xs"], frame["ys"], strict=True)]
    assert all(distance <= radius + 1e-12 for distance in inside)
    assert any(distance > radius - 1e-9 for distance in inside)


def test_decentration_is_inward_for_a_pd_narrower_than_the_frame():
    assert layout.decentration_in(52.0, 18.0, 31.5) == 3.5
    assert layout.decentration_in(52.0, 18.0, 36.0) == -1.0
    assert layout.decentration_up(40.0, 24.0) == 4.0


# Outlines whose ED is a third of the way from the least to the greatest that the family allows in 52 × 38
MOST = {
    "round": 4.97,
    "oval": 5.43,
    "panto": 9.42,
    "rectangle": 7.37,
    "square": 7.60,
    "pilot": 11.26,
    "cat-eye": 14.59,
    "trapezoid": 11.75,
}
PLACES = [(x / 2, y / 2) for x in range(-12, 13) for y in range(-12, 13)]


def excess(family):
    """Over all places: [least, greatest] by which the rule of thumb is above the exact blank, mm."""
    low, high = outline.effective_diameter_limits(52.0, 38.0, family)
    xs, ys = outline.from_box(52.0, 38.0, low + (high - low) / 3, family)
    ed = boxing.dimensions(xs, ys)[2]
    over = [layout.blank_by_rule(ed, x, y, 2.0) - blank_exact(xs, ys, x, y, 2.0) for x, y in PLACES]
    return min(over), max(over)


@pytest.mark.parametrize("family", FAMILIES)
def test_how_much_more_than_the_outline_needs_the_rule_of_thumb_asks_for(family):
    """Within 6 mm of decentration each way: 5 mm on round outlines, 15 on a cat-eye; never less than the outline needs.

    The figures are what these outlines of ours measure, not published ones.
    """
    least, most = excess(family)
    assert least == pytest.approx(0.0, abs=1e-9)
    assert most == pytest.approx(MOST[family], abs=0.01)


@steady(100)
@given(frames(), hundredths(-12, 12), hundredths(-12, 12))
def test_the_rule_exceeds_the_exact_blank_by_no_more_than_the_box_explains(frame, x, y):
    """The outline touches each side of its box, so the exact blank is at least A + 2|x| and B + 2|y|."""
    xs, ys = frame["xs"], frame["ys"]
    a, b, ed = boxing.dimensions(xs, ys)
    rule, exact = layout.blank_by_rule(ed, x, y, 1.0), blank_exact(xs, ys, x, y, 1.0)
    box = max(a + 2 * abs(x), b + 2 * abs(y)) + 1.0
    assert -1e-9 <= rule - exact <= rule - box + 1e-6


def test_rule_and_exact_blank_agree_where_the_center_moves_away_from_the_farthest_point():
    """And there only: a rectangle's corner lies on the line through both (3, 4 and 5)."""
    xs, ys = [4.0, 4.0, -4.0, -4.0], [-3.0, 3.0, 3.0, -3.0]
    assert blank_exact(xs, ys, 0.8, 0.6, 1.5) == pytest.approx(layout.blank_by_rule(10.0, 0.8, 0.6, 1.5))
    assert blank_exact(xs, ys, 0.8, 0.6, 1.5) == pytest.approx(13.5)
    assert blank_exact(xs, ys, 2.0, 0.0, 0.0) == pytest.approx(2 * math.hypot(6, 3))
    assert layout.blank_by_rule(10.0, 2.0, 0.0, 0.0) == 14.0


def test_insets_of_both_eyes_and_of_one():
    assert layout.segment_inset(64.0, 61.0) == 1.5
    assert layout.total_inset(52.0, 18.0, 61.0) == 4.5
    assert layout.segment_drop(21.0, 17.5) == 3.5
    assert layout.near_inset(32.0, 400.0, 0.0) == pytest.approx(32.0 * 27 / 427)


@steady()
@given(hundredths(40, 60), hundredths(14, 24), hundredths(54, 74), hundredths(250, 600), hundredths(-8, 6))
def test_the_total_inset_is_decentration_and_segment_inset(a, dbl, pd, working, power):
    near = layout.near_pd(pd, working, power)
    one = layout.decentration_in(a, dbl, pd / 2)
    assert layout.total_inset(a, dbl, near) == pytest.approx(one + layout.segment_inset(pd, near), abs=1e-9)
    assert 2 * layout.near_inset(pd / 2, working, power) == pytest.approx(pd - near, abs=1e-9)


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
