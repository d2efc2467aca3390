"""Changes the kernel in small ways, one at a time, and sees whether a test notices.

    python -m tests.mutants [--module M] [--sample N] [--seed S] [--processes P] [--patience S] [--log FILE] [--to FILE]

The kernel's tests are run once unchanged, in a process of their own, to see which of them call which function: an item
of pytest that has run can fail when it runs again, and what fails without a change says nothing.  Then a child process
per change puts the changed code into the function that everybody has imported already, and runs the tests that call it
until one fails: those first that have noticed other changes of the module, if a log tells of any, then the quickest.
A change that no test notices, or that nothing calls, survives.  With `--control` nothing is changed: what then
counts as noticed is a fault of the run itself, so it is worth a look before a figure is believed.

With `--log` every answer is kept as it comes, and a change that was noticed is not tried again: so a run that was cut
goes on, and a second one with more `--patience` tries only what survived the first.
"""

import argparse
import importlib
import json
import os
import random
import resource
import signal
import sys
import tempfile
import time
from collections import Counter, defaultdict
from pathlib import Path

import pytest

from tests.mutants.changes import all_changes, kernel_files, noting

TESTS = ["tests/kernel", "tests/authorities", "quoting/kernel", "tests/test_offers.py", "tests/test_tables.py"]
TESTS += ["tests/calculators", "tests/light"]
NOTICED, SURVIVED, LATE = "noticed", "survived", "not noticed in time"
MEMORY = 4 << 30  # bytes that a changed function may fill
SLOW = ["tests/kernel/parity", "tests/authorities/crosschecks", "tests/kernel/test_subset.py"]
LEFT_OUT = [f"--ignore={path}" for path in SLOW]


class Loop:
    """The plugin that runs the tests in its own order."""

    def __init__(self, options):
        self.options = options
        self.callers = defaultdict(list)  # (module, function) -> [(seconds, item)]
        self.survived = []
        self.killed = Counter()
        self.total = Counter()

    def pytest_runtestloop(self, session):
        """First everything as it stands, then change after change."""
        if session.testsfailed:  # a file that cannot be read counts as a failure, which no change has caused
            raise pytest.UsageError("not all tests can be collected")
        if not self.options.map.is_file():
            self.noted(session)
            if session.testsfailed:
                raise pytest.UsageError("the tests fail as the kernel stands")
            self.write_map()
            return True
        self.read_map(session)
        before = Counter((one["key"].split(".")[0], one["by"]) for one in self.logged() if one.get("by"))
        for (module, _), tests in self.callers.items():
            tests.sort(key=lambda one, module=module: (-before[module, one[1].nodeid], one[0]))
        chosen = [one for one in all_changes() if self.options.module in ("", one.module)]
        random.Random(self.options.seed).shuffle(chosen)
        self.all = len(chosen)
        self.change_after_change(session, self.unanswered(chosen[: self.options.sample or None]))
        return True

    def unanswered(self, chosen):
        """Those that no earlier run has noticed; the others count as they are."""
        answers = {one["key"]: one["answer"] for one in self.logged()}
        waiting = []
        for change in chosen:
            answer = answers.get(change.key)
            if answer == NOTICED or (answer and self.options.told):
                self.count(change, answer)
            else:
                waiting.append(change)
        return waiting

    def logged(self):
        """What earlier runs have kept."""
        log = self.options.log
        lines = log.read_text(encoding="utf-8").splitlines() if log and log.is_file() else []
        return [json.loads(line) for line in lines]

    def count(self, change, answer):
        """One more answer."""
        self.total[change.module] += 1
        if answer == NOTICED:
            self.killed[change.module] += 1
        else:
            self.survived.append((change, answer))

    def change_after_change(self, session, waiting):
        """All of them, so many at a time, while there is time."""
        running, end = {}, time.monotonic() + self.options.minutes * 60
        while waiting or running:
            if time.monotonic() > end:
                waiting = []
            while waiting and len(running) < self.options.processes:
                change = waiting.pop()
                running[self.start(session, change)] = change
            if running:
                self.collect(running)

    def read_map(self, session):
        """Which test calls what."""
        items = {item.nodeid: item for item in session.items}
        for name, function, seconds, test in json.loads(self.options.map.read_text(encoding="utf-8")):
            if test in items:
                self.callers[name, function].append((seconds, items[test]))

    def write_map(self):
        """Keep it for the next run."""
        rows = [[*key, seconds, item.nodeid] for key, tests in self.callers.items() for seconds, item in tests]
        self.options.map.write_text(json.dumps(rows), encoding="utf-8")

    def noted(self, session):
        """Run each test and note which functions of the kernel it calls."""
        seen, plain = set(), []
        for path in kernel_files():
            module = importlib.import_module(f"quoting.kernel.{path.stem}")
            module._noted = seen.add
            for name, code in noting(path):
                plain.append((getattr(module, name), getattr(module, name).__code__))
                getattr(module, name).__code__ = code
        for item in session.items:
            seen.clear()
            before = time.perf_counter()
            item.config.hook.pytest_runtest_protocol(item=item, nextitem=None)
            for key in seen:
                self.callers[key].append((time.perf_counter() - before, item))
        for function, code in plain:
            function.__code__ = code

    def start(self, session, change):
        """A child with one change."""
        child = os.fork()
        if child:
            return child
        signal.setitimer(signal.ITIMER_VIRTUAL, self.options.patience)
        resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
        null = os.open(os.devnull, os.O_WRONLY)
        os.dup2(null, 1)
        os.dup2(null, 2)
        module = importlib.import_module(f"quoting.kernel.{change.module}")
        if not self.options.control:
            getattr(module, change.function).__code__ = change.code
        status = 0
        try:
            for _, item in self.callers[change.module, change.function]:
                item.config.hook.pytest_runtest_protocol(item=item, nextitem=None)
                if session.testsfailed:
                    status = 1
                    self.note(change, NOTICED, item.nodeid)
                    break
        except BaseException as error:  # whatever a change breaks, it was noticed
            status = 1
            self.note(change, NOTICED, repr(error))
        os._exit(status)

    def note(self, change, answer, by):
        """Keep an answer, and which test gave it."""
        if self.options.log:
            with self.options.log.open("a", encoding="utf-8") as log:
                log.write(json.dumps({"key": change.key, "answer": answer, "by": by}) + "\n")

    def collect(self, running):
        """What one child that has ended says: one whose time was up has noticed nothing, as one that has ended well."""
        child, status = os.wait()
        change = running.pop(child)
        late = os.WIFSIGNALED(status) and os.WTERMSIG(status) == signal.SIGVTALRM
        answer = LATE if late else NOTICED if status else SURVIVED
        self.count(change, answer)
        if answer != NOTICED:
            self.note(change, answer, "")
        done = sum(self.total.values())
        if done % 100 == 0:
            print(f"{done}: {sum(self.killed.values()) / done:.1%} noticed", file=sys.__stderr__, flush=True)


