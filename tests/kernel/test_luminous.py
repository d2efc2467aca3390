"""Figures of filters at the edges of the standard's table, in ultraviolet light, and where one color is missing."""

import pytest

from quoting.kernel import filters, luminous, observer, spectrum, treatments

EDGES = {80.0: (0, 1), 43.0: (1, 2), 18.0: (2, 3), 8.0: (3, 4), 3.0: (4, 5)}
PLAIN = {"internal": [1.0] * 101, "front": [0.0] * 101, "back": [0.0] * 101}


def kept(visible, ultraviolet):
    """A filter that is flat in both parts."""
    return [ultraviolet] * (observer.VISIBLE + 1) + [visible] * observer.VISIBLE_COUNT


@pytest.mark.parametrize("edge", EDGES)
def test_an_edge_belongs_to_the_darker_category(edge):
    """Whatever sums of floats make of it; ISO 12312-1: from over one limit up to the next."""
    lighter, darker = EDGES[edge]
    for percent, wanted in ((edge, darker), (edge + 0.01, lighter), (edge - 0.01, darker)):
        found = filters.filter_of(PLAIN, spectrum.flat(percent / 100), 8.0, 75.0)
        assert (found["percent"], found["category"]) == (percent, wanted)


def test_driving_at_its_edges():
    """Category 4 never; by night and at twilight from 75 percent on (ISO 12312-1)."""
    by_percent = {75.0: (True, True), 74.99: (True, False), 8.01: (True, False), 8.0: (False, False)}
    for percent, wanted in by_percent.items():
        found = filters.filter_of(PLAIN, spectrum.flat(percent / 100), 8.0, 75.0)
        assert (found["day"], found["night"]) == wanted


@pytest.mark.parametrize(("nm", "counts"), [(470, False), (475, True), (560, True), (650, True), (655, False)])
def test_a_hole_in_the_spectrum_counts_from_475_to_650(nm, counts):
    passed = spectrum.flat(0.9)
    passed[(nm - 280) // 5] = 0.1
    found = filters.filter_of(PLAIN, passed, 8.0, 75.0)
    assert found["day"] is not counts
    assert (found["least_share"] < 0.2) is counts


def test_nothing_passes_nothing():
    assert luminous.least_share(spectrum.flat(0.0)) == 0.0


def test_ultraviolet_bands():
    """UV-B up to 315 nm, UV-A from there to 380 nm: a filter that ends between is told as such."""
    passed = [1.0 if nm > 315 else 0.0 for nm in range(280, 781, 5)]
    assert luminous.uvb(passed) == 0.0
    assert luminous.uva(passed) == pytest.approx(1 - 0.09 / sum_of(range(7, 21)))
    assert luminous.uva(spectrum.flat(1.0)) == luminous.uvb(spectrum.flat(1.0)) == 1.0


def sum_of(places):
    return sum(observer.SUN_UV[i] * observer.HAZARD[i] for i in places)


def test_weights_are_those_of_the_standard():
    """W(λ) as ISO 13666 and EN 1836 print it, 300 to 380 nm; from memory."""
    printed = [0.0243, 0.115, 0.165, 0.09, 0.054, 0.04, 0.041, 0.044, 0.042, 0.041, 0.038, 0.034, 0.03, 0.028, 0.026, 0.024, 0.022]  # fmt: skip # noqa: E501
    for n, weight in enumerate(printed):
        assert observer.SUN_UV[4 + n] * observer.HAZARD[4 + n] == pytest.approx(weight, abs=0.0005)


# visible, most that it may pass of UV-A and UV-B (ISO 12312-1, from memory): category 0 and 1 as much as of light,
# 2 and 3 half of it, 4 a quarter or one percent; UV-B a twentieth, category 4 one percent
@pytest.mark.parametrize(
    ("visible", "most"), [(0.9, 0.045), (0.5, 0.025), (0.3, 0.015), (0.1, 0.005), (0.05, 0.01), (0.02, 0.01)]
)
def test_flat_ultraviolet_is_held_to_the_band(visible, most):
    assert luminous.uv_kept(kept(visible, most * 0.999))
    assert not luminous.uv_kept(kept(visible, most * 1.001))


@pytest.mark.parametrize(("visible", "share"), [(0.9, 1.0), (0.5, 1.0), (0.3, 0.5), (0.1, 0.5), (0.06, 0.25)])
def test_uva_alone_is_held_to_its_share_of_the_light(visible, share):
    for factor, wanted in ((0.999, True), (1.001, False)):
        passed = kept(visible, 0.0)
        wanted_a = share * visible * factor
        if wanted_a <= 1:
            passed[10:21] = [wanted_a / (1 - sum_of(range(7, 10)) / sum_of(range(7, 21)))] * 11
            assert luminous.uv_kept(passed) is wanted, (visible, factor)


def test_one_rule_for_categories():
    """What the board says of a package and what is said of a filter is one function."""
    assert [treatments.filter_category(percent) for percent in (80.01, 80.0)] == [0, 1]
