"""Every reason the kernel can give has a sentence for the customer and one for the optician."""

import pytest

from quoting.show.brief import BRIEF
from quoting.show.reasons import BIFOCAL, WORDS, number, told_once
from tests.kernel.told import codes


def test_every_code_has_its_words_and_no_words_are_left_over():
    assert codes("say", "hold") == WORDS.keys()


def test_bifocal_words_stand_for_codes_that_exist():
    assert BIFOCAL.keys() <= WORDS.keys()


@pytest.mark.parametrize("code", WORDS)
def test_the_exact_sentence_holds_a_number_wherever_two_were_compared(code):
    yes_or_no = {
        "not-drillable", "impact-needed", "impact-one-eyed", "impact-sport", "mirror-not-offered", "mirror-needs-tint",
        "mirror-needs-back-ar", "blue-filter-not-offered", "unknown-word",
    }  # fmt: skip
    assert ("{needed}" in WORDS[code].exact or "{given}" in WORDS[code].exact) or code in yes_or_no


@pytest.mark.parametrize(
    ("value", "unit", "text"),
    [(-6.25, "D", "−6.25"), (17.0, "mm", "17.0"), (1.5, "plain", "1.5"), (20.0, "plain", "20"), (0.0, "plain", "0")],
)
def test_numbers_are_written_as_their_unit_is(value, unit, text):
    assert number(value, unit) == text


def test_one_reason_for_both_eyes_is_told_once_and_the_worst_comes_first():
    def reason(code, verdict, eye, given):
        return {"code": code, "verdict": verdict, "eye": eye, "needed": 1.0, "given": given}

    told = told_once(
        [
            reason("edge-thick", "caution", "R", 8.5),
            reason("height-too-low", "no", "R", 14.0),
            reason("height-too-low", "no", "L", 14.0),
            reason("edge-thick", "caution", "L", 8.1),
        ]
    )
    assert [(one["code"], one["eye"]) for one in told] == [
        ("height-too-low", "B"),
        ("edge-thick", "R"),
        ("edge-thick", "L"),
    ]


def test_every_code_has_a_few_words_for_the_board():
    assert BRIEF.keys() == WORDS.keys()
    assert all(len(text) <= 32 for text in BRIEF.values())
