"""Cross-check: outlines and a general geometry library that knows nothing of lenses, over 240 random outlines."""

import math
import random

import pytest
import shapely
import shapely.affinity
from shapely import LineString, Point, Polygon

from quoting.kernel import boxing, outline, segment
from tests.kernel.outlines import blank_exact, random_outlines

OUTLINES = random_outlines(240, 11)


@pytest.fixture(scope="module")
def polygons():
    """The same outlines as the library's polygons."""
    found = [Polygon(zip(xs, ys, strict=True)) for xs, ys in OUTLINES]
    assert all(one.is_valid and one.exterior.is_ccw for one in found)
    return found


def test_there_are_convex_and_hollow_ones(polygons):
    hollow = [one for one in polygons if one.convex_hull.area > one.area * 1.01]
    assert len(hollow) > 50
    assert len(polygons) - len(hollow) > 50


def test_area_perimeter_and_box(polygons):
    for (xs, ys), one in zip(OUTLINES, polygons, strict=True):
        assert outline.area(xs, ys) == pytest.approx(one.area, rel=1e-12)
        assert outline.perimeter(xs, ys) == pytest.approx(one.length, rel=1e-12)
        left, low, right, high = one.bounds
        assert outline.box(xs, ys) == [left, right, low, high]
        assert boxing.dimensions(xs, ys)[:2] == [right - left, high - low]


def test_effective_diameter_and_exact_blank_are_twice_the_farthest_distance(polygons):
    """The discrete Hausdorff distance of a polygon from one point is that of its farthest corner."""
    seeded = random.Random(12)
    for (xs, ys), one in zip(OUTLINES, polygons, strict=True):
        left, low, right, high = one.bounds
        center = Point((left + right) / 2, (low + high) / 2)
        assert boxing.dimensions(xs, ys)[2] == pytest.approx(2 * shapely.hausdorff_distance(one, center), abs=1e-10)
        place, allowance = Point(seeded.uniform(-8, 8), seeded.uniform(-8, 8)), seeded.uniform(0, 3)
        exact = 2 * shapely.hausdorff_distance(one, place) + allowance
        assert blank_exact(xs, ys, place.x, place.y, allowance) == pytest.approx(exact, abs=1e-10)


def test_the_exact_blank_covers_the_outline_and_a_smaller_one_does_not(polygons):
    """A circle of 4000 corners around the outside, and one that is 0.05 mm too small."""
    for (xs, ys), one in list(zip(OUTLINES, polygons, strict=True))[::6]:
        radius = blank_exact(xs, ys, 3.0, -2.0, 0.0) / 2
        circle = [(math.cos(math.tau * i / 4000), math.sin(math.tau * i / 4000)) for i in range(4000)]
        for size, covers in ((radius * 1.00001, True), (radius - 0.025, False)):
            assert Polygon([(3 + size * u, -2 + size * v) for u, v in circle]).covers(one) == covers


def test_shortest_distance_and_which_side_of_the_edge(polygons):
    seeded = random.Random(13)
    for (xs, ys), one in zip(OUTLINES, polygons, strict=True):
        for _ in range(4):
            place = Point(seeded.uniform(-40, 40), seeded.uniform(-40, 40))
            away = one.exterior.distance(place)
            assert boxing.nearest(xs, ys, place.x, place.y) == pytest.approx(away, abs=1e-10)
            assert boxing.is_inside(xs, ys, place.x, place.y) == one.contains(place)
            spare = away if one.contains(place) else -away
            assert segment.circle_spare(xs, ys, place.x, place.y, 8.0) == pytest.approx(spare - 4, abs=1e-10)


def test_stretches_inside(polygons):
    seeded = random.Random(14)
    for (xs, ys), one in zip(OUTLINES, polygons, strict=True):
        x, y, long = seeded.uniform(-25, 15), seeded.uniform(-15, 15), seeded.uniform(1, 30)
        across = LineString([(x, y), (x + long, y)]).intersection(one).length
        upward = LineString([(x, y), (x, y + long)]).intersection(one).length
        assert boxing.inside_across(xs, ys, y, x, x + long) == pytest.approx(across, abs=1e-9)
        assert boxing.inside_upward(xs, ys, x, y, y + long) == pytest.approx(upward, abs=1e-9)


def test_what_is_left_of_a_segment(polygons):
    """Its top, its widest line and its middle, cut with the outline."""
    seeded = random.Random(15)
    for (xs, ys), one in zip(OUTLINES, polygons, strict=True):
        width, depth = seeded.choice([(28.0, 19.0), (35.0, 22.5), (24.0, 24.0)])
        x, top = seeded.uniform(-3, 8), seeded.uniform(-12, 3)
        half = math.sqrt(max(0.0, (width / 2) ** 2 - (depth - width / 2) ** 2))
        widest = top - (depth - width / 2)
        lines = [
            LineString([(x - half, top), (x + half, top)]),
            LineString([(x - width / 2, widest), (x + width / 2, widest)]),
            LineString([(x, top - depth), (x, top)]),
        ]
        inside = [line.intersection(one).length for line in lines]
        assert segment.segment_inside(xs, ys, x, top, width, depth) == pytest.approx(inside, abs=1e-9)


def test_the_mirror_image(polygons):
    for (xs, ys), one in zip(OUTLINES, polygons, strict=True):
        other = Polygon(zip(*boxing.mirrored(xs, ys), strict=True))
        flipped = shapely.affinity.scale(one, -1.0, 1.0, origin=(0, 0))
        assert other.exterior.is_ccw
        assert other.symmetric_difference(flipped).area == pytest.approx(0.0, abs=1e-9)
