"""What is said to make it fit, makes it fit: each remedy is applied here by hand, and the engine asked again.

Our own engine stands on both sides: these are tests that a claim holds, and no authority for the numbers.
"""

import copy
import random

import pytest
from hypothesis import given

from quoting.kernel import quote, remedies
from quoting.kernel.outline import farthest
from tests.kernel.jobs import (
    eye,
    frame,
    job,
    limits,
    measures,
    options,
    package,
    part,
    progressive,
    random_jobs,
    steady,
)
from tests.kernel.parity import making

MOUNTINGS = [
    {"mounting": "full-rim-plastic", "min_edge": 1.0, "edge_caution": 8.0, "edge_no": 12.0},
    {"mounting": "drilled", "min_edge": 2.0, "edge_caution": 6.0, "edge_no": 8.0},
]
# What is told with a number or the ends of a range; nothing else has any
WITH_NUMBERS = ("tint", "add", "pupil-height", "lens-height", "lens-width", "frame-curve")


def codes(one, verdicts=("no", "caution")):
    return {reason["code"] for reason in quote.fit(one)["reasons"] if reason["verdict"] in verdicts}


def in_shape(one, a, b):
    """The job with its outline stretched, written anew."""
    changed = copy.deepcopy(one)
    glasses = changed["frame"]
    glasses["xs"] = [x * (a / glasses["a"]) for x in glasses["xs"]]
    glasses["ys"] = [y * (b / glasses["b"]) for y in glasses["ys"]]
    for side in ("right", "left"):
        changed["measures"][f"height_{side}"] += (b - glasses["b"]) / 2.0
    glasses |= {"a": a, "b": b, "ed": 2.0 * farthest(glasses["xs"], glasses["ys"], 0.0, 0.0)}
    return changed


def wishing(one, **wishes):
    return one | {"options": one["options"] | wishes}


def with_pupils(one, low, high):
    clamped = {side: min(max(one["measures"][side], low), high) for side in ("height_right", "height_left")}
    return one | {"measures": one["measures"] | clamped}


def with_curve(one, low, high):
    return one | {"frame": one["frame"] | {"curve": min(max(one["frame"]["curve"], low), high)}}


def with_add(one, add):
    sides = {side: one[side] | {"add": one[side]["add"] or add} for side in ("right", "left")}
    return one | sides


def applied(one, remedy, sizes, mountings):
    """The job with the remedy as its words say it."""
    low, high, glasses = remedy["low"], remedy["high"], one["frame"]
    return {
        "tint": lambda: wishing(one, tint_depth=high),
        "no-tint": lambda: wishing(one, tint_depth=0.0, tint_gradient=False),
        "even-tint": lambda: wishing(one, tint_gradient=False),
        "no-mirror": lambda: wishing(one, mirror=False),
        "no-blue-filter": lambda: wishing(one, blue_filter=False),
        "slab-off": lambda: wishing(one, slab_off=True),
        "add": lambda: with_add(one, low),
        "size": lambda: sizes[remedy["number"]],
        "mounting": lambda: one | {"frame": glasses | mountings[remedy["number"]]},
        "pupil-height": lambda: with_pupils(one, low, high),
        "lens-height": lambda: in_shape(one, glasses["a"], low),
        "lens-width": lambda: in_shape(one, low, glasses["b"] * low / glasses["a"]),
        "frame-curve": lambda: with_curve(one, low, high),
    }[remedy["what"]]()


def told(one, sizes=(), mountings=MOUNTINGS, height_known=False):
    """All remedies of a job, each found true."""
    before = copy.deepcopy(one)
    found = remedies.remedies(one, list(sizes), mountings, height_known)
    assert one == before  # the job itself stays as it was
    forbidden = codes(one, ("no",))
    for remedy in found:
        changed = applied(one, remedy, sizes, mountings)
        assert quote.fit(changed)["verdict"] == remedy["verdict"], remedy
        assert remedy["codes"]
        assert set(remedy["codes"]) <= codes(one)
        assert not set(remedy["codes"]) & codes(changed), remedy
        assert codes(changed, ("no",)) <= forbidden, remedy
        if remedy["what"] not in WITH_NUMBERS:
            assert (remedy["low"], remedy["high"]) == (0.0, 0.0), remedy
        if remedy["what"] not in ("size", "mounting"):
            assert remedy["number"] == 0, remedy
    return {remedy["what"]: remedy for remedy in found}


@steady(150)
@given(random_jobs(), random_jobs())
def test_every_remedy_of_any_job_is_true(one, other):
    for height_known in (True, False):
        told(one, [one | {"frame": other["frame"]}], MOUNTINGS, height_known)


