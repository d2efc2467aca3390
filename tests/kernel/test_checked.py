"""Whatever stands in a job, the engine answers; what cannot be is told with both numbers, on its very boundary."""

import math
from copy import deepcopy

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.kernel import bounds, checked, quote
from tests.kernel import jobs
from tests.kernel.jobs import job, package, part, steady
from tests.kernel.told import codes


def at(path, value):
    """The usual job with one value put at a path such as ``frame.a`` or ``package.ranges.0.low``."""
    one = deepcopy(FULL)
    place, steps = one, path.split(".")
    for step in steps[:-1]:
        place = place[int(step)] if isinstance(place, list) else place[step]
    last = steps[-1]
    place[int(last) if isinstance(place, list) else last] = value
    return one


FULL = job(
    package=package(
        curves=[{"low": -2.0, "high": -2.0, "value": 5.0}],
        centers=[{"low": -10.0, "high": 8.0, "value": 3.0}],
    ),
    money=jobs.money(surcharges=[jobs.surcharge(cents=0)], discounts=[jobs.discount(cents=0)]),
)
TINY = 0.01
# path, code, least, greatest; one step of a hundredth outside of each is a fault
DOMAINS = [
    ("right.sphere", "impossible-sphere", -40.0, 40.0),
    ("left.sphere", "impossible-sphere", -40.0, 40.0),
    ("right.cylinder", "impossible-cylinder", -40.0, 40.0),
    ("right.axis", "impossible-axis", 0.0, 180.0),
    ("right.add", "impossible-add", 0.0, 10.0),
    ("right.prism_in", "impossible-prism", -40.0, 40.0),
    ("left.prism_up", "impossible-prism", -40.0, 40.0),
    ("measures.pd_right", "impossible-pd", TINY, 200.0),
    ("measures.pd_left", "impossible-pd", TINY, 200.0),
    ("measures.height_right", "impossible-height", TINY, 40.0),
    ("measures.height_left", "impossible-height", TINY, 40.0),
    ("measures.vertex", "impossible-vertex", 0.0, 60.0),
    ("frame.dbl", "impossible-box", 0.0, 200.0),
    ("frame.ed", "impossible-box", TINY, 400.0),
    ("frame.min_edge", "impossible-mounting", 0.0, 25.0),
    ("frame.edge_caution", "impossible-mounting", 0.0, 200.0),
    ("frame.edge_no", "impossible-mounting", 0.0, 200.0),
    ("frame.curve", "impossible-form", 0.0, 30.0),
    ("frame.wrap", "impossible-form", -60.0, 60.0),
    ("frame.tilt", "impossible-form", -60.0, 60.0),
    ("package.index", "impossible-material", 1.01, 2.5),
    ("package.density", "impossible-material", TINY, 20.0),
    ("package.tint_depth", "impossible-material", 0.0, 100.0),
    ("package.transmittance", "impossible-material", 0.0, 100.0),
    ("package.darkened", "impossible-material", 0.0, 100.0),
    ("package.min_center", "impossible-material", TINY, 25.0),
    ("package.min_height", "impossible-design", 0.0, 200.0),
    ("package.min_above", "impossible-design", 0.0, 200.0),
    ("package.boost", "impossible-design", 0.0, 10.0),
    ("package.conic", "impossible-design", -20.0, 20.0),
    ("package.base_from", "impossible-design", 0.0, 9.0),
    ("package.base_to", "impossible-design", 0.5, 30.0),
    ("package.prism", "impossible-design", 0.0, 40.0),
    ("package.ranges.0.low", "impossible-ranges", -40.0, 8.0),
    ("package.ranges.0.high", "impossible-ranges", -10.0, 40.0),
    ("package.ranges.0.cylinder", "impossible-ranges", 0.0, 40.0),
    ("package.ranges.0.add_to", "impossible-ranges", 0.0, 10.0),
    ("package.ranges.0.diameter", "impossible-ranges", TINY, 200.0),
    ("package.ranges.0.near_from", "impossible-ranges", -40.0, 0.0),
    ("package.ranges.0.near_to", "impossible-ranges", 0.0, 40.0),
    ("package.curves.0.low", "impossible-chart", -40.0, -2.0),
    ("package.curves.0.high", "impossible-chart", -2.0, 40.0),
    ("package.curves.0.value", "impossible-chart", 0.0, 30.0),
    ("package.centers.0.low", "impossible-chart", -40.0, 8.0),
    ("package.centers.0.high", "impossible-chart", -10.0, 40.0),
    ("package.centers.0.value", "impossible-chart", TINY, 25.0),
    ("package.prices.0.low", "impossible-chart", -40.0, 8.0),
    ("package.prices.0.high", "impossible-chart", -10.0, 40.0),
    ("limits.edging_allowance", "impossible-limits", 0.0, 200.0),
    ("limits.curve_difference", "impossible-limits", 0.0, 30.0),
    ("limits.wrap_angle", "impossible-limits", 0.0, 90.0),
    ("limits.wrap_curve", "impossible-limits", 0.0, 200.0),
    ("limits.pow_tilt", "impossible-limits", 0.0, 90.0),
    ("limits.pow_wrap", "impossible-limits", 0.0, 90.0),
    ("limits.curve_factor", "impossible-limits", 1.0, 10.0),
    ("limits.boost_add", "impossible-limits", TINY, 10.0),
    ("limits.reading_drop", "impossible-limits", 0.0, 200.0),
    ("limits.reading_imbalance", "impossible-limits", TINY, 100.0),
    ("limits.image_difference", "impossible-limits", TINY, 100.0),
    ("limits.gradient_height", "impossible-limits", 0.0, 200.0),
    ("limits.driving_least", "impossible-limits", 0.0, 100.0),
    ("limits.night_least", "impossible-limits", 0.0, 100.0),
    ("options.tint_depth", "impossible-tint", 0.0, 100.0),
]
WHOLE = [
    ("package.prices.0.cents", 10_000_000),
    ("money.frame_cents", 10_000_000),
    ("money.surcharges.0.cents", 10_000_000),
    ("money.discounts.0.cents", 10_000_000),
    ("money.discounts.0.basis_points", 10_000),
    ("money.region.shipping_cents", 10_000_000),
    ("money.region.free_from_cents", 10_000_000),
    ("money.region.tax_frame", 10_000),
    ("money.region.tax_lenses", 10_000),
    ("money.region.tax_shipping", 10_000),
]


