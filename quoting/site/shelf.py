"""Files that took a while to make, kept from one build to the next under all that they depend on.

They lie in the user's cache (XDG Base Directory Specification) and may be deleted at any time.  The name of each holds
what it was made from and a digest of what is in it, so that a damaged one is not taken for whole.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import os
import time
from contextlib import suppress
from hashlib import blake2b
from pathlib import Path

from quoting.remembered import cache_folder

DAYS_UNUSED = 60  # so long a file is kept that no build has used


class Shelf:
    """One kind of files; their folder is listed once."""

    def __init__(self, kind: str) -> None:
        self._there: dict[str, list[Path]] = {}
        try:
            self._folder: Path | None = cache_folder() / kind
            self._folder.mkdir(parents=True, exist_ok=True)
            for path in sorted(self._folder.iterdir()):
                self._there.setdefault(path.name.rpartition("-")[0], []).append(path)
        except (OSError, RuntimeError):
            self._folder = None

    def get(self, name: str) -> tuple[str, bytes] | None:
        """The ending and the content of what is kept under a name; None where that is not there whole."""
        with suppress(OSError):
            for path in self._there.get(name, []):
                content = path.read_bytes()
                if path.stem == f"{name}-{_check(content)}":
                    os.utime(path)
                    return path.suffix, content
        return None

    def put(self, name: str, ending: str, content: bytes) -> None:
        """Keep a file; what cannot be written is made again next time."""
        with suppress(OSError):
            if self._folder:
                file = f"{name}-{_check(content)}{ending}"
                side = Path(f"{self._folder}/.{file}.{os.getpid()}")
                side.write_bytes(content)
                side.replace(f"{self._folder}/{file}")

    def clear_out(self) -> None:
        """Delete what no build has used for long, and what a crash left half."""
        with suppress(OSError):
            for path in self._folder.iterdir() if self._folder else []:
                if time.time() - path.stat().st_mtime > DAYS_UNUSED * 86400:
                    path.unlink()


def _check(content: bytes) -> str:
    return blake2b(content, digest_size=6).hexdigest()
