"""Rays: Snell's law written with angles, points that lie on their surfaces, ways that are the same back and forth."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.kernel import ray, thickness
from tests.kernel.jobs import steady
from tests.kernel.traced_by_numpy import through
from tests.kernel.worn_cases import lenses

FLAT = [0.0, 0.0]
PLANO = thickness.grind(0.0, 0.0, 180.0, 0.0, 0.0, 1.5)


def slanted(degrees, turned=0.0):
    """A direction so many degrees from straight on, in the plane so turned about the axis."""
    s = math.sin(math.radians(degrees))
    turned = math.radians(turned)
    return [s * math.cos(turned), s * math.sin(turned), math.cos(math.radians(degrees))]


@steady()
@given(st.floats(0, 80), st.floats(0, 360), st.floats(1.0, 2.0))
def test_refraction_keeps_the_plane_and_follows_snells_law(degrees, turned, index):
    inside = ray.refracted(slanted(degrees, turned), FLAT, 1.0, index)
    wanted = math.degrees(math.asin(math.sin(math.radians(degrees)) / index))
    assert inside == pytest.approx(slanted(wanted, turned), abs=1e-12)


@steady()
@given(st.floats(0, 40), st.floats(0, 360), st.floats(-0.5, 0.5), st.floats(-0.5, 0.5), st.floats(1.2, 2.0))
def test_light_takes_the_same_way_back(degrees, turned, p, q, index):
    """At a surface with slopes p and q: there and back, and the part along the surface obeys Snell's law."""
    direction = slanted(degrees, turned)
    inside = ray.refracted(direction, [p, q], 1.0, index)
    assert ray.refracted(inside, [p, q], index, 1.0) == pytest.approx(direction, abs=1e-9)
    assert ray.dot(inside, inside) == pytest.approx(1.0)
    for along in ([1.0, 0.0, p], [0.0, 1.0, q]):
        assert index * ray.dot(inside, along) == pytest.approx(ray.dot(direction, along), abs=1e-12)


def test_light_is_reflected_inside_beyond_the_critical_angle():
    """Index 1.5: 41.8 degrees."""
    critical = math.degrees(math.asin(1 / 1.5))
    assert ray.refracted(slanted(critical - 0.01), FLAT, 1.5, 1.0)
    assert ray.refracted(slanted(critical + 0.01), FLAT, 1.5, 1.0) == []


def test_no_ray_runs_along_a_surface_or_sideways_or_meets_it_from_behind():
    assert ray.refracted([0.0, math.sqrt(1 - 0.0011**2), 0.0011], FLAT, 1.0, 1.5)
    assert ray.refracted([0.0, math.sqrt(1 - 0.001**2), 0.001], FLAT, 1.0, 1.5) == []
    assert ray.refracted([0.0, 0.8, -0.6], FLAT, 1.0, 1.5) == []
    # the surface slopes so that the ray meets it, but leaves it sideways
    steep = [0.0, -1000.0]
    assert ray.refracted([0.0, 0.9999, math.sqrt(1 - 0.9999**2)], steep, 1.0, 1.5)
    assert ray.refracted([0.0, 1.0, 0.0], steep, 1.0, 1.5) == []
    # just over the edge: the square of the cosine behind is 0.001² and a little more or less
    sine = math.sqrt(1 - 0.00102**2) / 1.5
    assert ray.refracted([0.0, sine, math.sqrt(1 - sine * sine)], FLAT, 1.5, 1.0)
    sine = math.sqrt(1 - 0.00098**2) / 1.5
    assert ray.refracted([0.0, sine, math.sqrt(1 - sine * sine)], FLAT, 1.5, 1.0) == []


@steady(150)
@given(
    st.floats(-0.03, 0.03),
    st.floats(-3, 1),
    st.tuples(st.floats(-20, 20), st.floats(-20, 20), st.floats(-30, 30)),
    st.floats(0, 40),
    st.floats(0, 360),
)
def test_a_ray_meets_a_conic_on_it_and_on_its_own_line(curvature, conic, point, degrees, turned):
    direction = slanted(degrees, turned)
    met = ray.conic_hit(list(point), direction, curvature, conic)
    if not met:
        return
    way = ray.along(met, list(point), -1.0)
    across = [way[1] * direction[2] - way[2] * direction[1], way[2] * direction[0] - way[0] * direction[2]]
    assert across == pytest.approx([0.0, 0.0], abs=1e-9)
    k = 1.0 + conic
    square = met[0] ** 2 + met[1] ** 2
    depth = curvature * square / (1.0 + math.sqrt(1.0 - k * curvature**2 * square))
    assert met[2] == pytest.approx(depth, abs=1e-9)