def told(one):
    return [(each["code"], each["needed"], each["given"]) for each in checked.faults(one)]


def concerned(path):
    """Which eye a number is about: what is no eye's own concerns both."""
    return "R" if "right" in path else "L" if "left" in path else "B"


def test_the_usual_jobs_have_no_fault():
    assert told(FULL) == told(job()) == []


@pytest.mark.parametrize(("path", "code", "least", "greatest"), DOMAINS, ids=[one[0] for one in DOMAINS])
def test_a_number_may_reach_its_limits_and_not_go_beyond(path, code, least, greatest):
    assert told(at(path, least)) == told(at(path, greatest)) == []
    below, above = round(least - 0.01, 2), round(greatest + 0.01, 2)
    assert (code, least, below) in told(at(path, below))
    # the lower end of two is held to the upper one, which is then the one that is told
    assert {(code, greatest, above), (code, above, greatest)} & set(told(at(path, above)))
    assert {each["code"] for each in checked.faults(at(path, below))} == {code}
    assert {each["eye"] for wild in (below, above) for each in checked.faults(at(path, wild))} == {concerned(path)}


@pytest.mark.parametrize(("path", "greatest"), WHOLE, ids=[one[0] for one in WHOLE])
def test_amounts_and_shares_go_from_nothing_to_their_limit(path, greatest):
    assert told(at(path, 0)) == told(at(path, greatest)) == []
    assert ("impossible-money", 0.0, -1.0) in told(at(path, -1))
    assert told(at(path, greatest + 1))[0] == ("impossible-money", bounds.told(greatest), bounds.told(greatest + 1))
    assert {each["eye"] for wild in (-1, greatest + 1) for each in checked.faults(at(path, wild))} == {"B"}


