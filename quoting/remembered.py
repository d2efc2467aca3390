"""What was worked out for the boards of a shop, kept from one build to the next.

Whether a lens fits and how thick it gets does not depend on a price, and a row of a board depends on one package alone:
so after a change a build works out anew what the change is about.  An answer is found only under everything that it
depends on, the text of the program included; what is not found is computed as ever.  The file lies in the user's cache
(XDG Base Directory Specification) and may be deleted at any time; one that cannot be read or written costs time and
nothing else.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import json
import os
import platform
import sqlite3
import zlib
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from contextvars import ContextVar
from functools import cache
from hashlib import blake2b
from pathlib import Path
from typing import Any

import quoting
from quoting.locales import WRITER
from quoting.places import shared

# About ten frames with fifty packages in ten bands at both ends
MOST_HELD = 10_000

# What one frame's page and its neighbors recall
MOST_LATELY = 64

# What a page cannot depend on: the reader of wholesale costs, which nothing that builds a site may touch
APART = ("private",)


def make_room(held: dict[Any, Any]) -> None:
    """Forget all where there is too much: frames that are alike stand together, and memory must not grow with N."""
    if len(held) >= MOST_HELD:
        held.clear()


def digest(value: object) -> str:
    """A short name for plain data; the same for the same data, in every process."""
    return blake2b(repr(value).encode(), digest_size=12).hexdigest()


@cache
def program() -> str:
    """The name of the program as its text stands: its code, the languages it speaks, and what writes numbers for it."""
    code = Path(quoting.__path__[0])
    parts = [part for part in code.iterdir() if part.is_dir() and part.name not in APART]
    texts = [*code.glob("*.py"), *(shared("theme") / "languages").glob("*.po")]
    texts += [path for part in parts for kind in ("*.py", "*.js") for path in part.rglob(kind)]
    read = [(path.as_posix(), path.read_bytes()) for path in sorted(texts)]
    return digest((read, platform.python_version(), WRITER))


def cache_folder() -> Path:
    """Where everything lies that could be made again.   Raises RuntimeError where the user has no home."""
    root = os.environ.get("XDG_CACHE_HOME", "")
    base = Path(root) if Path(root).is_absolute() else Path.home() / ".cache"
    return base / "bevelbook"


def cache_file(shop: Path) -> Path:
    """Where the answers for a shop lie.   Raises RuntimeError where the user has no home."""
    return cache_folder() / f"boards-{digest(str(shop.resolve()))}.sqlite"


def packed(value: Any) -> bytes:
    """Plain data as it lies in the file, with a check value of its own."""
    return zlib.compress(json.dumps(value, ensure_ascii=False, separators=(",", ":")).encode(), 1)


def unpacked(content: bytes) -> Any:
    """The plain data again.   Raises ValueError, TypeError, RecursionError or zlib.error for what is none."""
    return json.loads(zlib.decompress(content))


FIND = "SELECT content FROM kept WHERE key = ?"


class Memory:
    """The answers of the last build, on disk, and a second file that takes those that this build uses.

    Both are SQLite files, so that what is held in memory does not grow with the shop.  ``brings``: this is one of
    several processes of a build, and what it finds goes to the one whose files they are.
    """

    def __init__(self, file: Path | None, brings: bool = False) -> None:
        self.file = file
        self._old = opened(file) if file else None
        self._side = file.with_name(f"{file.name}.{os.getpid()}") if file and not brings else None
        self._new = started(self._side) if self._side else None
        self._brought: dict[str, bytes] | None = {} if brings else None
        self.lately: dict[str, Any] = {}  # what `recalled` found: one page asks for the same more than once

    @classmethod
    def of(cls, shop: Path) -> Memory:
        """The memory of a shop's folder."""
        try:
            return cls(cache_file(shop))
        except (OSError, RuntimeError):
            return cls(None)

    @property
    def whole(self) -> bool:
        """Whether what is put here will be found here."""
        return self._new is not None

    def bring(self) -> list[tuple[str, bytes]]:
        """What was found since the last time, for `take` in another process."""
        brought = list((self._brought or {}).items())
        self._brought = {}
        return brought

    def take(self, brought: list[tuple[str, bytes]]) -> None:
        """Keep what another process has brought."""
        for key, content in brought:
            self._write(key, content)

    def has(self, key: str) -> bool:
        """Whether anything is known under a key."""
        with suppress(sqlite3.Error):
            return any(file.execute(FIND, (key,)).fetchone() for file in (self._new, self._old) if file)
        return False

    def get(self, key: str) -> Any:
        """What is known under a key; None where nothing is."""
        try:
            found = self._raw(key)
            return None if found is None else unpacked(found)
        except (sqlite3.Error, zlib.error, ValueError, TypeError, RecursionError):
            return None

    def put(self, key: str, value: Any) -> None:
        """Keep plain data, in place of what was known under the key."""
        self._write(key, packed(value))

    def keep(self, key: str) -> None:
        """Keep what is known under a key for the next build, too."""
        with suppress(sqlite3.Error):
            self._raw(key)

    def _raw(self, key: str) -> bytes | None:
        for file in (self._new, self._old):  # asked before in this build, or known from the last
            row = file.execute(FIND, (key,)).fetchone() if file else None
            if row is not None:
                if file is self._old:
                    self._write(key, row[0])
                return bytes(row[0])
        return None

    def _write(self, key: str, content: bytes) -> None:
        if self._brought is not None:
            self._brought[key] = content
        elif self._new is not None:
            with suppress(sqlite3.Error):
                self._new.execute("INSERT OR REPLACE INTO kept VALUES (?, ?)", (key, content))

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


_memory: ContextVar[Memory] = ContextVar("memory")


@contextmanager
def remembering(memory: Memory) -> Iterator[None]:
    """A while in which `recalled` asks this memory."""
    before = _memory.set(memory)
    try:
        yield
    finally:
        _memory.reset(before)


def recalled(name: object, made: Callable[[Any], bool], make: Callable[[], Any]) -> Any:
    """Plain data that follows from what its name holds: as it was kept, or as ``make`` gives it.

    ``made`` says whether something has the form of what ``make`` gives.  Without a memory it is made.
    """
    memory = _memory.get(None)
    if memory is None:
        return make()
    key = digest(name)
    if key not in memory.lately:
        found = memory.get(key)
        if found is None or not made(found):
            found = make()
            memory.put(key, found)
        if len(memory.lately) >= MOST_LATELY:
            memory.lately.clear()
        memory.lately[key] = found
    return memory.lately[key]


def opened(file: Path) -> sqlite3.Connection | None:
    """The answers of this very program in a file; None where there are none."""
    if not file.is_file():
        return None
    try:
        known = sqlite3.connect(f"{file.as_uri()}?mode=ro", uri=True)
        programs = [name for (name,) in known.execute("SELECT name FROM program")]
    except sqlite3.Error:
        return None
    return known if programs == [program()] else None


def started(side: Path) -> sqlite3.Connection | None:
    """An empty file for the answers of this program; None where none can be made."""
    try:
        side.parent.mkdir(parents=True, exist_ok=True)
        side.unlink(missing_ok=True)
        new = sqlite3.connect(side)
        new.execute("PRAGMA synchronous = OFF")  # what a crash leaves half is in a file that nobody reads
        new.execute("CREATE TABLE program (name TEXT)")
        new.execute("CREATE TABLE kept (key TEXT PRIMARY KEY, content BLOB) WITHOUT ROWID")
        new.execute("INSERT INTO program VALUES (?)", (program(),))
    except (sqlite3.Error, OSError):
        return None
    return new
