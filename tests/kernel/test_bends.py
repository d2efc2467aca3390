"""Slopes and bends of surfaces against differences of their depths, taken with 50 digits where it matters."""

import math
from decimal import Decimal, getcontext

import pytest

from quoting.kernel import bends, surfaces, thickness
from tests.kernel.worn_cases import lenses

getcontext().prec = 50


def exact_sag(c, k, square):
    c, k = Decimal(c), Decimal(k)
    return c * square / (1 + (1 - (1 + k) * c * c * square).sqrt())


def exact_torus(base, cross, x, y):
    """(1 - R) / base without loss for small base: the same surface, written with 50 digits."""
    base, cross = Decimal(base), Decimal(cross)
    s = exact_sag(cross, 0, y * y)
    flat = 1 - base * s
    root = (flat * flat - base * base * x * x).sqrt()
    return (2 * s - base * s * s + base * x * x) / (1 + root)


def differences(depth, x, y):
    """[∂x, ∂y, ∂xx, ∂xy, ∂yy] by central differences of 1e-12 mm: exact to about 20 digits here."""
    x, y, h = Decimal(x), Decimal(y), Decimal("1e-12")
    mid = depth(x, y)
    return [
        float((depth(x + h, y) - depth(x - h, y)) / (2 * h)),
        float((depth(x, y + h) - depth(x, y - h)) / (2 * h)),
        float((depth(x + h, y) - 2 * mid + depth(x - h, y)) / (h * h)),
        float((depth(x + h, y + h) - depth(x + h, y - h) - depth(x - h, y + h) + depth(x - h, y - h)) / (4 * h * h)),
        float((depth(x, y + h) - 2 * mid + depth(x, y - h)) / (h * h)),
    ]


@pytest.mark.parametrize("curvature", [0.02, -0.013, 0.0])
@pytest.mark.parametrize("conic", [0.0, -1.0, -2.5, 0.7])
@pytest.mark.parametrize(("x", "y"), [(0.0, 0.0), (12.0, 0.0), (-7.0, 15.0), (3.0, -21.0)])
def test_a_conic_bends_as_its_depth_does(curvature, conic, x, y):
    wanted = differences(lambda a, b: exact_sag(curvature, conic, a * a + b * b), x, y)
    assert bends.conic_bend(curvature, conic, x, y) == pytest.approx(wanted, rel=1e-11, abs=1e-14)


@pytest.mark.parametrize(
    ("base", "cross"), [(0.004, 0.02), (-0.004, 0.02), (0.0, -0.015), (0.01, 0.01), (-0.02, -0.03)]
)
@pytest.mark.parametrize(("x", "y"), [(0.0, 0.0), (12.0, 0.0), (-7.0, 15.0), (3.0, -21.0)])
def test_a_torus_bends_as_its_depth_does(base, cross, x, y):
    wanted = differences(lambda a, b: exact_torus(base, cross, a, b), x, y)
    assert bends.toric_bend(base, cross, x, y) == pytest.approx(wanted, rel=1e-11, abs=1e-14)


def test_front_and_back_of_a_lens_bend_as_its_thickness_says():
    """By differences of the kernel's own depths, which other tests hold: 0.02 mm apart."""
    h = 0.02
    for made, center, rng in lenses(40, "bends"):
        x, y = rng.uniform(-15, 15), rng.uniform(-15, 15)
        back = thickness.back_surface(made, center)
        c = surfaces.front_curvature(made["front"], made["index"])

        def front_depth(a, b, c=c, made=made):
            return surfaces.sag(c, made["conic"], a * a + b * b)

        def back_depth(a, b, back=back, made=made):
            return thickness.back_sag(back, a, b) + made["wedge_x"] * a + made["wedge_y"] * b

        for depth, found in (
            (front_depth, bends.front_bend(made, x, y)),
            (back_depth, bends.back_bend(made, back, x, y)),
        ):
            slopes = [(depth(x + h, y) - depth(x - h, y)) / (2 * h), (depth(x, y + h) - depth(x, y - h)) / (2 * h)]
            both = depth(x + h, y + h) - depth(x + h, y - h) - depth(x - h, y + h) + depth(x - h, y - h)
            rest = [
                (depth(x + h, y) - 2 * depth(x, y) + depth(x - h, y)) / (h * h),
                both / (4 * h * h),
                (depth(x, y + h) - 2 * depth(x, y) + depth(x, y - h)) / (h * h),
            ]
            assert found == pytest.approx([*slopes, *rest], rel=1e-5, abs=1e-7)


def test_the_back_is_there_up_to_its_walls():
    """Curvatures 0.01 along and 0.02 across: the arc ends at 50 mm; along, the torus at 100 mm from its axis."""
    turned = [0.01, 0.02, 0.0, 1.0]  # the base curve along y
    assert bends.back_has(turned, 49.999, 0.0)
    assert not bends.back_has(turned, 50.0, 0.0)
    assert not bends.back_has(turned, -50.0, 0.0)
    assert bends.back_has(turned, 0.0, -99.99)
    assert not bends.back_has(turned, 0.0, 100.0)
    assert not bends.back_has(turned, 0.0, -100.0)


def test_a_torus_ends_earlier_where_its_arc_is_deep():
    """At 40 mm across the arc of radius 50 is 20 mm deep: the circle there has a radius of 80 mm, or 120 outward."""
    inward = [0.01, 0.02, 1.0, 0.0]
    assert bends.back_has(inward, 79.99, 40.0)
    assert not bends.back_has(inward, 80.01, 40.0)
    outward = [-0.01, 0.02, 1.0, 0.0]
    assert bends.back_has(outward, 119.99, 40.0)
    assert not bends.back_has(outward, 120.01, 40.0)


def test_a_place_between_the_meridians_is_turned_before_it_is_asked():
    half = math.sqrt(0.5)
    slanted = [0.01, 0.02, half, half]  # the base curve along 45 degrees
    assert bends.back_has(slanted, 60.0, 60.0)
    assert not bends.back_has(slanted, -60.0, 60.0)