def test_a_ray_meets_a_plane_where_it_stands_whichever_way_it_is_followed():
    assert ray.conic_hit([1.0, 2.0, -4.0], slanted(45.0), 0.0, 0.0) == pytest.approx([5.0, 2.0, 0.0])
    assert ray.conic_hit([1.0, 2.0, 4.0], slanted(45.0), 0.0, 0.0) == pytest.approx([-3.0, 2.0, 0.0])


@pytest.mark.parametrize(("sign", "height"), [(1.0, 1.0), (-1.0, -1.0)])
def test_of_the_two_places_on_a_sphere_a_ray_has_the_one_near_the_vertex(sign, height):
    """Radius 5: at 3 from the axis the sphere is 1 deep, and 9 at the far side."""
    for start in (-20.0, 0.0, 20.0):
        met = ray.conic_hit([3.0, 0.0, start], [0.0, 0.0, 1.0], sign * 0.2, 0.0)
        assert met == pytest.approx([3.0, 0.0, height])


def test_a_conic_that_a_ray_passes_by_is_not_met():
    straight = [0.0, 0.0, 1.0]
    assert ray.conic_hit([4.99999, 0.0, -9.0], straight, 0.2, 0.0)
    assert ray.conic_hit([5.0, 0.0, -9.0], straight, 0.2, 0.0) == []
    assert ray.conic_hit([5.1, 0.0, -9.0], straight, 0.2, 0.0) == []
    # the wall of the sphere, 0.001 of its radius before its end
    for part, there in ((0.998, True), (0.9995, False)):
        height = 5.0 * math.sqrt(1 - (1 - part) ** 2)
        assert bool(ray.conic_hit([height, 0.0, -9.0], straight, 0.2, 0.0)) == there
    # a slanted ray that meets only the far half of the sphere
    assert ray.conic_hit([-6.0, 0.0, 6.0], slanted(60.0), 0.2, 0.0) == []
    # and one that goes away from the vertex of a paraboloid's line
    assert ray.conic_hit([40.0, 0.0, 0.0], slanted(60.0), 0.2, -1.0) == []


def test_a_ray_meets_the_back_on_its_depth_and_on_its_own_line():
    for made, center, rng in lenses(60, "backs"):
        point = [rng.uniform(-12, 12), rng.uniform(-12, 12), rng.uniform(-5, 5)]
        direction = slanted(rng.uniform(0, 35), rng.uniform(0, 360))
        met = ray.back_hit(made, center, point, direction)
        way = np.array(met) - np.array(point)
        assert np.cross(way, direction) == pytest.approx(np.zeros(3), abs=1e-9)
        square = met[0] ** 2 + met[1] ** 2
        c = made["front"] / (1000.0 * (made["index"] - 1.0))
        front = c * square / (1.0 + math.sqrt(1.0 - (1.0 + made["conic"]) * c * c * square))
        assert met[2] - front == pytest.approx(thickness.thickness_at(made, center, met[0], met[1]), abs=1e-10)


def test_a_back_that_a_ray_passes_by_is_not_met():
    deep = thickness.grind(-20.0, 0.0, 180.0, 0.5, 0.0, 1.5)
    assert ray.back_hit(deep, 1.0, [24.0, 0.0, 0.0], [0.0, 0.0, 1.0])
    assert ray.back_hit(deep, 1.0, [25.0, 0.0, 0.0], [0.0, 0.0, 1.0]) == []
    assert ray.back_hit(deep, 1.0, [0.0, 0.0, -40.0], slanted(60.0)) == []


def test_a_ray_that_comes_from_beyond_the_wedge_does_not_meet_the_back():
    """A back that slopes by 2 and a ray that slopes by 2 or more run side by side, or the ray comes from behind."""
    wedged = thickness.with_prism(PLANO, 100.0, 0.0)
    assert wedged["wedge_x"] == 2.0
    assert ray.back_hit(wedged, 1.0, [0.0, 0.0, 0.0], ray.unit([0.5 - 1e-6, 0.0, 1.0]))
    assert ray.back_hit(wedged, 1.0, [0.0, 0.0, 0.0], ray.unit([0.5, 0.0, 1.0])) == []
    assert ray.back_hit(wedged, 1.0, [0.0, 0.0, 0.0], ray.unit([0.6, 0.0, 1.0])) == []


