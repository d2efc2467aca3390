"""Each step of the search for the thinnest and the thickest spot, against a grid and against slopes worked out by hand.

The whole of it is held to a grid in test_center.py.
"""

import math
import random

import numpy as np
import pytest

from quoting.kernel import edge, extremes, thickness
from tests.kernel import grids


def square(half, x=0.0, y=0.0):
    """A square about the point (-x, -y); its sides are as short as those of any rim."""
    return thickness.rim_around([half, -half, -half, half], [half, half, -half, -half], x, y)


def tilted(prism_x, prism_y, sphere=-3.0, front=4.0, conic=0.0, cylinder=0.0, axis=180.0):
    plain = thickness.grind(sphere, cylinder, axis, front, conic, 1.6)
    return thickness.with_prism(plain, prism_x, prism_y)


def radii(lens, center):
    """Radii of front and back, mm, of a lens without cylinder: R = 1000 (n − 1) / F."""
    scale = 1000 * (lens["index"] - 1)
    met = lens["front"] / (1 - center / 1000 / lens["index"] * lens["front"])
    return scale / lens["front"], scale / (met - lens["sphere"])


def slopes_and_bends(lens, center, x, y):
    """First and second derivatives of the thickness of a lens of two spheres: of √(R² − x² − y²), by hand."""
    front, back = radii(lens, center)
    slope, bend = np.array([lens["wedge_x"], lens["wedge_y"]]), np.zeros((2, 2))
    for radius, sign in ((front, -1), (back, 1)):
        root = math.copysign(math.sqrt(radius**2 - x * x - y * y), radius)
        slope = slope + sign * np.array([x, y]) / root
        bend = bend + sign * (np.eye(2) / root + np.outer([x, y], [x, y]) / root**3)
    return slope, bend


@pytest.mark.parametrize(("x", "y"), [(3.0, -2.0), (-9.0, 14.0), (17.0, 8.0)])
@pytest.mark.parametrize("lens", [tilted(4.0, -2.5), tilted(-1.0, 6.0, sphere=-8.5, front=1.0)])
def test_a_step_leads_to_where_slopes_and_bends_say_the_thickness_turns(lens, x, y):
    """Newton's step; the nine places lie half a millimeter apart, which costs it some thousandths."""
    slope, bend = slopes_and_bends(lens, 2.0, x, y)
    wanted = -np.linalg.solve(bend, slope)
    back = thickness.back_surface(lens, 2.0)
    assert extremes.step_toward(lens, back, 2.0, x, y, 1.0) == pytest.approx(wanted, rel=0.004)
    assert extremes.step_toward(lens, back, 2.0, x, y, -1.0) == []


def test_a_toric_back_is_followed_across_its_meridians():
    """The twist of an oblique cylinder: from the middle of a lens straight to where a fine grid is thinnest."""
    lens = tilted(2.0, 1.0, cylinder=-3.0, axis=35.0)
    back, away = thickness.back_surface(lens, 2.0), np.arange(-14, 14, 0.02)
    x, y = np.meshgrid(away, away)
    field = grids.thickness_field(lens, 2.0, x, y)
    at = np.unravel_index(field.argmin(), field.shape)
    step = extremes.step_toward(lens, back, 2.0, 0.0, 0.0, 1.0)
    assert step == pytest.approx([x[at], y[at]], abs=0.25)
    spot = extremes.searched(lens, back, 2.0, square(20.0), 1.0)
    assert spot == pytest.approx([field.min(), x[at], y[at]], abs=0.02)


def test_a_lens_that_is_thinnest_or_thickest_at_its_center_says_so_to_the_bit():
    """Without prism; a spherical front, or a conic one whose ring lies outside or is the other extreme."""
    for lens in (tilted(0.0, 0.0), tilted(0.0, 0.0, conic=-0.5), tilted(0.0, 0.0, sphere=-9.0, front=2.0, conic=-3.0)):
        back = thickness.back_surface(lens, 2.0)
        assert extremes.ring(lens, back, 2.0, square(20.0), 1.0) == [2.0, 0.0, 0.0]
        assert extremes.scanned(lens, back, 2.0, square(20.0), 1.0) == [2.0, 0.0, 0.0]
        assert extremes.searched(lens, back, 2.0, square(20.0), 1.0) == [2.0, 0.0, 0.0]


def ring_of(lens, center, axis):
    """[thickness, way] where a lens is thinnest along a direction, degrees, by a fine ruler of 24 mm."""
    away = np.linspace(0, 24, 48001)
    turned = math.radians(axis)
    field = grids.thickness_field(lens, center, away * math.cos(turned), away * math.sin(turned))
    return field.min(), away[field.argmin()]