def test_every_remedy_of_seeded_jobs_is_true_and_every_kind_comes_up():
    seen = set()
    for seeded in (random.Random(f"remedy {n}") for n in range(600)):
        one, other = making.job(seeded), making.job(seeded)
        seen |= told(one, [one | {"frame": other["frame"]}]).keys()
    elsewhere = {"package", "package-in-size", "instead"}  # what other packages do, the kernel is not asked here
    assert seen | {"even-tint"} == set(remedies.IN_ORDER) - elsewhere


def test_what_fits_or_is_impossible_has_none():
    assert told(job()) == {}
    assert told(job(eye(axis=200.0), package=package(prism=0.0))) == {}


WIDE = {"ranges": [part(diameter=54.0)]}


def test_the_widest_shape_that_a_blank_covers_and_half_a_millimeter_more_is_too_wide():
    one = job(package=package(**WIDE))
    found = told(one)["lens-width"]
    assert found["codes"] == ["blank-too-small"]
    assert found["low"] == found["high"] < one["frame"]["a"]
    wider = found["low"] + 0.5
    assert "blank-too-small" in codes(in_shape(one, wider, one["frame"]["b"] * wider / one["frame"]["a"]))


def test_a_blank_that_no_smaller_size_of_the_frame_would_save_has_no_width():
    assert "lens-width" not in told(job(package=package(ranges=[part(diameter=25.0)])))


@pytest.mark.parametrize(
    ("pack", "measured"),
    [
        (progressive(min_height=27.0, min_above=12.0), measures()),
        (progressive(min_height=14.0, min_above=19.0), measures()),
        (progressive(kind="bifocal", min_height=22.0, min_above=10.0), measures()),
        (progressive(min_height=24.5), measures(height_right=24.5)),
    ],
)
def test_the_lowest_lens_that_is_high_enough_and_half_a_millimeter_less_is_too_low(pack, measured):
    one = job(eye(add=2.0), package=pack, measures=measured)
    height = told(one)["lens-height"]["low"]
    assert height > one["frame"]["b"]
    assert {"height-too-low", "above-too-low"} & codes(in_shape(one, one["frame"]["a"], height - 0.5))


def test_pupils_in_other_places_help_only_where_nobody_measured_them_and_not_too_far_away():
    one = job(eye(add=2.0), package=progressive(min_height=26.0, min_above=10.0))
    found = told(one)["pupil-height"]
    assert (found["low"], found["high"], found["verdict"]) == (26.0, 30.0, "fits")
    assert "pupil-height" not in told(one, height_known=True)
    assert "height-too-low" in codes(with_pupils(one, 0.0, 25.99))
    assert "above-too-low" in codes(with_pupils(one, 30.01, 40.0))
    assert "pupil-height" not in told(job(eye(add=2.0), package=progressive(min_height=28.01)))
    assert "pupil-height" not in told(job(eye(add=2.0), package=progressive(min_height=26.0, min_above=15.0)))


def test_the_deepest_tint_that_is_made_is_told_and_one_percent_more_is_not_made():
    one = job(package=package(tint_depth=50.0), options=options(tint_depth=80.0))
    assert told(one)["tint"] | {"number": 0} == {
        "what": "tint", "codes": ["tint-too-deep"], "low": 0.0, "high": 50.0, "number": 0, "verdict": "fits",
    }  # fmt: skip
    assert "tint-too-deep" in codes(wishing(one, tint_depth=51.0))


@pytest.mark.parametrize("wish", ["driving", "night_driving"])
def test_a_lighter_tint_for_driving_is_as_dark_as_may_be(wish):
    one = job(options=options(tint_depth=95.0, **{wish: True}), package=package(tint_depth=95.0))
    depth = told(one)["tint"]["high"]
    assert {"too-dark-to-drive", "too-dark-at-night"} & codes(wishing(one, tint_depth=depth + 1.0))


def test_what_cannot_be_tinted_at_all_is_told_without_the_tint():
    over = package(light="polarized", transmittance=14.0)
    assert told(job(package=over, options=options(tint_depth=20.0)))["no-tint"]["verdict"] == "fits"
    assert told(job(package=package(tint_depth=0.0), options=options(tint_depth=20.0)))["no-tint"]["verdict"] == "fits"


def test_a_lens_that_is_too_dark_by_itself_has_no_remedy_in_its_tint():
    dark = package(light="polarized", transmittance=5.0, tint_over=True)
    assert told(job(package=dark, options=options(driving=True, tint_depth=20.0))) == {}


