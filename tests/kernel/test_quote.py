"""Any job at all has an answer, and asking for more never makes a lens fit."""

import math
from copy import deepcopy

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.kernel import quote
from tests.kernel.jobs import eye, job, measures, package, part, progressive, random_jobs, steady

RANK = {"fits": 0, "caution": 1, "no": 2}


def numbers(value):
    if isinstance(value, dict):
        return [each for one in value.values() for each in numbers(one)]
    if isinstance(value, list):
        return [each for one in value for each in numbers(one)]
    return [value] if isinstance(value, (int, float)) else []


@steady(250)
@given(random_jobs())
def test_every_job_has_an_answer_of_finite_numbers(one):
    before = deepcopy(one)
    answer = quote.answer(one)
    assert one == before, "the job itself stays as it was"
    assert all(math.isfinite(each) for each in numbers(answer))
    assert answer["fit"]["verdict"] in RANK
    assert answer == quote.answer(one)


@steady(100)
@given(random_jobs(), st.lists(random_jobs(), max_size=3))
def test_seats_that_are_shared_change_no_answer(one, others):
    """Other packages, eyes and measures in the same frame, asked in turn with one list of seats."""
    seats, tilted = [], one["frame"] | {"tilt": one["frame"]["tilt"] + 3.0, "dbl": one["frame"]["dbl"] + 1.0}
    jobs = [other | {"frame": worn} for worn in (one["frame"], tilted) for other in (one, *others)]
    assert [quote.answer_among(each, seats) for each in (*jobs, *jobs)] == [quote.answer(each) for each in jobs] * 2
    assert len(seats) <= 2 * len(jobs)


@steady(200)
@given(random_jobs())
def test_only_a_lens_that_can_be_made_fits(one):
    """No verdict but "no" stands over a lens without a center."""
    fit = quote.fit(one)
    for side in ("right", "left"):
        if one[f"has_{side}"] and fit[side]["center"] == 0.0:
            assert fit[side]["fault"]
            assert fit["verdict"] == "no"
        if one[f"has_{side}"] and fit["verdict"] != "no":
            made = fit[side]
            assert made["center"] > 0.0
            assert made["weight"] > 0.0
            assert made["blank_largest"] >= made["blank_exact"] - 0.005
            assert made["edge_min"] >= one["frame"]["min_edge"] - 0.005


def test_power_and_add_that_no_range_holds_together_do_not_fit():
    """Adds to 2.00 in minus and from 2.25 in plus: -3.00 add 3.00 is within both limits and is not made."""
    two = progressive(ranges=[part(-6.0, 0.0, 4.0, 0.75, 2.0), part(0.0, 4.0, 4.0, 2.25, 3.5)])
    fit = quote.fit(job(eye(-3.0, add=3.0), package=two))
    assert fit["verdict"] == "no"
    assert {reason["code"] for reason in fit["reasons"]} == {"power-not-together"}


def faults(one):
    """Faults of both lenses, and the codes of all reasons."""
    fit = quote.fit(one)
    return fit["right"]["fault"], fit["left"]["fault"], {reason["code"] for reason in fit["reasons"]}


def test_a_lens_made_in_the_power_is_not_called_unmade_for_want_of_its_add():
    assert faults(job(eye(-2.0), package=progressive())) == ("needs-add", "needs-add", {"add-missing"})
    beyond = job(eye(-2.0), package=progressive()) | {"right": eye(-12.0)}
    assert faults(beyond)[:2] == ("not-made", "needs-add")
    assert faults(job(eye(-12.0, add=2.0), package=progressive()))[:2] == ("not-made", "not-made")
    assert faults(job(eye(-12.0)))[:2] == ("not-made", "not-made")


def stricter(where, name, step):
    """A way to move one limit; ``step`` says which way is stricter."""

    def move(one, amount):
        changed = deepcopy(one)
        changed[where][name] += step * amount
        return changed

    return move


def narrower(name, step):
    def move(one, amount):
        changed = deepcopy(one)
        for each in changed["package"]["ranges"]:
            each[name] += step * amount
        return changed

    return move


def forbidden(where, name, value):
    def move(one, _amount):
        return deepcopy(one) | {where: one[where] | {name: value}}

    return move


