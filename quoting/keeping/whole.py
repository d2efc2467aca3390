"""Several files of a shop written as one: after a crash at any moment all of them are old, or all are new.

New contents are first written beside their targets; a journal then says that they are whole, and only then are they
renamed into place.  `recover` undoes what was begun and finishes what was whole; every command does so before it reads.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import contextlib
import errno
import json
import os
import shutil
import stat
import sys
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path

if sys.platform != "win32":
    import fcntl

JOURNAL = ".bevelbook-writing.json"
BESIDE = ".bevelbook-new"  # ends the name of a new content that waits beside its target
BEGUN, WHOLE = "begun", "whole"
# Where the system refuses what it allowed a moment before
UNENDED = {
    BEGUN: "nothing was written, but what waits beside this file could not be taken away; the next command tries again",
    WHOLE: "the other files may be new already: free this one, and the next command ends what was begun",
}


class StaleError(OSError):
    """A file is no longer what was read before the change was worked out; nothing was written."""


def write_all(
    folder: Path, changes: Mapping[Path, bytes | None], before: Mapping[Path, bytes | None] | None = None
) -> None:
    """Write (or, for None, delete) all these files of a shop folder, or none of them.

    ``before`` is what each file held when it was read (None: it was not there).   Raises StaleError where one holds
    something else by now, OSError where the system refuses, ValueError for a file outside the folder.
    """
    with _alone(folder):
        _settle(folder)
        _compare(before or {})
        targets = {_inside(folder, path): content for path, content in changes.items()}
        _writable(targets)
        try:
            _note(folder, BEGUN, targets)
            for path, content in targets.items():
                if content is not None:
                    _put_beside(path, content)
            _note(folder, WHOLE, targets)
        except OSError as fault:
            if _settle(folder) == "finished":
                raise
            said = f"{fault.strerror or fault}; nothing was written"
            raise OSError(fault.errno, said, _meant(fault, folder, targets)) from fault
        _settle(folder)


def recover(folder: Path) -> str:
    """Bring a shop folder to rest after a crash: what was done, ``undone`` or ``finished``, or nothing.

    Raises OSError where the system refuses, ValueError where the journal is not one of ours.
    """
    journal = folder / JOURNAL
    if not (journal.is_file() or _beside(journal).is_file()):
        return ""
    with _alone(folder):
        return _settle(folder)


@contextlib.contextmanager
def _alone(folder: Path) -> Iterator[None]:
    """Keep other commands of ours from writing there at the same time; on Windows nothing keeps them."""
    if sys.platform == "win32":
        yield
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        fcntl.flock(handle, fcntl.LOCK_EX)
        yield
    finally:
        os.close(handle)


def _inside(folder: Path, path: Path) -> Path:
    """Where a file of the shop really is, links followed."""
    real = path.resolve()
    if not real.is_relative_to(folder.resolve()):
        raise ValueError(f"{path} lies outside the shop folder {folder}")
    return real


def _compare(before: Mapping[Path, bytes | None]) -> None:
    for path, content in before.items():
        if (path.read_bytes() if path.exists() else None) != content:
            raise StaleError(errno.EBUSY, "this file was changed meanwhile; nothing was written", str(path))


def _writable(targets: Iterable[Path]) -> None:
    """Whether each file can be replaced or deleted, seen before the first one is: raises PermissionError or OSError.

    A file that its owner marked as read-only stays, though a new one could be put in its place.  One that the system
    holds (an immutable or append-only file, on Windows one that is open elsewhere) refuses to be opened for writing.
    """
    for path in targets:
        if not path.exists():
            continue
        if not (path.stat().st_mode & 0o222 and os.access(path, os.W_OK)):
            raise PermissionError(errno.EACCES, "this file is read-only; nothing was written", os.path.relpath(path))
        if not os.access(path.parent, os.W_OK | os.X_OK) or _kept_by_folder(path):
            said = "no file of this folder may be replaced; nothing was written"
            raise PermissionError(errno.EACCES, said, os.path.relpath(path))
        try:
            path.open("r+b").close()
        except OSError as fault:
            said = f"this file cannot be replaced ({fault.strerror}); nothing was written"
            raise OSError(fault.errno, said, os.path.relpath(path)) from fault


def _kept_by_folder(path: Path) -> bool:
    """Whether only others may replace it: in a folder with the sticky bit, as ``/tmp``, owners alone may (POSIX)."""
    if sys.platform == "win32":
        return False
    folder = path.parent.stat()
    return bool(folder.st_mode & stat.S_ISVTX) and os.geteuid() not in (0, folder.st_uid, path.stat().st_uid)


def _meant(fault: OSError, folder: Path, targets: Iterable[Path]) -> str:
    """The file that could not be written, and not a passing one beside it."""
    named = {str(_beside(path)): path for path in targets}
    path = named.get(str(fault.filename))
    return os.path.relpath(path) if path is not None else str(folder)


def _beside(path: Path) -> Path:
    return path.with_name(f".{path.name}{BESIDE}")


def _put_beside(path: Path, content: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    side = _beside(path)
    _write(side, content)
    if path.exists():
        shutil.copymode(path, side)


def _write(path: Path, content: bytes) -> None:
    """Write a file down to the disk."""
    with path.open("wb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())


def sync_folder(folder: Path) -> None:
    """Bring renames in a folder down to the disk; Windows opens no folders."""
    if sys.platform == "win32":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def _note(folder: Path, state: str, targets: Mapping[Path, bytes | None]) -> None:
    """Write the journal: how far we are, and with which files."""
    root = folder.resolve()
    files = {path.relative_to(root).as_posix(): content is not None for path, content in targets.items()}
    for parent in {path.parent for path in targets if path.parent.is_dir()}:
        sync_folder(parent)
    side = _beside(root / JOURNAL)
    _write(side, json.dumps({"state": state, "files": files}).encode())
    side.replace(root / JOURNAL)
    sync_folder(root)


def _settle(folder: Path) -> str:
    """Finish or undo what the journal speaks of."""
    root = folder.resolve()
    journal = root / JOURNAL
    _beside(journal).unlink(missing_ok=True)
    if not journal.is_file():
        return ""
    state, files = _read(journal)
    targets = {_inside(root, root / name): written for name, written in files.items()}
    for path, written in targets.items():
        try:
            _settle_one(path, state, written)
        except OSError as fault:
            raise OSError(fault.errno, f"{fault.strerror}; {UNENDED[state]}", os.path.relpath(path)) from fault
    for parent in {path.parent for path in targets if path.parent.is_dir()}:
        sync_folder(parent)
    journal.unlink()
    return "undone" if state == BEGUN else "finished"


def _settle_one(path: Path, state: str, written: bool) -> None:
    side = _beside(path)
    if state == BEGUN:
        side.unlink(missing_ok=True)
    elif not written:
        path.unlink(missing_ok=True)
    elif side.exists():
        side.replace(path)


def _read(journal: Path) -> tuple[str, dict[str, bool]]:
    """State and files of a journal.   Raises ValueError where it is not one of ours."""
    try:
        read = json.loads(journal.read_bytes())
        state, files = read["state"], read["files"]
        if state in (BEGUN, WHOLE) and all(isinstance(written, bool) for written in files.values()):
            return state, files
    except (ValueError, TypeError, KeyError, AttributeError):
        pass
    raise ValueError(f"{journal} is not a journal of ours: look at what stands beside it, then delete it")
