"""Thickness and volume against an integration written here from the plain geometry, not from the kernel."""

import math
import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.kernel import outline, section, surfaces, thickness, volume
from quoting.kernel.center import NO_CENTER, solved_center
from tests.kernel.jobs import FAMILIES, frame, hundredths, points, quarters, steady

ROWS = 800
COLUMNS = 8


def random_lens(number):
    """A lens that can be ground, its rim and its center; the same for the same number."""
    dice = random.Random(number)
    while True:
        a, b = dice.uniform(38, 60), dice.uniform(24, 48)
        family = dice.choice(FAMILIES)
        low, high = outline.effective_diameter_limits(a, b, family)
        xs, ys = points(a, b, dice.uniform(low, high), family)
        index = dice.choice((1.498, 1.586, 1.67, 1.74))
        plain = thickness.grind(
            dice.randrange(-32, 24) / 4,
            -dice.randrange(0, 16) / 4,
            float(dice.randrange(1, 181)),
            dice.uniform(0.5, 8),
            dice.choice((0.0, 0.0, -0.6, 0.4)),
            index,
        )
        lens = thickness.with_prism(plain, dice.choice((0.0, 0.0, 2.0, -3.0)), dice.choice((0.0, 0.0, 1.5, -2.0)))
        rim = thickness.rim_around(list(xs), list(ys), dice.uniform(-5, 6), dice.uniform(-4, 6))
        center = solved_center(lens, rim, 1.3, 1.0)
        if center != NO_CENTER and steepest(lens, center) * rim["reach"] < 0.85:
            return lens, rim, center


def steepest(lens, center):
    """Steepest curvature of all; nobody grinds close to a hemisphere, and no rule integrates well there."""
    return max(
        abs(surfaces.front_curvature(lens["front"], lens["index"])), abs(thickness.back_surface(lens, center)[1])
    )


def depth_of_conic(radius, conic, y):
    if radius == math.inf:
        return 0.0
    if conic == -1.0:
        return y * y / (2 * radius)
    k = 1 + conic
    return (radius - math.copysign(math.sqrt(radius * radius - k * y * y), radius)) / k


def radius_of(power, index):
    return math.inf if abs(power) < 1e-12 else 1000 * (index - 1) / power


def independent_thickness(lens, center, x, y):
    """From the definitions: thick-lens back powers, circles for the meridians, the flatter one turned into a torus."""
    n, f1 = lens["index"], lens["front"]
    met = f1 / (1 - center / 1000 / n * f1)
    a = math.radians(lens["axis"])
    along, across = x * math.cos(a) + y * math.sin(a), -x * math.sin(a) + y * math.cos(a)
    backs = [(met - lens["sphere"], along), (met - lens["sphere"] - lens["cylinder"], across)]
    (flat, on_flat), (steep, on_steep) = sorted(backs, key=lambda one: abs(one[0]))
    arc = depth_of_conic(radius_of(steep, n), 0.0, on_steep)
    turned = radius_of(flat, n)
    back = arc
    if turned != math.inf:
        back = turned - math.copysign(math.sqrt((turned - arc) ** 2 - on_flat**2), turned)
    front = depth_of_conic(radius_of(f1, n), lens["conic"], math.hypot(x, y))
    wedge = lens["wedge_x"] * x + lens["wedge_y"] * y
    return center - front + back + wedge


def span(xs, ys, y):
    """Where a horizontal crosses a convex outline."""
    found = []
    for i in range(len(xs)):
        y0, y1 = ys[i - 1], ys[i]
        if (y0 <= y) != (y1 <= y):
            found.append(xs[i - 1] + (xs[i] - xs[i - 1]) * (y - y0) / (y1 - y0))
    return min(found), max(found)


def independent_volume(lens, rim, center):
    """Rows over the outline, each by Simpson's rule."""
    xs, ys = rim["xs"], rim["ys"]
    bottom, height = min(ys), max(ys) - min(ys)
    weights = [1, *(4 if column % 2 else 2 for column in range(1, COLUMNS)), 1]
    total = 0.0
    for row in range(ROWS):
        y = bottom + height * (row + 0.5) / ROWS
        left, right = span(xs, ys, y)
        step = (right - left) / COLUMNS
        thick = [independent_thickness(lens, center, left + step * column, y) for column in range(COLUMNS + 1)]
        total += step / 3 * sum(weight * one for weight, one in zip(weights, thick, strict=True))
    return total * height / ROWS