@pytest.mark.parametrize("path", [one[0] for one in DOMAINS])
@pytest.mark.parametrize(("wild", "shown"), [(math.nan, 999999.99), (math.inf, 999999.99), (-math.inf, -999999.99)])
def test_what_is_no_number_or_endless_is_told_and_nothing_is_computed_from_it(path, wild, shown):
    answer = quote.answer(at(path, wild))
    assert shown in [reason["given"] for reason in answer["fit"]["reasons"]]
    assert answer["fit"]["verdict"] == "no"
    assert {reason["verdict"] for reason in answer["fit"]["reasons"]} == {"no"}
    assert answer["fit"]["right"]["fault"] == answer["fit"]["left"]["fault"] == "impossible"
    assert answer["bill"] == {"priced": False, "lines": [], "total_cents": 0, "tax_included_cents": 0}


def boxed(a=50.0, b=40.0, xs=(25.0, 0.0, -25.0, 0.0), ys=(0.0, 20.0, 0.0, -20.0)):
    return job(frame=jobs.frame() | {"a": a, "b": b, "xs": list(xs), "ys": list(ys)})


@pytest.mark.parametrize(
    ("changes", "needed", "given"),
    [
        ({"xs": (), "ys": ()}, 3, 0),
        ({"xs": (25.0, -25.0), "ys": (20.0, -20.0)}, 3, 2),
        ({"ys": (0.0, 20.0, 0.0)}, 4, 3),
        ({"xs": (25.51, 0.0, -25.0, 0.0)}, 25.5, 25.51),
        ({"xs": (24.49, 0.0, -25.0, 0.0)}, 24.5, 24.49),
        ({"xs": (25.0, 0.0, -25.51, 0.0)}, 25.5, 25.51),
        ({"xs": (25.0, 0.0, -24.49, 0.0)}, 24.5, 24.49),
        ({"ys": (0.0, 20.51, 0.0, -20.0)}, 20.5, 20.51),
        ({"ys": (0.0, 19.49, 0.0, -20.0)}, 19.5, 19.49),
        ({"ys": (0.0, 20.0, 0.0, -20.51)}, 20.5, 20.51),
        ({"ys": (0.0, 20.0, 0.0, -19.49)}, 19.5, 19.49),
        ({"ys": (0.0, -20.0, 0.0, 20.0)}, 0.01, -1000.0),
        ({"xs": (200.01, 0.0, -25.0, 0.0)}, 200.0, 200.01),
        ({"ys": (0.0, 20.0, 0.0, -200.01)}, -200.0, -200.01),
        ({"xs": (25.0, 0.0, -200.01, 0.0)}, -200.0, -200.01),
        ({"ys": (0.0, 200.01, 0.0, -20.0)}, 200.0, 200.01),
        ({"xs": (25.0, 0.0, -200.0, 0.0)}, 25.5, 200.0),
        ({"ys": (0.0, 200.0, 0.0, -20.0)}, 20.5, 200.0),
        ({"xs": (200.0, 0.0, -25.0, 0.0)}, 25.5, 200.0),
        ({"ys": (0.0, 20.0, 0.0, -200.0)}, 20.5, 200.0),
    ],
)
def test_an_outline_is_a_turn_around_its_box(changes, needed, given):
    assert told(boxed()) == []
    assert told(boxed(**changes)) == [("impossible-outline", needed, given)]
    assert [each["eye"] for each in checked.faults(boxed(**changes))] == ["B"]


@pytest.mark.parametrize(
    "changes",
    [
        {"xs": (25.5, 0.0, -25.5, 0.0)},
        {"xs": (24.5, 0.0, -24.5, 0.0)},
        {"ys": (0.0, 20.5, 0.0, -20.5)},
        {"ys": (0.0, 19.5, 0.0, -19.5)},
        {"xs": (25.0, 0.0, -25.0), "ys": (-20.0, 20.0, -20.0)},
    ],
)
def test_half_a_millimeter_is_what_a_printed_size_leaves_open(changes):
    assert told(boxed(**changes)) == []


