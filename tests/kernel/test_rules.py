"""Each rule at its very boundary: the last job that passes and the first that does not, with the two numbers told.

A list beside the tests is not trusted: the codes are read from the kernel's source, and every one must have both.
"""

import ast
import inspect
from typing import NamedTuple

import pytest

from quoting.kernel import layout, quote, rules
from tests.kernel.jobs import eye, frame, job, limits, measures, package, part, progressive


class Boundary(NamedTuple):
    code: str
    passing: dict
    failing: dict
    verdict: str = "no"
    needed: float | None = None
    given: float | None = None
    before: str = ""  # all else that the passing job is told
    beside: str = ""  # all else that the failing job is told


def prescribed(*numbers, **more):
    """The usual job for this prescription in both eyes."""
    return job(eye(*numbers, **more))


def made(sphere, cylinder=0.0, **changes):
    return job(eye(sphere, cylinder), package=package(**changes))


def with_add(add, **changes):
    return job(eye(-2.0, add=add), package=progressive(**changes))


def one_base_in(curve):
    """A design that is made on base 5 only, in a frame of another curve."""
    return job(frame=frame(curve=curve), package=package(base_from=5.0, base_to=5.0))


def in_frame(**changes):
    return job(frame=frame(**changes))


def fitted(one):
    return quote.fit(one)["right"]


def found(value):
    return rules.grid(value)


# Two ranges that overlap: strong minus with little cylinder, and the middle with more
TWO = [part(-6.0, 0.0, 2.0), part(-4.0, 4.0, 4.0)]
ADDS = [part(-6.0, 0.0, 4.0, 0.75, 2.0), part(0.0, 4.0, 4.0, 2.25, 3.5)]
FINISHED = {"finished": True, "centers": [{"low": -6.0, "high": 4.0, "value": 2.2}]}

USUAL = job()
THICK = found(fitted(USUAL)["edge_max"])
EXACT = found(fitted(USUAL)["blank_exact"])
RULE = found(fitted(USUAL)["blank_rule"])
THIN = found(fitted(made(3.0, **FINISHED))["edge_min"])


def blanks(diameter, **changes):
    return job(frame=frame(**changes), package=package(ranges=[part(diameter=diameter)]))


def plus_in(min_edge):
    return job(eye(3.0), frame=frame(min_edge=min_edge), package=package(**FINISHED))


