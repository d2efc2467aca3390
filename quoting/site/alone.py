"""One command at a time works on a site: the others are told so and leave everything as it is.

The lock is the system's own, on a file beside the site, so that it ends with the process however that ends.  Where a
file system knows no locks (some network ones), nothing keeps two commands apart.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import contextlib
import errno
import os
import sys
from collections.abc import Iterator
from pathlib import Path

from quoting.findings import Finding, Mark

if sys.platform == "win32":
    import msvcrt
else:
    import fcntl

NO_LOCKS = {errno.ENOLCK, errno.ENOSYS, errno.ENOTSUP, errno.EOPNOTSUPP}


class BusyError(Exception):
    """Another command works on the site."""

    def __init__(self, who: str) -> None:
        super().__init__(who)
        self.who = who  # the number of its process, where that is known

    def finding(self, output: Path) -> Finding:
        """The same as a finding about the folder that was named."""
        who = f" (process {self.who})" if self.who else ""
        said = f"another command{who} builds or publishes to {output} just now"
        return Finding(Mark(str(output), 1, 1), "in-use", said, "let it come to its end, then try again")


def lock_of(output: Path) -> Path:
    """The file beside a site that is locked."""
    return output.with_name(f".{output.name}.bevelbook-lock")


@contextlib.contextmanager
def alone(output: Path) -> Iterator[None]:
    """Nobody else of ours works on the site meanwhile.   Raises BusyError, or OSError where nothing can be written."""
    made = _folders(output.parent)
    try:
        handle = _locked(output)
        try:
            yield
        finally:
            _unlocked(handle, lock_of(output))
    finally:
        for folder in made:
            with contextlib.suppress(OSError):  # something came into it
                folder.rmdir()


def _folders(folder: Path) -> list[Path]:
    """Make a folder and those above it: the ones that were not there, the lowest first."""
    missing = [one for one in (folder, *folder.parents) if not one.exists()]
    if not missing and not folder.is_dir():
        raise NotADirectoryError(errno.ENOTDIR, os.strerror(errno.ENOTDIR), str(folder))
    folder.mkdir(parents=True, exist_ok=True)
    return missing


def _locked(output: Path) -> int:
    """A handle that holds the lock.  The file is the one that has its name by now: others delete theirs."""
    path = lock_of(output)
    while True:
        handle = os.open(path, os.O_RDWR | os.O_CREAT | getattr(os, "O_NOFOLLOW", 0), 0o666)
        try:
            _lock(handle)
        except OSError as fault:
            who = b"" if sys.platform == "win32" else os.read(handle, 20)
            os.close(handle)
            if fault.errno not in (errno.EACCES, errno.EAGAIN, errno.EDEADLK):
                raise
            raise BusyError(who.decode("ascii", "replace").strip()) from fault
        with contextlib.suppress(OSError):
            if os.path.samestat(os.fstat(handle), path.stat()):
                os.ftruncate(handle, 0)
                os.write(handle, b"%d\n" % os.getpid())
                return handle
        os.close(handle)


def _lock(handle: int) -> None:
    """Raises OSError where somebody else has it."""
    if sys.platform == "win32":
        msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
        return
    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError as fault:
        if fault.errno not in NO_LOCKS:
            raise


def _unlocked(handle: int, path: Path) -> None:
    """Delete the file while it is still ours, then let go; Windows deletes no open file, so there it stays."""
    if sys.platform != "win32":
        path.unlink(missing_ok=True)
    os.close(handle)
