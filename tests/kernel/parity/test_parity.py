"""One engine in two places: the kernel in CPython and its JavaScript in node agree on every bit of every answer.

The authority for each side is the other; whether the numbers themselves are right is for the other tests to say.
"""

import json
import subprocess
import sys

import pytest

from tests.kernel.parity import calls, gate, record, spelling
from tests.site.node import node


@pytest.fixture(scope="module")
def found(folder):
    gate.in_node(node(), folder / "kernel.js", folder, "node", record.CHUNKS)
    return gate.compared(folder, "node", record.CHUNKS)


def test_node_and_cpython_agree_on_every_bit(found):
    assert found.different == [], f"{len(found.different)} differ, such as\n" + "\n".join(found.different[:5])


def test_there_are_twenty_thousand_jobs_and_half_of_them_can_be_made(found):
    assert found.jobs >= 20_000
    assert found.makeable >= found.jobs / 2


def test_there_are_two_thousand_tints(found):
    assert found.tints >= 2_000


def test_some_calls_raise_and_raise_alike(found):
    """Else nobody would know whether faults are compared at all."""
    assert found.raised > 100
    assert 0 < found.stricter < found.asked / 100


def test_the_calls_are_the_same_in_every_process(folder):
    """What was drawn in a process of its own, with other hashes, is drawn here again."""
    for number in (0, 1):
        assert spelling.write(record.chunk(number)) == (folder / f"{number}.calls.json").read_text(encoding="utf-8")


def test_each_function_of_the_kernel_is_called(folder):
    chunk = spelling.read((folder / "0.calls.json").read_text(encoding="utf-8"))
    every = {(name, f.__name__) for name, module in calls.modules().items() for f in calls.public_functions(module)}
    assert {(module, name) for module, name, _ in chunk} == every


@pytest.fixture(scope="module")
def coverage(tmp_path_factory):
    """Coverage of the kernel by all direct calls and the first jobs, as coverage.py reports it."""
    folder = tmp_path_factory.mktemp("coverage")
    data = ["--data-file", str(folder / "data"), "--rcfile", str(folder / "no settings")]
    (folder / "no settings").write_text("", encoding="utf-8")
    steps = (
        ["run", *data, "--branch", "--source", "quoting.kernel", "-m", "tests.kernel.parity.covered"],
        ["json", *data, "-q", "-o", str(folder / "report.json")],
    )
    for step in steps:
        command = [sys.executable, "-m", "coverage", *step]
        done = subprocess.run(command, stdout=subprocess.PIPE, **gate.surroundings())
        assert done.returncode == 0, done.stdout + done.stderr
    return json.loads((folder / "report.json").read_text(encoding="utf-8"))["files"]


@pytest.mark.parametrize("name", calls.modules())
def test_the_jobs_and_calls_take_every_branch_of(name, coverage):
    """What is missing belongs into tests/kernel/parity/picked.py."""
    report = coverage[f"quoting/kernel/{name}.py"]
    assert (report["missing_lines"], report["missing_branches"]) == ([], [])
    assert report["excluded_lines"] == []


CHANGES = {
    "a number's last bit": (1.0, 1.0000000000000002),
    "the sign of a zero": (0.0, -0.0),
    "a bool for a number": (1, True),
    "a text for a number": (1.0, "1.0"),
    "nothing for a list": ([], None),
    "a key too many": ({"a": 1}, {"a": 1, "b": 1}),
    "an item too few": ([1, 2], [1]),
    "a number for NaN": (float("nan"), 1.0),
    "a greater infinity": (float("inf"), 1.7976931348623157e308),
}


@pytest.mark.parametrize("name", CHANGES)
def test_the_comparison_sees(name):
    ours, theirs = CHANGES[name]
    assert not spelling.same([{"a": ours}], [{"a": theirs}])
    assert spelling.same([{"a": ours}], [{"a": ours}])


def test_what_is_written_reads_back_as_the_same():
    values = [0.1, -0.0, 5e-324, 1.7976931348623157e308, float("nan"), float("inf"), -float("inf"), 3, True, None, "…"]
    assert spelling.same(values, spelling.read(spelling.write(values)))


def test_a_kernel_that_is_off_by_a_last_bit_is_noticed(folder):
    """One constant of the translated kernel, changed to the next float."""
    script = (folder / "kernel.js").read_text(encoding="utf-8")
    changed = script.replace("const PI=3.141592653589793;", "const PI=3.1415926535897936;")
    assert changed != script
    record.write(folder / "changed.js", changed)
    gate.in_node(node(), folder / "changed.js", folder, "changed", [1])
    assert len(gate.compared(folder, "changed", [1]).different) > 100