BOUNDARIES = [
    Boundary("power-too-minus", made(-10.0), made(-10.25), "no", -10.0, -10.25, "edge-thick curve-far", "curve-far"),
    Boundary("power-too-minus", made(-6.0, -4.0), made(-6.01, -4.0), "no", -10.0, -10.25),
    Boundary("power-too-plus", made(8.0), made(8.25), "no", 8.0, 8.25, "curve-far", "curve-far"),
    Boundary("power-too-plus", made(6.0, 2.0), made(6.12, 2.0), "no", 8.0, 8.25, "curve-far", "curve-far"),
    Boundary("cylinder-too-strong", made(-2.0, -4.0), made(-2.0, -4.25), "no", 4.0, 4.25),
    Boundary("power-not-together", made(-4.0, -2.0, ranges=TWO), made(-3.75, -2.25, ranges=TWO), "no", -3.75, 2.25),
    Boundary("power-not-together", with_add(2.0, ranges=ADDS), with_add(2.25, ranges=ADDS), "no", -2.0, 0.0),
    Boundary("add-missing", with_add(0.75), with_add(0.0), "no", 0.75, 0.0),
    Boundary("add-too-low", with_add(0.75), with_add(0.74), "no", 0.75, 0.74),
    Boundary("add-too-high", with_add(3.5), with_add(3.51), "no", 3.5, 3.51),
    Boundary("add-left-out", prescribed(-2.0), prescribed(-2.0, add=0.25), "caution", 0.25, 0.0),
    Boundary(
        "add-needs-progressive",
        job(eye(add=1.24), package=package(kind="anti-fatigue", boost=0.75)),
        job(eye(add=1.25), package=package(kind="anti-fatigue", boost=0.75)),
        "caution",
        1.25,
        0.75,
    ),
    Boundary("prism-too-strong", prescribed(prism_in=2.4, prism_up=-3.2), prescribed(prism_in=4.01), "no", 4.0, 4.01),
    Boundary("blank-too-small", blanks(EXACT), blanks(EXACT - 0.01), "no", EXACT, EXACT - 0.01, "blank-close"),
    Boundary("blank-close", blanks(RULE), blanks(RULE - 0.01), "caution", RULE, RULE - 0.01),
    Boundary("height-too-low", with_add(2.0, min_height=24.0), with_add(2.0, min_height=24.01), "no", 24.01, 24.0),
    Boundary(
        "height-too-low",
        job(eye(add=2.0), package=progressive(kind="bifocal", min_height=19.0)),
        job(eye(add=2.0), package=progressive(kind="bifocal", min_height=19.01)),
        "no",
        19.01,
        19.0,
    ),
    Boundary("above-too-low", with_add(2.0, min_above=16.0), with_add(2.0, min_above=16.01), "no", 16.01, 16.0),
    Boundary(
        "wrap-design-needed",
        in_frame(wrap=14.99),
        in_frame(wrap=15.0),
        "no",
        5.0,
        5.0,
        "wrap-not-compensated",
        "wrap-not-compensated",
    ),
    Boundary("wrap-design-needed", in_frame(curve=7.49), in_frame(curve=7.5), "no", 7.5, 6.0),
    Boundary("curve-far", one_base_in(3.0), one_base_in(2.99), "caution", 2.99, 5.0),
    Boundary("curve-too-far", one_base_in(1.0), one_base_in(0.99), "no", 0.99, 5.0, "curve-far"),
    Boundary("edge-too-thick", in_frame(edge_no=THICK + 0.01), in_frame(edge_no=THICK), "no", THICK, THICK),
    Boundary("edge-thick", in_frame(edge_caution=THICK + 0.01), in_frame(edge_caution=THICK), "caution", THICK, THICK),
    Boundary("edge-too-thin", plus_in(THIN), plus_in(THIN + 0.01), "no", THIN + 0.01, THIN, "curve-far", "curve-far"),
    Boundary(
        "not-drillable",
        in_frame(mounting="drilled"),
        job(frame=frame(mounting="drilled"), package=package(drillable=False)),
        "no",
        1.0,
        0.0,
    ),
    Boundary(
        "impact-needed",
        job(measures=measures(child=True)),
        job(measures=measures(child=True), package=package(impact_resistant=False)),
        "no",
        1.0,
        0.0,
    ),
    Boundary("tilt-not-compensated", in_frame(tilt=12.0), in_frame(tilt=12.01), "caution", 12.0, 12.01),
    Boundary("wrap-not-compensated", in_frame(wrap=8.0), in_frame(wrap=8.01), "caution", 8.0, 8.01),
    Boundary("cannot-be-ground", made(-6.0, **FINISHED), made(-6.01, **FINISHED)),
    Boundary(
        "reading-imbalance",
        with_add(2.0) | {"left": eye(-3.49, add=2.0)},
        with_add(2.0) | {"left": eye(-3.5, add=2.0)},
        "caution",
        1.5,
        1.5,
    ),
    Boundary(
        "reading-imbalance",
        with_add(2.0) | {"right": eye(-7.87, add=2.0), "left": eye(-9.36, add=2.0)},
        with_add(2.0) | {"right": eye(-7.87, add=2.0), "left": eye(-9.37, add=2.0)},
        "caution",
        1.5,
        1.5,
        "edge-thick curve-far",
        "edge-thick curve-far",
    ),
]
NAMES = [f"{one.code}-{number}" for number, one in enumerate(BOUNDARIES)]


def codes_of(one):
    return {reason["code"] for reason in quote.fit(one)["reasons"]}


