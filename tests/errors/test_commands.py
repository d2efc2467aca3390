"""Every code of a command has a case that shows it, and what is said about it is what a person has read."""

import ast
from pathlib import Path

import pytest

import quoting
from quoting.catalog.codes import CODES
from quoting.keeping.entry_codes import ENTRY_CODES
from quoting.keeping.price_codes import PRICE_CODES
from quoting.lab.codes import LAB_CODES
from quoting.site.codes import SITE_CODES
from tests.errors.command_gallery import COMMAND_CODES, folders, rendered

PACKAGE = Path(quoting.__file__).parent
ROOMS = [("keeping", {**PRICE_CODES, **ENTRY_CODES}), ("site", SITE_CODES)]
# Those of lab jobs are given in two rooms
LAB_ROOMS = ("lab", "catalog", "show")
# The kernel subset is written by developers: its codes are shown by tests/site/snippets
SUBSET = "subset"


def test_every_code_has_a_folder_and_every_folder_a_code():
    assert [folder.name for folder in folders()] == sorted(COMMAND_CODES)


def test_no_code_means_two_things():
    assert sum(map(len, (CODES, PRICE_CODES, ENTRY_CODES, SITE_CODES, LAB_CODES))) == len({**CODES, **COMMAND_CODES})


@pytest.mark.parametrize("folder", folders(), ids=lambda folder: folder.name)
def test_what_is_said_is_what_was_read(folder):
    text = rendered(folder)
    assert text == (folder / "expected.txt").read_text(encoding="utf-8")
    assert f"[{folder.name}]" in text
    assert text.count("hint: ") >= sum(text.count(f": {kind}: ") for kind in ("error", "warning", "note"))


def trees(room):
    """The modules of a room but for its lists of codes."""
    for path in (PACKAGE / room).glob("*.py"):
        if not path.name.endswith("codes.py") and not path.name.startswith(SUBSET):
            yield ast.parse(path.read_text(encoding="utf-8"))


@pytest.mark.parametrize(("room", "codes"), ROOMS, ids=lambda one: one if isinstance(one, str) else "")
def test_every_code_is_used(room, codes):
    texts = {
        node.value
        for tree in trees(room)
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    }
    assert codes.keys() <= texts


def test_every_code_of_lab_jobs_is_used():
    texts = {
        node.value
        for room in LAB_ROOMS
        for tree in trees(room)
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    }
    assert LAB_CODES.keys() <= texts


@pytest.mark.parametrize("room", ["keeping", "site", "cli"])
def test_every_code_that_a_finding_is_given_is_listed(room):
    calls = [node for tree in trees(room) for node in ast.walk(tree) if isinstance(node, ast.Call)]
    named = [call for call in calls if getattr(call.func, "id", "") == "Finding" and len(call.args) > 1]
    written = {call.args[1].value for call in named if isinstance(call.args[1], ast.Constant)}
    assert written or room == "cli"
    assert written <= {**CODES, **COMMAND_CODES}.keys()