STRICTER = {
    "edge no longer taken": stricter("frame", "edge_no", -1),
    "edge warned of": stricter("frame", "edge_caution", -1),
    "thinnest edge": stricter("frame", "min_edge", 1),
    "least height": stricter("package", "min_height", 1),
    "least height above": stricter("package", "min_above", 1),
    "prism": stricter("package", "prism", -1),
    "curve difference": stricter("limits", "curve_difference", -0.1),
    "tilt": stricter("limits", "pow_tilt", -1),
    "wrap": stricter("limits", "pow_wrap", -1),
    "edging allowance": stricter("limits", "edging_allowance", 1),
    "blank": narrower("diameter", -1),
    "cylinder": narrower("cylinder", -0.25),
    "least power": narrower("low", 0.25),
    "greatest power": narrower("high", -0.25),
    "least add": narrower("add_from", 0.25),
    "greatest add": narrower("add_to", -0.25),
    "not for drilling": forbidden("package", "drillable", False),
    "not impact-resistant": forbidden("package", "impact_resistant", False),
    "a child": forbidden("measures", "child", True),
    "one seeing eye": forbidden("options", "one_eyed", True),
    "for sport": forbidden("options", "sport", True),
    "for driving": forbidden("options", "driving", True),
    "for driving at night": forbidden("options", "night_driving", True),
    "deepest tint": stricter("package", "tint_depth", -5),
    "no tint over a filter": forbidden("package", "tint_over", False),
    "no mirror": forbidden("package", "mirror", False),
    "no anti-reflective back": forbidden("package", "back_ar", False),
    "no blue filter": forbidden("package", "blue_filter", False),
    "no double use": forbidden("package", "double_use", False),
    "height for a gradient": stricter("limits", "gradient_height", 2),
    "light for driving": stricter("limits", "driving_least", 1),
    "light at night": stricter("limits", "night_least", 2),
    "imbalance at reading": stricter("limits", "reading_imbalance", -0.1),
    "image sizes": stricter("limits", "image_difference", -0.3),
    "difference of curves forbidden": stricter("limits", "curve_factor", -0.1),
    "add for a boost": stricter("limits", "boost_add", -0.1),
    "greatest near power": narrower("near_to", -0.25),
    "least near power": narrower("near_from", 0.25),
    "not made for the position of wear": forbidden("package", "position_of_wear", False),
}


@pytest.mark.parametrize("move", STRICTER.values(), ids=STRICTER.keys())
@steady(40)
@given(one=random_jobs(), amount=st.integers(1, 8))
def test_a_stricter_limit_never_makes_a_lens_fit(move, one, amount):
    assert RANK[quote.fit(move(one, amount))["verdict"]] >= RANK[quote.fit(one)["verdict"]]


@pytest.mark.parametrize("move", STRICTER.values(), ids=STRICTER.keys())
@steady(25)
@given(
    sphere=st.integers(-24, 16).map(lambda quarter: quarter / 4),
    amount=st.integers(1, 8),
    kind=st.sampled_from(("single-vision", "progressive", "bifocal")),
)
def test_a_stricter_limit_never_makes_a_usual_lens_fit(move, sphere, amount, kind):
    """The same over jobs most of which do fit."""
    usual = progressive(kind=kind, min_height=17.0, min_above=10.0) if kind != "single-vision" else package()
    one = job(eye(sphere, add=2.0 if kind != "single-vision" else 0.0), package=usual)
    assert RANK[quote.fit(move(one, amount))["verdict"]] >= RANK[quote.fit(one)["verdict"]]


@pytest.mark.parametrize(
    ("name", "amount", "code"),
    [
        ("edge no longer taken", 11, "edge-too-thick"),
        ("least height", 25, "height-too-low"),
        ("blank", 25, "blank-too-small"),
        ("a child", 0, None),
    ],
)
def test_a_stricter_limit_does_bite(name, amount, code):
    """So that the tests above cannot pass by moving nothing."""
    found = {reason["code"] for reason in quote.fit(STRICTER[name](job(), amount))["reasons"]}
    assert found == ({code} if code else set())


def test_both_lenses_are_measured_each_at_its_own_pd_and_height():
    one = quote.fit(job(measures=measures(pd_right=29.0, pd_left=33.0, height_right=22.0, height_left=25.0)))
    assert (one["right"]["decentration_in"], one["left"]["decentration_in"]) == (5.0, 1.0)
    assert (one["right"]["height"], one["left"]["height"]) == (18.0, 21.0)


def test_eyes_that_differ_in_one_number_alone_get_each_its_own_lens():
    """The blank is larger for the stronger add: a lens must not be taken over from the other eye."""
    two = progressive(ranges=[part(add_from=0.75, add_to=2.5, diameter=70.0), part(add_from=2.75, add_to=3.5)])
    one = quote.fit(job(package=two) | {"right": eye(add=2.0), "left": eye(add=3.0)})
    assert (one["right"]["blank_largest"], one["left"]["blank_largest"]) == (70.0, 75.0)
    for differs in (eye(-2.25), eye(-2.0, -0.5, 180.0), eye(prism_in=0.5), eye(prism_up=0.5)):
        fit = quote.fit(job(eye()) | {"left": differs})
        assert fit["left"]["weight"] != fit["right"]["weight"]
        assert fit["left"] == quote.fit(job(differs))["left"]


def test_a_frame_without_lenses_has_a_price_and_no_reason():
    one = quote.answer(job(has_right=False, has_left=False))
    assert one["fit"]["reasons"] == []
    assert [line["code"] for line in one["bill"]["lines"]] == ["frame", "shipping"]
