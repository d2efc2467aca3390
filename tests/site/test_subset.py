"""What the kernel subset refuses, each with code, line and column, and what it lets pass."""

import ast
import builtins
import json
import subprocess
import sys
from pathlib import Path

import pytest

from quoting.site import subset_facts
from quoting.site.subset import refusals
from quoting.site.subset_words import INHERITED, RESERVED
from tests.site.node import node

HEAD = "def f(x: float, xs: list[float], flag: bool, name: str) -> float:\n    "
TAIL = "\n    return x\n"

# a statement, put in the second line of a function, from column 5 on
STATEMENTS = [
    ("y = x ** 2", "not-in-subset", 9),
    ("y = x % 2", "not-in-subset", 9),
    ("y = x @ x", "not-in-subset", 9),
    ("y = x & 1", "not-in-subset", 9),
    ("y = x << 1", "not-in-subset", 9),
    ("y = +x", "not-in-subset", 9),
    ("y = ~x", "not-in-subset", 9),
    ("y = x if flag else 0", "not-in-subset", 9),
    ("y = lambda: x", "not-in-subset", 9),
    ("y = [a for a in xs]", "not-in-subset", 9),
    ("y = {a: 1 for a in xs}", "not-in-subset", 9),
    ("y = {1, 2}", "not-in-subset", 9),
    ("y = (1, 2)", "not-in-subset", 9),
    ("y = None", "not-in-subset", 9),
    ("y = b'a'", "not-in-subset", 9),
    ("y = 2j", "not-in-subset", 9),
    ("y = ...", "not-in-subset", 9),
    ("y = f'{x}'", "not-in-subset", 9),
    ("y = 0 < x < 1", "not-in-subset", 9),
    ("y = x is x", "not-in-subset", 9),
    ("y = x in xs", "not-in-subset", 9),
    ("y = x not in xs", "not-in-subset", 9),
    ("y = (z := x)", "not-in-subset", 10),
    ("y = xs[1:]", "not-in-subset", 12),
    ("y = [*xs]", "not-in-subset", 10),
    ("y = {**x}", "not-in-subset", 12),
    ("y = x.real", "not-in-subset", 9),
    ("y = math.pi", "not-in-subset", 9),
    ("y = f", "not-in-subset", 9),
    ("y = z = x", "not-in-subset", 5),
    ("y, z = xs", "not-in-subset", 5),
    ("y: float", "not-in-subset", 5),
    ("xs[0]: float = 1", "not-in-subset", 5),
    ("x /= 2", "not-in-subset", 5),
    ("x //= 2", "not-in-subset", 5),
    ("x **= 2", "not-in-subset", 5),
    ("xs[0][1] += 1", "not-in-subset", 5),
    ("xs[len(xs) - 1] = 1", "not-in-subset", 5),
    ("x", "not-in-subset", 5),
    ("abs(x)", "not-in-subset", 5),
    ("y = 1; 'a remark'", "not-in-subset", 12),
    ("pass", "not-in-subset", 5),
    ("assert flag", "not-in-subset", 5),
    ("del xs[0]", "not-in-subset", 5),
    ("global g", "not-in-subset", 5),
    ("import math", "not-in-subset", 5),
    ("raise ValueError", "not-in-subset", 5),
    ("raise ValueError(name)", "not-in-subset", 5),
    ("raise KeyError('a')", "not-in-subset", 5),
    ("raise ValueError('a') from x", "not-in-subset", 5),
    ("while flag: x = 1", "not-in-subset", 5),
    ("with x: x = 1", "not-in-subset", 5),
    ("class C: x = 1", "not-in-subset", 5),
    ("def g(): return 1", "not-in-subset", 5),
    ("for i, j in xs: x = 1", "not-in-subset", 9),
    ("y = xs[-1]", "bad-index", 12),
    ("y = xs[1.0]", "bad-index", 12),
    ("y = xs[True]", "bad-index", 12),
    ("y = xs[name]", "bad-index", 12),
    ("y = xs['two words']", "bad-key", 12),
    ("y = xs['constructor']", "bad-key", 12),
    ("y = xs['__proto__']", "bad-key", 12),
    ("y = xs['length']", "bad-key", 12),
    ("y = {'a': 1, 'a': 2}", "bad-key", 18),
    ("y = {1: 2}", "bad-key", 10),
    ("y = {name: 2}", "bad-key", 10),
    ("y = name + 'a'", "not-a-number", 9),
    ("y = x + 'a'", "not-a-number", 13),
    ("y = xs + [1]", "not-a-number", 9),
    ("y = xs * 2", "not-a-number", 9),
    ("y = -flag", "not-a-number", 10),
    ("y = x + flag", "not-a-number", 13),
    ("y = name < 'a'", "not-a-number", 9),
    ("y = x < flag", "not-a-number", 13),
    ("y = abs(name)", "not-a-number", 13),
    ("name += 1", "not-a-number", 5),
    ("y = len(name)", "not-a-list", 13),
    ("name.append(1)", "not-a-list", 5),
    ("for i in name: x = 1", "not-a-list", 14),
    ("for i in range(2.0): x = 1", "not-a-number", 20),
    ("y = x or flag", "not-a-bool", 9),
    ("y = not xs", "not-a-bool", 13),
    ("y = flag and len(xs)", "not-a-bool", 18),
    ("y = x == 'a'", "not-comparable", 9),
    ("y = flag == 1", "not-comparable", 9),
    ("y = xs == []", "not-comparable", 9),
    ("y = round(x)", "wrong-call", 9),
    ("y = min(x, 1)", "wrong-call", 9),
    ("y = sum(xs)", "wrong-call", 9),
    ("y = int(x)", "wrong-call", 9),
    ("y = sorted(xs)", "wrong-call", 9),
    ("y = str(x)", "wrong-call", 9),
    ("y = range(3)", "wrong-call", 9),
    ("y = xs.append(1)", "wrong-call", 9),
    ("y = xs.copy()", "wrong-call", 9),
    ("y = math.sin(x)", "wrong-call", 9),
    ("y = len(xs, xs)", "wrong-call", 9),
    ("y = f(x)", "wrong-call", 9),
    ("y = f(x, xs, flag, name=name)", "wrong-call", 24),
    ("y = g(x)", "wrong-call", 9),
    ("for i in range(1, 2, 3, 4): x = 1", "wrong-call", 14),
    ("y = 9007199254740992", "number-too-large", 9),
    ("y = 1e999", "number-too-large", 9),
    ("y = z", "unknown-name", 9),
    ("typeof = 1", "name-reserved", 5),
    ("let = 1", "name-reserved", 5),
    ("package = 1", "name-reserved", 5),
    ("arguments = 1", "name-reserved", 5),
    ("eval = 1", "name-reserved", 5),
    ("undefined = 1", "name-reserved", 5),
    ("NaN = 1", "name-reserved", 5),
    ("max = 1", "name-reserved", 5),
    ("größe = 1", "name-reserved", 5),
    ("for new in xs: x = 1", "name-reserved", 9),
    ("f = 1", "name-taken", 5),
    ("return", "wrong-return", 5),
    ("for i in xs: xs.append(i)", "list-changes", 18),
    ("for i in xs: xs[0] = i", "list-changes", 18),
]

