"""Lines of a new shop that still hold an example: a site with somebody else's address must not go public unnoticed."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
from pathlib import Path

from quoting.catalog.files import Files
from quoting.findings import Finding, Mark

# As the files of a new shop mark them (keeping/starter_files), at the end of a line or above it
MARKED = re.compile(r"#.*\bMEND\b")
SPOKEN_OF = re.compile(r"\bmarked MEND\b")


def placeholders(folder: Path) -> list[Finding]:
    """One note for each file of a shop that has such lines, at the first of them.  Other faults are not told here."""
    files = Files(folder)
    paths = [folder / "shop.yaml", *(path for name in ("prices", "frames", "lenses") for path in files.listed(name))]
    return [found for path in paths if files.inside(path) and (found := _in(path, files.shown(path)))]


def _in(path: Path, shown: str) -> Finding | None:
    try:
        lines = path.read_text(encoding="utf-8-sig").splitlines()
    except (OSError, UnicodeDecodeError):
        return None
    at = [number for number, line in enumerate(lines, 1) if MARKED.search(line) and not SPOKEN_OF.search(line)]
    if not at:
        return None
    line = lines[at[0] - 1]
    count = "this line is" if len(at) == 1 else f"{len(at)} lines of this file are"
    said = f"{count} marked MEND: what stands there is an example"
    column = line.index("MEND") + 1
    hint = "write what is true of your shop, and take the mark away"
    return Finding(Mark(shown, at[0], column, line, 4), "placeholder", said, hint, "note")
