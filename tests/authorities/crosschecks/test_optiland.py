"""The traced lens against optiland, a general optics library: 240 lenses, tilted and wrapped as they are worn.

Its surfaces, its intersections, its Snell's law; powers from five of its rays 0.05 mm apart.  It has no sheared
surfaces, so prescribed prism is not compared here (tests/kernel/test_ray.py has another trace for that).
"""

import random

import numpy as np
import pytest
from optiland.coordinate_system import CoordinateSystem
from optiland.materials import IdealMaterial
from optiland.optic import Optic
from optiland.rays import RealRays
from scipy.spatial.transform import Rotation

from quoting.kernel import astigmatic, power, ray, sight, surfaces, thickness
from tests.kernel.worn_cases import lens

# numba compiles optiland's inner loops and warns about itself while it does
pytestmark = pytest.mark.filterwarnings("ignore::numba.core.errors.NumbaWarning")

STEP_MM = 0.05
# What a lens's power and prism may differ by between the two, D and prism diopters
CLOSE_POWER = 0.0005
CLOSE_PRISM = 0.0001


def worn_rotation(tilt, wrap):
    """From the lens's frame to the wearer's: wrapped about the upright axis, then tilted about the level one."""
    return Rotation.from_euler("x", -tilt, degrees=True) * Rotation.from_euler("y", wrap, degrees=True)


def placed(rotation):
    """A rotation as optiland's three angles, and proof that it reads them so."""
    rx, ry, rz = rotation.as_euler("xyz")
    assert np.asarray(CoordinateSystem(rx=rx, ry=ry, rz=rz).get_rotation_matrix()) == pytest.approx(
        rotation.as_matrix(), abs=1e-12
    )
    return {"rx": rx, "ry": ry, "rz": rz}


def in_optiland(made, center, rotation):
    """The same lens as optiland's surfaces: conic front, torus (or sphere) behind, in the wearer's frame."""
    back = thickness.back_surface(made, center)
    turn = np.degrees(np.arctan2(back[3], back[2]))
    optic = Optic()
    optic.surfaces.add(index=0, radius=np.inf, z=-np.inf)
    radius = 1.0 / surfaces.front_curvature(made["front"], made["index"])
    glass = IdealMaterial(n=made["index"])
    where = {"x": 0.0, "y": 0.0, "z": 0.0} | placed(rotation)
    optic.surfaces.add(index=1, radius=radius, conic=made["conic"], material=glass, is_stop=True, **where)
    where = dict(zip("xyz", center * rotation.as_matrix()[:, 2], strict=True))
    if back[0] == back[1]:
        optic.surfaces.add(index=2, radius=1.0 / back[0], material="air", **where, **placed(rotation))
    else:
        where |= placed(rotation * Rotation.from_euler("z", turn, degrees=True))
        radii = {"radius_x": 1.0 / back[0], "radius_y": 1.0 / back[1], "conic": 0.0}
        optic.surfaces.add(index=2, surface_type="toroidal", material="air", **radii, **where)
    optic.surfaces.add(index=3, z=30.0)
    optic.wavelengths.add(0.55, is_primary=True)
    return optic


def traced(optic, starts, direction):
    """Points on the back and directions behind it."""
    count = len(starts)
    x, y, z = np.asarray(starts, float).T
    rays = RealRays(x, y, z, *(np.full(count, part) for part in direction), np.ones(count), np.full(count, 0.55))
    optic.surfaces.trace(rays)
    group = optic.surfaces
    points = np.stack([np.asarray(part)[2] for part in (group.x, group.y, group.z)], axis=1)
    ways = np.stack([np.asarray(part)[2] for part in (group.L, group.M, group.N)], axis=1)
    return points, ways