@pytest.mark.parametrize(("name", "greatest"), [("a", 200.0), ("b", 200.0)])
def test_a_box_has_a_size(name, greatest):
    assert told(at(f"frame.{name}", 0.0))[-1] == ("impossible-box", 0.01, 0.0)
    assert told(at(f"frame.{name}", greatest + 0.01)) == [("impossible-box", greatest, greatest + 0.01)]
    assert {code for code, _, _ in told(at(f"frame.{name}", greatest))} == {"impossible-outline"}
    assert "impossible-box" not in {code for code, _, _ in told(at(f"frame.{name}", 0.01))}


def test_a_package_is_made_in_some_powers():
    assert told(job(package=package(ranges=[]))) == [("impossible-ranges", 1.0, 0.0)]


def test_adds_begin_where_they_begin():
    def adds(low, high):
        return told(job(package=package(ranges=[part(add_from=low, add_to=high)])))

    assert adds(0.0, 10.0) == adds(10.0, 10.0) == []
    assert adds(-0.01, 1.0) == [("impossible-ranges", 0.0, -0.01)]
    assert ("impossible-ranges", 10.0, 10.01) in adds(10.01, 10.01)
    assert adds(1.0, 0.99) == [("impossible-ranges", 1.0, 0.99)]


@pytest.mark.parametrize(
    ("path", "known"),
    [
        ("package.kind", ("single-vision", "anti-fatigue", "progressive", "bifocal")),
        ("package.light", ("clear", "photochromic", "polarized")),
        ("money.discounts.0.on", ("frame", "lenses", "goods")),
        (
            "money.surcharges.0.when",
            ("prism", "cylinder", "blank", "wrap", "mounting", "power", "tint", "mirror", "slab-off", "rush"),
        ),
    ],
)
def test_a_word_is_one_that_the_engine_knows(path, known):
    assert [told(at(path, word)) for word in known] == [[]] * len(known)
    for wild in ("", "hovering", known[0].upper()):
        assert told(at(path, wild)) == [("unknown-word", 1.0, 0.0)]
        assert [(each["eye"], each["verdict"]) for each in checked.faults(at(path, wild))] == [("B", "no")]
        assert quote.answer(at(path, wild))["bill"]["priced"] is False


def test_a_surcharge_is_due_from_a_size_that_can_be():
    assert told(at("money.surcharges.0.over", 200.0)) == told(at("money.surcharges.0.over", 0.0)) == []
    assert told(at("money.surcharges.0.over", -0.01)) == [("impossible-money", 0.0, -0.01)]
    assert told(at("money.surcharges.0.over", 200.01)) == [("impossible-money", 200.0, 200.01)]


def test_all_surcharges_together_keep_within_what_can_be_priced():
    half = [jobs.surcharge(cents=5_000_000, name=name) for name in ("one", "other")]
    assert told(job(money=jobs.money(surcharges=half))) == []
    more = [*half, jobs.surcharge(cents=1)]
    assert told(job(money=jobs.money(surcharges=more))) == [("impossible-money", 999999.99, 999999.99)]


def test_an_eye_that_gets_no_lens_is_not_looked_at():
    one = at("left.sphere", math.nan) | {"has_left": False}
    one["measures"]["pd_left"] = one["measures"]["height_left"] = -1.0
    assert told(one) == []
    assert quote.answer(one)["bill"]["priced"]
    other = at("right.sphere", math.nan) | {"has_right": False}
    other["measures"]["pd_right"] = other["measures"]["height_right"] = -1.0
    assert told(other) == []
    assert quote.answer(other)["bill"]["priced"]


def test_everything_impossible_is_told_at_once_and_names_its_eye():
    one = at("right.sphere", 50.0)
    one["left"]["axis"] = 200.0
    one["money"]["frame_cents"] = -1
    answer = quote.answer(one)
    assert [(each["code"], each["eye"]) for each in answer["fit"]["reasons"]] == [
        ("impossible-sphere", "R"),
        ("impossible-axis", "L"),
        ("impossible-money", "B"),
    ]


