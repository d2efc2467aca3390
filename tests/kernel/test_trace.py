"""Outlines from traces: the box and ED of the curve come out, whatever the side, the origin and the angles."""

import math
import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.kernel import boxing, outline, periodic, quote, trace
from tests.kernel import jobs
from tests.kernel.jobs import FAMILIES, steady
from tests.kernel.outlines import family_outline, sides_of, trace_of, trace_of_ellipse

EQUAL = trace.equal_angles(120)
COUNT = 4 * outline.QUARTER_POINTS


def turns(xs, ys):
    """How often an outline goes around its box center, counter-clockwise."""
    around = [math.remainder(math.atan2(q[1], q[0]) - math.atan2(p[1], p[0]), math.tau) for p, q in sides_of(xs, ys)]
    return sum(around) / math.tau


def dense_dimensions(radii, angles):
    """Brute force: [A, B, ED] of the curve from 72,000 points of it."""
    curve = periodic.curve_through(angles, radii)
    places = [periodic.point_at(curve, i / 200) for i in range(72000)]
    return boxing.dimensions([x for x, _ in places], [y for _, y in places])


def test_equal_angles_divide_the_turn():
    assert trace.equal_angles(5) == [0.0, 72.0, 144.0, 216.0, 288.0]


@pytest.mark.parametrize("family", FAMILIES)
@pytest.mark.parametrize("count", [36, 120, 400])
def test_no_trace_loses_its_box_or_effective_diameter(family, count):
    """Within 0.01 mm of a dense sampling of the same curve, however few points the outline has."""
    low, high = outline.effective_diameter_limits(52.0, 38.0, family)
    xs, ys = outline.from_box(52.0, 38.0, low + 0.4 * (high - low), family)
    angles = trace.equal_angles(count)
    radii = trace_of(xs, ys, angles, 1.3, -0.8)
    found = trace.from_trace(radii, angles, "R")
    assert [len(found[0]), len(found[1])] == [COUNT, COUNT]
    assert boxing.dimensions(*found) == pytest.approx(dense_dimensions(radii, angles), abs=0.005)
    assert outline.box(*found) == pytest.approx(outline.box(*boxing.about_box_center(*found)), abs=1e-12)
    assert turns(*found) == pytest.approx(1.0)


@pytest.mark.parametrize("family", FAMILIES)
def test_a_fine_trace_of_a_known_outline_gives_it_back(family):
    """400 radii of an outline from A, B and ED: its numbers within 0.03 mm, its area within 0.2 %."""
    low, high = outline.effective_diameter_limits(52.0, 38.0, family)
    ed = low + 0.6 * (high - low)
    xs, ys = outline.from_box(52.0, 38.0, ed, family)
    angles = trace.equal_angles(400)
    found = trace.from_trace(trace_of(xs, ys, angles), angles, "R")
    assert boxing.dimensions(*found) == pytest.approx([52.0, 38.0, ed], abs=0.03)
    assert outline.area(*found) == pytest.approx(outline.area(xs, ys), rel=0.002)
    assert outline.perimeter(*found) == pytest.approx(outline.perimeter(xs, ys), rel=0.002)


@pytest.mark.parametrize(("x", "y"), [(0.0, 0.0), (3.0, -2.0), (-8.0, 6.0), (0.0, 12.0)])
@pytest.mark.parametrize("count", [60, 180, 359])
def test_an_ellipse_traced_from_anywhere_is_about_its_own_box_center(x, y, count):
    """Closed form of the radii; every point of the outline lies on the ellipse about (0, 0)."""
    angles = trace.equal_angles(count)
    xs, ys = trace.from_trace(trace_of_ellipse(52.0, 40.0, angles, x, y), angles, "R")
    assert boxing.dimensions(xs, ys) == pytest.approx([52.0, 40.0, 52.0], abs=0.01)
    assert outline.box(xs, ys) == pytest.approx([-26.0, 26.0, -20.0, 20.0], abs=0.01)
    off = [math.sqrt((p / 26) ** 2 + (q / 20) ** 2) - 1 for p, q in zip(xs, ys, strict=True)]
    assert max(map(abs, off)) * 26 < 0.02


def test_a_traced_outline_starts_where_it_touches_its_box_at_the_nose():
    angles = trace.equal_angles(90)
    xs, ys = trace.from_trace(trace_of_ellipse(52.0, 40.0, angles, 5.0, 5.0), angles, "R")
    assert xs[0] == max(xs)
    assert ys[0] == pytest.approx(0.0, abs=0.05)
    assert ys[1] > ys[0] > ys[-1]