# whole files: source, code, line, column
FILES = [
    ("def f() -> float:\n    if A:\n        y = 1\n    return y\nA = True\n", "maybe-unassigned", 4, 12),
    ("def f(n: int) -> int:\n    for i in range(n):\n        y = i\n    return i\n", "maybe-unassigned", 4, 12),
    ("def f(n: int) -> int:\n    y += n\n    return y\n", "maybe-unassigned", 2, 5),
    ("def f(n: int) -> int:\n    y = y + n\n    return y\n", "maybe-unassigned", 2, 9),
    ("def f(n: int) -> int:\n    if n > 0:\n        return n\n", "no-return", 1, 1),
    ("def f(xs: list[int]) -> int:\n    for x in xs:\n        return x\n", "no-return", 1, 1),
    ("def f(n: int) -> None:\n    return n\n", "wrong-return", 2, 5),
    (
        "def f(n: int) -> int:\n    for i in range(n):\n        n = i\n    else:\n        n = 1\n    return n\n",
        "not-in-subset",
        5,
        9,
    ),
    ("def f(n) -> int:\n    return 1\n", "no-annotation", 1, 7),
    ("def f(n: int):\n    return\n", "no-annotation", 1, 1),
    ("def f(n: int = 1) -> int:\n    return n\n", "not-in-subset", 1, 16),
    ("def f(*n: int) -> int:\n    return 1\n", "not-in-subset", 1, 8),
    ("def f(**n: int) -> int:\n    return 1\n", "not-in-subset", 1, 9),
    ("def f(*, n: int) -> int:\n    return 1\n", "not-in-subset", 1, 10),
    ("def f(n: int, /) -> int:\n    return 1\n", "not-in-subset", 1, 7),
    ("@g\ndef f(n: int) -> int:\n    return 1\n", "not-in-subset", 1, 2),
    ("async def f() -> int:\n    return 1\n", "not-in-subset", 1, 1),
    ("class C:\n    x = 1\n", "not-in-subset", 1, 1),
    ("if True:\n    A = 1\n", "not-in-subset", 1, 1),
    ("A = 1\nA += 1\n", "not-in-subset", 2, 1),
    ("a = 1\n", "not-in-subset", 1, 1),
    ("A = {'a': 1}\n", "not-in-subset", 1, 5),
    ("A = len([])\n", "not-in-subset", 1, 5),
    ("A = 1\n'a text'\n", "not-in-subset", 2, 1),
    ("A = 1\nA = 2\n", "name-taken", 2, 1),
    ("def f() -> int:\n    return 1\ndef f() -> int:\n    return 1\n", "name-taken", 3, 1),
    ("def delete() -> int:\n    return 1\n", "name-reserved", 1, 1),
    ("def F() -> int:\n    return 1\n", "name-reserved", 1, 1),
    ("def f(super: int) -> int:\n    return 1\n", "name-reserved", 1, 7),
    ("A = B\nB = 1\n", "unknown-name", 1, 5),
    ("A = [1]\ndef f() -> None:\n    A.append(2)\n", "constant-changes", 3, 5),
    ("A = [1]\ndef f() -> None:\n    A[0] = 2\n", "constant-changes", 3, 5),
    ("A = [[1]]\ndef f() -> None:\n    A[0][0] = 2\n", "constant-changes", 3, 5),
    ("import os\n", "import-refused", 1, 1),
    ("import math as m\n", "import-refused", 1, 1),
    ("from math import sqrt\n", "import-refused", 1, 1),
    ("from quoting.money import Money\n", "import-refused", 1, 1),
    ("from quoting.kernel import power\n", "import-refused", 1, 1),
    ("from quoting.kernel.power import *\n", "import-refused", 1, 34),
    ("from quoting.kernel.power import a as b\n", "import-refused", 1, 34),
    ("from quoting.kernel.power import _a\n", "import-refused", 1, 34),
    ("from . import power\n", "import-refused", 1, 1),
    ("def f(x: float) -> float:\n    return math.sqrt(x)\n", "wrong-call", 2, 12),
]

