"""Grooves and holes compared: against numpy's distances, and at each limit and just beyond."""

import math

import numpy as np
import pytest
from scipy.spatial.distance import cdist, directed_hausdorff

from quoting.kernel import swap, swap_held


@pytest.mark.parametrize(
    ("one", "other", "gap"),
    [((0.6, 0.4), (0.6, 0.4), 0.0), ((0.6, 0.4), (0.5, 0.4), 0.1), ((0.6, 0.4), (0.65, 0.7), 0.3)],
)
def test_the_greater_difference_of_two_grooves_counts(one, other, gap):
    assert swap_held.groove_gap(*one, *other) == pytest.approx(gap)
    assert swap_held.groove_gap(*other, *one) == pytest.approx(gap)


@pytest.mark.parametrize("seed", range(12))
def test_holes_lie_as_far_apart_as_the_hausdorff_distance_of_both_sets(seed):
    """(scipy's directed_hausdorff, either way.)"""
    drawn = np.random.default_rng(seed)
    one = drawn.uniform(-20, 20, (1 + seed % 4, 2))
    other = one + drawn.normal(0, 1.5, one.shape)
    wanted = max(directed_hausdorff(one, other)[0], directed_hausdorff(other, one)[0])
    found = swap_held.hole_gap(*one.T.tolist(), *other.T.tolist())
    assert found == pytest.approx(wanted)
    bores, others = drawn.uniform(1, 2, len(one)).tolist(), drawn.uniform(1, 2, len(one)).tolist()
    nearest = cdist(one, other).argmin(axis=1)
    wide = max(abs(others[k] - bore) for bore, k in zip(bores, nearest, strict=True))
    assert swap_held.bore_gap([*one.T.tolist(), bores], [*other.T.tolist(), others]) == pytest.approx(wide)


def test_a_hole_more_or_less_is_no_match():
    assert swap_held.hole_gap([1.0], [1.0], [1.0, 2.0], [1.0, 2.0]) == swap_held.NO_HOLE
    assert swap_held.hole_gap([], [], [], []) == 0.0
    assert math.isclose(swap_held.farthest([1.0], [0.0], [], []), swap_held.NO_HOLE)


@pytest.mark.parametrize(
    ("gap", "said"),
    [(0.1, "yes"), (0.104, "yes"), (0.11, "maybe"), (0.3, "maybe"), (0.304, "maybe"), (0.31, "no")],
)
def test_limits_hold_at_their_edge_and_not_beyond(gap, said):
    assert swap.judged(gap, swap_held.GROOVE_MM, swap_held.FAR_GROOVE_MM) == said
    assert swap.judged(gap, swap_held.HOLE_MM, swap_held.FAR_HOLE_MM) == said
