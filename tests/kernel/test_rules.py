"""Each rule at its very boundary: the last job that passes and the first that does not, with the two numbers told.

A list beside the tests is not trusted: the codes are read from the kernel's source, and every one must have both.
"""

from typing import NamedTuple

import pytest

from quoting.kernel import layout, quote, rules, treatments, wearer
from tests.kernel.jobs import eye, frame, job, limits, measures, options, package, part, progressive
from tests.kernel.told import codes


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
STRONG_CENTER = {"finished": True, "centers": [{"low": 0.0, "high": 4.0, "value": 4.2}]}
THIN = found(fitted(made(3.0, **STRONG_CENTER))["edge_min"])


def blanks(diameter, **changes):
    return job(frame=frame(**changes), package=package(ranges=[part(diameter=diameter)]))


def plus_in(min_edge):
    return job(eye(3.0), frame=frame(min_edge=min_edge), package=package(**STRONG_CENTER))


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


def wished(pack=None, glasses=None, boundaries=None, **wishes):
    """The usual job with something wished beyond the package."""
    return job(
        package=package(**(pack or {})),
        frame=frame(**(glasses or {})),
        limits=limits(**(boundaries or {})),
        options=options(**wishes),
    )


def near(low, high, kind="progressive"):
    """A package that states its near powers."""
    stated = part(-10.0, 8.0, 4.0, 0.75, 3.5) | {"near": True, "near_from": low, "near_to": high}
    return {"kind": kind, "ranges": [stated]}


def in_both(*numbers, **more):
    return {"right": eye(*numbers, **more), "left": eye(*numbers, **more)}


SOFT = {"impact_resistant": False}
POLARIZED = {"light": "polarized", "transmittance": 15.0}
PHOTO = {"light": "photochromic", "transmittance": 90.0, "darkened": 10.0}
MIRRORED = {"mirror": True, "back_ar": True}
IMAGES = wearer.magnified(USUAL, eye(-2.0), fitted(USUAL)) / wearer.magnified(USUAL, eye(-4.0), fitted(made(-4.0)))
IMAGES = found(100.0 * (IMAGES - 1.0))
APART = {"left": eye(-4.0)}

