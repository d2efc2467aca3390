"""Where a site goes: only into a folder that is ours or empty, and whole or not at all."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import errno
import json
import os
import shutil
from pathlib import Path
from typing import Any

from quoting.findings import Finding, Mark

# A folder with files but without this one is not ours to replace.  It lists what the build wrote; the rest is not ours
MARKER = ".bevelbook-site"
NOTE = "The next build replaces this folder. Files of your own belong in content/root/, which it copies here."
# How the marker began while it had no list: then everything beside it counts as ours
WITHOUT_LIST = "This folder is replaced as a whole"
# What systems leave in every folder that somebody looked into
LITTER = {".DS_Store", "Thumbs.db", "desktop.ini"}
# Wholesale costs and keys: nothing of it is read here, and nothing of it may come into a site
PRIVATE = "private"
# Folders of a shop in which a site would be read as part of the shop, or would show what is nobody's business
KEPT = ("content", "frames", "lenses", "prices", PRIVATE)
NAMED = 5


def aside(output: Path) -> Path:
    """Where the old site stands for the moment of a swap."""
    return output.with_name(f".{output.name}.bevelbook-old")


def files_in(folder: Path) -> list[str]:
    """All files and links of a folder, however deep, but for the marker and litter, in order."""
    found = (path for path in folder.rglob("*") if path.is_symlink() or not path.is_dir())
    names = (path.relative_to(folder).as_posix() for path in found if path.name not in LITTER)
    return sorted(name for name in names if name != MARKER)


def listed(output: Path) -> set[str]:
    """What the build that made a site wrote.   Raises ValueError where the list cannot be read."""
    about = _about(output)
    return set(files_in(output)) if about is None else {str(name) for name in about["files"]}


def number_of(output: Path) -> int:
    """Which of the published builds a site is; 0 for one that was built and not published.   Raises ValueError."""
    about = _about(output)
    number = 0 if about is None else about.get("build", 0)
    if not isinstance(number, int):
        raise ValueError("no number of a build")
    return number


def _about(output: Path) -> dict[str, Any] | None:
    """What the marker says; None where it is of the kind without a list.   Raises ValueError."""
    text = (output / MARKER).read_text(encoding="utf-8")
    if text.startswith(WITHOUT_LIST):
        return None
    read = json.loads(text)
    if not isinstance(read, dict) or not isinstance(read.get("files"), list):
        raise ValueError("no list of files")
    return read


def foreign(output: Path) -> list[str]:
    """What in a site no build wrote; a folder of which nothing is ours is named as one."""
    ours = listed(output)
    folders = {"/".join(name.split("/")[:depth]) for name in ours for depth in range(1, name.count("/") + 1)}
    found: dict[str, None] = {}
    for name in files_in(output):
        if name not in ours:
            parts = name.split("/")
            depth = next((at for at in range(1, len(parts)) if "/".join(parts[:at]) not in folders), len(parts))
            found["/".join(parts[:depth]) + ("/" if depth < len(parts) else "")] = None
    return list(found)


def within(path: Path, folder: Path) -> bool:
    """Whether a path stays within a folder once links are followed; one that leads in a circle is nowhere."""
    try:
        return path.resolve().is_relative_to(folder.resolve())
    except RuntimeError:
        return False


def refusal(output: Path, shop: Path, content: Path | None) -> list[Finding]:
    """Why a folder may not be replaced; nothing where it may."""
    mark = Mark(str(output), 1, 1)
    for kept in [*(shop / name for name in KEPT), *([content] if content else [])]:
        if within(output, kept):
            said = f"a site in {kept} would be read as part of the shop, or show what is private"
            return [Finding(mark, "in-the-shop", said, "name another folder, such as site-out beside shop.yaml")]
    if output.exists() and not output.is_dir():
        return [Finding(mark, "not-a-site", f"{output} is a file, not a folder", "name a folder")]
    if not output.is_dir() or not any(output.iterdir()):
        return []
    if not (output / MARKER).is_file():
        said = f"{output} holds files that are not a site of ours, and would be replaced"
        return [Finding(mark, "not-a-site", said, "name an empty folder, or one that is not there")]
    return strangers(output)


def strangers(output: Path) -> list[Finding]:
    """What in a site of ours is not ours, since the next build would delete it."""
    try:
        found = foreign(output)
    except ValueError as error:
        said = f"{MARKER} cannot be read, so nobody knows which files are ours: {error}"
        return [Finding(Mark(str(output / MARKER), 1, 1), "not-a-site", said, "name an empty folder")]
    if not found:
        return []
    names = ", ".join(f"`{name}`" for name in found[:NAMED])
    names += f" and {len(found) - NAMED} more" if len(found) > NAMED else ""
    said = f"{output} holds {names}, which no build wrote and the next one would delete"
    hint = "move them out, or to content/root/ of the shop: what is in it every build copies to the top of the site"
    return [Finding(Mark(str(output / found[0].rstrip("/")), 1, 1), "not-ours", said, hint)]


def swap(new: Path, output: Path, build: int = 0, keep: Path | None = None) -> None:
    """Put the new site in the place of the old one.   Raises OSError, the old one standing.

    ``build`` is the number of a published build; ``keep`` is where the old site goes, else it is deleted.
    """
    about = {"note": NOTE, **({"build": build} if build else {}), "files": files_in(new)}
    (new / MARKER).write_text(f"{json.dumps(about, indent=0, ensure_ascii=False)}\n", encoding="utf-8")
    old = aside(output)
    drop(old)
    there = output.exists()
    if there:
        replaceable(output)
    if there:
        output.replace(old)
    try:
        new.replace(output)
    except OSError:
        if there:
            old.replace(output)
        raise
    if keep is not None and (old / MARKER).is_file():
        old.replace(keep)
    drop(old)


def replaceable(output: Path) -> None:
    """Whether the old site can be deleted once the new one stands.   Raises PermissionError with the folder."""
    for folder in (output, *(path for path in output.rglob("*") if path.is_dir() and not path.is_symlink())):
        if not os.access(folder, os.W_OK | os.X_OK):
            raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(folder))


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
