"""Every code of `prices` has a list that shows it, and what is said about it is what a person has read."""

import ast
from pathlib import Path

import pytest

import quoting
from quoting.keeping.price_codes import PRICE_CODES
from tests.keeping.odd.gallery import folders, rendered

ROOM = Path(quoting.__file__).parent / "keeping"
# somebody else's change between two moments of one command: shown by tests/keeping/test_standing.py
UNSEEN = {"not-as-meant"}


def test_every_code_has_a_folder_and_every_folder_a_code():
    assert [folder.name for folder in folders()] == sorted(PRICE_CODES.keys() - UNSEEN)


@pytest.mark.parametrize("folder", folders(), ids=lambda folder: folder.name)
def test_what_is_said_is_what_was_read(folder):
    text = rendered(folder)
    assert text == (folder / "expected.txt").read_text(encoding="utf-8")
    assert f"[{folder.name}]" in text
    assert "hint: " in text


def test_every_code_is_used():
    texts = {
        node.value
        for path in ROOM.glob("*.py")
        if path.name != "price_codes.py"
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    }
    assert PRICE_CODES.keys() <= texts
