"""The manual has a page for every reason the engine can give, and every example on it is run."""

import pytest

from quoting.kernel.quote import answer
from quoting.show import manual
from quoting.show.brief import BRIEF, MEANINGS
from quoting.show.example import changed, usual_job
from quoting.show.reasons import WORDS
from tests.kernel import jobs
from tests.kernel.told import codes


def test_every_code_that_the_engine_can_tell_has_its_page_words_and_meaning():
    told = codes("say", "hold")
    assert told == manual.PAGES.keys() == BRIEF.keys() == MEANINGS.keys() == WORDS.keys()
    assert list(manual.PAGES) == list(WORDS), "told in one order"


def test_the_usual_example_fits_without_a_remark_and_is_the_one_of_the_tests():
    fit = answer(usual_job())["fit"]
    assert (fit["verdict"], fit["reasons"]) == ("fits", [])
    mine, theirs = usual_job(), jobs.job()
    for part in ("frame", "limits", "right", "left", "measures", "options"):
        assert mine[part] == theirs[part]


@pytest.mark.parametrize("code", manual.PAGES)
def test_the_passing_example_is_not_told_the_code_and_the_failing_one_is(code):
    page = manual.PAGES[code]
    assert page.passing != page.failing
    passing, failing = answer(changed(page.passing)), answer(changed(page.failing))
    assert code not in {reason["code"] for reason in passing["fit"]["reasons"]}
    assert code in {reason["code"] for reason in failing["fit"]["reasons"]}
    assert passing["bill"]["priced"]
    verdict = manual.page_dict(code)["verdict"]
    assert failing["fit"]["verdict"] == ("no" if verdict == "no" else failing["fit"]["verdict"])
    if code.startswith("impossible") or code == "unknown-word":
        assert not failing["bill"]["priced"]


@pytest.mark.parametrize("code", manual.PAGES)
def test_a_page_says_rule_limit_source_and_what_to_do_and_its_numbers(code):
    text, page = manual.page_text(code), manual.PAGES[code]
    for part in (MEANINGS[code], page.rule, page.where, page.source, page.advice):
        assert part
        assert part in text
    reason = manual.told(page.failing)[code]
    assert f"needed {reason['needed']:g}, given {reason['given']:g}" in text
    assert "{" not in text


def test_the_list_has_a_line_for_each():
    rows = manual.list_text().splitlines()
    assert [row.split()[0] for row in rows] == list(manual.PAGES)
    assert all(row.endswith(".") for row in rows)


def test_an_example_changes_nothing_but_what_it_names():
    one = changed({"eyes.sphere": -3.0, "range.high": 2.0, "center.value": 3.0})
    assert one["right"]["sphere"] == one["left"]["sphere"] == -3.0
    assert one["package"]["ranges"][0]["high"] == 2.0
    assert one["package"]["centers"][0]["value"] == 3.0
    assert changed({}) == usual_job()


@pytest.mark.parametrize(
    ("value", "text"),
    [(True, "yes"), (False, "no"), (-2.25, "−2.25"), ("bifocal", "bifocal"), ([], "none")],
)
def test_values_are_written_as_an_owner_writes_them(value, text):
    assert manual.value_text(value) == text