if sys.version_info >= (3, 12):  # before, Python itself cannot read it
    FILES.append(("def f[T](n: int) -> int:\n    return n\n", "not-in-subset", 1, 7))

# what Python itself refuses; where in the line it says so differs between its versions
UNPARSABLE = [
    "A = 1\ndef f(:\n",
    "A = 1\ndef f(a: int, a: int) -> int:\n    return a\n",
    "A = 1\nB = '\\d'\n",
    "A = 1\nreturn 1\n",
]


@pytest.mark.parametrize(("statement", "code", "column"), STATEMENTS, ids=[row[0] for row in STATEMENTS])
def test_a_statement_outside_the_subset_is_refused_at_its_place(statement, code, column):
    found = refusals(HEAD + statement + TAIL, "rules.py")
    assert (code, 2, column) in [(finding.code, finding.mark.line, finding.mark.column) for finding in found]
    assert {finding.mark.file for finding in found} == {"rules.py"}


@pytest.mark.parametrize(("source", "code", "line", "column"), FILES, ids=[row[0] for row in FILES])
def test_a_file_outside_the_subset_is_refused_at_its_place(source, code, line, column):
    found = refusals(source, "rules.py")
    assert (code, line, column) in [(finding.code, finding.mark.line, finding.mark.column) for finding in found]


@pytest.mark.parametrize("source", UNPARSABLE)
def test_what_python_cannot_read_is_a_finding(source):
    [found] = refusals(source, "rules.py")
    assert (found.code, found.mark.line) == ("unparsable", 2)


def refusing():
    """Where the subset's own files refuse something: file, first and last line of the call."""
    folder = Path(subset_facts.__file__).parent
    for path in sorted(folder.glob("subset*.py")):
        calls = (one for one in ast.walk(ast.parse(path.read_text(encoding="utf-8"))) if isinstance(one, ast.Call))
        for call in calls:
            if isinstance(call.func, ast.Attribute) and call.func.attr == "refuse":
                yield path.name, call.lineno, call.end_lineno


def test_each_refusal_has_its_row_in_these_tables(monkeypatch):
    """What the code can refuse, and which of its lines the rows came through."""
    reached, refuse = set(), subset_facts.Report.refuse

    def noted(*given):
        frame = sys._getframe(1)
        while frame is not None:
            reached.add((Path(frame.f_code.co_filename).name, frame.f_lineno))
            frame = frame.f_back
        refuse(*given)

    monkeypatch.setattr(subset_facts.Report, "refuse", noted)
    for source in (*(HEAD + row[0] + TAIL for row in STATEMENTS), *(row[0] for row in FILES)):
        refusals(source, "rules.py")
    silent = [
        (name, first) for name, first, last in refusing() if not reached & {(name, n) for n in range(first, last + 1)}
    ]
    younger = 'self.report.refuse(parameter, "not-in-subset", "a type parameter is outside the kernel subset")'
    lines = Path(subset_facts.__file__).with_name("subset.py").read_text(encoding="utf-8").split("\n")
    expected = (
        [] if sys.version_info >= (3, 12) else [("subset.py", [line.strip() for line in lines].index(younger) + 1)]
    )
    assert silent == expected


