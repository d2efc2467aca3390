"""The range that fits is what asking the engine at every quarter diopter finds, in unbroken ranges."""

from itertools import groupby

import pytest
from hypothesis import given

from quoting.kernel import quote, ranges
from tests.kernel.jobs import eye, frame, job, limits, options, package, part, progressive, random_jobs, steady


def at(one, sphere):
    return one | {side: one[side] | {"sphere": sphere} for side in ("right", "left")}


def by_asking(one, verdicts):
    """Every quarter diopter from -40 to +40, asked of the engine; and no step outside of the package's own powers."""
    powers = [quarter / 4 for quarter in range(-160, 161)]
    kept = [(power, quote.fit(at(one, power))["verdict"] in verdicts) for power in powers]
    found = []
    for good, group in groupby(kept, lambda each: each[1]):
        steps = [power for power, _ in group]
        if good:
            found.append((steps[0], steps[-1]))
    return found


def told(one, verdict):
    return [(span["low"], span["high"]) for span in ranges.ranges_that_fit(one) if span["verdict"] == verdict]


@steady(12)
@given(random_jobs())
def test_every_quarter_diopter_asked_of_the_engine_gives_the_same(one):
    one = one | {"has_right": True}
    assert sorted(told(one, "fits")) == by_asking(one, {"fits"})
    assert sorted(told(one, "caution")) == by_asking(one, {"fits", "caution"})


@pytest.mark.parametrize(
    "one",
    [
        job(),
        job(eye(cylinder=-1.5, axis=30.0)),
        job(eye(cylinder=1.5, axis=120.0)),
        job(eye(add=2.0), package=progressive(min_height=18.0)),
        job(package=package(ranges=[part(-6.0, -2.0), part(1.0, 4.0)])),
        job(frame=frame(edge_caution=4.0, edge_no=5.0)) | {"left": eye(cylinder=-2.0)},
        job(has_right=False),
    ],
)
def test_usual_jobs_have_the_ranges_that_asking_finds(one):
    for verdict, verdicts in (("fits", {"fits"}), ("caution", {"fits", "caution"})):
        found = told(one, verdict)
        assert sorted(found) == by_asking(one, verdicts) != []
        assert found[1:] == sorted(found[1:])
        distances = [0.0 if low <= 0.0 <= high else min(abs(low), abs(high)) for low, high in found]
        assert distances[0] == min(distances)


# A finished plus lens has the thick center of its blank, so its edge does not decide
EASY = {"edge_caution": 150.0, "edge_no": 180.0}
ALL = limits(curve_difference=30.0)


def test_what_fits_reaches_to_the_ends_of_the_packages_ranges_and_need_not_hang_together():
    two = package(ranges=[part(-3.0, -2.0), part(1.0, 4.0)])
    one = job(frame=frame(**EASY), package=two, limits=ALL)
    assert told(one, "fits") == told(one, "caution") == [(1.0, 4.0), (-3.0, -2.0)]


def test_the_range_with_plano_in_it_comes_first():
    three = package(ranges=[part(-9.0, -8.0), part(-1.0, 1.0), part(3.0, 4.0)])
    assert told(job(frame=frame(**EASY), package=three, limits=ALL), "fits") == [(-1.0, 1.0), (-9.0, -8.0), (3.0, 4.0)]


def test_of_two_ranges_as_far_from_plano_the_minus_one_comes_first():
    two = package(ranges=[part(-4.0, -2.0), part(2.0, 4.0)])
    assert told(job(frame=frame(**EASY), package=two, limits=ALL), "fits") == [(-4.0, -2.0), (2.0, 4.0)]


@pytest.mark.parametrize(
    ("first", "second", "nearest"),
    [
        ((-0.25, -0.25), (0.5, 1.0), (-0.25, -0.25)),
        ((-1.0, -0.5), (0.25, 0.25), (0.25, 0.25)),
        ((-2.0, -0.5), (0.0, 0.0), (0.0, 0.0)),
        ((-2.0, 0.0), (1.0, 3.0), (-2.0, 0.0)),
        ((-3.0, -1.0), (0.0, 3.0), (0.0, 3.0)),
    ],
)
def test_near_plano_every_quarter_diopter_counts(first, second, nearest):
    spans = [{"verdict": "fits", "low": low, "high": high} for low, high in (first, second)]
    ordered = ranges.nearest_first(spans)
    assert (ordered[0]["low"], ordered[0]["high"]) == nearest
    assert sorted(map(str, ordered)) == sorted(map(str, spans))


def test_limits_off_the_quarter_diopter_hold_the_steps_within_them():
    odd = package(ranges=[part(-2.1, 1.9)])
    assert told(job(frame=frame(**EASY), package=odd, limits=ALL), "fits") == [(-2.0, 1.75)]
    between = package(ranges=[part(0.1, 0.2)])
    assert told(job(frame=frame(**EASY), package=between, limits=ALL), "fits") == []


def test_a_cylinder_takes_its_share_of_the_range_in_the_notation_it_is_written_in():
    plain = package(ranges=[part(-4.0, 4.0)])
    minus = job(eye(0.0, -1.0, 180.0), frame=frame(**EASY), package=plain, limits=ALL)
    plus = job(eye(-1.0, 1.0, 90.0), frame=frame(**EASY), package=plain, limits=ALL)
    assert told(minus, "fits") == [(-3.0, 4.0)]
    assert told(plus, "fits") == [(-4.0, 3.0)]


def test_the_eye_that_asks_for_more_decides_and_an_eye_without_a_lens_does_not():
    plain = package(ranges=[part(-4.0, 4.0)])
    one = job(frame=frame(**EASY), package=plain, limits=ALL) | {"left": eye(0.0, -2.0)}
    assert told(one, "fits") == [(-2.0, 4.0)]
    assert told(one | {"has_left": False}, "fits") == [(-4.0, 4.0)]
    other = job(frame=frame(**EASY), package=plain, limits=ALL) | {"right": eye(0.0, -2.0)}
    assert told(other, "fits") == [(-2.0, 4.0)]
    assert told(other | {"has_right": False}, "fits") == [(-4.0, 4.0)]


def test_what_forbids_every_power_leaves_no_range():
    assert ranges.ranges_that_fit(job(package=package(impact_resistant=False), options=options(sport=True))) == []


def test_an_impossible_job_has_no_range():
    assert ranges.ranges_that_fit(job(eye(axis=200.0))) == []


def test_the_job_itself_stays_as_it_was():
    one = job(eye(-5.0))
    ranges.ranges_that_fit(one)
    assert one == job(eye(-5.0))
