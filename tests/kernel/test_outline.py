"""Whatever the family, the outline has the A, B and ED that are printed on the frame."""

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.kernel import outline
from tests.kernel.jobs import FAMILIES, steady


@st.composite
def boxes(draw):
    """A box, a family and an effective diameter it can have."""
    a, b = draw(st.floats(28, 70)), draw(st.floats(18, 60))
    family = draw(st.sampled_from(FAMILIES))
    low, high = outline.effective_diameter_limits(a, b, family)
    return a, b, min(max(low + (high - low) * draw(st.floats(0, 1)), low), high), family


def turns(xs, ys):
    """Cross product of each two sides that meet: above zero where the outline turns left."""
    corners = list(zip(xs, ys, strict=True))
    corners += corners[:2]
    sides = [(q[0] - p[0], q[1] - p[1]) for p, q in pairwise(corners)]
    return [one[0] * other[1] - one[1] * other[0] for one, other in pairwise(sides)]


@steady(150)
@given(boxes())
def test_box_and_effective_diameter_come_out(box):
    a, b, ed, family = box
    xs, ys = outline.from_box(a, b, ed, family)
    assert outline.box(xs, ys) == pytest.approx([-a / 2, a / 2, -b / 2, b / 2], abs=1e-6)
    assert 2 * max(map(math.hypot, xs, ys)) == pytest.approx(ed, abs=1e-4)


@steady(150)
@given(boxes())
def test_outline_is_convex_and_runs_once_around_counter_clockwise(box):
    xs, ys = outline.from_box(*box)
    assert len(xs) == len(ys) == 4 * outline.QUARTER_POINTS
    assert min(turns(xs, ys)) > -1e-9
    around = [math.remainder(math.atan2(q[1], q[0]) - math.atan2(p[1], p[0]), math.tau) for p, q in sides_of(xs, ys)]
    assert min(around) > -1e-12
    assert sum(around) == pytest.approx(math.tau)


def sides_of(xs, ys):
    corners = list(zip(xs, ys, strict=True))
    return pairwise([*corners, corners[0]])


@pytest.mark.parametrize("family", FAMILIES)
def test_fuller_exponents_never_shrink_the_effective_diameter(family):
    found = [
        outline.farthest(*outline.synthesized(52.0, 38.0, family, exponent), 0.0, 0.0)
        for exponent in (1.0, 1.3, 1.7, 2.0, 2.6, 4.0, 8.0, 20.0, 64.0)
    ]
    assert all(one <= other + 1e-12 for one, other in pairwise(found))


@pytest.mark.parametrize("family", FAMILIES)
def test_limits_lie_between_the_longer_side_and_the_diagonal(family):
    low, high = outline.effective_diameter_limits(52.0, 38.0, family)
    assert 52.0 <= low < high <= math.hypot(52.0, 38.0)


@pytest.mark.parametrize("family", FAMILIES)
def test_a_family_touches_its_box_where_its_numbers_say(family):
    """Top and bottom as part of A/2 toward the nose, nasal and temporal side as part of B/2 upward."""
    a, b = 52.0, 38.0
    xs, ys = outline.synthesized(a, b, family, 2.3)
    top, bottom, nasal, temporal = outline.lean(family)[:4]
    assert (xs[ys.index(max(ys))], xs[ys.index(min(ys))]) == pytest.approx((top * a / 2, bottom * a / 2))
    assert (ys[xs.index(max(xs))], ys[xs.index(min(xs))]) == pytest.approx((nasal * b / 2, temporal * b / 2))


@pytest.mark.parametrize("family", FAMILIES)
def test_the_fuller_quarter_of_a_family_comes_nearer_its_corner(family):
    """How near each quarter comes to the corner of its own part of the box follows the family's fullness."""
    a, b = 52.0, 38.0
    xs, ys = outline.synthesized(a, b, family, 2.3)
    top, bottom, nasal, temporal, *fullness = outline.lean(family)
    starts = [(top, nasal, 1, 1), (top, temporal, -1, 1), (bottom, temporal, -1, -1), (bottom, nasal, 1, -1)]

    def nearest(x, y, side, way):
        from_center = [
            ((px - x * a / 2) / (side * a / 2 - x * a / 2), (py - y * b / 2) / (way * b / 2 - y * b / 2))
            for px, py in zip(xs, ys, strict=True)
        ]
        return max(min(one) for one in from_center)

    found = [nearest(*start) for start in starts]
    by_fullness = sorted(range(4), key=lambda quarter: fullness[quarter])
    assert [found[quarter] for quarter in by_fullness] == pytest.approx(sorted(found), abs=1e-9)


def test_limits_do_not_depend_on_how_a_symmetric_box_is_turned():
    assert outline.effective_diameter_limits(52.0, 38.0, "round") == pytest.approx(
        outline.effective_diameter_limits(38.0, 52.0, "round"), abs=1e-12
    )


@pytest.mark.parametrize("exponent", [1.0, 1.5, 2.0, 3.0, 6.0])
def test_round_family_is_symmetric_about_both_axes(exponent):
    xs, ys = outline.synthesized(50.0, 40.0, "round", exponent)
    there = {(round(x, 9) + 0.0, round(y, 9) + 0.0) for x, y in zip(xs, ys, strict=True)}
    assert {(-x + 0.0, y) for x, y in there} == there
    assert {(x, -y + 0.0) for x, y in there} == there


@pytest.mark.parametrize("exponent", [1.5, 2.0, 2.5, 4.0])
def test_area_of_the_plain_superellipse(exponent):
    """Area 4ab Γ(1+1/p)²/Γ(1+2/p): Gridgeman, Math. Gaz. 54 (1970) 31 (memory); a polygon inside lacks a little."""
    a, b = 52.0, 38.0
    whole = a * b * math.gamma(1 + 1 / exponent) ** 2 / math.gamma(1 + 2 / exponent)
    found = outline.area(*outline.synthesized(a, b, "round", exponent))
    assert 0.998 * whole < found <= whole


def test_trace_of_a_circle_is_the_regular_polygon():
    """Closed form: n/2 · r² sin(2π/n) and 2 n r sin(π/n)."""
    xs, ys = outline.from_radii([25.0] * 36)
    assert outline.area(xs, ys) == pytest.approx(18 * 625 * math.sin(math.tau / 36))
    assert outline.perimeter(xs, ys) == pytest.approx(72 * 25 * math.sin(math.pi / 36))
    assert (xs[0], ys[0]) == (25.0, 0.0)
    assert (xs[9], ys[9]) == (0.0, 25.0)


def test_trace_keeps_each_radius_at_its_angle():
    radii = [20.0 + i % 7 for i in range(40)]
    xs, ys = outline.from_radii(radii)
    assert [math.hypot(x, y) for x, y in zip(xs, ys, strict=True)] == pytest.approx(radii)


def test_an_unknown_family_is_refused():
    with pytest.raises(ValueError, match="family"):
        outline.from_box(50.0, 40.0, 54.0, "hexagon")
