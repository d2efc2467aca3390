"""Shops, lists and sites that are odd: each folder in ``commands/`` is named after a code of a command and shows it.

A folder's files are laid beside and into ``shop``, a copy of the corner shop with a column map for ``list.csv``.
``book.txt`` becomes the workbook ``book.xlsx``: a line ``= NAME`` begins a tab, cells are parted by ``|``.
``steps.txt`` is done line by line, and ``expected.txt`` is the exact text of what the last command says; of commands
that tell of a customer or build, that on standard error alone:

    bevelbook WORDS             a command
    write PATH TEXT             write a file; \\n begins a new line
    remove PATH                 take a file away
    hold PATH                   let another process work on this site
    meanwhile NAME PATH A -> B  once this function of ours is called, somebody else saves a file with B in place of A
    idle NAME                   let this function do nothing
"""

import os
import re
import shutil
import tempfile
from contextlib import ExitStack, chdir
from importlib import import_module
from pathlib import Path
from unittest.mock import patch

from click.testing import CliRunner
from openpyxl import Workbook

from quoting.cli import main
from quoting.keeping.entry_codes import ENTRY_CODES
from quoting.keeping.price_codes import PRICE_CODES
from quoting.lab.codes import LAB_CODES
from quoting.site.alone import alone
from quoting.site.codes import SITE_CODES

HERE = Path(__file__).parent / "commands"
CORNER = Path(__file__).parents[1] / "shops" / "corner"
COMMAND_CODES = {**PRICE_CODES, **ENTRY_CODES, **SITE_CODES, **LAB_CODES}
OWN_FILES = ("steps.txt", "expected.txt")
MAP = """maker: Pennock
columns: {code: Article, price: Price, from: From, to: To}
per: lens
codes: {P-1: plain-150, P-2: thin-160}
"""
# What is another number on another day: of a process, of all pages that a site has
NUMBERS = ((re.compile(r"process \d+"), "process 4711"), (re.compile(r"0 of \d+ pages"), "0 of 10 pages"))


def folders():
    """The folders of the gallery, by name."""
    return sorted(path for path in HERE.iterdir() if path.is_dir() and path.name[0] not in "._")


def laid(folder):
    """Lay everything out where we are."""
    shutil.copytree(CORNER, "shop")
    (Path("shop") / "imports").mkdir()
    (Path("shop") / "imports" / "pennock.yaml").write_text(MAP, encoding="utf-8")
    shutil.copytree(folder, Path(), dirs_exist_ok=True, ignore=shutil.ignore_patterns(*OWN_FILES))
    book = Path("book.txt")
    if book.exists():
        workbook(book.read_text(encoding="utf-8").splitlines()).save("book.xlsx")


def workbook(lines):
    """A workbook from its lines."""
    book = Workbook()
    book.remove(book.active)
    for line in lines:
        if line.startswith("= "):
            sheet = book.create_sheet(line[2:])
        else:
            sheet.append(line.split("|"))
    return book


def rendered(folder):
    """What the last command says about a folder."""
    steps = (folder / "steps.txt").read_text(encoding="utf-8").splitlines()
    with tempfile.TemporaryDirectory() as place, chdir(place), ExitStack() as stack:
        laid(folder)
        for line in steps[:-1]:
            step(line, stack)
        before = files()
        verb, *words = steps[-1].split()
        assert verb == "bevelbook"
        result = CliRunner().invoke(main, words, prog_name="bevelbook")
        told = result.output if words[0] in ("prices", "frame") else result.stderr
        assert result.exception is None or isinstance(result.exception, SystemExit), result.exception
        assert result.exit_code == (": error: " in told), told
        if result.exit_code or words[0] in ("prices", "frame"):
            assert files() == before or any(line.startswith("meanwhile") for line in steps), "something was written"
        told = without_notes(told, folder.name)
        for pattern, always in NUMBERS:
            told = pattern.sub(always, told)
        return told


def without_notes(told, code):
    """What is told but for notes of other things, of which each shop has some."""
    blocks = told.split("\n\n")
    return "\n\n".join(block for block in blocks if ": note: " not in block or f"[{code}]" in block)


def step(line, stack):
    """One of the steps before the last command."""
    verb, name, *rest = line.split(" ", 2)
    if verb == "bevelbook":
        result = CliRunner().invoke(main, line.split()[1:], prog_name="bevelbook")
        assert result.exit_code == 0, result.output
    elif verb == "write":
        Path(name).parent.mkdir(parents=True, exist_ok=True)
        Path(name).write_text(rest[0].replace("\\n", "\n"), encoding="utf-8")
    elif verb == "remove":
        Path(name).unlink()
    elif verb == "hold":
        stack.enter_context(alone(Path(name).resolve()))
    elif verb == "meanwhile":
        stack.enter_context(meanwhile(name, *rest[0].split(" ", 1)))
    elif verb == "idle":
        stack.enter_context(patch(name, lambda *_: None))
    else:
        raise ValueError(f"no such step: {line}")


def meanwhile(name, path, change):
    """Somebody else saves a file once a function of ours is called, and only then it goes on."""
    module, function = name.rsplit(".", 1)
    call = getattr(import_module(module), function)
    old, new = change.split(" -> ")

    def later(*words, **more):
        text = Path(path).read_text(encoding="utf-8")
        assert old in text
        Path(path).write_text(text.replace(old, new, 1), encoding="utf-8")
        return call(*words, **more)

    return patch(name, later)


def files():
    """All that lies here."""
    return {path: path.read_bytes() for path in Path().rglob("*") if path.is_file() and os.access(path, os.R_OK)}
