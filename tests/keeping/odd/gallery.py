"""Price lists and shops that are odd: each folder beside this file is named after a code of `prices` and shows it.

A folder's files are laid beside and into ``shop``, a copy of the corner shop, with a column map for ``list.csv``.
``command.txt`` holds the words after ``bevelbook prices``, ``expected.txt`` the exact text of what is said.
``book.txt`` becomes the workbook ``book.xlsx``: a line ``= NAME`` begins a tab, cells are parted by ``|``.
"""

import os
import shutil
import tempfile
from contextlib import chdir
from pathlib import Path

from click.testing import CliRunner
from openpyxl import Workbook

from quoting.cli import main

HERE = Path(__file__).parent
CORNER = HERE.parents[1] / "shops" / "corner"
MAP = """maker: Pennock
columns: {code: Article, price: Price, from: From, to: To}
per: lens
codes: {P-1: plain-150, P-2: thin-160}
"""


def folders():
    """The folders of the gallery, by name."""
    return sorted(path for path in HERE.iterdir() if path.is_dir() and path.name[0] not in "._")


def laid(folder):
    """Lay everything out where we are."""
    shutil.copytree(CORNER, "shop")
    (Path("shop") / "imports").mkdir()
    (Path("shop") / "imports" / "pennock.yaml").write_text(MAP, encoding="utf-8")
    shutil.copytree(folder, Path(), dirs_exist_ok=True)
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
    """What the command says about a folder, all of it."""
    with tempfile.TemporaryDirectory() as place, chdir(place):
        laid(folder)
        words = (folder / "command.txt").read_text(encoding="utf-8").split()
        before = files()
        result = CliRunner().invoke(main, ["prices", *words], prog_name="bevelbook")
        assert result.exit_code == (0 if result.output.endswith("--write writes: shop/lenses/pennock.yaml\n") else 1)
        assert files() == before, "something was written"
        return result.output


def files():
    """All that lies here."""
    return {path: path.read_bytes() for path in Path().rglob("*") if path.is_file() and os.access(path, os.R_OK)}


def main_():
    """Write expected.txt of every folder anew:  python -m tests.keeping.odd.gallery"""
    for folder in folders():
        target, text = folder / "expected.txt", rendered(folder)
        if not target.exists() or target.read_text(encoding="utf-8") != text:
            target.write_text(text, encoding="utf-8")
            print(f"changed: {target}")


if __name__ == "__main__":
    main_()
