"""The calculators give what is published, say why they cannot, and show what they hold."""

import inspect
from contextlib import suppress
from math import isfinite

import pytest

from quoting.calculators.model import KINDS, UnfitError, shown
from quoting.calculators.table import CALCULATORS, TABLE
from quoting.kernel import calculators, lens_calculators
from tests.authorities.cases import crosschecks, published

# Published case -> [calculator, its arguments by name, which results stand for which expected keys]
ASKED = {
    "transposition": lambda i: ("transposition", {"sphere": i["sph"], "cylinder": i["cyl"], "axis": i["axis"]}),
    "spherical-equivalent": lambda i: ("transposition", {"sphere": i["sph"], "cylinder": i["cyl"]}),
    "vertex": lambda i: ("vertex", {"sphere": i["F"], "cylinder": 0.0, "from": i["from_mm"], "to": i["to_mm"]}),
    "near-pd": lambda i: ("near-pd", {"pd": i["DPD"], "working": i["W_mm"], "power": i["F"]}),
    "prentice": lambda i: (
        "prentice",
        {"eye": i.get("eye", "R"), "sphere": i["sph"], "cylinder": i["cyl"], "axis": i["axis"]}
        | {"in": i["oc_in_mm"], "up": i["oc_up_mm"]},
    ),
    "tolerance-power": lambda i: (
        "tolerance",
        {"sphere": i["F"], "cylinder": 0.0, "design": "progressive" if i.get("progressive") else "single-vision"},
    ),
    "tolerance-add": lambda i: ("tolerance", {"add": i["add"], "design": "progressive"}),
}
PLACES = {
    "transposition": {"sph": 0, "cyl": 1, "axis": 2},
    "spherical-equivalent": {"value": 3},
    "vertex": {"value": 0},
    "near-pd": {"value": 0},
    "prentice": {"base_in": 0, "base_up": 1},
    "tolerance-power": {"value": 0},
    "tolerance-add": {"value": 3},
}
CASES = [case for case in published() + crosschecks() if case.ask in ASKED]


def asked(name, **given):
    one = CALCULATORS[name]
    return one.answer([given.get(field.id, field.default) for field in one.fields])


def test_there_are_published_cases_for_many_of_them():
    assert len(CASES) > 30
    assert {case.ask for case in CASES} == ASKED.keys()


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_a_calculator_gives_what_is_published(case):
    name, given = ASKED[case.ask](case.inputs)
    numbers = asked(name, **given)
    for key, wanted in case.expected.items():
        assert numbers[PLACES[case.ask][key]] == pytest.approx(wanted, abs=case.allowed(key)), case.statement


@pytest.mark.parametrize("one", TABLE, ids=lambda one: one.name)
def test_the_example_is_answered_and_every_result_is_named(one):
    numbers = one.answer(one.values({}))
    assert len(numbers) == len(one.results) == len(one.told(numbers))
    assert list(inspect.signature(one.call).parameters)  # positional alone, as many as there are fields
    assert len(inspect.signature(one.call).parameters) == len(one.fields)
    assert one.formula
    assert one.source
    assert {field.kind for field in one.fields if not field.words} <= KINDS.keys()


@pytest.mark.parametrize("one", TABLE, ids=lambda one: one.name)
def test_the_ends_of_every_field_are_answered_or_refused_in_a_sentence(one):
    """No field takes a value for which something else than an answer or a sentence comes."""
    for field in one.fields:
        for text in field.words or (f"{field.low:g}", f"{field.high:g}"):
            values = one.values({field.id: text})
            with suppress(UnfitError):
                assert all(isfinite(number) and abs(number) < 1e9 for number in one.answer(values))


def test_each_calculator_of_the_kernel_is_in_the_table():
    helpers = {"rounded", "as_seen", "category"}
    public = {
        f
        for module in (calculators, lens_calculators)
        for name, f in inspect.getmembers(module, inspect.isfunction)
        if f.__module__ == module.__name__ and name not in helpers
    }
    assert public == {one.call for one in TABLE}


@pytest.mark.parametrize(
    ("name", "given", "said"),
    [
        ("vertex", {"sphere": 20.0, "from": 60.0}, "the image falls"),
        ("near-pd", {"power": 30.0, "working": 2000.0, "pd": 63.0}, None),
        ("near-pd", {"power": 40.0}, "so strong a lens"),
        ("blank", {"ed": 90.0}, "effective diameter"),
        ("thickness", {"sphere": 20.0, "base": 14.0, "diameter": 85.0}, "ends inside"),
        ("thickness", {"diameter": 0.0}, "diameter or index"),
        ("base-curve", {"low": 9.0}, "flattest"),
        ("base-curve", {"sphere": -15.0, "low": 0.0, "high": 0.0}, "flat front"),
        ("tint", {"dye": 100.0}, "come through"),
        ("tint", {"parts": 21.0}, "so deep"),
        ("tint-depth", {"dye": 0.0}, "more than nothing"),
    ],
)
def test_where_there_is_no_answer_a_sentence_says_so(name, given, said):
    if said is None:
        asked(name, **given)
    else:
        with pytest.raises(UnfitError, match=said):
            asked(name, **given)


def test_the_left_eye_is_the_mirror_of_the_right():
    """What is in for one is in for the other; axes are mirrored."""
    right = asked("tilt", eye="R", sphere=-4.0, cylinder=-1.0, axis=30.0, tilt=8.0, wrap=12.0)
    left = asked("tilt", eye="L", sphere=-4.0, cylinder=-1.0, axis=150.0, tilt=8.0, wrap=12.0)
    assert left[:2] == right[:2]
    assert left[2] == pytest.approx(180.0 - right[2])
    across = {"sphere": -4.0, "cylinder": -1.0, "in": 3.0, "up": 2.0}
    one, other = asked("prentice", eye="R", axis=30.0, **across), asked("prentice", eye="L", axis=150.0, **across)
    assert one[:3] == pytest.approx(other[:3])


@pytest.mark.parametrize(("text", "value"), [("-2.25", -2.25), ("−2,25", -2.25), ("+4", 4.0), (" 0 ", 0.0)])
def test_numbers_are_read_as_people_type_them(text, value):
    assert CALCULATORS["transposition"].fields[0].read(text) == value


@pytest.mark.parametrize("text", ["", "abc", "1e3", "--2", "2.25.1", "31", "-30.01", "nan", "٢"])
def test_what_is_no_number_or_beyond_any_lens_is_refused(text):
    with pytest.raises(UnfitError, match="sphere"):
        CALCULATORS["transposition"].fields[0].read(text)


@pytest.mark.parametrize("eighths", range(-200, 201))
def test_what_is_shown_is_never_off_by_more_than_half_a_digit(eighths):
    value = eighths / 8
    text = shown("power", value).replace("−", "-")
    assert abs(float(text) - value) <= 0.005 + 1e-12
    assert text != "-0.00"