WISHED = [
    Boundary("near-too-plus", made(-2.0, **near(-6.0, 0.0)) | in_both(-2.0, add=2.0),
             made(-2.0, **near(-6.0, 0.0)) | in_both(-2.0, add=2.01),
             "no", 0.0, 0.01),
    Boundary("near-too-minus", made(-6.0, **near(-5.0, 0.0)) | in_both(-6.0, add=1.0),
             made(-6.0, **near(-5.0, 0.0)) | in_both(-6.01, add=1.0),
             "no", -5.0, -5.01),
    Boundary("near-too-plus", job(eye(-2.0), package=package(boost=0.5, **near(-6.0, -1.5, "anti-fatigue"))),
             job(eye(-2.0), package=package(boost=0.75, **near(-6.0, -1.5, "anti-fatigue"))), "no", -1.5, -1.25),
    Boundary("near-too-plus",
             made(-2.0, **near(-6.0, 0.0)) | in_both(-3.0, 1.0, add=2.0),
             made(-2.0, **near(-6.0, 0.0)) | in_both(-3.0, 1.25, add=2.0),
             "no", 0.0, 0.25),
    Boundary("impact-one-eyed", wished(one_eyed=True), wished(SOFT, one_eyed=True), "no", 1.0, 0.0),
    Boundary("impact-sport", wished(sport=True), wished(SOFT, sport=True), "no", 1.0, 0.0),
    Boundary("image-size", job(limits=limits(image_difference=IMAGES + 0.01)) | APART,
             job(limits=limits(image_difference=IMAGES)) | APART, "caution", IMAGES, IMAGES),
    Boundary("tint-too-deep", wished(tint_depth=85.0), wished(tint_depth=85.01), "no", 85.0, 85.01),
    Boundary("tint-too-deep", wished({"tint_depth": 0.0}), wished({"tint_depth": 0.0}, tint_depth=0.01),
             "no", 0.0, 0.01),
    Boundary("tint-over-filter", wished(POLARIZED | {"tint_over": True}, tint_depth=10.0),
             wished(POLARIZED, tint_depth=10.0), "no", 0.0, 10.0),
    Boundary("tint-over-filter", wished(PHOTO), wished(PHOTO, tint_depth=0.01), "no", 0.0, 0.01),
    Boundary("gradient-shallow", wished(boundaries={"gradient_height": 40.0}, tint_depth=50.0, tint_gradient=True),
             wished(boundaries={"gradient_height": 40.01}, tint_depth=50.0, tint_gradient=True),
             "caution", 40.01, 40.0),
    Boundary("mirror-not-offered", wished(MIRRORED, tint_depth=80.0, mirror=True),
             wished(tint_depth=80.0, mirror=True), "no", 1.0, 0.0),
    Boundary("mirror-needs-tint", wished(MIRRORED, tint_depth=0.01, mirror=True), wished(MIRRORED, mirror=True),
             "no", 1.0, 0.0),
    Boundary("mirror-needs-tint", wished(POLARIZED | MIRRORED | {"double_use": True}, mirror=True),
             wished(PHOTO | MIRRORED | {"double_use": True}, mirror=True), "no", 1.0, 0.0),
    Boundary("mirror-needs-back-ar", wished(MIRRORED, tint_depth=80.0, mirror=True),
             wished({"mirror": True}, tint_depth=80.0, mirror=True), "no", 1.0, 0.0),
    Boundary("blue-filter-not-offered", wished({"blue_filter": True}, blue_filter=True), wished(blue_filter=True),
             "no", 1.0, 0.0),
    Boundary("double-use-not-offered", wished(POLARIZED | {"blue_filter": True, "double_use": True}, blue_filter=True),
             wished(POLARIZED | {"blue_filter": True}, blue_filter=True), "no", 1.0, 2.0),
    Boundary("double-use-not-offered", wished(POLARIZED | MIRRORED | {"blue_filter": True, "double_use": True},
             mirror=True, blue_filter=True), wished(POLARIZED | MIRRORED | {"blue_filter": True},
             mirror=True, blue_filter=True), "no", 1.0, 3.0),
    Boundary("light-not-stated", wished({"light": "polarized", "transmittance": 15.0}, driving=True),
             wished({"light": "polarized"}, driving=True), "caution", 8.0, 0.0),
    Boundary("light-not-stated", wished(PHOTO, night_driving=True),
             wished(PHOTO | {"transmittance": 0.0}, night_driving=True), "caution", 75.0, 0.0),
    Boundary("light-not-stated", wished({"light": "photochromic", "transmittance": 90.0}),
             wished({"light": "photochromic", "transmittance": 90.0}, driving=True), "caution", 8.0, 0.0),
    Boundary("light-not-stated", wished(MIRRORED | {"transmittance": 90.0}, mirror=True, tint_depth=50.0),
             wished(MIRRORED | {"transmittance": 90.0}, mirror=True, tint_depth=50.0, driving=True),
             "caution", 8.0, 90.0),
    Boundary("light-not-stated", wished(MIRRORED | {"transmittance": 90.0}, mirror=True, tint_depth=5.0),
             wished(MIRRORED | {"transmittance": 90.0}, mirror=True, tint_depth=5.0, night_driving=True),
             "caution", 75.0, 90.0),
    Boundary("very-dark", wished(POLARIZED | {"transmittance": 8.01}), wished(POLARIZED | {"transmittance": 8.0}),
             "caution", 8.0, 8.0),
    Boundary("very-dark", wished(PHOTO | {"darkened": 8.01}), wished(PHOTO | {"darkened": 8.0}), "caution", 8.0, 8.0),
    Boundary("too-dark-to-drive", wished({"transmittance": 80.1}, tint_depth=90.0 - 10.0, driving=True),
             wished({"transmittance": 80.0, "tint_depth": 90.0}, tint_depth=90.0, driving=True), "no", 8.0, 8.0),
    Boundary("too-dark-at-night", wished({"transmittance": 100.0}, tint_depth=25.0, night_driving=True),
             wished({"transmittance": 100.0}, tint_depth=25.01, night_driving=True), "no", 75.0, 74.99),
    Boundary("too-dark-at-night", wished(PHOTO | {"transmittance": 75.0}, night_driving=True),
             wished(PHOTO | {"transmittance": 74.99}, night_driving=True), "no", 75.0, 74.99),
]  # fmt: skip

BOUNDARIES += WISHED
NAMES = [f"{one.code}-{number}" for number, one in enumerate(BOUNDARIES)]


# Reasons about the pair, the frame or the wearer; all others are about one lens
ABOUT_BOTH = {
    "blue-filter-not-offered", "double-use-not-offered", "gradient-shallow", "image-size", "impact-needed",
    "impact-one-eyed", "impact-sport", "light-not-stated", "mirror-needs-back-ar", "mirror-needs-tint",
    "mirror-not-offered", "not-drillable", "reading-imbalance", "tilt-not-compensated", "tint-over-filter",
    "tint-too-deep", "too-dark-at-night", "too-dark-to-drive", "very-dark", "wrap-not-compensated",
}  # fmt: skip


def codes_of(one):
    return {reason["code"] for reason in quote.fit(one)["reasons"]}


def test_every_code_has_a_job_on_either_side_of_its_boundary():
    assert {one.code for one in BOUNDARIES} == codes("say") - {"unknown-word"}


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
        assert reason["eye"] in (["B"] if one.code in ABOUT_BOTH else ["R", "L"])
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


def test_a_lens_for_one_distance_says_nothing_of_near_powers_it_does_not_state():
    assert codes_of(job(eye(8.0 - 6.0), package=package(boost=0.75, kind="anti-fatigue"))) == set()


