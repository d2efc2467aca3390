"""Where a site goes: only into a folder that is ours or empty, and whole or not at all."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import shutil
from pathlib import Path

from quoting.findings import Finding, Mark

# A folder with files but without this one is not ours to replace
MARKER = ".bevelbook-site"
SAID = "This folder is replaced as a whole by the next build.\n"


def aside(output: Path) -> Path:
    """Where the old site stands for the moment of a swap."""
    return output.with_name(f".{output.name}.bevelbook-old")


def refusal(output: Path) -> list[Finding]:
    """Why a folder may not be replaced; nothing where it may."""
    mark = Mark(str(output), 1, 1)
    if output.exists() and not output.is_dir():
        return [Finding(mark, "not-a-site", f"{output} is a file, not a folder", "name a folder")]
    if output.is_dir() and any(output.iterdir()) and not (output / MARKER).is_file():
        said = f"{output} holds files that are not a site of ours, and would be replaced"
        return [Finding(mark, "not-a-site", said, "name an empty folder, or one that is not there")]
    return []


def swap(new: Path, output: Path) -> None:
    """Put the new site in the place of the old one.   Raises OSError, the old one standing."""
    (new / MARKER).write_text(SAID, encoding="utf-8")
    old = aside(output)
    drop(old)
    there = output.exists()
    if there:
        output.replace(old)
    try:
        new.replace(output)
    except OSError:
        if there:
            old.replace(output)
        raise
    drop(old)


def drop(old: Path) -> None:
    """Remove an old site; an empty folder counts as one."""
    if (old / MARKER).is_file():
        shutil.rmtree(old)
    elif old.is_dir():
        old.rmdir()


def recover(output: Path) -> None:
    """After a crash between the two steps of a swap, the old site comes back."""
    if not output.exists() and (aside(output) / MARKER).is_file():
        aside(output).replace(output)
