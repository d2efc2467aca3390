"""Which prices a selector names, and what a rule makes of them."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.keeping.raised import CENT, Rounding, Rule, WordError, percent, picked, raised, rounding

AMOUNTS = st.integers(0, 200_000)
STEPS = st.sampled_from([1, 5, 10, 50, 90, 100, 500, 900, 990])


@given(AMOUNTS, st.integers(-5_000, 5_000), STEPS)
def test_up_to_is_the_least_multiple_that_is_no_less(cents, points, step):
    exact = Fraction(cents * (10_000 + points), 10_000)
    new = Rule(points, Rounding("up-to", step)).of(cents)
    assert new % step == 0
    assert exact <= new < exact + step


@given(AMOUNTS, st.integers(-5_000, 5_000), STEPS)
def test_nearest_is_no_farther_than_half_a_step(cents, points, step):
    exact = Fraction(cents * (10_000 + points), 10_000)
    new = Rule(points, Rounding("nearest", step)).of(cents)
    assert new % step == 0
    assert -Fraction(step, 2) < new - exact <= Fraction(step, 2)


@given(AMOUNTS, st.sampled_from([(90, 100), (5, 100), (900, 1_000), (990, 1_000), (9_900, 10_000)]))
def test_ending_is_the_least_amount_that_ends_so_and_is_no_less(cents, ending):
    end, turn = ending
    new = Rounding("ending", end).of(Fraction(cents))
    assert new % turn == end
    assert cents <= new < cents + turn or new == end


@pytest.mark.parametrize(
    ("old", "change", "rule", "new"),
    [
        (2400, "+4%", ("up-to", "5"), 2500),
        (2400, "+4%", ("up-to", "0.50"), 2500),
        (2400, "+4 %", ("nearest", "1"), 2500),
        (2400, "+4%", ("ending", "0.90"), 2590),
        (2400, "+4%", ("ending", "9"), 2900),
        (2590, "-1.5%", ("ending", "0,90"), 2590),
        (2400, "−10%", ("nearest", "0.05"), 2160),
        (2400, "-100%", ("nearest", "0.05"), 0),
    ],
)
def test_a_rule_in_its_words(old, change, rule, new):
    assert Rule(percent(change), rounding(*rule)).of(old) == new


@pytest.mark.parametrize("text", ["4%", "+4", "+4,125%", "four", "", "-101%", "+-4%"])
def test_what_is_no_change_is_refused(text):
    with pytest.raises(WordError):
        percent(text)


@pytest.mark.parametrize(
    ("kind", "amount", "words"),
    [
        ("upto", "5", "did you mean"),
        ("nearest", "0", "more than 0"),
        ("nearest", "x", "no amount"),
        ("ending", "-1", "more"),
    ],
)
def test_what_is_no_rounding_is_refused(kind, amount, words):
    with pytest.raises(WordError, match=words):
        rounding(kind, amount)


@pytest.mark.parametrize(
    ("words", "ids"),
    [
        ("all", {"plain-150", "thin-160", "flow-160"}),
        ("maker=pennock", {"plain-150", "thin-160", "flow-160"}),
        ("maker=Pennock material=r160", {"thin-160", "flow-160"}),
        ("lenses kind=progressive", {"flow-160"}),
        ("design=sv material=r160", {"thin-160"}),
        ("package=plain-150,flow-160", {"plain-150", "flow-160"}),
        ("light=clear kind=single-vision,progressive", {"plain-150", "thin-160", "flow-160"}),
        ("frames", {"alder", "reed"}),
        ("frames maker=bolderwood mounting=drilled", {"reed"}),
        ("frames frame=alder", {"alder"}),
    ],
)
def test_a_selector_names_prices(stand, words, ids):
    now = stand()
    assert {spot.id for spot in picked(now.spots, words, now.catalog)} == ids


@pytest.mark.parametrize(
    ("words", "hint"),
    [
        ("", "say all"),
        ("maker=penock", "did you mean pennock?"),
        ("makr=pennock", "did you mean maker=pennock?"),
        ("pennock", "there is maker="),
        ("frames material=r160", "'material=r160' names lenses: for their prices leave out `frames`"),
        ("maker=bolderwood", 'write "frames maker=bolderwood"'),
        ("frame=alder", 'write "frames frame=alder"'),
        ("frames maker=bolderwod", "did you mean bolderwood?"),
        ("frames light=clear", "leave out `frames`"),
        ("material=", "there are r150, r160"),
    ],
)
def test_a_word_that_means_nothing_is_answered_with_the_right_one(stand, words, hint):
    now = stand()
    with pytest.raises(WordError) as fault:
        picked(now.spots, words, now.catalog)
    assert hint in str(fault.value)


def test_prices_that_stay_are_no_changes(stand):
    spots = stand().spots
    assert raised(spots, Rule(0, CENT)) == []
    assert len(raised(spots, Rule(400, CENT))) == len(spots)
