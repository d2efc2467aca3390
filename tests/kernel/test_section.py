"""Sections in any meridian through any point, against the lens's own thickness and plain geometry."""

import math

import pytest

from quoting.kernel import section, thickness
from tests.kernel import grids
from tests.kernel.jobs import frame

SQUARE = {"xs": [20.0, -20.0, -20.0, 20.0], "ys": [20.0, 20.0, -20.0, -20.0], "reach": 20.0 * math.sqrt(2.0)}


@pytest.mark.parametrize("number", range(30))
@pytest.mark.parametrize(("x", "y", "meridian"), [(0.0, 0.0, 90.0), (3.0, -2.0, 30.0), (-6.0, 4.0, 145.0)])
def test_a_profile_is_as_thick_as_the_lens_at_every_place_and_ends_on_the_rim(number, x, y, meridian):
    lens, rim, _center, _edge, center = grids.lens_that_can_be_ground(number)
    c, s = math.cos(math.radians(meridian)), math.sin(math.radians(meridian))
    ways, fronts, backs = section.profile(lens, rim, center, x, y, meridian)
    assert len(ways) == len(fronts) == len(backs) == section.SECTION_POINTS
    assert ways == sorted(ways)
    for way, front, back in zip(ways, fronts, backs, strict=True):
        at = x + way * c, y + way * s
        assert back - front == pytest.approx(float(grids.thickness_field(lens, center, *at)), abs=1e-9)
        assert front == pytest.approx(
            float(grids.conic_depth(lens["front"] / 1000 / (lens["index"] - 1), lens["conic"], at[0] ** 2 + at[1] ** 2))
        )
    for end in (ways[0], ways[-1]):
        assert not grids.inside_outline(rim, *map(grids.np.array, (x + end * 1.001 * c, y + end * 1.001 * s)))
        assert grids.inside_outline(rim, *map(grids.np.array, (x + end * 0.999 * c, y + end * 0.999 * s)))


def test_the_horizontal_section_is_the_profile_through_the_reference_point():
    lens, rim, _center, _edge, center = grids.lens_that_can_be_ground(3)
    assert section.section(lens, rim, center) == section.profile(lens, rim, center, 0.0, 0.0, 0.0)


def test_the_profile_of_the_other_eye_is_the_mirror_image():
    """Mirrored lens and rim: the meridian is 180 - m, the ways stay."""
    lens = thickness.with_prism(thickness.grind(-3.0, -1.5, 30.0, 5.0, 0.0, 1.6), 2.0, 1.0)
    other = thickness.with_prism(thickness.grind(-3.0, -1.5, 150.0, 5.0, 0.0, 1.6), -2.0, 1.0)
    one = frame()
    rim = thickness.rim_around(one["xs"], one["ys"], 2.0, 3.0)
    mirrored = rim | {"xs": [-x for x in rim["xs"]]}
    ways, fronts, backs = section.profile(lens, rim, 2.0, 4.0, 1.0, 20.0)
    ways_too, fronts_too, backs_too = section.profile(other, mirrored, 2.0, -4.0, 1.0, 160.0)
    assert ways_too == pytest.approx(ways)
    assert fronts_too == pytest.approx(fronts)
    assert backs_too == pytest.approx(backs)


@pytest.mark.parametrize(
    ("x", "y", "meridian", "ends"),
    [
        (0.0, 0.0, 0.0, (-20.0, 20.0)),
        (5.0, 3.0, 0.0, (-25.0, 15.0)),
        (5.0, 3.0, 90.0, (-23.0, 17.0)),
        (0.0, 0.0, 45.0, (-20.0 * math.sqrt(2.0), 20.0 * math.sqrt(2.0))),
        (0.0, 10.0, 135.0, (-20.0 * math.sqrt(2.0), 10.0 * math.sqrt(2.0))),
        (0.0, 21.0, 0.0, (0.0, 0.0)),
        (-30.0, 0.0, 0.0, (0.0, 50.0)),
        (30.0, 0.0, 0.0, (-50.0, 0.0)),
    ],
)
def test_a_line_crosses_a_square_where_geometry_says(x, y, meridian, ends):
    c, s = math.cos(math.radians(meridian)), math.sin(math.radians(meridian))
    assert section.crossing_line(SQUARE, x, y, c, s) == pytest.approx(ends, abs=1e-12)
