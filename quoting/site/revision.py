"""A shop folder as a git revision holds it; photos that it does not hold are those of today.

The repository is read, never changed.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import shutil
import subprocess
import tarfile
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from io import BytesIO
from pathlib import Path

from quoting.catalog.read_photos import FOLDER as PHOTOS


class RevisionError(ValueError):
    """There is no such revision, no repository, or no git."""


@contextmanager
def at_revision(shop: Path, revision: str) -> Iterator[Path]:
    """A temporary copy of the folder at that revision.   Raises RevisionError."""
    if "\0" in revision:
        raise RevisionError("a revision has no such sign")
    _git(shop, f"{shop} does not lie in a git repository", "rev-parse", "--git-dir")
    commit = f"{revision}^{{commit}}"
    _git(shop, f"there is no revision {revision!r}", "rev-parse", "--verify", "--end-of-options", commit)
    words = "rev-parse", "--verify", "--end-of-options", f"{revision}:./"
    tree = _git(shop, f"{shop} was not there at revision {revision!r}", *words).decode().strip()
    top = Path(_git(shop, f"{shop} has no working tree of git", "rev-parse", "--show-toplevel").decode().rstrip("\n"))
    packed = _git(top, f"revision {revision!r} cannot be read", "archive", "--format=tar", tree)
    with tempfile.TemporaryDirectory(prefix="bevelbook-", ignore_cleanup_errors=True) as place:
        folder = Path(place) / "shop"
        try:
            with tarfile.open(fileobj=BytesIO(packed)) as archive:
                archive.extractall(folder, filter="data")
        except tarfile.TarError as error:
            raise RevisionError(f"revision {revision!r} holds what cannot be unpacked safely: {error}") from error
        if (shop / PHOTOS).is_dir() and not (folder / PHOTOS).exists():  # many keep them out of the repository
            shutil.copytree(shop / PHOTOS, folder / PHOTOS)
        yield folder


def _git(shop: Path, otherwise: str, *words: str) -> bytes:
    try:
        done = subprocess.run(["git", "-C", str(shop), *words], capture_output=True, check=False)
    except FileNotFoundError as error:
        raise RevisionError("git is not on this machine, so no revision can be read") from error
    if done.returncode:
        raise RevisionError(otherwise)
    return done.stdout
