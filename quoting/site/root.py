"""Files that an owner wants at the top of the site as they are: ``CNAME``, ``.htaccess``, proofs of ownership."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import shutil
from pathlib import Path

from quoting.findings import Finding, Mark
from quoting.site.place import LITTER, MARKER, within

FOLDER = "root"


def fault(source: Path, name: str, content: Path, output: Path) -> tuple[str, str, str]:
    """Code, sentence and remedy where a file cannot be copied; empty where it can."""
    if not within(source, content):
        return "outside-folder", f"`{name}` is a link that leads out of the prose", "put the file itself here"
    if not source.is_file():
        return "outside-folder", f"`{name}` is a link that leads nowhere", "put the file itself here"
    place = output / name
    above = next((one for one in place.parents if one.is_file()), None)
    if name == MARKER or place.exists() or above:
        said = f"`{name}` would stand in the place of what the build writes itself"
        return "same-place", said, "give it another name, or take it away"
    return "", "", ""


def copy_root(content: Path, output: Path) -> list[Finding]:
    """Copy ``content/root`` to the top of the site, never over anything; what is wrong with its files."""
    found, top = [], content / FOLDER
    for source in sorted(top.rglob("*")):
        if source.name in LITTER or (source.is_dir() and not source.is_symlink()):
            continue
        name = source.relative_to(top).as_posix()
        code, said, hint = fault(source, name, content, output)
        if code:
            found.append(Finding(Mark(str(source), 1, 1), code, said, hint))
            continue
        (output / name).parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(source, output / name)
    return found