def table(loop, options):
    """The result as Markdown."""
    done, noticed = sum(loop.total.values()), sum(loop.killed.values())
    yield f"{noticed} of {done} changes noticed, {noticed / done:.1%} (of {loop.all} there are; seed {options.seed}).\n"
    yield "| module | noticed | of | part |\n|---|---|---|---|"
    for module in sorted(loop.total):
        part = loop.killed[module] / loop.total[module]
        yield f"| {module} | {loop.killed[module]} | {loop.total[module]} | {part:.0%} |"
    yield "\nSurvived:\n"
    for one, answer in sorted(loop.survived, key=lambda pair: (pair[0].module, pair[0].line)):
        late = f", {answer}" if answer == LATE else ""
        yield f"- {one.module}.{one.function}, line {one.line}: `{one.was}` → `{one.now}`{late}"


def run(options):
    """pytest with the loop: to note who calls what where there is no map yet, else to try the changes."""
    loop = Loop(options)
    flags = [*TESTS, *LEFT_OUT, "--doctest-modules", "-p", "no:cacheprovider", "-p", "no:terminal"]
    return loop, pytest.main([*flags, "-o", "addopts="], plugins=[loop])


def in_a_child(work):
    """Do it in a process of its own, and wait."""
    child = os.fork()
    if not child:
        work()
        os._exit(0)
    os.waitpid(child, 0)


def main():
    """Run, and print or write the table."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--module", default="")
    parser.add_argument("--sample", type=int, default=0, help="how many changes; 0 for all")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--processes", type=int, default=2)
    parser.add_argument("--control", action="store_true", help="change nothing: then no test may fail")
    parser.add_argument("--minutes", type=float, default=600.0, help="when to stop and tell what was seen until then")
    parser.add_argument("--patience", type=float, default=30.0, help="seconds of the processor for one change")
    parser.add_argument("--log", type=Path, help="where each answer is kept, for the next run")
    parser.add_argument("--told", action="store_true", help="count what the log tells, survivors too, and try the rest")
    parser.add_argument("--map", type=Path, help="where it is kept which test calls what, for the next run")
    parser.add_argument("--to", type=Path)
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        options.map = options.map or Path(folder) / "map.json"
        if not options.map.is_file():
            in_a_child(lambda: run(options))
        loop, code = run(options)
    if not loop.total:
        sys.exit(f"no change was tried: pytest ended with {json.dumps(int(code))}")
    text = "\n".join(table(loop, options)) + "\n"
    if options.to:
        options.to.write_text(text, encoding="utf-8")
    print(text)


if __name__ == "__main__":
    main()
