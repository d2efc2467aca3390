"""Whatever stands in private files, reading answers with findings at places, never raises and takes no half of them."""

import time
from datetime import date

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from quoting.catalog.codes import CODES
from quoting.catalog.load import load
from quoting.findings import errors
from quoting.private.margins import Books
from quoting.private.read import read_costs
from quoting.private.report import Report
from quoting.private.sense import costs_sense
from quoting.private.till import Till
from quoting.private.told import report_text
from tests.catalog.mangling import values
from tests.catalog.test_mangled import INSTEAD, NEVER_RIGHT
from tests.private.conftest import WHARF

DAY = date(2026, 4, 1)
CATALOG = load(WHARF, DAY)[0]
WHOLE = (WHARF / "private/costs.yaml").read_bytes()


@pytest.fixture(scope="module")
def after(tmp_path_factory):
    """What is found once the file holds this; where nothing is wrong, all that is told of it is worked out, too."""
    shop = tmp_path_factory.mktemp("mangled")
    (shop / "private").mkdir()

    def found(content):
        (shop / "private/costs.yaml").write_bytes(content)
        costs, findings = read_costs(shop, CATALOG)
        assert (costs is None) == bool(errors(findings))
        if costs is not None:
            findings += costs_sense(CATALOG, costs, DAY)
            report = Report.of(Books(CATALOG, costs, Till.of(CATALOG, CATALOG.price_list.regions[0], DAY, True)), DAY)
            assert report_text(report).count("\n") > 10
        for finding in findings:
            assert finding.code in CODES
            assert finding.hint
            assert finding.mark.line >= 1
            assert 1 <= finding.mark.column <= len(finding.mark.text) + 1
            assert len(str(finding)) < 2000
        return findings

    return found


@pytest.mark.parametrize("instead", INSTEAD)
def test_any_value_may_be_replaced_by_anything(after, instead):
    for start, end in values(WHOLE):
        findings = after(WHOLE[:start] + instead + WHOLE[end:])
        if instead in NEVER_RIGHT:
            assert errors(findings), WHOLE[start:end]


def test_a_file_may_be_cut_anywhere_and_any_line_be_missing(after):
    lines = WHOLE.splitlines(keepends=True)
    for place in range(len(lines)):
        after(b"".join(lines[:place] + lines[place + 1 :]))
    for end in range(len(WHOLE)):
        after(WHOLE[:end])


@given(st.data())
@settings(max_examples=200, deadline=None, suppress_health_check=list(HealthCheck))
def test_bytes_may_stand_anywhere(after, data):
    start = data.draw(st.integers(0, len(WHOLE)))
    end = data.draw(st.integers(start, min(len(WHOLE), start + 40)))
    put = data.draw(
        st.binary(max_size=20) | st.text(alphabet="{}[]:,-#&*!|>'\"%@` \t\n\\\u2028é0", max_size=20).map(str.encode)
    )
    after(WHOLE[:start] + put + WHOLE[end:])


@pytest.mark.parametrize(
    "content",
    [
        b"packages: {plain-150: " + b"[" * 5000,
        b"packages: {" + b"plain-150: 1, " * 60_000 + b"}",
        b"frames: {bollard: {tar: {" + b"".join(b"%d-18: 1, " % n for n in range(60_000)) + b"}}}",
        b"options: {" + b"x" * 1_000_000 + b": 1}",
        b"\xff\xfe" + "packages: {plain-150: 1}".encode("utf-16-le"),
        b"# " + b"x" * 9_000_000,
    ],
    ids=["deep", "the same again and again", "many sizes", "a long name", "UTF-16", "large"],
)
def test_nothing_takes_long(after, content):
    began = time.process_time()
    assert errors(after(content))
    assert time.process_time() - began < 60
