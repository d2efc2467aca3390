"""What the engine has answered for the boards of a shop, kept from one build to the next.

Whether a lens fits and how thick it gets does not depend on a price: so after a change of prices a build need not ask
the engine again.  An answer is found only under everything that it depends on, the engine's own text included; what is
not found is computed as ever.  The file lies in the user's cache (XDG Base Directory Specification) and may be deleted
at any time; one that cannot be read or written costs time and nothing else.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import json
import os
import sqlite3
from contextlib import suppress
from functools import cache
from hashlib import blake2b
from pathlib import Path
from typing import Any, cast

from quoting import kernel
from quoting.kernel.lens import blank_lens
from quoting.kernel.records import Fit, Lens, Reason

LENS = tuple(blank_lens())
REASON = ("code", "verdict", "eye", "needed", "given")


# About ten frames with fifty packages in ten bands at both ends
MOST_HELD = 10_000


def make_room(held: dict[Any, Any]) -> None:
    """Forget all where there is too much: frames that are alike stand together, and memory must not grow with N."""
    if len(held) >= MOST_HELD:
        held.clear()


def digest(value: object) -> str:
    """A short name for plain data; the same for the same data, in every process."""
    return blake2b(repr(value).encode(), digest_size=12).hexdigest()


@cache
def engine() -> str:
    """The name of the engine as its text stands."""
    folder = Path(kernel.__path__[0])
    return digest([(path.name, path.read_text(encoding="utf-8")) for path in sorted(folder.glob("*.py"))])


def cache_folder() -> Path:
    """Where everything lies that could be made again.   Raises RuntimeError where the user has no home."""
    root = os.environ.get("XDG_CACHE_HOME", "")
    base = Path(root) if Path(root).is_absolute() else Path.home() / ".cache"
    return base / "bevelbook"


def cache_file(shop: Path) -> Path:
    """Where the answers for a shop lie.   Raises RuntimeError where the user has no home."""
    return cache_folder() / f"fits-{digest(str(shop.resolve()))}.sqlite"


def packed(fit: Fit) -> list[Any] | None:
    """An answer as a short list; None for one whose two lenses differ, which no board asks for."""
    if fit["left"] != fit["right"]:
        return None
    reasons = [[cast(dict[str, Any], reason)[name] for name in REASON] for reason in fit["reasons"]]
    return [fit["verdict"], reasons, [cast(dict[str, Any], fit["right"])[name] for name in LENS]]


def unpacked(row: list[Any]) -> Fit:
    """The answer of such a list.   Raises ValueError or TypeError for what is none."""
    verdict, reasons, values = row
    lens = cast(Lens, dict(zip(LENS, values, strict=True)))
    told = [cast(Reason, dict(zip(REASON, one, strict=True))) for one in reasons]
    return {"verdict": verdict, "reasons": told, "right": lens, "left": lens}


FIND = "SELECT fit FROM fits WHERE key = ?"


class Memory:
    """The answers of the last build, on disk, and a second file that takes those that this build uses.

    Both are SQLite files, so that what is held in memory does not grow with the shop.
    """

    def __init__(self, file: Path | None) -> None:
        self.file = file
        self._old = opened(file) if file else None
        self._side = file.with_name(f"{file.name}.{os.getpid()}") if file else None
        self._new = started(self._side) if self._side else None

    @classmethod
    def of(cls, shop: Path) -> Memory:
        """The memory of a shop's folder."""
        try:
            return cls(cache_file(shop))
        except (OSError, RuntimeError):
            return cls(None)

    def get(self, key: str) -> Fit | None:
        """What is known under a key."""
        try:
            if self._new and (row := self._new.execute(FIND, (key,)).fetchone()):  # asked before in this build
                return unpacked(json.loads(row[0]))
            row = self._old.execute(FIND, (key,)).fetchone() if self._old else None
            if row is None:
                return None
            found = unpacked(json.loads(row[0]))
        except (sqlite3.Error, ValueError, TypeError, RecursionError):
            return None
        self._write(key, row[0])
        return found

    def put(self, key: str, fit: Fit) -> None:
        """Keep an answer."""
        row = packed(fit)
        if row is not None:
            self._write(key, json.dumps(row, separators=(",", ":")))

    def _write(self, key: str, text: str) -> None:
        if self._new is not None:
            with suppress(sqlite3.Error):
                self._new.execute("INSERT OR IGNORE INTO fits VALUES (?, ?)", (key, text))

    def close(self, keep: bool) -> None:
        """The end of a build.  ``keep``: what it has used takes the place of what there was, whole or not at all."""
        with suppress(sqlite3.Error, OSError):
            if self._new is not None and self._side is not None and self.file is not None:
                self._new.commit()
                self._new.close()
                if keep:
                    self._side.replace(self.file)
        with suppress(sqlite3.Error, OSError):
            if self._old is not None:
                self._old.close()
            if self._side is not None:
                self._side.unlink(missing_ok=True)


def opened(file: Path) -> sqlite3.Connection | None:
    """The answers of this very engine in a file; None where there are none."""
    if not file.is_file():
        return None
    try:
        known = sqlite3.connect(f"{file.as_uri()}?mode=ro", uri=True)
        engines = [name for (name,) in known.execute("SELECT name FROM engine")]
    except sqlite3.Error:
        return None
    return known if engines == [engine()] else None


def started(side: Path) -> sqlite3.Connection | None:
    """An empty file for the answers of this engine; None where none can be made."""
    try:
        side.parent.mkdir(parents=True, exist_ok=True)
        side.unlink(missing_ok=True)
        new = sqlite3.connect(side)
        new.execute("PRAGMA synchronous = OFF")  # what a crash leaves half is in a file that nobody reads
        new.execute("CREATE TABLE engine (name TEXT)")
        new.execute("CREATE TABLE fits (key TEXT PRIMARY KEY, fit TEXT) WITHOUT ROWID")
        new.execute("INSERT INTO engine VALUES (?)", (engine(),))
    except (sqlite3.Error, OSError):
        return None
    return new