@pytest.mark.parametrize("number", range(60))
def test_volume_is_that_of_a_fine_grid_within_a_thousandth(number):
    lens, rim, center = random_lens(number)
    found = volume.volume(lens, rim, volume.sides_of(rim), center)
    assert found == pytest.approx(independent_volume(lens, rim, center), rel=0.001)


@pytest.mark.parametrize("number", range(60))
def test_every_edge_is_as_thick_as_plain_geometry_says(number):
    lens, rim, center = random_lens(number)
    found = thickness.edges(rim, thickness.lost_in_front(lens, rim), thickness.back_surface(lens, center), center)
    for x, y, thick in zip(rim["xs"], rim["ys"], found, strict=True):
        assert thick == pytest.approx(independent_thickness(lens, center, x, y), abs=1e-7)
        assert thick == pytest.approx(thickness.thickness_at(lens, center, x, y), abs=1e-12)


@pytest.mark.parametrize("number", range(60))
def test_solved_lens_has_its_prescription_in_both_principal_meridians(number):
    """Back vertex power of front and back as ground, each meridian by itself."""
    lens, _rim, center = random_lens(number)
    flat, steep, c, s = thickness.back_surface(lens, center)
    turned = math.degrees(math.atan2(s, c))
    for curvature, meridian in ((flat, turned), (steep, turned + 90.0)):
        back = curvature / surfaces.back_curvature(1.0, lens["index"])
        found = surfaces.back_vertex_power(lens["front"], back, center, lens["index"])
        wanted = lens["sphere"] + lens["cylinder"] * math.sin(math.radians(meridian - lens["axis"])) ** 2
        assert found == pytest.approx(wanted, abs=1e-9)


@pytest.mark.parametrize(
    ("sphere", "front", "why"),
    [
        (2.0, 24.0, "the front's radius of 20.8 mm ends inside a rim of 27 mm"),
        (-20.0, 1.0, "the back's radius of 23.8 mm ends inside it"),
    ],
)
def test_no_center_where_a_surface_ends_inside_the_outline(sphere, front, why):
    one = frame(54.0, 40.0, 18.0, 54.5, "oval")
    rim = thickness.rim_around(one["xs"], one["ys"], 0.0, 0.0)
    lens = thickness.grind(sphere, 0.0, 180.0, front, 0.0, 1.5)
    assert solved_center(lens, rim, 1.5, 1.0) == NO_CENTER, why


def test_reach_ends_exactly_at_the_hemisphere():
    assert thickness.reaches(1 / 25.0, 0.0, 24.999)
    assert not thickness.reaches(1 / 25.0, 0.0, 25.0)
    assert thickness.reaches(1 / 25.0, -1.0, 1000.0), "a paraboloid has no end"


def centered(index=1.6):
    one = frame()
    return thickness.rim_around(one["xs"], one["ys"], 0.0, 0.0), index


def thickest_edge(sphere, front, center, index):
    rim, _ = centered()
    lens = thickness.grind(sphere, 0.0, 180.0, front, 0.0, index)
    return max(thickness.edges(rim, thickness.lost_in_front(lens, rim), thickness.back_surface(lens, center), center))


@steady()
@given(quarters(-10, -0.25), hundredths(1.48, 1.8), hundredths(0.5, 6))
def test_minus_edges_grow_with_power(sphere, index, front):
    assert thickest_edge(sphere - 0.25, front, 1.5, index) > thickest_edge(sphere, front, 1.5, index)


@steady()
@given(quarters(-10, -0.5), hundredths(1.48, 1.8), hundredths(0.5, 6))
def test_minus_edges_fall_with_the_index_at_equal_center(sphere, index, nominal):
    edges = [
        thickest_edge(sphere, surfaces.true_power(nominal, one), 1.5, one) for one in (index, index + 0.01, index + 0.1)
    ]
    assert edges == sorted(edges, reverse=True)
    assert edges[0] > edges[2]


