"""Tints: what dyes take, mixed and deep and fading; closed forms and properties."""

import itertools
import math
import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.kernel import coated, filters, luminous, spectrum, tinting
from tests.kernel.jobs import steady
from tests.kernel.parity import dyeing

CLEAR = {"internal": [1.0] * 101, "front": [0.0] * 101, "back": [0.0] * 101}
seeds = st.integers(0, 10**9)


def drawn(seed):
    return random.Random(seed)


@steady(200)
@given(seeds)
def test_a_layer_never_lightens(seed):
    """Nowhere in the spectrum, nor in the whole, with any surfaces: to the last bit."""
    seeded = drawn(seed)
    glass, one, more = dyeing.glass(seeded), dyeing.curve(seeded), dyeing.curve(seeded)
    before, after = (coated.transmitted(glass, spectrum.product(found)) for found in ([one], [one, more]))
    assert all(there <= here for here, there in zip(before, after, strict=True))
    assert luminous.luminous(after) <= luminous.luminous(before)


@steady(200)
@given(seeds, st.floats(0, 4), st.floats(0, 4))
def test_depths_add_up_and_deeper_is_darker(seed, one, more):
    dye = spectrum.mixed([dyeing.curve(drawn(seed))], [1.0])
    both = spectrum.product([spectrum.layer(dye, one), spectrum.layer(dye, more)])
    assert spectrum.layer(dye, one + more) == pytest.approx(both, rel=1e-12)
    assert all(
        here <= there * (1 + 1e-14)
        for here, there in zip(spectrum.layer(dye, one + more), spectrum.layer(dye, one), strict=True)
    )


@steady(100)
@given(seeds)
def test_depth_zero_is_the_clear_lens(seed):
    """To the last bit."""
    seeded = drawn(seed)
    glass, tint = dyeing.glass(seeded), dyeing.tint(seeded) | {"top": 0.0, "bottom": 0.0}
    clear = filters.filter_of(glass, spectrum.flat(1.0), 8.0, 75.0)
    assert filters.filters(glass, tint, [0.0, 0.5, 1.0], 8.0, 75.0) == [clear] * 3
    assert filters.filters(glass, filters.no_tint(), [0.5], 8.0, 75.0) == [clear]


@steady(100)
@given(seeds)
def test_a_gradient_is_monotonic(seed):
    seeded = drawn(seed)
    tint = dyeing.tint(seeded)
    layers = tinting.dye_layers(tint, [n / 40 for n in range(41)])
    sign = 1 if tint["top"] >= tint["bottom"] else -1
    for before, after in itertools.pairwise(layers):
        assert sign * (luminous.luminous(after) - luminous.luminous(before)) >= -1e-13


@steady(100)
@given(seeds, st.floats(0.1, 97))
def test_a_dye_takes_just_as_much_as_is_asked(seed, percent):
    seeded = drawn(seed)
    dyes = [dyeing.curve(seeded) for _ in range(3)]
    mixture = spectrum.mixed(dyes, [float(seeded.randint(1, 6)) for _ in dyes])
    depth = tinting.depth_for(mixture, percent)
    assert luminous.luminous(spectrum.layer(mixture, depth)) == pytest.approx(1 - percent / 100, rel=1e-9)


def test_the_darkest_dye_is_a_thousandth():
    gray = spectrum.mixed([spectrum.flat(0.5)], [1.0])
    assert spectrum.layer(gray, tinting.depth_for(gray, 99.95))[50] == pytest.approx(0.001)
    assert tinting.depth_for(gray, 0.0) == tinting.depth_for(gray, -3.0) == 0.0
    with pytest.raises(ValueError, match="all of the light"):
        tinting.depth_for(gray, 100.0)


def test_water_takes_no_light_at_any_depth():
    assert tinting.depth_for(spectrum.flat(0.0), 50.0) == 0.0


@steady(100)
@given(seeds, st.integers(1, 50))
def test_only_the_proportion_of_parts_counts(seed, factor):
    seeded = drawn(seed)
    dyes, parts = [dyeing.curve(seeded) for _ in range(3)], [2.0, 0.0, 3.0]
    more = spectrum.mixed(dyes, [part * factor for part in parts])
    assert more == pytest.approx(spectrum.mixed(dyes, parts), rel=1e-12)
    densities = [[-math.log(max(one, 1e-6)) for one in dye] for dye in dyes]
    wanted = [0.4 * one + 0.6 * other for one, _, other in zip(*densities, strict=True)]
    assert spectrum.mixed(dyes, parts) == pytest.approx(wanted, rel=1e-12, abs=1e-12)


def test_no_parts_are_no_dye():
    assert spectrum.mixed([spectrum.flat(0.5)], [0.0]) == [0.0] * 101
    assert spectrum.mixed([], []) == [0.0] * 101


@pytest.mark.parametrize(("height", "depth"), [(0, 4), (0.2, 4), (0.35, 3.25), (0.5, 2.5), (0.8, 1), (1, 1)])
def test_depth_runs_straight_between_the_ends(height, depth):
    assert tinting.faded(4.0, 1.0, 0.2, 0.8, height) == pytest.approx(depth)


def test_curves_at_other_steps_are_read_on_straight_lines():
    first, step = 300.0, 10.0
    values = [0.1 * (n % 5) for n in range(40)]
    found = spectrum.resampled(first, step, values)
    for i, nm in enumerate(range(280, 781, 5)):
        at = min(max((nm - first) / step, 0), len(values) - 1)
        low = math.floor(at)
        wanted = values[low] + (at - low) * (values[min(low + 1, len(values) - 1)] - values[low])
        assert found[i] == pytest.approx(wanted, abs=1e-12)
    assert spectrum.resampled(380.0, 1.0, [0.25]) == [0.25] * 101
    for nothing in ((380.0, 5.0, []), (380.0, 0.0, [1.0])):
        with pytest.raises(ValueError, match="needs values"):
            spectrum.resampled(*nothing)


def test_density_of_what_passes_more_than_all_or_next_to_nothing():
    """A curve may be measured a little above 1: that takes no light; below a millionth counts as a millionth."""
    assert spectrum.density(1.02) == 0.0
    assert spectrum.density(0.0) == spectrum.density(1e-9) == pytest.approx(6 * math.log(10))
    assert spectrum.density(0.25) == pytest.approx(2 * math.log(2))


def test_so_deep_a_layer_that_nothing_passes():
    assert spectrum.layer(spectrum.flat(1.0), 800.0) == [0.0] * 101
    assert spectrum.layer(spectrum.flat(1.0), 2.0) == pytest.approx([math.exp(-2.0)] * 101)
