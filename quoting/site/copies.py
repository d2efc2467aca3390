"""Copies of photos, kept from one build to the next under all that they depend on: to make one takes a while.

They lie in the user's cache (XDG Base Directory Specification) and may be deleted at any time.  The name of each file
holds what it was made from and a digest of what is in it, so that a damaged one is not taken for a copy.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import os
import time
from contextlib import suppress
from hashlib import blake2b
from pathlib import Path

from quoting.pictures import PILLOW, Copy, Look, height_at
from quoting.remembered import cache_folder

DAYS_UNUSED = 60  # so long a copy is kept that no build has used
WIDTHS = (480, 960, 1600)  # pixels: a card, a card on a fine screen, a whole page
RECIPE = "1"  # of pictures.copies: another one, other names


def widths_for(about: Look) -> tuple[int, ...]:
    """The widths of the copies of a picture: none is larger than it is.

    >>> widths_for(Look("JPEG", 4000, 3000)), widths_for(Look("PNG", 700, 500)), widths_for(Look("PNG", 480, 300))
    ((480, 960, 1600), (480, 700), (480,))
    """
    return (*(width for width in WIDTHS if width < about.width), min(about.width, WIDTHS[-1]))[: len(WIDTHS)]


def name_of(raw: bytes) -> str:
    """What a photo's copies are called after: what is in it, and how they are made."""
    return blake2b(raw, digest_size=8, person=f"photo {RECIPE}".encode()).hexdigest()


class Kept:
    """The copies of earlier builds; their folder is listed once."""

    def __init__(self) -> None:
        self._there: dict[str, list[Path]] = {}  # name, Pillow and size: the files that were made of them
        try:
            self._folder: Path | None = cache_folder() / "photos"
            self._folder.mkdir(parents=True, exist_ok=True)
            for path in sorted(self._folder.iterdir()):
                self._there.setdefault(path.name.rpartition("-")[0], []).append(path)
        except (OSError, RuntimeError):
            self._folder = None

    def get(self, name: str, about: Look) -> list[Copy] | None:
        """All copies of a photo; None where one of them is not there."""
        found = [self._one(name, width, height_at(width, about)) for width in widths_for(about)]
        whole = [copy for copy in found if copy is not None]
        return whole if len(whole) == len(found) else None

    def _one(self, name: str, width: int, height: int) -> Copy | None:
        with suppress(OSError):
            for path in self._there.get(f"{name}-{PILLOW}-{width}x{height}", []):
                content = path.read_bytes()
                if path.stem.endswith(f"-{_check(content)}"):
                    os.utime(path)
                    return Copy(path.suffix, width, height, content)
        return None

    def put(self, name: str, copies: list[Copy]) -> None:
        """Keep the copies of a photo; what cannot be written is made again next time."""
        with suppress(OSError):
            for copy in copies if self._folder else []:
                file = f"{name}-{PILLOW}-{copy.width}x{copy.height}-{_check(copy.content)}{copy.ending}"
                side = Path(f"{self._folder}/.{file}.{os.getpid()}")
                side.write_bytes(copy.content)
                side.replace(f"{self._folder}/{file}")

    def clear_out(self) -> None:
        """Delete what no build has used for long, and what a crash left half."""
        with suppress(OSError):
            for path in self._folder.iterdir() if self._folder else []:
                if time.time() - path.stat().st_mtime > DAYS_UNUSED * 86400:
                    path.unlink()


def _check(content: bytes) -> str:
    return blake2b(content, digest_size=6).hexdigest()
