"""The kernel's JavaScript, run in node: the same numbers as CPython, and an error where Python raises."""

import __future__

import json
import os
import random
import re
import subprocess
import sys
import traceback
import types
from itertools import pairwise
from pathlib import Path

import pytest

from quoting.site import to_js
from quoting.site.subset_facts import lines_of
from quoting.site.to_js_bundle import bundle
from tests.site.node import run
from tests.site.snippets import snippets

ACCEPTED = snippets("accepted")
FAULTS = snippets("faults")
STRICTER = snippets("stricter")


def written(folder, sources):
    """Emit modules given as text."""
    paths = []
    for name, source in sources.items():
        path = folder / f"{name}.py"
        path.write_text(source, encoding="utf-8", newline="")
        paths.append(path)
    return to_js.emit(paths)


def module_of(source):
    """The same text as a Python module."""
    module = types.ModuleType("snippet")
    flags = __future__.annotations.compiler_flag
    exec(compile(source, "snippet.py", "exec", flags=flags, dont_inherit=True), module.__dict__)
    return module


def in_python(source, call):
    """The value of a call written as JSON."""
    return eval(call, module_of(source).__dict__ | {"true": True, "false": False, "null": None})


@pytest.fixture(scope="module")
def results(tmp_path_factory):
    """All snippets in one run of node: the snippet's name -> what its calls gave."""
    rows = [*ACCEPTED, *FAULTS, *STRICTER]
    sources = {f"snippet{number}": row.source for number, row in enumerate(rows)}
    calls = [(row.name, f"K.snippet{number}.{call}") for number, row in enumerate(rows) for call in row.calls]
    answers = run(written(tmp_path_factory.mktemp("snippets"), sources), [call for _, call in calls])
    found = {row.name: [] for row in rows}
    for (name, _), answer in zip(calls, answers, strict=True):
        found[name].append(answer)
    return found


@pytest.mark.parametrize("row", ACCEPTED, ids=str)
def test_both_languages_give_the_same_to_the_last_bit(row, results):
    """JavaScript writes the shortest decimal of a float into JSON, and Python reads it back exactly."""
    assert results[row.name] == [{"value": in_python(row.source, call)} for call in row.calls]


@pytest.mark.parametrize("row", FAULTS, ids=str)
def test_javascript_raises_where_python_raises_and_names_the_line(row, results):
    in_cpython, _, in_page = row.expected.partition(", in JavaScript ")
    with pytest.raises(Exception) as raised:  # noqa: PT011 (the row says which)
        in_python(row.source, row.calls[0])
    assert type(raised.value).__name__ == in_cpython
    [answer] = results[row.name]
    assert answer["error"] == (in_page or in_cpython)
    frames = [frame for frame in traceback.extract_tb(raised.value.__traceback__) if frame.filename == "snippet.py"]
    if answer["where"]:
        assert answer["where"].split(":")[1] == str(frames[-1].lineno)


def test_each_fault_that_the_runtime_knows_is_raised_by_some_row(results):
    """Its words, as they stand in the source, against those that came out; the key of a KeyError has no words."""
    source = Path(to_js.__file__).with_name("runtime.js").read_text(encoding="utf-8")
    calls = re.findall(r"fault\(\"\w+\", (.*)\)", source)
    words = [word for call in calls for word in re.findall(r'"([^"]{5,})"', call)]
    said = [answer.get("message", "") for answers in results.values() for answer in answers]
    assert len(words) >= 15
    assert [word for word in words if not any(word in one for one in said)] == []
    assert "size" in said


def test_all_faults_know_their_line_but_those_found_at_the_door(results):
    """A page calls through a door that looks at the arguments; there is no line of the kernel yet."""
    without = {row.name for row in FAULTS if not results[row.name][0]["where"]}
    assert without == {
        "an argument too few", "an argument too many", "nothing as an argument", "an index that is nothing",
        "a range of nothing",
    }  # fmt: skip


@pytest.mark.parametrize("row", STRICTER, ids=str)
def test_javascript_raises_where_it_could_not_follow(row, results):
    [answer] = results[row.name]
    assert answer.get("error") == row.expected, answer


@pytest.mark.parametrize("sign", ["<", "<=", ">", ">=", "==", "!="])
@pytest.mark.parametrize("kind", ["float", "Unknown"])
def test_what_is_no_number_is_compared_as_in_python(sign, kind, tmp_path):
    """NaN on either side or both, of a known kind and out of a dict; CPython itself is the authority."""
    source = f"def f(a: {kind}, b: {kind}) -> bool:\n    return a {sign} b\n"
    pairs = [("NaN", "1"), ("1", "NaN"), ("NaN", "NaN"), ("NaN", "Infinity")]
    answers = run(written(tmp_path, {"first": source}), [f"K.first.f({a}, {b})" for a, b in pairs])
    compare = module_of(source).f
    values = {"NaN": float("nan"), "Infinity": float("inf"), "1": 1.0}
    assert [answer["value"] for answer in answers] == [compare(values[a], values[b]) for a, b in pairs]


