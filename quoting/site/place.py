"""Where a site goes: only into a folder that is ours or empty, and whole or not at all."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import json
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
KEPT = ("content", "frames", "imports", "languages", "lenses", "photos", "prices", PRIVATE)
NAMED = 5


def files_in(folder: Path) -> list[str]:
    """All files and links of a folder, however deep, but for the marker and litter, in order."""
    found = (path for path in folder.rglob("*") if path.is_symlink() or not path.is_dir())
    names = (path.relative_to(folder).as_posix() for path in found if path.name not in LITTER)
    return sorted(name for name in names if name != MARKER)


def listed(output: Path) -> set[str]:
    """What the build that made a site wrote.   Raises ValueError where the list cannot be read."""
    about = _about(output)
    return set(files_in(output)) if about is None else {str(name) for name in about["files"]}


def standing(output: Path) -> int:
    """The number of the published build that stands there; 0 where none does."""
    return _number(output, "build")


def stood(output: Path) -> int:
    """The same, or that of the one that stood before what was built there since without publishing it."""
    return standing(output) or _number(output, "after")


def _number(output: Path, key: str) -> int:
    try:
        about = _about(output) if (output / MARKER).is_file() else None
    except ValueError:
        return 0
    number = (about or {}).get(key, 0)
    return number if type(number) is int and 0 < number < 10**9 else 0


def mark(new: Path, build: int, after: int) -> None:
    """Make a folder a site of ours: list its files, and the number of the build, or of the one that stood before it."""
    numbers = {"build": build} if build else {"after": after} if after else {}
    about = {"note": NOTE, **numbers, "files": files_in(new)}
    (new / MARKER).write_text(f"{json.dumps(about, indent=0, ensure_ascii=False)}\n", encoding="utf-8")


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


def misplaced(output: Path, shop: Path, content: Path | None) -> list[Finding]:
    """Why no site may lie there; nothing where one may."""
    for kept in [*(shop / name for name in KEPT), *([content] if content else [])]:
        if within(output, kept):
            said = f"a site in {kept} would be read as part of the shop, or show what is private"
            hint = "name another folder, such as site-out beside shop.yaml"
            return [Finding(Mark(str(output), 1, 1), "in-the-shop", said, hint)]
    return []


def refusal(output: Path) -> list[Finding]:
    """Why a folder may not be replaced; nothing where it may."""
    here = Mark(str(output), 1, 1)
    if output.exists() and not output.is_dir():
        return [Finding(here, "not-a-site", f"{output} is a file, not a folder", "name a folder")]
    if not output.is_dir() or not any(output.iterdir()):
        return []
    if not (output / MARKER).is_file():
        said = f"{output} holds files that are not a site of ours, and would be replaced"
        return [Finding(here, "not-a-site", said, "name an empty folder, or one that is not there")]
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


def unwritten(error: OSError, output: Path) -> Finding:
    """The folder that was named, and not a passing one beside it; else the file that cannot be read."""
    named, reason = Path(str(error.filename or output)), error.strerror or error
    passing = any(part.startswith(f".{output.name}.") for part in named.parts)
    if is_file(named) and not passing and named.name not in output.absolute().parts:
        return Finding(Mark(str(named), 1, 1), "unreadable-file", f"this file cannot be read: {reason}")
    said = f"the site cannot be written to {output}: {reason}"
    return Finding(Mark(str(output), 1, 1), "cannot-write", said, "see who may write there, or name another folder")


def is_file(path: Path) -> bool:
    """Whether it is one; not, where nobody may look."""
    try:
        return path.is_file()
    except OSError:
        return False