def test_an_impossible_amount_leaves_the_lenses_and_takes_the_price():
    answer = quote.answer(at("money.frame_cents", -1))
    assert answer["fit"]["verdict"] == "no"
    assert answer["fit"]["right"] == quote.fit(FULL)["right"]
    assert not answer["bill"]["priced"]


@pytest.mark.parametrize(
    ("value", "shown"),
    [(1.005001, 1.01), (999999.99, 999999.99), (1000000.0, 999999.99), (-1000000.0, -999999.99), (1e308, 999999.99)],
)
def test_numbers_are_told_on_a_hundredth_and_within_bounds(value, shown):
    assert bounds.told(value) == shown


def test_every_code_of_the_reader_is_reached_by_a_test_here():
    reached = {code for _, code, _, _ in DOMAINS} | {"impossible-money", "impossible-outline", "unknown-word"}
    assert codes("hold") | {"unknown-word"} == reached


WILD = st.one_of(
    st.floats(),
    st.sampled_from((0.0, -0.0, 1e-300, 1e308, -1e308, 5e-324, 1.0, 1.01, 2.5, 40.0, -40.0, 25.0, 30.0, 60.0, 0.01)),
)


def leaves(value, path=()):
    """The path of every number and text of a job."""
    inner = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    if isinstance(value, (int, float, str)) and not isinstance(value, bool):
        yield path
    for key, one in inner:
        yield from leaves(one, (*path, key))


@st.composite
def wild_jobs(draw):
    """A random job in which up to three values are anything of their type, and lists may be empty."""
    one = draw(jobs.random_jobs())
    paths = [path for path in leaves(one) if path[:2] not in (("frame", "xs"), ("frame", "ys"))]
    paths += [("frame", "xs", 0), ("frame", "ys", 7)]
    for path in draw(st.lists(st.sampled_from(paths), max_size=3)):
        place = one
        for key in path[:-1]:
            place = place[key]
        old = place[path[-1]]
        place[path[-1]] = draw({str: st.text(max_size=5), int: st.integers()}.get(type(old), WILD))
    if draw(st.integers(0, 9)) == 0:
        one["frame"]["xs"] = []
    if draw(st.integers(0, 9)) == 0:
        one["package"]["ranges"] = []
    return one


@steady(400)
@given(wild_jobs())
def test_no_job_whatever_makes_the_engine_raise(one):
    answer = quote.answer(one)
    assert answer["fit"]["verdict"] in ("fits", "caution", "no")
    for reason in answer["fit"]["reasons"]:
        assert math.isfinite(reason["needed"])
        assert math.isfinite(reason["given"])
    for side in ("right", "left"):
        assert all(math.isfinite(value) for value in answer["fit"][side].values() if isinstance(value, float))
    assert answer["bill"]["total_cents"] == sum(line["cents"] for line in answer["bill"]["lines"])
    if checked.faults(one):
        assert answer["fit"]["verdict"] == "no"
        assert not answer["bill"]["priced"]


@st.composite
def extreme_jobs(draw):
    """Jobs at the corners of what may be computed: every number a limit or next to it."""
    one = deepcopy(FULL)
    one["package"]["finished"] = draw(st.booleans())
    for path, _, least, greatest in draw(st.lists(st.sampled_from(DOMAINS), min_size=1, max_size=12)):
        place, steps = one, path.split(".")
        for step in steps[:-1]:
            place = place[int(step)] if isinstance(place, list) else place[step]
        place[steps[-1]] = draw(st.sampled_from((least, greatest, least + (greatest - least) * 0.999)))
    return one


@steady(400)
@given(extreme_jobs())
def test_at_the_corners_of_what_may_be_computed_there_is_an_answer_too(one):
    answer = quote.answer(one)
    for side in ("right", "left"):
        assert all(math.isfinite(value) for value in answer["fit"][side].values() if isinstance(value, float))
