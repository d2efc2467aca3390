"""What is wrong with a trace is told by its code and the two numbers, on both sides of each limit."""

import pytest

from quoting.kernel import periodic, trace_faults
from quoting.kernel.trace import equal_angles, from_trace

NAN, INF = float("nan"), float("inf")
CIRCLE = [25.0] * 8
EIGHT = equal_angles(8)


def told(radii, angles, a=50.0, b=50.0):
    """Code and both numbers of each fault; all forbid the trace, for both eyes."""
    found = trace_faults.trace_faults(radii, angles, a, b)
    assert all((one["verdict"], one["eye"]) == ("no", "B") for one in found)
    return [(one["code"], one["needed"], one["given"]) for one in found]


def test_a_circle_has_no_fault():
    assert told(CIRCLE, EIGHT) == []
    assert trace_faults.trace_fault(CIRCLE, EIGHT, 50.0, 50.0) == ""


def test_three_radii_are_enough_and_two_are_not():
    assert told([25.0] * 3, equal_angles(3)) == []
    assert told([25.0] * 2, [0.0, 180.0]) == [("trace-too-few", 3.0, 2.0)]
    assert told([], []) == [("trace-too-few", 3.0, 0.0)]


@pytest.mark.parametrize("count", [7, 9])
def test_each_radius_has_its_angle(count):
    assert told(CIRCLE, equal_angles(count)) == [("trace-angle-count", 8.0, float(count))]


@pytest.mark.parametrize("value", [NAN, INF, -INF, 1000.0, -1000.0])
def test_what_is_no_length_or_absurd_is_told_by_its_place(value):
    assert told([25.0, value, 25.0], equal_angles(3)) == [("trace-not-a-length", 6.0, 2.0)]
    assert told([25.0] * 3, [0.0, 120.0, value]) == [("trace-not-a-length", 6.0, 6.0)]
    assert told([value] * 3, [value, 120.0, 240.0]) == [("trace-not-a-length", 6.0, 1.0)]
    assert told([25.0] * 3, [value, 120.0, 240.0]) == [("trace-not-a-length", 6.0, 4.0)]


def test_a_number_just_below_the_absurd_is_measured():
    assert told([999.0] * 8, EIGHT) == [("trace-box-a", 50.0, 1998.0), ("trace-box-b", 50.0, 1998.0)]


@pytest.mark.parametrize(("radius", "given"), [(0.0, 0.0), (-0.01, -0.01), (-25.0, -25.0)])
def test_a_radius_is_above_zero(radius, given):
    assert told([25.0, radius, -99.0, 25.0], equal_angles(4)) == [("trace-radius", 0.0, given)]


@pytest.mark.parametrize(
    ("angles", "needed", "given"),
    [
        ([0.0, 90.0, 90.0, 270.0], 90.0, 90.0),
        ([0.0, 90.0, 80.0, 270.0], 90.0, 80.0),
        ([10.0, 0.0, 180.0, 270.0], 10.0, 0.0),
    ],
)
def test_angles_rise(angles, needed, given):
    assert told([25.0] * 4, angles) == [("trace-angles-order", needed, given)]


@pytest.mark.parametrize(
    ("angles", "told_of"),
    [
        ([-0.5, 90.0, 180.0, 270.0], [("trace-angles-turn", 0.0, -0.5)]),
        ([90.0, 180.0, 270.0, 360.5], [("trace-angles-turn", 360.0, 360.5)]),
        ([0.0, 120.0, 240.0, 360.0], [("trace-angles-turn", 360.0, 360.0)]),
        ([-10.0, 120.0, 240.0, 355.0], [("trace-angles-turn", 0.0, -10.0), ("trace-angles-turn", 360.0, 365.0)]),
    ],
)
def test_angles_lie_within_one_turn(angles, told_of):
    assert told([25.0] * 4, angles) == told_of


def test_a_turn_may_end_at_360_when_it_did_not_start_at_0():
    assert told([25.0] * 4, [90.0, 180.0, 270.0, 360.0]) == []
    assert told([25.0] * 4, [0.0, 90.0, 180.0, 270.0]) == []


@pytest.mark.parametrize(
    ("angles", "gap"),
    [([0.0, 90.0, 180.0], 180.0), ([0.0, 10.0, 20.0], 340.0), ([0.0, 185.0, 270.0], 185.0)],
)
def test_a_gap_of_half_a_turn_leaves_the_origin_outside(angles, gap):
    assert told([25.0] * 3, angles) == [("trace-gap", 180.0, gap)]


def test_a_gap_below_half_a_turn_is_none():
    assert told([25.0] * 3, [0.0, 179.9, 270.0]) == []


def test_all_faults_of_radii_and_angles_are_told_at_once():
    assert [code for code, _, _ in told([25.0, 0.0, 25.0], [-5.0, 90.0, 370.0])] == [
        "trace-radius",
        "trace-angles-turn",
        "trace-angles-turn",
        "trace-angles-turn",
    ]
    assert [code for code, _, _ in told([25.0, NAN], [0.0])] == [
        "trace-too-few",
        "trace-angle-count",
        "trace-not-a-length",
    ]
    assert trace_faults.trace_fault([25.0, 0.0, 25.0], [0.0, 90.0, 80.0], 50.0, 50.0) == "trace-radius"


def test_a_curve_that_runs_through_its_origin_is_too_rough():
    """Radii that jump so far that the curve between them would turn inside out."""
    radii = [40.0, 0.5, 0.5, 40.0, 0.5, 0.5, 40.0, 0.5, 0.5]
    least = trace_faults.least_radius(periodic.curve_through(equal_angles(9), radii))
    assert least < 0
    assert told(radii, equal_angles(9)) == [("trace-too-rough", 0.0, pytest.approx(least, abs=0.006))]


def test_the_least_radius_is_that_of_the_curve_and_not_only_of_its_points():
    """0.5° steps against 0.01°."""
    curve = periodic.curve_through(equal_angles(9), [30.0, 20.0, 20.0] * 3)
    dense = min(periodic.radius_at(curve, i / 100) for i in range(36000))
    assert dense < 19.0
    assert trace_faults.least_radius(curve) == pytest.approx(dense, abs=0.001)
    assert trace_faults.least_radius(periodic.curve_through(EIGHT, CIRCLE)) == pytest.approx(25.0, abs=1e-12)


@pytest.mark.parametrize("off", [0.5, -0.5])
def test_the_stated_box_is_within_half_a_millimeter(off):
    """ISO 12870, tolerances of marked dimensions (memory)."""
    more = 0.01 if off > 0 else -0.01
    assert told(CIRCLE, EIGHT, 50.0 + off, 50.0) == []
    assert told(CIRCLE, EIGHT, 50.0, 50.0 + off) == []
    assert told(CIRCLE, EIGHT, 50.0 + off + more, 50.0) == [("trace-box-a", round(50.0 + off + more, 2), 50.0)]
    assert told(CIRCLE, EIGHT, 50.0, 50.0 + off + more) == [("trace-box-b", round(50.0 + off + more, 2), 50.0)]


def test_the_box_is_that_of_the_outline_and_both_sides_are_told():
    radii = [28.0, 24.0, 20.0, 24.0, 28.0, 24.0, 20.0, 24.0]
    xs, ys = from_trace(radii, EIGHT, "R")
    width, height = max(xs) - min(xs), max(ys) - min(ys)
    assert told(radii, EIGHT, 40.0, 56.0) == [
        ("trace-box-a", 40.0, pytest.approx(width, abs=0.006)),
        ("trace-box-b", 56.0, pytest.approx(height, abs=0.006)),
    ]