def test_floor_division_follows_cpython_on_any_pair_of_numbers(tmp_path):
    """5,000 seeded pairs; CPython itself is the authority."""
    seeded = random.Random(20)
    pairs = [(seeded.uniform(-9, 9), seeded.choice([0.1, -0.25, 0.3, 1e-3, -7.0])) for _ in range(2500)]
    pairs += [(seeded.randint(-(10**9), 10**9), seeded.choice([1, -1, 7, -10000])) for _ in range(2500)]
    source = "def f(a: float, b: float) -> float:\n    return a // b\n"
    call = f"{json.dumps(pairs)}.map(([a, b]) => K.division.f(a, b))"
    [answer] = run(written(tmp_path, {"division": source}), [call])
    assert answer["value"] == [a // b for a, b in pairs]


def expression(seeded, depth):
    """A random expression over the parameters a, b and c."""
    if depth == 0 or seeded.random() < 0.1:
        return seeded.choice(["a", "b", "c", f"{seeded.uniform(-9, 9)!r}", str(seeded.randint(0, 9))])
    one, other = expression(seeded, depth - 1), expression(seeded, depth - 1)
    kind = seeded.choice(["+", "-", "*", "/", "//", "sqrt", "floor", "abs", "minus"])
    if kind in ("sqrt", "floor"):
        return f"math.{kind}({one})"
    if kind == "abs":
        return f"abs({one})"
    return f"(-{one})" if kind == "minus" else f"({one} {kind} {other})"


def test_random_expressions_give_the_same_or_raise_the_same(tmp_path):
    """600 seeded expressions; beyond 2^53 - 1 JavaScript gives up and Python need not."""
    seeded = random.Random(53)
    texts = [expression(seeded, 5) for _ in range(600)]
    source = "import math\n" + "".join(
        f"def f{n}(a: float, b: float, c: float) -> float:\n    return {text}\n" for n, text in enumerate(texts)
    )
    answers = run(written(tmp_path, {"many": source}), [f"K.many.f{n}(0.3, -2.5, 7)" for n in range(600)])
    module = module_of(source)
    values = 0
    for number, answer in enumerate(answers):
        if answer.get("error") == "OverflowError":
            continue
        try:
            expected = {"value": getattr(module, f"f{number}")(0.3, -2.5, 7)}
            values += 1
        except (ValueError, ZeroDivisionError) as fault:
            expected = {"error": type(fault).__name__}
        assert answer.items() >= expected.items(), texts[number]
    assert values > 200


FIRST = "A = 2.5\n_B = 1\ndef double(x: float) -> float:\n    return x * 2\ndef _own() -> float:\n    return A\n"
SECOND = (
    "from quoting.kernel.first import (\n    A,\n    double,\n)\nfrom quoting.kernel.records import Job\n"
    "def f(job: Job) -> float:\n    return double(job['x']) + A\n"
)


def test_modules_call_each_other_and_share_only_public_names(tmp_path):
    emitted = written(tmp_path, {"second": SECOND, "first": FIRST})
    assert list(emitted) == ["runtime.js", "first.js", "second.js"]
    calls = [
        "K.second.f({x: 3})",
        "Object.keys(K.first)",
        "K.second.f({x: 'a'})",
        "K.first.A",
        "Object.isFrozen(K.first)",
    ]
    given = run(emitted, calls)
    assert [answer.get("value", answer.get("where")) for answer in given] == [
        8.5, ["double", "A"], "second.py:7", 2.5, True,
    ]  # fmt: skip


def test_line_n_is_line_n(tmp_path):
    source = '"""Two\nlines."""\n# SPDX-License-Identifier: AGPL-3.0-or-later\n\nA = [\n    1,\n    2,\n]\n# end\n'
    script = written(tmp_path, {"first": source})["first.js"]
    lines = script.split("\n")
    assert len(lines) - 1 == len(lines_of(source))
    assert lines[2] == "// SPDX-License-Identifier: AGPL-3.0-or-later"
    assert [line.strip() for line in lines[4:7]] == ["const A = [", "1,", "2];"]


@pytest.mark.parametrize("source", ["", "A = 1", "A = 1\r\nB = 2\r\n", '"""A\fB"""\nA = 1\n'], ids=repr)
def test_odd_line_ends_keep_their_count(source, tmp_path):
    script = written(tmp_path, {"first": source})["first.js"]
    assert script.count("\n") == len(lines_of(source))
    assert "error" not in run({"runtime.js": to_js.emit([])["runtime.js"], "first.js": script}, ["K.first"])[0]


BROKEN = {
    "no such module": ({"first": "from quoting.kernel.gone import a\n"}, "import-refused"),
    "no such name": ({"first": FIRST, "second": "from quoting.kernel.first import half\n"}, "import-refused"),
    "a wrong number of arguments": (
        {"first": FIRST, "second": "from quoting.kernel.first import double\ndef f() -> float:\n    return double()\n"},
        "wrong-call",
    ),
    "a circle": (
        {
            "one": "from quoting.kernel.other import b\ndef a() -> int:\n    return b()\n",
            "other": "from quoting.kernel.one import a\ndef b() -> int:\n    return a()\n",
        },
        "import-circle",
    ),
    "the name of the helpers": ({"runtime": FIRST}, "name-reserved"),
    "a fault in one file": ({"first": "A = None\n"}, "not-in-subset"),
}


@pytest.mark.parametrize("name", BROKEN)
def test_what_cannot_be_translated_is_never_emitted(name, tmp_path):
    sources, code = BROKEN[name]
    with pytest.raises(to_js.OutsideSubsetError) as refused:
        written(tmp_path, sources)
    assert {finding.code for finding in refused.value.findings} == {code}
    assert code in str(refused.value)


def test_a_circle_is_told_of_its_own_modules_only(tmp_path):
    sources = dict(BROKEN["a circle"][0], user="from quoting.kernel.one import a\ndef c() -> int:\n    return a()\n")
    with pytest.raises(to_js.OutsideSubsetError) as refused:
        written(tmp_path, sources)
    assert [Path(finding.mark.file).stem for finding in refused.value.findings] == ["one", "other"]


def test_a_script_without_its_neighbor_stops_at_once(tmp_path):
    emitted = written(tmp_path, {"second": SECOND, "first": FIRST})
    del emitted["first.js"]
    with pytest.raises(AssertionError, match="TypeError"):
        run(emitted, [])


def test_the_same_files_give_the_same_bytes_in_any_order_and_process(tmp_path):
    first = written(tmp_path, {"second": SECOND, "first": FIRST})
    paths = [tmp_path / "second.py", tmp_path / "first.py"]
    assert all(list(to_js.emit(order).items()) == list(first.items()) for order in (paths, paths[::-1]))
    script = (
        "import sys, json, pathlib; from quoting.site.to_js import emit;"
        "print(json.dumps(emit(map(pathlib.Path, sys.argv[1:]))))"
    )
    outputs = [
        subprocess.run(
            [sys.executable, "-c", script, *map(str, paths)],
            env=os.environ | {"PYTHONHASHSEED": seed, "PYTHONPATH": str(Path(to_js.__file__).parents[2])},
            capture_output=True,
            check=True,
        ).stdout
        for seed in ("1", "2")
    ]
    assert all(one == other for one, other in pairwise(outputs))
    assert json.loads(outputs[0]) == first


def test_one_script_holds_them_all_and_still_knows_the_lines_of_python(tmp_path):
    """Each module keeps its name under the one global, and an error its own file and line."""
    emitted = written(tmp_path, {"second": SECOND, "first": FIRST})
    calls = ["K.second.f({x: 3})", "K.second.f({x: 'a'})", "K.first.double(true)", "Object.keys(K)"]
    apart, together = run(emitted, calls), run({"kernel of a page.js": bundle(emitted)}, calls)
    assert apart == together
    assert together[1]["where"] == "second.py:7"


def test_the_script_adds_one_global_name(tmp_path):
    emitted = written(tmp_path, {"first": FIRST})
    before = run({}, ["Object.getOwnPropertyNames(globalThis)"])[0]["value"]
    after = run({"kernel.js": bundle(emitted)}, ["Object.getOwnPropertyNames(globalThis)"])[0]["value"]
    assert set(after) - set(before) == {"bevelKernel"}


def test_the_command_writes_the_kernel_as_one_script(tmp_path):
    target = tmp_path / "kernel.js"
    assert to_js.main([str(target)]) == 0
    assert target.read_bytes() == bundle(to_js.emit(to_js.kernel_paths())).encode()


def test_the_command_wants_one_file(capsys):
    assert to_js.main([]) == 2
    assert "python -m quoting.site.to_js FILE" in capsys.readouterr().err


def test_the_command_writes_nothing_where_the_kernel_cannot_be_translated(tmp_path, monkeypatch, capsys):
    bad = tmp_path / "bad.py"
    bad.write_text("A = None\n", encoding="utf-8")
    monkeypatch.setattr(to_js, "kernel_paths", lambda: [bad])
    target = tmp_path / "kernel.js"
    assert to_js.main([str(target)]) == 1
    assert "bad.py:1:5" in capsys.readouterr().err
    assert not target.exists()
