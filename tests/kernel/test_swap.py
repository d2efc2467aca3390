"""Outlines over each other against shapely's own geometry, and what is said at, and just beyond, each limit."""

import math
import random

import pytest
from shapely.geometry import LineString, Polygon

from quoting.kernel import swap
from quoting.kernel.elementary import cos_deg, sin_deg
from quoting.kernel.outline import from_box
from quoting.kernel.trace import from_trace


def circle(radius, x=0.0, y=0.0, count=180):
    angles = [2 * math.pi * i / count for i in range(count)]
    return [x + radius * math.cos(a) for a in angles], [y + radius * math.sin(a) for a in angles]


@pytest.mark.parametrize("family", ["panto", "pilot", "cat-eye", "rectangle"])
@pytest.mark.parametrize("point", [(0.0, 0.0), (3.0, -2.0)])
def test_radii_are_where_a_ray_leaves_the_outline(family, point):
    """Every direction by shapely's intersection of a long line with the polygon."""
    xs, ys = from_box(52.0, 38.0, 55.5, family)
    found = swap.radii_from(xs, ys, *point)
    polygon = Polygon(zip(xs, ys, strict=True))
    for way, radius in enumerate(found):
        angle = 2 * math.pi * way / swap.WAYS
        far = (point[0] + 90 * math.cos(angle), point[1] + 90 * math.sin(angle))
        inside = LineString([point, far]).intersection(polygon)
        assert radius == pytest.approx(inside.length, abs=1e-9)


