"""Segments and marks: common flat tops by their own circle, and what the edge leaves of them."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.kernel import boxing, layout, outline, segment
from tests.kernel.jobs import frames, hundredths, steady

# 50 wide, 40 high; counter-clockwise
WINDOW = [[25.0, 25.0, -25.0, -25.0], [-20.0, 20.0, 20.0, -20.0]]
SEGMENTS = [(28.0, 19.0), (35.0, 22.5), (24.0, 24.0), (22.0, 22.0), (45.0, 27.0)]


def test_sizes_that_a_circle_cannot_have_are_told():
    assert segment.segment_fault(28.0, 14.0) == ""
    assert segment.segment_fault(28.0, 28.0) == ""
    assert segment.segment_fault(28.0, 13.99) == "segment-depth"
    assert segment.segment_fault(28.0, 28.01) == "segment-depth"
    assert segment.segment_fault(0.5, 0.3) == ""
    assert segment.segment_fault(0.0, 0.0) == "segment-width"
    assert segment.segment_fault(-1.0, 5.0) == "segment-width"


@pytest.mark.parametrize(
    ("width", "depth", "below"), [(28.0, 19.0, 5.0), (35.0, 22.5, 5.0), (24.0, 24.0, 12.0), (28.0, 14.0, 0.0)]
)
def test_where_a_segment_is_widest(width, depth, below):
    """(practice) the common flat tops have their circle's center 5 mm under the line."""
    assert segment.widest_below_top(width, depth) == below
    assert segment.segment_width_at(width, depth, below) == width


def test_the_line_of_a_flat_top_is_a_chord_of_its_circle():
    """Chord 2√(r² − 5²), Euclid III.35: 5 × 12 × 13."""
    assert segment.segment_width_at(26.0, 18.0, 0.0) == 24.0
    assert segment.segment_width_at(26.0, 18.0, 10.0) == 24.0
    assert segment.segment_width_at(26.0, 18.0, 17.0) == 10.0
    assert segment.segment_width_at(26.0, 18.0, 17.99) == pytest.approx(2 * math.sqrt(13**2 - 12.99**2))


@pytest.mark.parametrize("below", [-0.01, 18.01, 18.0, 40.0])
def test_above_its_top_and_from_its_lowest_point_on_a_segment_has_no_width(below):
    assert segment.segment_width_at(26.0, 18.0, below) == 0.0


def test_the_top_of_a_round_segment_is_a_point():
    assert segment.segment_width_at(24.0, 24.0, 0.0) == 0.0


@pytest.mark.parametrize(("width", "depth"), SEGMENTS)
def test_the_outline_of_a_segment_has_its_width_and_depth(width, depth):
    xs, ys = segment.segment_outline(width, depth, 2.0, -3.0, 721)
    left, right, low, high = outline.box(xs, ys)
    assert (left, right) == pytest.approx((2 - width / 2, 2 + width / 2), abs=0.001)
    assert (low, high) == pytest.approx((-3 - depth, -3), abs=0.001)
    line = segment.segment_width_at(width, depth, 0.0)
    assert (xs[0], ys[0]) == pytest.approx((2 - line / 2, -3), abs=1e-9)
    assert (xs[-1], ys[-1]) == pytest.approx((2 + line / 2, -3), abs=1e-9)
    assert outline.area(xs, ys) > 0


@pytest.mark.parametrize(("width", "depth"), SEGMENTS)
def test_the_area_of_a_segment_is_that_of_its_cut_circle(width, depth):
    """Closed form: r²(π − α) + r² sin α cos α, with α the half angle of what is cut off."""
    r = width / 2
    cut = math.acos((depth - r) / r)
    whole = r * r * (math.pi - cut + math.sin(cut) * math.cos(cut))
    assert outline.area(*segment.segment_outline(width, depth, 1.0, -2.0, 4001)) == pytest.approx(whole, rel=1e-5)


@pytest.mark.parametrize(
    ("x", "top", "inside"),
    [
        (0.0, 0.0, [24.0, 26.0, 18.0]),
        (15.0, -6.0, [22.0, 23.0, 14.0]),
        (-15.0, -6.0, [22.0, 23.0, 14.0]),
        (0.0, -16.0, [24.0, 0.0, 4.0]),
        (0.0, 22.0, [0.0, 26.0, 16.0]),
        (40.0, 0.0, [0.0, 0.0, 0.0]),
        (30.0, 0.0, [7.0, 8.0, 0.0]),
    ],
)
def test_the_edge_leaves_of_a_segment_what_lies_inside(x, top, inside):
    """A segment 26 wide and 18 deep, its line 24 long, in a window of 50 × 40."""
    assert segment.segment_inside(*WINDOW, x, top, 26.0, 18.0) == inside


@steady(40)
@given(frames(), st.sampled_from(SEGMENTS), hundredths(-4, 8), hundredths(-12, 4))
def test_no_more_of_a_segment_is_inside_than_there_is_and_its_mirror_image_has_as_much(frame, size, x, top):
    found = segment.segment_inside(frame["xs"], frame["ys"], x, top, *size)
    whole = [segment.segment_width_at(*size, 0.0), size[0], size[1]]
    assert all(-1e-9 <= one <= most + 1e-9 for one, most in zip(found, whole, strict=True))
    other = boxing.mirrored(frame["xs"], frame["ys"])
    assert segment.segment_inside(*other, -x, top, *size) == pytest.approx(found, abs=1e-9)


def test_a_segment_set_for_near_lies_where_both_eyes_look():
    """A52 DBL18, near PD 60: total inset 5 (Brooks & Borish, definitions; memory); height 17 of B 40 is 3 below."""
    x, top = layout.total_inset(52.0, 18.0, 60.0), layout.decentration_up(40.0, 17.0)
    assert (x, top) == (5.0, -3.0)
    wide = [[26.0, 26.0, -26.0, -26.0], WINDOW[1]]
    assert segment.segment_inside(*wide, x, top, 28.0, 19.0) == pytest.approx([2 * math.sqrt(171), 28.0, 17.0])


def test_marks_of_a_progressive():
    """(practice) its prism reference point 4 mm under the cross; the rest is the design's."""
    assert segment.progressive_marks(3.0, 5.0, 2.0, 14.0, 2.5) == [3.0, 5.0, 3.0, 1.0, 3.0, 7.0, 5.5, -9.0]


@pytest.mark.parametrize(
    ("x", "y", "spare"),
    [(0.0, 0.0, 16.0), (20.0, 0.0, 1.0), (22.0, 0.0, -1.0), (27.0, 0.0, -6.0), (0.0, -18.0, -2.0), (28.0, 24.0, -9.0)],
)
def test_what_a_circle_of_8_mm_has_to_spare(x, y, spare):
    assert segment.circle_spare(*WINDOW, x, y, 8.0) == spare
