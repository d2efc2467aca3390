"""A file to which lines are only ever added: a record each, as JSON, down on the disk before anybody hears of it.

A command that is cut short while it writes leaves a piece of a line; the next one ends that line and goes on below, so
the piece stays where it is, is told, and takes nothing else with it.  Commands that write at the same time wait for
each other; on Windows nothing keeps them apart.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import json
import os
import sys
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from quoting.findings import Finding, Mark
from quoting.keeping.whole import sync_folder
from quoting.quoted.private import write_new

if sys.platform != "win32":
    import fcntl

Row = dict[str, Any]
# Given what stands there, what is to be added
Decide = Callable[[list[Row]], list[Row]]


@dataclass(frozen=True, slots=True)
class Read:
    """The lines of a ledger, and what was found."""

    rows: list[Row]
    findings: tuple[Finding, ...] = ()


class Ledger:
    """One such file; it is made where the first line is added."""

    def __init__(self, path: Path) -> None:
        self.path = path

    def read(self) -> Read:
        """All whole lines.   Raises OSError."""
        return self._parsed(self.path.read_bytes()) if self.path.exists() else Read([])

    def add(self, row: Mapping[str, Any]) -> None:
        """One line more, down on the disk.   Raises OSError."""
        self.decide(lambda _: [dict(row)])

    def decide(self, decide: Decide) -> list[Row]:
        """Add what ``decide`` makes of the lines so far, while nobody else can add any.

        Raises OSError, and whatever ``decide`` raises; then nothing was added.
        """
        with self._alone() as handle:
            before = _everything(handle)
            rows = decide(self._parsed(before).rows)
            if rows:
                lines = "".join(json.dumps(row, ensure_ascii=False, separators=(",", ":")) + "\n" for row in rows)
                self._write(handle, len(before), (b"" if before[-1:] in (b"", b"\n") else b"\n") + lines.encode())
            return rows

    def keep(self, keeps: Callable[[Row], bool]) -> None:
        """Write the file anew with those lines alone; what was cut short goes, too.   Raises OSError.

        After a crash at any moment the file is as before, or as after it.
        """
        if not self.path.exists():
            return
        with self._alone() as handle:
            rows = [row for row in self._parsed(_everything(handle)).rows if keeps(row)]
            side = self.path.with_name(f".{self.path.name}.new")
            side.unlink(missing_ok=True)
            lines = [json.dumps(row, ensure_ascii=False, separators=(",", ":")) + "\n" for row in rows]
            write_new(side, "".join(lines).encode())
            side.replace(self.path)
            sync_folder(self.path.parent)

    @contextmanager
    def _alone(self) -> Iterator[int]:
        new = not self.path.exists()
        handle = self._held()
        try:
            if sys.platform != "win32":
                if new:
                    sync_folder(self.path.parent)
            yield handle
        finally:
            os.close(handle)

    def _held(self) -> int:
        """The file opened, and locked where that can be done; anew where another has just put one in its place."""
        while True:
            handle = os.open(self.path, os.O_RDWR | os.O_CREAT | os.O_APPEND, 0o600)
            try:
                if sys.platform == "win32":
                    return handle
                fcntl.flock(handle, fcntl.LOCK_EX)
                if self.path.exists() and os.fstat(handle).st_ino == self.path.stat().st_ino:
                    return handle
            except OSError:
                os.close(handle)
                raise
            os.close(handle)

    def _write(self, handle: int, size: int, content: bytes) -> None:
        """Where the disk has no room for all of it, what was written of it is taken away again."""
        try:
            done = 0
            while done < len(content):
                done += os.write(handle, content[done:])
            os.fsync(handle)
        except OSError:
            os.ftruncate(handle, size)
            raise

    def _parsed(self, raw: bytes) -> Read:
        rows, findings = [], []
        for number, line in enumerate(raw.split(b"\n"), start=1):
            if not line:
                continue
            try:
                row = json.loads(line)
            except ValueError:
                row = None
            if isinstance(row, dict):
                rows.append(row)
            else:
                said = "this line was cut short while it was written; every other line is whole"
                mark = Mark(str(self.path), number, 1)
                findings.append(Finding(mark, "cut-short", said, "leave it: nothing was told of it", "warning"))
        return Read(rows, tuple(findings))


def _everything(handle: int) -> bytes:
    os.lseek(handle, 0, os.SEEK_SET)
    parts = []
    while part := os.read(handle, 1 << 20):
        parts.append(part)
    return b"".join(parts)