def test_what_somebody_needs_is_never_dropped():
    brittle = package(impact_resistant=False)
    for wish in ("sport", "one_eyed"):
        assert told(job(package=brittle, options=options(**{wish: True}))) == {}
    assert told(job(package=brittle, measures=measures(child=True))) == {}


def test_wishes_are_left_out_one_at_a_time():
    both = options(mirror=True, blue_filter=True, tint_depth=50.0)
    takes = package(mirror=True, blue_filter=True, back_ar=True)
    assert set(told(job(package=takes, options=both))) == {"no-mirror", "no-blue-filter"}
    assert set(told(job(options=options(mirror=True)))) == {"no-mirror"}
    assert set(told(job(options=options(blue_filter=True)))) == {"no-blue-filter"}


def test_a_caution_that_a_slab_off_or_an_even_tint_takes_away_is_told_where_nothing_forbids():
    apart = job(eye(add=2.0), package=progressive()) | {"left": eye(-4.0, add=2.0)}
    assert told(apart)["slab-off"]["codes"] == ["reading-imbalance"]
    assert "slab-off" not in told(apart | {"package": progressive(prism=0.0)} | {"right": eye(prism_in=2.0, add=2.0)})
    fading = job(options=options(tint_depth=50.0, tint_gradient=True), limits=limits(gradient_height=41.0))
    assert told(fading)["even-tint"]["verdict"] == "fits"


def test_an_add_that_is_missing_is_told_with_its_range_and_no_other_power_is_ever_changed():
    found = told(job(package=progressive()))["add"]
    assert (found["low"], found["high"], found["verdict"]) == (0.75, 3.5, "fits")
    for one in (job(eye(-12.0)), job(eye(9.0)), job(eye(cylinder=-5.0)), job(eye(prism_in=5.0)), job(eye(add=4.0))):
        assert told(one | ({"package": progressive()} if one["right"]["add"] else {})) == {}


def test_other_sizes_are_told_where_size_alone_forbids():
    one = job(package=package(**WIDE))
    small, large = job(frame=frame(40.0, 32.0, ed=43.0), package=package(**WIDE)), job(package=package(**WIDE))
    found = told(one, [large, small])["size"]
    assert (found["number"], found["verdict"], found["codes"]) == (1, quote.fit(small)["verdict"], ["blank-too-small"])
    strong = {"package": package(**WIDE, prism=0.0), "right": eye(prism_in=2.0)}
    assert "size" not in told(one | strong, [small | strong])


def test_another_mounting_is_told_for_what_the_rim_cannot_take():
    one = job(frame=frame(mounting="drilled", edge_no=3.0), package=package(drillable=False))
    found = told(one)["mounting"]
    assert found["codes"] == ["edge-too-thick", "not-drillable"]
    assert MOUNTINGS[found["number"]]["mounting"] == "full-rim-plastic"


def test_a_frame_whose_curve_is_near_enough_to_both_lenses_is_told():
    one = job(frame=frame(curve=0.5), package=package(base_from=5.0, base_to=5.0))
    assert (told(one)["frame-curve"]["low"], told(one)["frame-curve"]["high"]) == (1.0, 7.5)
    assert "curve-too-far" in codes(with_curve(one, 0.75, 0.75))
    both = job(frame=frame(curve=0.0), limits=limits(curve_difference=0.5, curve_factor=1.0))
    assert "frame-curve" not in told(both | {"right": eye(-8.0), "left": eye(6.0)})


def test_what_makes_it_fit_comes_before_what_leaves_other_reasons():
    def made(what, verdict):
        return {"what": what, "codes": ["x"], "low": 0.0, "high": 0.0, "number": 0, "verdict": verdict}

    mixed = [made("lens-width", "fits"), made("size", "no"), made("size", "caution"), made("size", "fits")]
    assert [(one["what"], one["verdict"]) for one in remedies.ordered(mixed)] == [
        ("size", "fits"), ("size", "caution"), ("lens-width", "fits"), ("size", "no"),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("verdicts", "cents", "best"),
    [
        ([], [], -1),
        (["no", "no"], [1, 2], -1),
        (["caution", "fits"], [1, 2], 1),
        (["fits", "fits", "fits"], [3, 2, 2], 1),
        (["caution", "no", "caution"], [2, 0, 1], 2),
        (["caution"], [9], 0),
        (["fits", "fits"], [1, 2], 0),
        (["caution", "fits", "fits"], [0, 1, 1], 1),
    ],
)
def test_of_several_the_cheapest_with_the_best_verdict_is_named(verdicts, cents, best):
    assert remedies.best_of(verdicts, cents) == best
