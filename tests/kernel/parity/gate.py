"""Runs CPython's side once a session, by as many processes as there are parts, and compares another side with it."""

import atexit
import os
import shutil
import subprocess
import sys
import tempfile
from dataclasses import dataclass, field
from functools import lru_cache
from pathlib import Path

from tests.kernel.parity import record, sides, spelling, stricter

ROOT = Path(__file__).parents[3]
PARTS = 2


@lru_cache(maxsize=1)
def recorded():
    """A folder with the kernel's script, all calls and what CPython made of them; removed when Python ends."""
    folder = Path(tempfile.mkdtemp(prefix="parity-"))
    atexit.register(shutil.rmtree, folder)
    record.write(folder / "kernel.js", sides.script())
    command = [sys.executable, "-m", "tests.kernel.parity.record", str(folder)]
    running = [subprocess.Popen([*command, str(part), str(PARTS)], **surroundings()) for part in range(PARTS)]
    errors = [process.communicate()[1] for process in running]  # all of them, whatever came of one
    assert [process.returncode for process in running] == [0] * PARTS, "\n".join(errors)
    return folder


def surroundings():
    """How a module of the tests is run by itself."""
    path = os.pathsep.join(filter(None, (str(ROOT), os.environ.get("PYTHONPATH"))))
    return {"cwd": ROOT, "env": os.environ | {"PYTHONPATH": path}, "stderr": subprocess.PIPE, "text": True}


@dataclass
class Found:
    """What came of the comparison."""

    asked: int = 0
    jobs: int = 0
    tints: int = 0
    makeable: int = 0  # every wanted lens can be made and ground, and nothing forbids it
    raised: int = 0  # in both
    stricter: int = 0  # in JavaScript alone, as the docstring of to_js says it
    different: list[str] = field(default_factory=list)


def in_node(program, script, folder, side, chunks):
    """Lets node answer chunks with a script of the kernel, as files of this side."""
    record.write(folder / "node.js", sides.NODE)
    command = [program, str(folder / "node.js"), str(script), str(folder), side, *map(str, chunks)]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr


def compared(folder, side, chunks):
    """Chunks of a side against CPython's."""
    found, strict = Found(), stricter.kernel()
    for number in chunks:
        chunk = [
            spelling.read((folder / f"{number}.{what}.json").read_text("utf-8")) for what in ("calls", "python", side)
        ]
        for call, ours, theirs in zip(*chunk, strict=True):
            found.asked += 1
            found.jobs += call[1] == "answer"
            found.tints += number >= record.FIRST_TINTS and "value" in ours
            found.makeable += call[1] == "answer" and "value" in ours and ours["value"]["fit"]["verdict"] != "no"
            compare(found, strict, call, ours, theirs)
    return found


def compare(found, strict, call, ours, theirs):
    if "error" in ours and ours["error"] == theirs.get("error"):
        found.raised += 1
    elif "error" in theirs and _is_stricter(strict, call) == theirs["error"]:
        found.stricter += 1
    elif "error" in ours or "error" in theirs:
        found.different.append(
            f"{call[0]}.{call[1]}{tuple(call[2])!s:.300}: CPython {ours!s:.90}, there {theirs!s:.90}"
        )
    elif not spelling.same(ours, theirs):
        found.different.append(f"{call[0]}.{call[1]}: {spelling.first_difference(ours, theirs)}")


def _is_stricter(strict, call):
    """The error that the stricter kernel raises, where CPython goes on at least for a while."""
    try:
        strict[call[0]][call[1]](*call[2])
    except Exception as fault:  # whatever it is, it is compared by name
        return type(fault).__name__
    return ""
