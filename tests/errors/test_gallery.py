"""Every code has a shop that shows it, and the text that is told about it is the text a person has read."""

import ast
from datetime import date
from pathlib import Path

import pytest

import quoting
from quoting.catalog.codes import CODES
from quoting.catalog.load import load
from quoting.sense import whole_sense
from tests.errors.gallery import GUIDE, WHOLE, findings_of, folders, guide, rendered

PACKAGE = Path(quoting.__file__).parent
ROOMS = [
    PACKAGE / "nodes.py",
    PACKAGE / "sense.py",
    *(PACKAGE / "written").glob("*.py"),
    *(PACKAGE / "catalog").glob("*.py"),
    *(PACKAGE / "private").glob("*.py"),
]
# where in a call the code stands: by the name of what is called
PLACES = {
    "Finding": 1,
    "_warning": 1,
    "_of": 1,
    "Fault": 0,
    "fault": 1,
    "refusal": 0,
    "_refused": 1,
    "refuse": 1,
    "Plain": 2,
    "_tell": None,  # two helpers of this name take it at different places: any word of CODES among the arguments
    "_figure": 0,
    "_hundredths": 0,
}


def codes_in(path):
    """The codes that are written in calls of one module."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if not isinstance(node, ast.Call):
            continue
        name = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
        if name not in PLACES:
            continue
        words = [arg.value if isinstance(arg, ast.Constant) else None for arg in node.args]
        place = PLACES[name]
        if place is None:
            yield from (word for word in words if word in CODES)
        elif place < len(words) and isinstance(words[place], str):
            yield words[place]


def test_the_whole_shop_has_no_fault():
    catalog, findings = load(WHOLE)
    assert findings == []
    assert catalog is not None
    assert whole_sense(catalog, date(2026, 10, 1)) == []


@pytest.mark.parametrize("folder", folders(), ids=lambda folder: folder.name)
def test_the_text_is_the_one_that_was_read(folder):
    assert rendered(folder) == (folder / "expected.txt").read_text(encoding="utf-8")


@pytest.mark.parametrize("folder", folders(), ids=lambda folder: folder.name)
def test_the_shop_shows_the_code_of_its_folder(folder):
    assert folder.name in {finding.code for finding in findings_of(folder)}


def test_every_code_has_a_folder_and_every_folder_a_code():
    assert [folder.name for folder in folders()] == sorted(CODES)


def test_every_code_in_the_modules_is_listed_and_every_listed_code_is_used():
    assert {code for path in ROOMS for code in codes_in(path)} == set(CODES)


@pytest.mark.parametrize("folder", folders(), ids=lambda folder: folder.name)
def test_every_finding_says_what_to_do(folder):
    assert [finding for finding in findings_of(folder) if not finding.hint] == []


def test_the_table_for_developers_is_the_one_of_the_gallery():
    text = GUIDE.read_text(encoding="utf-8")
    assert guide(text) == text