def test_near_powers_of_several_ranges_are_each_with_its_own_distance_powers():
    """Near power up to 0.00 in one range, up to +1.00 in another that reaches to a distance power of -1.00 only."""
    one = part(-10.0, 8.0, 4.0, 0.75, 3.5) | {"near": True, "near_from": -6.0, "near_to": 0.0}
    other = part(-1.0, 8.0, 4.0, 0.75, 3.5) | {"near": True, "near_from": -6.0, "near_to": 1.0}
    two = progressive(ranges=[one, other])
    assert codes_of(job(eye(-1.0, add=2.0), package=two)) == set()
    reasons = quote.fit(job(eye(-1.25, add=2.0), package=two))["reasons"]
    assert [(each["code"], each["needed"], each["given"]) for each in reasons[:1]] == [("near-too-plus", 0.0, 0.75)]
    both = quote.fit(job(eye(-1.0, add=2.25), package=two))["reasons"]
    assert [(each["code"], each["needed"], each["given"]) for each in both[:1]] == [("near-too-plus", 1.0, 1.25)]


def test_a_slab_off_evens_out_what_the_eyes_differ_in_at_reading():
    apart = {"right": eye(-2.0, add=2.0), "left": eye(-5.0, add=2.0)}
    plain = job(package=progressive(), limits=limits(image_difference=50.0))
    assert codes_of(plain | apart) == {"reading-imbalance"}
    assert codes_of(plain | apart | {"options": options(slab_off=True)}) == set()


@pytest.mark.parametrize(("first", "second"), [(-2.0, -4.0), (-4.0, -2.0)])
def test_image_sizes_differ_the_same_whichever_eye_is_stronger(first, second):
    one = quote.fit(job(limits=limits(image_difference=IMAGES)) | {"right": eye(first), "left": eye(second)})
    assert [(each["code"], each["given"]) for each in one["reasons"]] == [("image-size", IMAGES)]


def test_image_sizes_concern_two_lenses_that_are_made():
    strict = limits(image_difference=0.01)
    apart = {"left": eye(-4.0)}
    assert codes_of(job(limits=strict) | apart) == {"image-size"}
    assert codes_of(job(limits=strict, has_right=False) | apart) == set()
    assert codes_of(job(limits=strict, has_left=False) | {"right": eye(-4.0)}) == set()
    assert "image-size" not in codes_of(job(limits=strict) | {"left": eye(-11.0)})
    assert "image-size" not in codes_of(job(limits=strict) | {"right": eye(-11.0)})
    short = made(-2.0, finished=True, centers=[{"low": -2.0, "high": 0.0, "value": 2.2}]) | {"limits": strict}
    assert codes_of(short | {"left": eye(-2.25)}) == {"cannot-be-ground"}


def test_magnification_is_shape_times_power_with_the_pupil_3_mm_behind_the_cornea():
    """By hand: 1 / (1 - 0.004 · 8 / 1.498) = 1.021829 and 1 / (1 - 0.014 · 5) = 1.075269 (Keating's two factors)."""
    one = job(package=package(index=1.498), measures=measures(vertex=11.0))
    assert wearer.magnified(one, eye(5.0), {"front": 8.0, "center": 4.0}) == pytest.approx(1.09874, abs=5e-6)
    far = job(measures=measures(vertex=22.0))
    assert wearer.magnified(far, eye(40.0), {"front": 8.0, "center": 4.0}) == 0.0
    assert wearer.magnified(far, eye(39.0), {"front": 8.0, "center": 4.0}) > 0.0


@pytest.mark.parametrize(("index", "percent"), [(1.5, 92.3), (1.6, 89.9), (1.74, 86.4)])
def test_an_untreated_clear_lens_passes_what_two_surfaces_leave(index, percent):
    """Fresnel at normal incidence, R = ((n - 1)/(n + 1))²; both surfaces with all reflections (1 - R)/(1 + R)."""
    r = ((index - 1) / (index + 1)) ** 2
    clear = package(index=index)
    assert treatments.passed(clear, True) == treatments.passed(clear, False)
    assert treatments.passed(clear, True) == pytest.approx(100 * (1 - r) / (1 + r))
    assert round(treatments.passed(clear, True), 1) == percent


def test_what_is_dark_but_not_too_dark_says_nothing():
    assert codes_of(wished(POLARIZED, driving=True)) == set()
    assert codes_of(wished(PHOTO, driving=True, night_driving=True)) == set()
    assert codes_of(wished({"light": "polarized"})) == set()
    assert codes_of(wished(tint_depth=85.0, driving=True)) == set()


def test_a_grooved_frame_wants_two_millimeters_all_around():
    grooved = {"mounting": "semi-rimless", "min_edge": 2.0}
    thin = job(
        frame=frame(**grooved), package=package(finished=True, centers=[{"low": -6.0, "high": 4.0, "value": 1.0}])
    )
    one = quote.fit(thin | {"right": eye(0.0), "left": eye(0.0)})
    assert "edge-too-thin" in {each["code"] for each in one["reasons"]}
    made_for_it = quote.fit(job(eye(0.0), frame=frame(**grooved)))
    assert made_for_it["reasons"] == []
    assert made_for_it["right"]["edge_min"] == pytest.approx(2.0)
