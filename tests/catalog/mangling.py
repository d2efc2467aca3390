"""Shops made from the smallest whole one by changing the bytes of its files."""

import re
import shutil
import tempfile
from contextlib import contextmanager
from pathlib import Path

from quoting.catalog.codes import CODES
from quoting.catalog.load import load
from quoting.findings import errors, in_order

WHOLE = Path(__file__).parent.parent / "errors" / "whole"
FILES = {path.relative_to(WHOLE).as_posix(): path.read_bytes() for path in sorted(WHOLE.rglob("*.yaml"))}
# What the smallest shop does without: pages that moved, and a later list with prices of its own
FILES["shop.yaml"] += b"redirects:\n  frames/kestrel: frames/tarn\n  old/list.html: frames\n"
FILES["prices/2027-01.yaml"] = b"""version: 2027-01
effective: 2027-01-01
tax_included: no
regions:
  - {id: home, name: Our county, shipping: 6.50, free_from: 250.00, tax: {frame: 8.25, lenses: 0, shipping: 0}}
lenses:
  plain-150:
    - {from: -6.00, to: +2.00, lens: 25.00}
    - {from: +2.25, to: +4.00, lens: 30.00}
  long-150: +4 %
frames:
  tarn: {slate: 135.00}
"""
IN_BRACES = re.compile(rb"(?<=: )[^\s{\[][^,}\n]*")
ON_A_LINE = re.compile(rb"(?<=: )[^\s{\[].*")


def values(raw):
    """Start and end of every single value in a file."""
    start = 0
    for line in raw.splitlines(keepends=True):
        for place in (IN_BRACES if b"{" in line else ON_A_LINE).finditer(line):
            yield start + place.start(), start + place.end()
        start += len(line)


@contextmanager
def shop(**changed):
    """A folder with the whole shop; a file by its name with `/` as `__` and without ending, as bytes or text."""
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place) / "shop"
        shutil.copytree(WHOLE, folder)
        for name, content in changed.items():
            path = folder / (name.replace("__", "/") + ".yaml")
            path.write_bytes(content if isinstance(content, bytes) else content.encode())
        yield folder


def checked(folder):
    """What load gives, once it is certain that every finding has a place, a known code and a remedy."""
    catalog, findings = load(folder)
    assert (catalog is None) == bool(errors(findings))
    assert findings == in_order(findings)
    assert len(set(findings)) == len(findings)
    for finding in findings:
        assert finding.code in CODES
        assert finding.hint
        assert finding.mark.line >= 1
        assert 1 <= finding.mark.column <= len(finding.mark.text) + 1
        assert finding.mark.file.startswith(str(folder))
        assert len(str(finding)) < 2000
    return catalog, findings


def findings_after(name, content):
    """The findings once one file of the whole shop holds this."""
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place) / "shop"
        shutil.copytree(WHOLE, folder)
        (folder / name).write_bytes(content)
        return checked(folder)[1]
