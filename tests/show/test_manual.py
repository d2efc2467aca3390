"""The manual has a page for every reason the engine can give, and every example on it is run."""

import pytest

from quoting.kernel.quote import answer
from quoting.lab.traces import SHAPES
from quoting.show import manual
from quoting.show.brief import BRIEF, MEANINGS
from quoting.show.example import changed, usual_job
from quoting.show.manual_traces import FILE, TRACE_PAGES, faults_of
from quoting.show.reasons import WORDS
from tests.kernel import jobs
from tests.kernel.told import codes, everywhere


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
    assert [row.split()[0] for row in rows] == [*manual.PAGES, *TRACE_PAGES]
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


def test_every_code_of_the_kernel_has_its_page():
    told = everywhere("say", "hold")
    assert told == set(manual.MEANT)
    assert told - codes("say", "hold") == TRACE_PAGES.keys() == SHAPES.keys()


def test_the_usual_trace_has_no_fault():
    assert faults_of({}) == []


@pytest.mark.parametrize("code", TRACE_PAGES)
def test_the_example_of_a_trace_is_told_its_code_and_the_page_says_why(code):
    page, text = TRACE_PAGES[code], manual.page_text(code)
    assert [reason["code"] for reason in faults_of(page.failing)] == [code]
    for part in (page.meaning, page.rule, page.source, page.advice, FILE):
        assert part
        assert part in text
    assert "{" not in text