@pytest.mark.parametrize(
    ("cylinder", "axis", "sign"), [(0.0, 180.0, 1.0), (-0.25, 180.0, 1.0), (-0.25, 90.0, 1.0), (-0.25, 30.0, 1.0)]
)
def test_a_ring_is_found_where_its_thinnest_spot_lies_and_only_inside_the_rim(cylinder, axis, sign):
    """+0.25 on +6.00 with conic -2.5; the meridian of less power, that of the axis for minus cylinders, turns first."""
    lens = tilted(0.0, 0.0, sphere=0.25, front=6.0, conic=-2.5, cylinder=cylinder, axis=axis)
    back = thickness.back_surface(lens, 2.0)
    across = axis + 90.0
    depth, way = min(ring_of(lens, 2.0, axis), ring_of(lens, 2.0, across))
    found = extremes.ring(lens, back, 2.0, square(30.0), sign)
    assert found[0] == pytest.approx(depth, abs=1e-7)
    assert math.hypot(found[1], found[2]) == pytest.approx(way, abs=0.01)
    assert grids.thickness_field(lens, 2.0, found[1], found[2]) == pytest.approx(depth, abs=1e-7)
    # The same ring, with a rim that has only one of its two spots, and with one that has neither
    x, y = found[1], found[2]
    one_side = square(10.0, -x, -y)
    assert extremes.ring(lens, back, 2.0, one_side, sign) == pytest.approx([depth, x, y], abs=1e-7)
    other_side = square(10.0, x, y)
    assert extremes.ring(lens, back, 2.0, other_side, sign) == pytest.approx([depth, -x, -y], abs=1e-7)
    assert extremes.ring(lens, back, 2.0, square(4.0), sign) == [2.0, 0.0, 0.0]


@pytest.mark.parametrize("seed", range(12))
def test_the_coarse_scan_ends_inside_the_rim_and_at_the_best_of_what_it_saw(seed):
    dice = random.Random(seed)
    lens = tilted(dice.uniform(2, 5), dice.uniform(-5, -2), cylinder=-dice.uniform(0, 3), axis=dice.uniform(1, 180))
    back = thickness.back_surface(lens, 2.0)
    rim = square(dice.uniform(14, 22), dice.uniform(-9, 9), dice.uniform(-9, 9))
    thick, x, y = extremes.scanned(lens, back, 2.0, rim, 1.0)
    assert extremes.is_inside(rim, x, y) or (x, y) == (0.0, 0.0)
    assert thick == pytest.approx(grids.thickness_field(lens, 2.0, x, y), abs=1e-12)
    step = len(rim["xs"]) // extremes.WAYS + 1
    for at_x, at_y in list(zip(rim["xs"], rim["ys"], strict=True))[::step]:
        for part in extremes.PARTS:
            if extremes.is_inside(rim, at_x * part, at_y * part):
                assert thick <= grids.thickness_field(lens, 2.0, at_x * part, at_y * part) + 1e-12
    assert thick <= 2.0


SIDES = [  # lens, sign: whose side turns between its ends
    (tilted(0.0, 0.0, sphere=-5.0), 1.0),
    (tilted(3.0, -2.0, sphere=-7.25, cylinder=-2.0, axis=40.0), 1.0),
    (tilted(0.0, 0.0, sphere=5.0, front=8.0), -1.0),
    (tilted(-2.0, 1.5, sphere=4.0, front=7.0, cylinder=-1.5, axis=120.0), -1.0),
]


@pytest.mark.parametrize(("lens", "sign"), SIDES)
@pytest.mark.parametrize("shift", [0.0, 2.5, -4.0])
def test_the_extreme_of_a_side_is_that_of_a_fine_ruler(lens, sign, shift):
    """Two parabolas, and the turn of a side of 16 mm stands to a tenth of a micrometer."""
    side = [-8.0 + shift, 20.0, 16.0, 0.5]
    back = thickness.back_surface(lens, 5.0)
    part = np.linspace(0, 1, 20001)
    field = sign * grids.thickness_field(lens, 5.0, side[0] + part * side[2], side[1] + part * side[3])
    ends = [float(sign * field[0]), float(sign * field[-1])]
    found = edge.turn_on_side(lens, back, 5.0, side, ends, sign)
    assert sign * found[0] == pytest.approx(field.min(), abs=1e-4)
    if 0.05 < part[field.argmin()] < 0.95:
        assert found[1] == pytest.approx(side[0] + side[2] * part[field.argmin()], abs=0.02)


@pytest.mark.parametrize(("lens", "sign"), SIDES)
@pytest.mark.parametrize("rim", [square(20.0), square(17.0, 6.0, -3.0), square(24.0, -2.0, 9.0)])
def test_the_extreme_of_a_rim_is_that_of_a_fine_ruler_all_around(lens, sign, rim):
    back = thickness.back_surface(lens, 5.0)
    thick = [float(grids.thickness_field(lens, 5.0, x, y)) for x, y in zip(rim["xs"], rim["ys"], strict=True)]
    found = edge.extreme_on_rim(lens, back, 5.0, rim, thick, sign)
    assert sign * found[0] == pytest.approx((sign * grids.edge_field(lens, rim, 5.0)).min(), abs=1e-4)


def test_the_first_of_the_thickest_is_told():
    assert thickness.greatest_at([1.0, 3.0, 3.0]) == 1
    assert thickness.least_at([3.0, 1.0, 1.0]) == 1
