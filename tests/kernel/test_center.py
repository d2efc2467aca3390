"""The solved center against a fine grid of the whole lens: nowhere thinner than allowed, not thicker than needed."""

import itertools

import numpy as np
import pytest

from quoting.kernel import center, extremes, thickness
from tests.kernel import grids
from tests.kernel.jobs import frame

# What the solved center may be off anywhere, mm
CLOSE = 0.001


@pytest.mark.parametrize("number", range(240))
def test_a_surfaced_lens_is_nowhere_thinner_than_allowed_and_no_thicker_than_needed(number):
    """Edge: everywhere on the outline.  Inside: the center, and every place where the thickness turns."""
    lens, rim, least_center, least_edge, found = grids.lens_that_can_be_ground(number)
    edge = grids.edge_field(lens, rim, found).min()
    area = grids.area_field(lens, rim, found)
    inside = min([found, *grids.turns(area)])
    assert edge >= least_edge - CLOSE
    assert inside >= least_center - CLOSE
    assert np.nanmin(area) >= min(edge, inside) - CLOSE, "thinnest on the rim, at the center, or where it turns"
    assert edge <= least_edge + CLOSE or inside <= least_center + CLOSE


@pytest.mark.parametrize("number", range(0, 240, 4))
def test_thinnest_and_thickest_spot_are_those_of_the_grid_and_lie_where_they_say(number):
    lens, rim, _least_center, _least_edge, found = grids.lens_that_can_be_ground(number)
    area, edge = grids.area_field(lens, rim, found), grids.edge_field(lens, rim, found)
    thin, wide = extremes.extreme(lens, rim, found, 1.0), extremes.extreme(lens, rim, found, -1.0)
    assert thin[0] == pytest.approx(min(np.nanmin(area), edge.min()), abs=CLOSE)
    assert wide[0] == pytest.approx(max(np.nanmax(area), edge.max(), found), abs=CLOSE)
    for depth, x, y in (thin, wide):
        assert thickness.thickness_at(lens, found, x, y) == pytest.approx(depth, abs=1e-12)
        assert any(np.hypot(x - px, y - py) < 1e-9 for px, py in zip(rim["xs"], rim["ys"], strict=True)) or (
            extremes.is_inside(rim, x * 0.9999, y * 0.9999)
        )


def test_both_limits_bind_somewhere_and_all_kinds_of_lenses_are_among_the_random_ones():
    kinds = set()
    for number in range(240):
        lens, _rim, least_center, _edge, found = grids.lens_that_can_be_ground(number)
        prism = lens["wedge_x"] != 0.0 or lens["wedge_y"] != 0.0
        kinds.add((lens["sphere"] > 0, lens["cylinder"] < 0, lens["conic"] != 0.0, prism))
        kinds.add("center" if found == least_center else "thicker")
    assert kinds == {*itertools.product((False, True), repeat=4), "center", "thicker"}


@pytest.mark.parametrize(("power", "prism", "least"), [(-2.0, 3.0, 1.3), (-3.0, 5.0, 1.3), (-4.0, -6.0, 1.5)])
def test_a_prism_leaves_no_minus_lens_thinner_than_its_least_center(power, prism, least):
    """With the wedge the thinnest place lies some 15 mm toward the apex; at the old center it was down to 0.6 mm."""
    one = frame(50.0, 40.0, 18.0, 53.0, "panto")
    rim = thickness.rim_around(one["xs"], one["ys"], 3.0, 0.0)
    lens = thickness.with_prism(thickness.grind(power, 0.0, 180.0, 4.0, 0.0, 1.6), prism, 0.0)
    made = center.surfaced_lens(lens, rim, least, 1.0)
    spot = extremes.between(lens, thickness.back_surface(lens, made["center"]), made["center"], rim, 1.0)
    assert made["center"] > least + 0.3
    assert spot[0] == pytest.approx(least, abs=1e-8)
    assert spot[1] * prism < 0.0, "toward the apex"
    assert spot[2] == pytest.approx(0.0, abs=0.01)


def test_a_weak_lens_with_a_flattening_front_is_thinnest_on_a_ring():
    """+0.25 on +6.00 with conic -2.5: the slopes of front and back are equal some 18 mm out; computed by hand."""
    lens = thickness.grind(0.25, 0.0, 180.0, 6.0, -2.5, 1.6)
    one = frame(56.0, 50.0, 18.0, 58.0, "oval")
    rim = thickness.rim_around(one["xs"], one["ys"], 0.0, 0.0)
    back = thickness.back_surface(lens, 2.0)
    thick, x, y = extremes.between(lens, back, 2.0, rim, 1.0)
    away = np.linspace(0, 24, 24001)
    field = grids.thickness_field(lens, 2.0, away, 0 * away)
    assert thick == pytest.approx(field.min(), abs=1e-9)
    assert np.hypot(x, y) == pytest.approx(away[field.argmin()], abs=0.002)
    assert 10.0 < np.hypot(x, y) < 24.0


def test_a_finished_lens_has_its_center_and_its_edges():
    one = frame()
    rim = thickness.rim_around(one["xs"], one["ys"], 0.0, 0.0)
    lens = thickness.grind(-3.0, 0.0, 180.0, 4.0, 0.0, 1.6)
    made = center.finished_lens(lens, rim, 1.7)
    assert made["center"] == 1.7
    thick = [thickness.thickness_at(lens, 1.7, x, y) for x, y in zip(rim["xs"], rim["ys"], strict=True)]
    assert made["edge_max"][0] == pytest.approx(max(thick), abs=1e-12)
    assert made["edge_min"][0] == pytest.approx(grids.edge_field(lens, rim, 1.7).min(), abs=1e-4)


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
    assert center.solved_center(lens, rim, 1.5, 1.0) == center.NO_CENTER, why
    assert center.surfaced_lens(lens, rim, 1.5, 1.0) == center.not_settled()
    assert center.finished_lens(lens, rim, 1.5) == center.not_settled()


def test_center_for_a_point_stops_where_no_lens_reaches_it():
    lens = thickness.grind(2.0, 0.0, 180.0, 24.0, 0.0, 1.5)
    assert center.center_for_point(lens, 1.0, 3.0, 27.0, 0.0) == 3.0
