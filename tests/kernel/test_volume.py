"""Volume against a general library's integration, closed forms, and itself turned and mirrored."""

import math
import random

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import dblquad

from quoting.kernel import outline, sags, surfaces, thickness, volume
from tests.kernel import grids
from tests.kernel.jobs import hundredths, steady

# Points of Gauss's rule across each triangle, for the lenses that dblquad would take too long over
POINTS = 24


def fine_volume(lens, rim, center):
    """Every triangle of the fan by numpy's own Gauss rule, in both directions."""
    nodes, weights = np.polynomial.legendre.leggauss(POINTS)
    part, share = (nodes + 1) / 2, weights / 2
    out, along = np.meshgrid(part, part)
    weight = np.outer(share, share) * out
    total = 0.0
    for i in range(len(rim["xs"])):
        x0, y0, x1, y1 = rim["xs"][i - 1], rim["ys"][i - 1], rim["xs"][i], rim["ys"][i]
        x, y = out * (x0 + (x1 - x0) * along), out * (y0 + (y1 - y0) * along)
        total += (x0 * y1 - x1 * y0) * float((weight * grids.thickness_field(lens, center, x, y)).sum())
    return total


def volume_of(lens, rim, center):
    """The kernel's volume over a rim."""
    return volume.volume(lens, rim, volume.sides_of(rim), center)


def usual(number):
    """A lens whose radii are longer than 1.18 times its rim's reach: nobody grinds closer to a hemisphere."""
    seed = 1000 * number
    while True:
        lens, rim, _center, _edge, center = grids.lens_that_can_be_ground(seed)
        back = thickness.back_surface(lens, center)
        front = surfaces.front_curvature(lens["front"], lens["index"])
        if max(abs(front), abs(back[1])) * rim["reach"] < 0.85:
            return lens, rim, center
        seed += 1


@pytest.mark.parametrize("number", range(220))
def test_volume_is_within_a_thousandth_of_a_fine_integration(number):
    lens, rim, center = usual(number)
    assert volume_of(lens, rim, center) == pytest.approx(fine_volume(lens, rim, center), rel=0.001)


@pytest.mark.parametrize("number", range(12))
def test_volume_over_an_ellipse_is_that_of_dblquad(number):
    """scipy's adaptive integration over the ellipse itself; the polygon of 2,000 points is short of it by 2 in 10⁶."""
    dice = random.Random(number)
    a, b = dice.uniform(20, 28), dice.uniform(14, 22)
    x0, y0 = dice.uniform(-4, 4), dice.uniform(-4, 4)
    angles = [2 * math.pi * k / 2000 for k in range(2000)]
    rim = thickness.rim_around([a * math.cos(t) for t in angles], [b * math.sin(t) for t in angles], x0, y0)
    plain = thickness.grind(
        dice.randrange(-24, 16) / 4, -dice.randrange(0, 12) / 4, 33.0, 5.0, dice.choice(grids.CONICS), 1.6
    )
    lens = thickness.with_prism(plain, dice.choice((0.0, 3.0)), dice.choice((0.0, -2.0)))

    def half_height(x):
        return b * math.sqrt(max(0.0, 1.0 - ((x + x0) / a) ** 2))

    wanted, _error = dblquad(
        lambda y, x: float(grids.thickness_field(lens, 6.0, x, y)),
        -a - x0,
        a - x0,
        lambda x: -half_height(x) - y0,
        lambda x: half_height(x) - y0,
        epsabs=1e-3,
        epsrel=1e-7,
    )
    assert volume_of(lens, rim, 6.0) == pytest.approx(wanted, rel=0.0005)


@steady(30)
@given(hundredths(-8, 6), st.integers(1, 180), hundredths(-4, 0), st.integers(0, 359))
def test_turning_lens_and_rim_together_leaves_the_volume(sphere, axis, cylinder, turn):
    lens = thickness.grind(sphere, cylinder, float(axis), 5.0, 0.0, 1.6)
    turned = thickness.grind(sphere, cylinder, float(axis + turn), 5.0, 0.0, 1.6)
    xs, ys = outline.from_box(50.0, 36.0, 53.0, "panto")
    rim = thickness.rim_around(xs, ys, 2.0, 1.0)
    c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    other = rim | {
        "xs": [x * c - y * s for x, y in zip(rim["xs"], rim["ys"], strict=True)],
        "ys": [x * s + y * c for x, y in zip(rim["xs"], rim["ys"], strict=True)],
    }
    assert volume_of(turned, other, 5.0) == pytest.approx(volume_of(lens, rim, 5.0), rel=1e-12)


@pytest.mark.parametrize(("wedge_x", "wedge_y", "more"), [(0.1, 0.0, 160.0), (0.0, 0.1, -240.0), (0.1, 0.1, -80.0)])
def test_a_wedge_adds_area_times_slope_times_the_way_to_the_centroid(wedge_x, wedge_y, more):
    """A square of 20 mm whose middle lies at (4, -6): 400 mm² · (0.1 · 4), 400 mm² · (0.1 · -6)."""
    flat = thickness.grind(0.0, 0.0, 180.0, 0.0, 0.0, 1.5)
    rim = thickness.rim_around([10.0, -10.0, -10.0, 10.0], [10.0, 10.0, -10.0, -10.0], -4.0, 6.0)
    lens = flat | {"wedge_x": wedge_x, "wedge_y": wedge_y}
    assert volume_of(flat, rim, 2.0) == 800.0
    assert volume_of(lens, rim, 2.0) == pytest.approx(800.0 + more, abs=1e-9)


def test_a_sphere_taken_for_a_torus_has_the_same_volume():
    """The two ways of the sum meet where both curvatures of a torus come near each other."""
    xs, ys = outline.from_box(50.0, 36.0, 53.0, "panto")
    rim = thickness.rim_around(xs, ys, 2.0, 1.0)
    sphere = volume_of(thickness.grind(-4.0, 0.0, 180.0, 5.0, 0.0, 1.6), rim, 2.0)
    nearly = volume_of(thickness.grind(-4.0, -1e-9, 40.0, 5.0, 0.0, 1.6), rim, 2.0)
    assert nearly == pytest.approx(sphere, rel=1e-9)


def test_gauss_points_are_those_of_the_rule():
    """A & S 25.4.30, n = 2, for s·f(s) in s²: (3 ∓ √3) / 6; here in double precision."""
    assert pytest.approx((3.0 - math.sqrt(3.0)) / 6.0, rel=1e-15) == sags.INNER_SQUARED
    assert pytest.approx((3.0 + math.sqrt(3.0)) / 6.0, rel=1e-15) == sags.OUTER_SQUARED
    assert pytest.approx(math.sqrt(sags.INNER_SQUARED), rel=1e-15) == sags.INNER
    assert pytest.approx(math.sqrt(sags.OUTER_SQUARED), rel=1e-15) == sags.OUTER
