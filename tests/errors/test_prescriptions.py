"""Every code about a prescription has a slip, form or resource that shows it, with the text that a person has read."""

import ast
from pathlib import Path

import pytest

import quoting
from quoting.catalog.codes import CODES
from quoting.prescription.codes import RX_CODES
from tests.errors.command_gallery import COMMAND_CODES
from tests.errors.prescription_gallery import findings_of, folders, rendered

ROOM = Path(quoting.__file__).parent / "prescription"
# where in a call the code stands: by the name of what is called
PLACES = {"Fault": 0, "Flag": 1, "say": 1, "fault": 1, "_refused": 1, "Finding": 1}


def codes_in(path):
    """The codes that are written in calls of one module; of an ``if`` between two, both."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Call):
            name = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
            if name in PLACES and PLACES[name] < len(node.args):
                words = ast.walk(node.args[PLACES[name]])
                yield from (one.value for one in words if isinstance(one, ast.Constant) and isinstance(one.value, str))


def test_every_code_has_a_folder_and_every_folder_a_code():
    assert [folder.name for folder in folders()] == sorted(RX_CODES)


def test_no_code_means_two_things():
    assert not RX_CODES.keys() & (CODES.keys() | COMMAND_CODES.keys())


@pytest.mark.parametrize("folder", folders(), ids=lambda folder: folder.name)
def test_the_text_is_the_one_that_was_read(folder):
    assert rendered(folder) == (folder / "expected.txt").read_text(encoding="utf-8")
    assert folder.name in {finding.code for finding in findings_of(folder)}


@pytest.mark.parametrize("folder", folders(), ids=lambda folder: folder.name)
def test_every_finding_says_what_to_do(folder):
    assert [finding for finding in findings_of(folder) if not finding.hint] == []


def test_every_code_in_the_modules_is_listed_and_every_listed_code_is_used():
    written = {code for path in ROOM.glob("*.py") for code in codes_in(path)}
    assert written <= RX_CODES.keys() | CODES.keys()
    texts = "".join(path.read_text(encoding="utf-8") for path in ROOM.glob("*.py") if path.name != "codes.py")
    assert [code for code in RX_CODES if f'"{code}"' not in texts] == []