def codes_in_the_kernel():
    """The code of every call of ``say`` in the modules that state rules."""
    found_there = set()
    for module in (rules, quote):
        for node in ast.walk(ast.parse(inspect.getsource(module))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "say":
                found_there.add(ast.literal_eval(node.args[1]))
    return found_there


def test_every_code_has_a_job_on_either_side_of_its_boundary():
    assert {one.code for one in BOUNDARIES} == codes_in_the_kernel()


def test_the_usual_job_fits_without_a_remark():
    assert quote.fit(USUAL)["verdict"] == "fits"
    assert quote.fit(USUAL)["reasons"] == []


@pytest.mark.parametrize("one", BOUNDARIES, ids=NAMES)
def test_on_its_boundary_a_job_passes(one):
    """And is told nothing instead: a boundary that moved could be told under another name."""
    assert one.code not in one.before.split()
    assert codes_of(one.passing) == set(one.before.split())


@pytest.mark.parametrize("one", BOUNDARIES, ids=NAMES)
def test_one_step_across_the_boundary_the_reason_is_given_with_its_numbers(one):
    assert codes_of(one.failing) == {one.code, *one.beside.split()}
    reasons = [reason for reason in quote.fit(one.failing)["reasons"] if reason["code"] == one.code]
    for reason in reasons:
        assert reason["verdict"] == one.verdict
        if one.needed is not None:
            assert (reason["needed"], reason["given"]) == pytest.approx((one.needed, one.given), abs=1e-9)


@pytest.mark.parametrize("one", BOUNDARIES, ids=NAMES)
def test_the_verdict_is_the_worst_of_the_reasons(one):
    for each in (one.passing, one.failing):
        fit = quote.fit(each)
        verdicts = {reason["verdict"] for reason in fit["reasons"]}
        assert fit["verdict"] == ("no" if "no" in verdicts else "caution" if verdicts else "fits")


@pytest.mark.parametrize(
    ("sphere", "cylinder", "code", "given"),
    [
        (-10.0, 0.25, None, None),
        (-10.25, 0.25, "power-too-minus", -10.25),
        (-9.75, -0.5, "power-too-minus", -10.25),
        (8.0, -0.25, None, None),
        (8.25, -0.25, "power-too-plus", 8.25),
        (7.75, 0.5, "power-too-plus", 8.25),
        (-10.0, 4.25, "cylinder-too-strong", 4.25),
        (-5.75, -4.25, "cylinder-too-strong", 4.25),
        (8.0, -4.25, "cylinder-too-strong", 4.25),
        (3.75, 4.25, "cylinder-too-strong", 4.25),
    ],
)
def test_either_principal_power_may_be_the_one_beyond_a_limit(sphere, cylinder, code, given):
    """The rule itself, in either notation; ``fit`` always brings it the minus one."""
    reasons = []
    rules.power_rule(job(), eye(sphere, cylinder), "R", reasons)
    assert [(one["code"], one["given"]) for one in reasons] == ([(code, given)] if code else [])


def test_a_power_beyond_several_limits_is_told_each_of_them_and_no_riddle():
    narrow = package(ranges=[part(-2.0, 2.0, 1.0)])
    told = quote.fit(job(eye(4.0, -8.0), package=narrow, has_left=False))["reasons"]
    assert [(one["code"], one["needed"], one["given"]) for one in told if one["code"].startswith(("power", "cyl"))] == [
        ("power-too-minus", -2.0, -4.0),
        ("power-too-plus", 2.0, 4.0),
        ("cylinder-too-strong", 1.0, 8.0),
    ]


def test_a_reason_about_one_eye_names_it():
    right = quote.fit(job() | {"right": eye(-11.0)})["reasons"]
    left = quote.fit(job() | {"left": eye(-11.0)})["reasons"]
    assert {(one["code"], one["eye"]) for one in right} >= {("power-too-minus", "R")}
    assert {(one["code"], one["eye"]) for one in left} >= {("power-too-minus", "L")}
    assert {one["eye"] for one in left} == {"L"}


def test_an_eye_that_gets_no_lens_gives_no_reason():
    one = job(has_left=False) | {"left": eye(-30.0, -9.0)}
    assert quote.fit(one)["reasons"] == []


def test_a_traced_outline_leaves_nothing_to_the_rule_of_thumb():
    assert codes_of(blanks(RULE - 0.01)) == {"blank-close"}
    assert codes_of(blanks(RULE - 0.01, traced=True)) == set()


def test_the_largest_blank_counts_among_the_ranges_that_make_the_power():
    wide = [part(-4.0, 4.0, diameter=80.0), part(-10.0, 8.0, diameter=50.0)]
    assert codes_of(made(-4.0, ranges=wide)) == set()
    assert "blank-too-small" in codes_of(made(-4.25, ranges=wide))


def test_a_wrap_design_in_a_wrap_frame_takes_the_frames_curve_as_far_as_it_is_made():
    wrap = job(frame=frame(curve=8.0, wrap=18.0), package=package(wrap=True, position_of_wear=True))
    assert fitted(wrap)["base_curve"] == 8.0
    assert codes_of(wrap) == set()
    flat = job(frame=frame(curve=8.0, wrap=18.0), package=package(wrap=True, position_of_wear=True, base_to=5.99))
    assert codes_of(flat) == {"curve-far"}


def test_a_chart_goes_before_the_rule_for_base_curves():
    charted = package(curves=[{"low": -2.0, "high": 0.0, "value": 6.0}])
    assert fitted(job(eye(-2.0), package=charted))["base_curve"] == 6.0
    assert fitted(job(eye(0.0), package=charted))["base_curve"] == 6.0
    assert fitted(job(eye(-2.25), package=charted))["base_curve"] == 5.0
    assert fitted(job(eye(0.25), package=charted))["base_curve"] == 5.5  # 6.25 by Vogel, a diopter nearer to 5


def test_designs_made_for_the_position_of_wear_stand_any_tilt_and_wrap():
    strong = job(frame=frame(tilt=18.0, wrap=14.0), package=package(position_of_wear=True))
    assert codes_of(strong) == set()


def test_imbalance_concerns_multifocals_with_two_lenses_only():
    apart = {"right": eye(-2.0, add=2.0), "left": eye(-5.0, add=2.0)}
    assert "reading-imbalance" in codes_of(job(package=progressive()) | apart)
    assert "reading-imbalance" not in codes_of(job(package=progressive(), has_left=False) | apart)
    assert "reading-imbalance" not in codes_of(job() | apart)


def test_a_lens_that_ends_inside_the_outline_is_told_as_one():
    """A front of true power 24 D at 1.5 has a radius of 21 mm: nothing is left at 27 mm."""
    steep = package(index=1.5, base_from=25.0, base_to=25.0)
    one = quote.fit(job(frame=frame(curve=25.0), package=steep, limits=limits(wrap_curve=30.0)))
    assert {reason["code"] for reason in one["reasons"]} == {"cannot-be-ground"}
    assert one["right"]["fault"] == "cannot-be-ground"
    assert one["right"]["center"] == 0.0
    assert one["right"]["reach"] > 1000 * 0.5 / one["right"]["front"]


def test_limits_of_several_ranges_are_their_outer_ones():
    several = package(
        ranges=[part(-4.0, 2.0, 2.0, 1.0, 2.0), part(-8.0, 1.0, 4.0, 0.75, 1.5), part(-1.0, 6.0, 1.0, 1.0, 3.0)]
    )
    assert rules.power_limits(several) == [-8.0, 6.0, 4.0, 0.75, 3.0]


@pytest.mark.parametrize(
    ("value", "on_grid"), [(1.004999, 1.0), (1.0050001, 1.01), (-1.004999, -1.0), (62.000000048905115, 62.0)]
)
def test_numbers_are_compared_on_the_grid_of_a_hundredth(value, on_grid):
    assert rules.grid(value) == on_grid


def test_fitting_heights_come_from_the_layout():
    one = with_add(2.0, min_height=25.0)
    reason = next(reason for reason in quote.fit(one)["reasons"] if reason["code"] == "height-too-low")
    assert reason["given"] == layout.fitting_height("progressive", one["measures"]["height_right"])
