"""Whatever numbers a job holds, both languages say the same about it, and neither raises."""

import subprocess

import pytest
from hypothesis import given

from tests.kernel.jobs import steady
from tests.kernel.parity import calls, record, sides, spelling, wild
from tests.site.node import node

# One line in, one line out
LINES = (
    "const [script] = process.argv.slice(1);"
    "require('node:vm').runInThisContext(require('node:fs').readFileSync(script, 'utf8'));"
    f"{sides.OUTCOME}"
    "require('node:readline').createInterface({ input: process.stdin })"
    ".on('line', (line) => process.stdout.write(outcomes(line) + '\\n'));"
)


@pytest.fixture(scope="module")
def page(tmp_path_factory):
    """Asks node, which stays open: calls -> outcomes."""
    script = tmp_path_factory.mktemp("wild") / "kernel.js"
    record.write(script, sides.script())
    command = [node(), "-e", LINES, str(script)]
    with subprocess.Popen(
        command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, encoding="utf-8"
    ) as process:

        def ask(asked):
            process.stdin.write(spelling.write(asked) + "\n")
            process.stdin.flush()
            return spelling.read(process.stdout.readline())

        yield ask


@pytest.fixture(scope="module")
def verdicts():
    """Of the jobs: some are worked out all the same, so that nobody takes all of them for refused."""
    counted = {"no": 0, "caution": 0, "fits": 0}
    yield counted
    assert counted["caution"] + counted["fits"] > 50
    assert counted["no"] > 500


KERNEL = calls.modules()


@steady(1500)
@given(wild.jobs())
def test_both_languages_say_the_same_about_wild_numbers_and_never_raise(page, verdicts, job):
    asked = record.answering(job)
    ours, [theirs] = sides.in_python(asked, KERNEL), page([asked])
    assert "error" not in ours, ours
    assert "error" not in theirs, theirs
    assert spelling.same(ours, theirs), spelling.first_difference(ours, theirs)
    verdicts[ours["value"]["fit"]["verdict"]] += 1