@pytest.mark.parametrize("source", [*(HEAD + row[0] + TAIL for row in STATEMENTS), *(row[0] for row in FILES)])
def test_each_finding_names_file_line_and_expression(source):
    lines = source.split("\n")
    for finding in refusals(source, "rules.py"):
        mark, shown = finding.mark, finding.message.split("`: ")[0].removeprefix("`")
        shown = shown.removesuffix("...") if len(shown) == 60 else shown
        assert (mark.file, mark.text) == ("rules.py", lines[mark.line - 1])
        assert shown
        assert lines[mark.line - 1][mark.column - 1 :].startswith(shown)


def test_without_its_fault_each_statement_would_pass():
    assert refusals(HEAD + "y = x * 2" + TAIL, "rules.py") == []


def test_a_finding_names_the_expression_and_what_to_write_instead():
    [found] = refusals(HEAD + "y = 1 if flag else 2" + TAIL, "rules.py")
    assert found.message.startswith("`1 if flag else 2`: ")
    assert found.hint == "write an if statement"
    assert found.mark.text == "    y = 1 if flag else 2"
    assert found.mark.length == len("1 if flag else 2")


def test_columns_count_letters_and_not_bytes():
    [found] = refusals(HEAD + "y = [name == 'größe', x ** 2]" + TAIL, "rules.py")
    assert found.mark.column == 5 + len("y = [name == 'größe', ")


def test_a_form_feed_ends_no_line():
    [found] = refusals('"""A\fB\u2028C"""\nA = None\n', "rules.py")
    assert (found.mark.line, found.mark.text) == (2, "A = None")


def test_all_faults_are_told_at_once_in_the_order_of_the_lines():
    source = HEAD + "while flag: x = 1\n    y = x % 2\n    z = None" + TAIL
    assert [finding.mark.line for finding in refusals(source, "rules.py")] == [2, 3, 4]


def test_a_source_with_a_null_byte_is_a_finding():
    assert [finding.code for finding in refusals("A = 1\0", "rules.py")] == ["unparsable"]


def test_what_an_interactive_python_leaves_behind_changes_nothing(monkeypatch):
    """Its displayhook, which doctest uses too, keeps the last answer as a builtin `_`."""
    monkeypatch.setattr(builtins, "_", 1, raising=False)
    assert refusals("def f(n: int) -> int:\n    for _ in range(n):\n        n += 1\n    return n\n", "rules.py") == []


ACCEPTED = '''"""A module may begin with a docstring."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math

from quoting.kernel.power import LIMIT, on_step
from quoting.kernel.records import Job

HALF = 1 / 2
_NAMES = ["a", "b"]
TABLE: list[list[float]] = [[-1.5, HALF], [LIMIT]]


def f(job: Job, xs: list[float], flag: bool) -> float:
    """A function too."""
    total = 0.0
    for i in range(1, len(xs), 2):
        if xs[i] > TABLE[0][1] and not flag:
            continue
        elif _NAMES[0] == "a" or job["kind"] != "b":
            total += on_step(xs[i]) // 2
        else:
            break
    for x in job["xs"]:
        total -= math.sqrt(abs(x)) * math.floor(x / 3)
    out = {"total": total, "list": [1, 2]}
    out["total"] = -total
    note(job, xs)
    if flag:
        return out["total"]
    raise ValueError("no such job")


def note(job: Job, xs: list[float]) -> None:
    """Nothing comes back."""
    if job["stop"]:
        return
    xs.append(1.0)
    xs[0] = 2
    xs[0] *= 2
'''


def test_the_whole_subset_is_accepted():
    assert refusals(ACCEPTED, "all.py") == []


@pytest.fixture(scope="module")
def in_node():
    """What node itself says about the words: which it cannot bind, which are globals, what objects inherit."""
    script = """
      const bound = (word) => {
        try { new Function('"use strict"; var ' + word); return true; } catch { return false; }
      };
      const words = JSON.parse(require("node:fs").readFileSync(0, "utf8"));
      const inherited = Object.getOwnPropertyNames(Object.prototype);
      console.log(JSON.stringify(
        {unbound: words.filter((w) => !bound(w)), globals: words.filter((w) => w in globalThis), inherited}));
    """
    done = subprocess.run(
        [node(), "-e", script], input=json.dumps(sorted(RESERVED)), capture_output=True, text=True, check=True
    )
    return json.loads(done.stdout)


def test_each_reserved_word_is_one_to_javascript(in_node):
    """`await` and `async` are reserved in modules and before functions only."""
    assert set(in_node["unbound"]) | set(in_node["globals"]) | {"async", "await"} == RESERVED


def test_what_every_object_inherits_is_no_key(in_node):
    assert set(in_node["inherited"]) | {"length"} == INHERITED
