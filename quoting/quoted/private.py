"""Files that only their owner may read: folders 0700, files 0600, nothing of them in a version history.

They lie in ``private/`` of the shop's folder.  A secret that others may read is not used.  Windows knows no such
rights; there the folder's own must do.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import os
import stat
import sys
from pathlib import Path

FOLDER = "private"
OTHERS = stat.S_IRWXG | stat.S_IRWXO
NOTHING_OF_THIS = "# Nothing of this folder belongs in a version history\n*\n"


class OpenToOthersError(OSError):
    """A secret that others on this machine may read, or change."""


def folder(shop: Path, name: str) -> Path:
    """The folder of that name within ``private/``, made where it is not there.   Raises OSError."""
    place = shop / FOLDER / name
    for one in (place.parent, place):
        if not one.is_dir():
            one.mkdir(mode=0o700)
    ignore = place / ".gitignore"
    if not ignore.exists():
        ignore.write_text(NOTHING_OF_THIS, encoding="utf-8")
    return place


def write_new(path: Path, content: bytes) -> None:
    """A file that was not there, for nobody else's eyes, down on the disk.   Raises OSError."""
    handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    with os.fdopen(handle, "wb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())


def read_secret(path: Path) -> bytes:
    """What stands in a file that only its owner may read.   Raises OpenToOthersError, OSError."""
    with path.open("rb") as file:
        rights = os.fstat(file.fileno()).st_mode
        if sys.platform != "win32" and rights & OTHERS:
            said = f"others may read this file; take it from them with: chmod 600 {path}"
            raise OpenToOthersError(1, said, str(path))
        return file.read()
