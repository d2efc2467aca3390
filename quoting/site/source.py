"""Where something stands in a file of prose, so that a finding can point there."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
from pathlib import Path

from quoting.findings import Mark

# Only in these do metadata end at the first empty line; reStructuredText and HTML have them further down
MARKDOWN = {".md", ".markdown", ".mkd", ".mdown"}


def lines_of(source: Path) -> list[str]:
    """The lines of a file, at least one, whatever its encoding."""
    return source.read_text(encoding="utf-8-sig", errors="replace").splitlines() or [""]


def mark_of(source: Path, *keys: str) -> Mark:
    """Where the first of some metadata keys stands in an article; its first line where none of them is there."""
    lines = lines_of(source)
    for key in keys:
        written = re.compile(rf":?{re.escape(key)}\s*:\s*|\s*<meta\s[^>]*name=[\"']?{re.escape(key)}\b", re.IGNORECASE)
        for number, line in enumerate(lines, 1):
            if match := written.match(line):
                return Mark(str(source), number, match.end() + 1, line, max(1, len(line) - match.end()))
            if not line.strip() and source.suffix in MARKDOWN:
                break
    return Mark(str(source), 1, 1, lines[0])


def mark_of_text(source: Path, *texts: str) -> Mark:
    """Where the first of some texts stands in a file; its first line where none of them does."""
    lines = lines_of(source)
    for text in texts:
        for number, line in enumerate(lines, 1):
            if text and text in line:
                return Mark(str(source), number, line.index(text) + 1, line, len(text))
    return Mark(str(source), 1, 1, lines[0])


def mark_of_damage(source: Path) -> Mark:
    """The first line of a file that is not UTF-8."""
    for number, line in enumerate(source.read_bytes().splitlines(), 1):
        try:
            line.decode("utf-8")
        except UnicodeDecodeError as error:
            return Mark(str(source), number, error.start + 1, line.decode("utf-8", errors="replace"))
    return Mark(str(source), 1, 1)