@pytest.mark.parametrize("count", [120, 360, 400])
@pytest.mark.parametrize("seed", range(12))
def test_a_ray_through_a_corner_meets_the_outline_there(seed, count):
    """A trace has its corners where the rays go, and they lie on them but for the last bits of a float."""
    drawn = random.Random(f"corners {seed}")
    radii = [round(drawn.uniform(19.0, 21.0), 2) for _ in range(count)]
    for cos, sin in ((cos_deg, sin_deg), (lambda a: math.cos(math.radians(a)), lambda a: math.sin(math.radians(a)))):
        xs = [radius * cos(360.0 * i / count) for i, radius in enumerate(radii)]
        ys = [radius * sin(360.0 * i / count) for i, radius in enumerate(radii)]
        found = swap.radii_from(xs, ys, 0.0, 0.0)
        for i in range(0, count, count // math.gcd(count, swap.WAYS)):
            assert found[i * swap.WAYS // count] == pytest.approx(radii[i], abs=1e-7)
        assert min(found) > 18.0


@pytest.mark.parametrize("count", [120, 360])
def test_an_oval_trace_goes_into_its_own_rim(count):
    """Ellipses: their traces are even about the center, from which the rays go out; each laid over itself, shifted."""
    for a, b in ((21.0, 17.0), (23.0, 19.0), (27.0, 19.0)):
        angles = [360.0 * i / count for i in range(count)]
        radii = [1 / math.hypot(cos_deg(angle) / a, sin_deg(angle) / b) for angle in angles]
        xs, ys = from_trace([round(radius, 2) for radius in radii], angles, "R")
        assert min(swap.radii_from(xs, ys, 0.0, 0.0)) == pytest.approx(b, abs=0.05)
        assert swap.aligned([x + 0.3 for x in xs], ys, xs, ys)[0] < 0.03


def test_a_side_along_a_ray_is_met_at_its_ends():
    """A notch in a square, with its upper side on the ray of 0 degrees."""
    xs, ys = [10.0, 20.0, 20.0, -20.0, -20.0, 10.0], [0.0, 0.0, 20.0, 20.0, -20.0, -20.0]
    found = swap.radii_from(xs, ys, 0.0, 0.0)
    assert found[0] == pytest.approx(20.0)
    assert found[-1] == pytest.approx(10.0 / math.cos(math.radians(3.0)))
    assert found[1] == pytest.approx(20.0 / math.cos(math.radians(3.0)))


def test_a_ray_that_meets_no_side_has_no_radius():
    """From a point beside a square, 40 mm to the left of its near side."""
    found = swap.radii_from([20.0, -20.0, -20.0, 20.0], [20.0, 20.0, -20.0, -20.0], -60.0, 0.0)
    assert found[0] == pytest.approx(80.0)
    assert (found[30], found[60], found[90]) == (0.0, 0.0, 0.0)


def test_a_rim_less_than_a_millimeter_away_is_met_as_well():
    assert swap.radii_from([0.5, -0.5, -0.5, 0.5], [0.5, 0.5, -0.5, -0.5], 0.0, 0.0)[30] == pytest.approx(0.5)


@pytest.mark.parametrize("shift", [(-1.0, 0.0), (0.0, -1.0), (1.0, 0.0), (0.0, 1.0)])
def test_a_lens_that_lies_off_is_moved_and_not_called_a_fit_where_it_lies(shift):
    xs, ys = [20.0, -20.0, -20.0, 20.0], [15.0, 15.0, -15.0, -15.0]
    found = swap.aligned(xs, ys, [x + shift[0] for x in xs], [y + shift[1] for y in ys])
    assert found == [pytest.approx(0.0, abs=0.02), *(pytest.approx(one, abs=0.02) for one in shift)]


@pytest.mark.parametrize("shift", [(0.0, 0.0), (0.7, -0.4), (-1.3, 0.9)])
def test_a_shifted_outline_is_moved_back(shift):
    xs, ys = from_box(52.0, 38.0, 55.5, "panto")
    gap, x, y = swap.aligned(xs, ys, [one + shift[0] for one in xs], [one + shift[1] for one in ys])
    assert gap < 0.02
    assert (x, y) == (pytest.approx(shift[0], abs=0.03), pytest.approx(shift[1], abs=0.03))


@pytest.mark.parametrize("wider", [0.0, 0.2, 0.5, 1.0])
def test_a_wider_circle_has_its_gap_all_around(wider):
    gap, x, y = swap.aligned(*circle(24.0), *circle(24.0 + wider, 0.3, 0.2))
    assert gap == pytest.approx(wider, abs=0.02)
    assert math.hypot(x - 0.3, y - 0.2) < 0.05
    longer = swap.circumference_gap(*circle(24.0), *circle(24.0 + wider))
    assert longer == pytest.approx(2 * math.pi * wider, rel=1e-3, abs=1e-9)


def test_the_gap_is_the_same_whichever_lens_goes_into_which():
    one, other = from_box(52.0, 38.0, 55.5, "panto"), from_box(51.4, 37.6, 55.3, "panto")
    assert swap.aligned(*one, *other)[0] == pytest.approx(swap.aligned(*other, *one)[0], abs=0.03)


@pytest.mark.parametrize(
    ("gap", "longer", "curve", "said"),
    [
        (0.3, 0.5, 1.0, "yes"), (0.304, 0.5, 1.0, "yes"), (0.31, 0.0, 0.0, "maybe"), (0.0, 0.51, 0.0, "maybe"),
        (0.0, -0.51, 0.0, "maybe"), (0.0, 0.0, -1.01, "maybe"), (1.5, 3.0, 2.0, "maybe"), (1.51, 0.0, 0.0, "no"),
        (0.0, 3.01, 0.0, "no"), (0.0, 0.0, 2.01, "no"),
    ],
)  # fmt: skip
def test_limits_hold_at_their_edge_and_not_beyond(gap, longer, curve, said):
    assert swap.verdict(gap, longer, curve, True, "yes") == said
    assert swap.verdict(gap, longer, curve, False, "yes") == ("maybe" if said == "yes" else said)


@pytest.mark.parametrize(
    ("one", "other", "said"),
    [
        ("full-rim-metal", "full-rim-plastic", "yes"), ("semi-rimless", "semi-rimless", "yes"),
        ("semi-rimless", "full-rim-metal", "no"), ("drilled", "drilled", "maybe"), ("full-rim-metal", "drilled", "no"),
    ],
)  # fmt: skip
def test_a_lens_is_held_as_it_was_edged(one, other, said):
    assert swap.held_alike(one, other) == swap.held_alike(other, one) == said
    assert swap.verdict(0.0, 0.0, 0.0, True, said) == said