@steady(30)
@given(st.lists(st.floats(22, 27), min_size=3, max_size=40), st.sampled_from(["R", "L", "B"]))
def test_the_mirrored_trace_of_the_other_side_is_the_same_outline(radii, side):
    """Bevelled radii as they come, nothing smooth about them."""
    angles = trace.equal_angles(len(radii))
    other = trace.mirrored_trace(radii, angles)
    one = trace.from_trace(radii, angles, side)
    same = trace.from_trace(*other, "R" if side == "L" else "L")
    assert boxing.dimensions(*same) == pytest.approx(boxing.dimensions(*one), abs=1e-6)
    assert outline.area(*same) == pytest.approx(outline.area(*one), rel=1e-4)
    unmirrored = trace.from_trace(radii, angles, "R")
    mirrored = trace.from_trace(radii, angles, "L")
    assert outline.area(*mirrored) == pytest.approx(outline.area(*unmirrored), rel=1e-2)
    assert boxing.dimensions(*mirrored) == pytest.approx(boxing.dimensions(*unmirrored), abs=1e-3)


def test_the_left_lens_is_the_right_one_seen_in_a_mirror():
    """A trace that leans: its farthest point lies at 30° as seen from the front, so at 150° from a left nose."""
    radii = [24.0 + 4.0 * math.exp(-((math.remainder(angle - 30.0, 360.0) / 25.0) ** 2)) for angle in EQUAL]
    right, left = trace.from_trace(radii, EQUAL, "R"), trace.from_trace(radii, EQUAL, "L")
    assert boxing.longest_direction(*right) == pytest.approx(30.0, abs=3.0)
    assert boxing.longest_direction(*left) == pytest.approx(180.0 - boxing.longest_direction(*right), abs=0.01)
    assert trace.from_trace(radii, EQUAL, "B") == right
    assert boxing.mirrored(*left) != right
    assert outline.box(*left) == pytest.approx(outline.box(*right), abs=1e-9)


@pytest.mark.parametrize("side", ["", "r", "N"])
def test_a_side_there_is_not_is_refused(side):
    with pytest.raises(ValueError, match="right lens"):
        trace.from_trace([25.0] * 4, trace.equal_angles(4), side)


def test_a_mirrored_trace_rises_again_and_its_own_mirror_image_is_the_first():
    radii, angles = [1.0, 2.0, 3.0, 4.0, 5.0], [0.0, 30.0, 180.0, 200.0, 300.0]
    assert trace.mirrored_trace(radii, angles) == [[3.0, 2.0, 1.0, 5.0, 4.0], [0.0, 150.0, 180.0, 240.0, 340.0]]
    assert trace.mirrored_trace(*trace.mirrored_trace(radii, angles)) == [radii, angles]
    assert trace.mirrored_trace([1.0, 2.0, 3.0], [10.0, 180.5, 270.0]) == [[1.0, 3.0, 2.0], [170.0, 270.0, 359.5]]
    assert trace.mirrored_trace([1.0, 2.0], [90.0, 360.0]) == [[1.0, 2.0], [90.0, 180.0]]


@pytest.mark.parametrize("first", [0.25, 1.0, 2.75])
def test_where_the_samples_start_does_not_matter(first):
    """The same ellipse from other angles; an outline keeps within a few thousandths of a millimeter."""
    angles = [first + angle for angle in EQUAL]
    one = trace.from_trace(trace_of_ellipse(50.0, 40.0, EQUAL, 2.0, 1.0), EQUAL, "R")
    other = trace.from_trace(trace_of_ellipse(50.0, 40.0, angles, 2.0, 1.0), angles, "R")
    assert boxing.dimensions(*other) == pytest.approx(boxing.dimensions(*one), abs=0.002)
    assert outline.area(*other) == pytest.approx(outline.area(*one), rel=1e-3)


def test_uneven_angles_trace_the_same_lens():
    seeded = random.Random(8)
    angles = sorted(seeded.uniform(0, 360) for _ in range(300))
    xs, ys = trace.from_trace(trace_of_ellipse(50.0, 40.0, angles, 2.0, 1.0), angles, "R")
    assert boxing.dimensions(xs, ys) == pytest.approx([50.0, 40.0, 50.0], abs=0.01)


@steady(20)
@given(st.floats(0.5, 2.0), st.integers(0, 30))
def test_a_trace_of_another_scale_is_an_outline_of_that_scale(scale, seed):
    xs, ys = family_outline(random.Random(seed))
    radii = trace_of(xs, ys, EQUAL)
    one = boxing.dimensions(*trace.from_trace(radii, EQUAL, "R"))
    other = boxing.dimensions(*trace.from_trace([radius * scale for radius in radii], EQUAL, "R"))
    assert other == pytest.approx([part * scale for part in one], abs=0.006)


