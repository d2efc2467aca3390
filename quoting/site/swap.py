"""The site that stands changes places with another: as a whole, and what stood before is kept or deleted.

Where the system exchanges two folders in one step (exchange.py) there is a whole site at every moment.  Elsewhere
the place is empty between two renames; a command that is cut short there leaves the old site beside it, and the next
one brings it back.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import errno
import os
import shutil
from collections.abc import Iterator
from pathlib import Path

from quoting.site.exchange import exchange
from quoting.site.place import MARKER, standing, strangers

GONE = "gone-"  # begins the names of kept sites that are being deleted


def past(output: Path) -> Path:
    """Where earlier builds of a site are kept."""
    return output.with_name(f".{output.name}.bevelbook-past")


def aside(output: Path) -> Path:
    """Where the old site stands for the moment of a swap in two steps."""
    return output.with_name(f".{output.name}.bevelbook-old")


def making(output: Path) -> str:
    """How the names of the folders begin in which a site is made."""
    return f".{output.name}.bevelbook-new-"


def swap(new: Path, output: Path) -> None:
    """Put a site in the place of the old one; a published one goes where it is kept.   Raises OSError.

    Whatever is raised, a whole site stands: the old one or the new.
    """
    if not output.exists():
        new.replace(output)
        return
    replaceable(output)
    old = new
    if not exchange(new, output):
        old = aside(output)
        drop(old)
        output.replace(old)
        try:
            new.replace(output)
        except OSError:
            old.replace(output)
            raise
    put_by(old, output)


def put_by(old: Path, output: Path) -> None:
    """What stood goes where it is kept if it was published, and else away."""
    number = standing(old)
    if number and number != standing(output):
        past(output).mkdir(exist_ok=True)
        old.replace(room(output, number))
    else:
        drop(old)


def room(output: Path, number: int) -> Path:
    """Where a site will be kept; a copy that lies there (somebody put the site back by hand) makes room."""
    place = past(output) / str(number)
    if place.exists():
        shutil.rmtree(place.replace(place.with_name(f"{GONE}{number}")))
    return place


def replaceable(output: Path) -> None:
    """Whether the old site can be deleted once the new one stands.   Raises PermissionError with the folder."""
    for folder in (output, *(path for path in output.rglob("*") if path.is_dir() and not path.is_symlink())):
        if not os.access(folder, os.W_OK | os.X_OK):
            raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(folder))


def drop(old: Path) -> None:
    """Remove a site; an empty folder counts as one.  One in which somebody put files of their own stays."""
    if (old / MARKER).is_file():
        if not strangers(old):
            shutil.rmtree(old)
    elif old.is_dir():
        old.rmdir()


def recover(output: Path) -> None:
    """After a crash between two renames the old site comes back."""
    if not output.exists() and (aside(output) / MARKER).is_file():
        aside(output).replace(output)


def left_over(output: Path) -> Iterator[Path]:
    """Folders in which sites were made by commands that were cut short."""
    if output.parent.is_dir():
        yield from sorted(path for path in output.parent.iterdir() if path.name.startswith(making(output)))
