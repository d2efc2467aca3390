"""Recorded sessions: each ``*.txt`` here is a command line after ``$`` and what it printed, to the letter.

Run this file to record them again, then read the difference before it is committed.
"""

import shlex
import sys
from pathlib import Path

from click.testing import CliRunner

from quoting.cli import main

HERE = Path(__file__).parent
SHOPS = HERE.parent / "shops"


def run(line):
    """What a command prints, standard output and error together, and how it ended; paths shown as ``shops/...``."""
    words = shlex.split(line)
    assert words.pop(0) == "bevelbook"
    words = [str(SHOPS / word.removeprefix("shops/")) if word.startswith("shops/") else word for word in words]
    result = CliRunner().invoke(main, words, prog_name="bevelbook")
    if result.exception and not isinstance(result.exception, SystemExit):
        raise result.exception
    text = result.output.replace(str(SHOPS), "shops")
    return text + (f"[exit {result.exit_code}]\n" if result.exit_code else "")


def recorded():
    """File -> (command, text)."""
    sessions = {}
    for path in sorted(HERE.glob("*.txt")):
        command, _, text = path.read_text(encoding="utf-8").partition("\n")
        sessions[path] = (command.removeprefix("$ "), text)
    return sessions


if __name__ == "__main__":
    for path, (command, text) in recorded().items():
        now = run(command)
        if now != text:
            path.write_text(f"$ {command}\n{now}", encoding="utf-8")
            print(f"recorded again: {path.name}", file=sys.stderr)