def test_a_traced_outline_traced_again_is_itself():
    """Within 0.03 mm: the second trace follows the straight sides of the first outline."""
    radii = trace_of_ellipse(52.0, 40.0, EQUAL, 2.0, 1.0)
    once = trace.from_trace(radii, EQUAL, "R")
    again = trace.from_trace(trace_of(*once, EQUAL), EQUAL, "R")
    assert boxing.dimensions(*again) == pytest.approx(boxing.dimensions(*once), abs=0.03)
    assert outline.area(*again) == pytest.approx(outline.area(*once), rel=1e-3)


def test_three_radii_are_enough():
    xs, ys = trace.from_trace([25.0] * 3, trace.equal_angles(3), "R")
    assert boxing.dimensions(xs, ys) == pytest.approx([50.0, 50.0, 50.0], abs=1e-9)


def test_a_sharp_corner_that_touches_two_sides_of_the_box_is_kept_once():
    """A square's corner is nasal and top touch and farthest point at once; a smooth curve overshoots its tip."""
    xs, ys = [24.0, -24.0, -24.0, 24.0], [24.0, 24.0, -24.0, -24.0]
    found = trace.from_trace(trace_of(xs, ys, trace.equal_angles(360)), trace.equal_angles(360), "R")
    assert boxing.dimensions(*found) == pytest.approx([48.0, 48.0, 48.0 * math.sqrt(2)], abs=0.25)
    assert boxing.dimensions(*found)[0] == pytest.approx(48.0, abs=0.15)
    assert len(found[0]) == COUNT
    assert min(math.dist(p, q) for p, q in sides_of(*found)) > 1e-3
    assert turns(*found) == pytest.approx(1.0)


@pytest.mark.parametrize(
    ("kept", "count", "wanted"),
    [
        ([10.0], 4, [10.0, 100.0, 190.0, 280.0]),
        ([0.0, 180.0], 4, [0.0, 90.0, 180.0, 270.0]),
        ([0.0, 90.0], 6, [0.0, 45.0, 90.0, 157.5, 225.0, 292.5]),
        ([0.0, 0.1, 0.2], 4, [0.0, 0.1, 0.2, 180.1]),
        ([0.0, 1.0, 359.0], 3, [0.0, 1.0, 359.0]),
    ],
)
def test_kept_angles_are_among_the_spread_ones(kept, count, wanted):
    assert trace.spread(kept, count) == pytest.approx(wanted)


def traced_frame(radii, angles):
    """A frame as jobs know it, its outline from a trace; A, B and ED are the trace's own."""
    xs, ys = trace.from_trace(radii, angles, "R")
    a, b, ed = boxing.dimensions(xs, ys)
    return jobs.frame() | {"a": a, "b": b, "ed": ed, "xs": xs, "ys": ys, "traced": True}


def test_a_job_is_answered_on_a_traced_outline_as_on_the_one_it_traces():
    """Blank within 0.1 mm, edges within 0.05 mm and weight within 0.3 %: a trace of 400 radii of the same shape."""
    known = jobs.frame(traced=True)
    radii = trace_of(known["xs"], known["ys"], trace.equal_angles(400))
    given_, traced = (
        quote.answer(jobs.job(jobs.eye(-4.0, -1.0, 30.0), frame=frame))["fit"]["right"]
        for frame in (known, traced_frame(radii, trace.equal_angles(400)))
    )
    assert traced["fault"] == ""
    assert traced["blank_exact"] == pytest.approx(given_["blank_exact"], abs=0.1)
    assert traced["blank_rule"] == pytest.approx(given_["blank_rule"], abs=0.1)
    assert traced["edge_max"] == pytest.approx(given_["edge_max"], abs=0.05)
    assert traced["weight"] == pytest.approx(given_["weight"], rel=0.003)
    assert traced["decentration_in"] == pytest.approx(given_["decentration_in"], abs=0.02)


def test_a_trace_decides_on_the_exact_blank():
    """On an ellipse 52 × 40 with its center 6 mm outward the rule wants what the exact blank does; 6 mm down not."""
    angles = trace.equal_angles(180)
    frame = traced_frame(trace_of_ellipse(52.0, 40.0, angles), angles) | {"dbl": 18.0, "tilt": 0.0}
    measures = jobs.measures(pd_right=35.0, pd_left=35.0, height_right=12.0, height_left=12.0)
    blank = 62.0
    package = jobs.package(ranges=[jobs.part(diameter=blank)])

    def verdict(traced):
        fit = quote.answer(jobs.job(frame=frame | {"traced": traced}, package=package, measures=measures))["fit"]
        assert fit["right"]["blank_exact"] < blank < fit["right"]["blank_rule"]
        return [one["code"] for one in fit["reasons"] if "blank" in one["code"]]

    assert verdict(True) == []
    assert verdict(False) != []
