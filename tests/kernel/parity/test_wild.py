"""Whatever numbers a job holds, both languages say the same about it, or raise the same."""

import copy
import subprocess

import pytest
from hypothesis import given

from tests.kernel.jobs import steady
from tests.kernel.parity import calls, gate, record, sides, spelling, stricter, wild
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
def sorts():
    """What came of the jobs: many are answered all the same, so that nobody takes all of them for refused."""
    counted = {"answered": 0, "not answered": 0}
    yield counted
    assert counted["answered"] > 300


KERNEL = calls.modules()
STRICT = stricter.kernel()


@steady(1500)
@given(wild.jobs())
def test_both_languages_say_the_same_about_wild_numbers(page, sorts, job):
    asked = [record.answering(job)]
    [ours], [theirs] = [sides.in_python(one, KERNEL) for one in copy.deepcopy(asked)], page(asked)
    found = gate.Found()
    gate.compare(found, STRICT, asked[0], ours, theirs)
    assert found.different == []
    sorts["answered" if "value" in ours else "not answered"] += 1
