"""The kernel against what others have published; and, apart from it, against other routes to the same number."""

import pytest

from tests.authorities import ask_frame, ask_lab, ask_lens, ask_light, ask_power, ask_tolerance, ask_worn
from tests.authorities.cases import COMPUTED, PUBLISHED, crosschecks, published, sources

ASKED = (ask_power, ask_frame, ask_lens, ask_light, ask_worn, ask_tolerance, ask_lab)
ASK = {name: ask for module in ASKED for name, ask in module.ASK.items()}


def close(found, wanted, allowed):
    if isinstance(wanted, list):
        return len(found) == len(wanted) and all(
            abs(one - other) <= allowed for one, other in zip(found, wanted, strict=True)
        )
    return abs(found - wanted) <= allowed


def hold(case):
    """Every expected value comes out to its last printed digit."""
    if case.ask in ask_power.REMAKE:
        remade, prescribed = ask_power.REMAKE[case.ask](case.inputs, case.expected)
        assert remade == pytest.approx(prescribed, abs=1e-9), case.statement
        return
    found = ASK[case.ask](case.inputs)
    assert case.expected.keys() <= found.keys()
    for key, wanted in case.expected.items():
        assert close(found[key], wanted, case.allowed(key)), f"{case.statement}: {key} {found[key]}, printed {wanted}"


@pytest.mark.parametrize("case", published(), ids=lambda case: case.name)
def test_kernel_meets_published_value(case):
    hold(case)


@pytest.mark.parametrize("case", crosschecks(), ids=lambda case: case.name)
def test_kernel_meets_another_route(case):
    hold(case)


def test_published_and_computed_values_are_kept_apart():
    assert {case.provenance for case in published()} <= PUBLISHED
    assert {case.provenance for case in crosschecks()} <= COMPUTED


def test_no_case_counts_twice_and_there_are_enough():
    ids = [case.id for case in published() + crosschecks()]
    assert len(ids) == len(set(ids))
    assert len(ids) >= 90


def test_every_source_is_explained_and_none_is_idle():
    assert {case.source for case in published() + crosschecks()} == sources()


def test_every_way_of_asking_is_used():
    assert {case.ask for case in published() + crosschecks()} == ASK.keys() | ask_power.REMAKE.keys()


def test_a_wrong_value_is_noticed():
    """A case that is off by its last printed digit must fail, whatever its ask: the check is no rubber stamp."""
    for case in published():
        if case.ask in ask_power.REMAKE:
            continue
        for key, wanted in case.expected.items():
            if isinstance(wanted, list):
                continue
            found = ASK[case.ask](case.inputs)[key]
            assert not close(found, wanted + 2.01 * case.allowed(key) + 1e-8, case.allowed(key)), case.name