def test_the_way_of_a_ray_is_that_of_another_trace():
    """Toric backs as quartic level sets, normals as gradients, Snell's law by numpy."""
    for made, center, rng in lenses(80, "ways"):
        point = [rng.uniform(-8, 8), rng.uniform(-8, 8), -10.0]
        direction = slanted(rng.uniform(0, 30), rng.uniform(0, 360))
        path = ray.path_from_object(made, center, point, direction)
        assert path["hit"]
        assert path["before"] == direction
        front, inside, back, after = through(made, center, point, direction)
        assert path["front"] == pytest.approx(front, abs=1e-9)
        assert path["inside"] == pytest.approx(inside, abs=1e-10)
        assert path["back"] == pytest.approx(back, abs=1e-9)
        assert path["after"] == pytest.approx(after, abs=1e-10)


def test_a_ray_found_from_the_eye_is_the_ray_found_from_the_object():
    for made, center, rng in lenses(60, "both ways"):
        direction = slanted(rng.uniform(0, 30), rng.uniform(0, 360))
        one = ray.path_to_eye(made, center, rng.uniform(-8, 8), rng.uniform(-8, 8), direction)
        other = ray.path_from_object(made, center, ray.along(one["front"], one["before"], -7.0), one["before"])
        assert one["hit"]
        assert other["hit"]
        for key in ("before", "front", "inside", "back", "after"):
            assert one[key] == pytest.approx(other[key], abs=1e-9)
        assert one["after"] == direction


def test_a_ray_to_the_eye_leaves_the_lens_where_it_was_asked_for():
    made = thickness.with_prism(thickness.grind(-4.0, -2.0, 30.0, 4.0, 0.0, 1.6), 2.0, -3.0)
    path = ray.path_to_eye(made, 2.0, 5.0, -3.0, [0.0, 0.0, 1.0])
    square = 5.0**2 + 3.0**2
    c = 4.0 / 600.0
    depth = c * square / (1.0 + math.sqrt(1.0 - c * c * square)) + thickness.thickness_at(made, 2.0, 5.0, -3.0)
    assert path["back"] == pytest.approx([5.0, -3.0, depth], abs=1e-12)


NONE = {"hit": False, "before": [], "front": [], "inside": [], "back": [], "after": []}
STEEP = thickness.grind(-2.0, 0.0, 180.0, 20.0, 0.0, 1.5)  # front of radius 25 mm
PRISM = thickness.with_prism(PLANO, 50.0, 0.0)  # a face that slopes by 45 degrees: beyond the critical angle


@pytest.mark.parametrize(
    ("made", "point", "direction"),
    [
        (STEEP, [26.0, 0.0, -1.0], [0.0, 0.0, 1.0]),  # passes by the front
        (PLANO, [0.0, 0.0, -1.0], [0.0, 1.0, 0.0]),  # runs along it
        (PLANO, [0.0, 0.0, -1.0], [0.0, math.sqrt(1 - 0.0009**2), 0.0009]),  # grazes it
        (
            thickness.grind(-20.0, 0.0, 180.0, 0.0, 0.0, 1.5),
            [25.1, 0.0, -1.0],
            [0.0, 0.0, 1.0],
        ),  # the back is not there
        (PRISM, [0.0, 0.0, -1.0], [0.0, 0.0, 1.0]),  # is reflected inside
    ],
)
def test_a_ray_that_does_not_come_through_is_told(made, point, direction):
    assert ray.path_from_object(made, 2.0, point, direction) == NONE


@pytest.mark.parametrize(
    ("made", "place", "direction"),
    [
        (thickness.grind(-20.0, 0.0, 180.0, 0.0, 0.0, 1.5), (25.1, 0.0), [0.0, 0.0, 1.0]),  # no back there
        (PLANO, (0.0, 0.0), [0.0, 1.0, 0.0]),  # runs along the back
        (thickness.grind(20.0, 0.0, 180.0, 20.0, 0.0, 1.5), (26.0, 0.0), [0.0, 0.0, 1.0]),  # no front there
        (thickness.grind(10.0, 0.0, 180.0, 10.0, 0.0, 1.5), (20.0, 0.0), [0.0, 0.0, 1.0]),  # no thickness there
        (PRISM, (0.0, 0.0), slanted(-45.0)),  # is reflected at the front on its way back
    ],
)
def test_a_ray_that_does_not_come_to_the_eye_is_told(made, place, direction):
    assert ray.path_to_eye(made, 2.0, *place, direction) == NONE