def power_of(points, ways):
    """Power matrix from a chief ray and two pairs of neighbors, by how their slopes go with their heights."""
    foot, out = points[0], ways[0]
    shifted = points + ((foot - points) @ out / (ways @ out))[:, None] * ways
    heights = np.array([shifted[1] - shifted[2], shifted[3] - shifted[4]])[:, :2]
    slopes = (ways / (ways @ out)[:, None])[:, :2]
    slopes = np.array([slopes[1] - slopes[2], slopes[3] - slopes[4]])
    return -1000.0 * slopes.T @ np.linalg.inv(heights.T)


def compared(made, center, up, tilt, wrap):
    """Largest difference in power (D) and prism (prism diopters) of one lens as worn."""
    axes = sight.worn_axes(tilt, wrap)
    rotation = worn_rotation(tilt, wrap)
    assert np.array(axes) == pytest.approx(rotation.as_matrix(), abs=1e-12)
    path = ray.path_to_eye(made, center, 0.0, up, axes[2])
    before = rotation.apply(path["before"])
    start = rotation.apply(path["front"]) - 8.0 * before
    u = np.cross([0.0, 1.0, 0.0], before)
    u /= np.linalg.norm(u)
    v = np.cross(before, u)
    starts = [start] + [start + sign * STEP_MM * side for side in (u, v) for sign in (1.0, -1.0)]
    points, ways = traced(in_optiland(made, center, rotation), starts, before)
    assert points[0] == pytest.approx(rotation.apply(path["back"]), abs=1e-6)
    xx, xy, yy, prism_in, prism_up = sight.met(made, center, up, axes)
    apart = np.abs(power_of(points, ways) - [[xx, xy], [xy, yy]]).max()
    bent = ways[0] / ways[0][2] - before / before[2]
    return apart, np.abs(100.0 * bent[:2] - [prism_in, prism_up]).max()


@pytest.mark.parametrize(
    ("toric", "conic"), [(False, False), (False, True), (True, True)], ids=["spherical", "aspheric", "toric"]
)
def test_power_and_prism_of_a_lens_as_worn_are_optilands(toric, conic):
    rng = random.Random(f"optiland {toric} {conic}")
    worst_power = worst_prism = 0.0
    for _ in range(80):
        made, center = lens(rng, toric, conic, prism=False)
        found = compared(made, center, rng.uniform(-6, 6), rng.uniform(-5, 20), rng.uniform(-5, 20))
        worst_power, worst_prism = max(worst_power, found[0]), max(worst_prism, found[1])
    assert worst_power < CLOSE_POWER
    assert worst_prism < CLOSE_PRISM


def test_the_vertex_power_of_a_thick_lens_is_optilands():
    """On the axis, straight through: what the lens was ground for."""
    rng = random.Random("vertex power")
    for _ in range(40):
        made, center = lens(rng, True, True, prism=False)
        starts = [[0, 0, -8], [STEP_MM, 0, -8], [-STEP_MM, 0, -8], [0, STEP_MM, -8], [0, -STEP_MM, -8]]
        found = power_of(*traced(in_optiland(made, center, Rotation.identity()), starts, [0.0, 0.0, 1.0]))
        xx, xy, yy = power.matrix(made["sphere"], made["cylinder"], made["axis"])
        assert found == pytest.approx(np.array([[xx, xy], [xy, yy]]), abs=CLOSE_POWER)


def test_the_comparison_notices_a_thousandth_of_a_lens():
    """A tilt that is off by a tenth of a degree, seen through the eyes of the comparison: it is no rubber stamp."""
    made = thickness.grind(-8.0, -2.0, 30.0, 3.0, 0.0, 1.6)
    axes = sight.worn_axes(15.0, 0.0)
    one = sight.met(made, 2.0, 0.0, axes)
    other = sight.met(made, 2.0, 0.0, sight.worn_axes(15.1, 0.0))
    assert abs(one[2] - other[2]) > 10 * CLOSE_POWER
    path = ray.path_to_eye(made, 2.0, 0.0, 0.0, axes[2])
    assert astigmatic.deviation(path, axes) == one[3:]