@steady()
@given(quarters(0.5, 8), hundredths(4, 9), hundredths(1.48, 1.8))
def test_plus_centers_grow_with_power_and_with_the_edge(sphere, front, index):
    rim, _ = centered()

    def center(power, edge):
        return solved_center(thickness.grind(power, 0.0, 180.0, front, 0.0, index), rim, 0.5, edge)

    assert center(sphere + 0.25, 1.0) > center(sphere, 1.0)
    assert center(sphere, 1.2) > center(sphere, 1.0)


@steady()
@given(st.integers(-6, 6), st.integers(-6, 6), hundredths(-20, 20), hundredths(-20, 20))
def test_prescribed_prism_thickens_toward_its_base(prism_x, prism_y, x, y):
    plain = thickness.grind(-2.0, -1.0, 30.0, 5.0, 0.0, 1.6)
    lens = thickness.with_prism(plain, float(prism_x), float(prism_y))
    more = thickness.thickness_at(lens, 2.0, x, y) - thickness.thickness_at(plain, 2.0, x, y)
    assert more == pytest.approx((prism_x * x + prism_y * y) / 60.0, abs=1e-9)


@pytest.mark.parametrize(
    ("x", "y", "word"),
    [
        (1, 0, "nasal"),
        (1, 1, "upper nasal"),
        (0, 1, "top"),
        (-1, 1, "upper temporal"),
        (-1, 0, "temporal"),
        (-1, -1, "lower temporal"),
        (0, -1, "bottom"),
        (1, -1, "lower nasal"),
        (1, -0.01, "nasal"),
    ],
)
def test_places_are_named_as_the_wearer_is_seen(x, y, word):
    assert thickness.place(float(x), float(y)) == word


def test_section_is_the_lens_along_the_horizontal():
    lens, rim, center = random_lens(7)
    xs, fronts, backs = section.section(lens, rim, center)
    left, right = span(rim["xs"], rim["ys"], 0.0)
    assert (xs[0], xs[-1]) == pytest.approx((left, right))
    for x, front, back in zip(xs, fronts, backs, strict=True):
        assert back - front == pytest.approx(independent_thickness(lens, center, x, 0.0), abs=1e-7)


def test_section_of_a_rim_that_lies_apart_from_the_horizontal_has_no_width():
    rim = thickness.rim_around([10.0, 0.0, -10.0], [0.0, 10.0, 0.0], 0.0, 20.0)
    assert section.crossing(rim) == [0.0, 0.0]


def test_long_sides_of_an_outline_are_divided_and_short_ones_are_not():
    """Sides of 8, 8.5, 8 and 17 mm and one back: none, one point, none, two points, none."""
    xs, ys = [0.0, 8.0, 8.0, 0.0, 0.0], [0.0, 0.0, 8.5, 8.5, 25.5]
    rim = thickness.rim_around(xs, ys, 1.0, -2.0)
    back = math.floor(25.5 / thickness.LONGEST_MM)
    assert rim["xs"] == pytest.approx([-1.0] * back + [-1.0, 7.0, 7.0, 7.0, -1.0, -1.0, -1.0, -1.0])
    assert rim["ys"][back:] == pytest.approx([2.0, 2.0, 6.25, 10.5, 10.5, 10.5 + 17 / 3, 10.5 + 34 / 3, 27.5])
    assert rim["ys"][:back] == pytest.approx([2.0 + 25.5 * (back - k) / (back + 1) for k in range(back)])
    assert rim["reach"] == pytest.approx(math.hypot(1.0, 27.5))


@pytest.mark.parametrize("number", range(20))
def test_a_rim_keeps_the_points_of_its_outline_and_its_area(number):
    lens, rim, _center = random_lens(number)
    assert lens
    around = thickness.rim_around(rim["xs"], rim["ys"], 0.5, -0.5)
    assert set(zip(around["xs"], around["ys"], strict=True)) >= {
        (x - 0.5, y + 0.5) for x, y in zip(rim["xs"], rim["ys"], strict=True)
    }
    assert outline.area(around["xs"], around["ys"]) == pytest.approx(outline.area(rim["xs"], rim["ys"]), rel=1e-12)
    sides = zip(
        around["xs"], around["ys"], around["xs"][-1:] + around["xs"], around["ys"][-1:] + around["ys"], strict=False
    )
    assert max(math.hypot(x - x0, y - y0) for x, y, x0, y0 in sides) <= thickness.LONGEST_MM + 1e-9
