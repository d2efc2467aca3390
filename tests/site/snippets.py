"""Reads the tables of snippets: a title, a piece of kernel, calls of its `f`, and what is expected of them."""

from dataclasses import dataclass
from pathlib import Path

FOLDER = Path(__file__).with_suffix("")


@dataclass(frozen=True)
class Snippet:
    name: str
    source: str
    calls: list[str]  # arguments as JSON; `stricter` has JavaScript's NaN and undefined besides
    expected: str  # the error, below the call

    def __str__(self):
        return self.name


def snippets(table):
    """All snippets of a table, in its order."""
    _, *blocks = (FOLDER / f"{table}.txt").read_text(encoding="utf-8").split("\n== ")
    return [_snippet(block) for block in blocks]


def _snippet(block):
    name, *lines = block.strip("\n").split("\n")
    first = next(number for number, line in enumerate(lines) if line.startswith(">>> "))
    calls = [line.removeprefix(">>> ") for line in lines[first:] if line.startswith(">>> ")]
    expected = [line for line in lines[first:] if not line.startswith(">>> ")]
    return Snippet(name, "\n".join(lines[:first]) + "\n", calls, "\n".join(expected))
