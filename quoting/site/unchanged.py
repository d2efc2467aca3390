"""Whether the files that a site is made from are still those that were read.

A site from half of one save and half of the next would show prices that nobody ever meant together.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from quoting.catalog.read_photos import FOLDER as PHOTOS
from quoting.findings import Finding, Mark

State = tuple[int, int, int]  # time of the last change (ns), length, and which file it is (inode)
READ = ("frames", "lenses", "prices", "languages")  # folders of the shop; shop.yaml lies above them


@dataclass(frozen=True, slots=True)
class Seen:
    """The files of a shop and its prose as they were before any of them was read."""

    shop: Path
    content: Path | None
    files: dict[Path, State]

    @classmethod
    def now(cls, shop: Path, content: Path | None) -> Seen:
        """As they are now."""
        return cls(shop, content, states(shop, content))

    def findings(self) -> list[Finding]:
        """One fault at the first file that was changed, came or went since; nothing where all are as they were."""
        after = states(self.shop, self.content)
        changed = sorted(path for path in {*self.files, *after} if self.files.get(path) != after.get(path))
        if not changed:
            return []
        path = changed[0]
        was, is_there = path in self.files, path in after
        how = "was changed" if was and is_there else "was taken away" if was else "was added"
        more = f", and so it is with {len(changed) - 1} more" if changed[1:] else ""
        said = f"this file {how} while the site was built{more}; the site would be made of old and new ones"
        return [Finding(Mark(path.as_posix(), 1, 1), "changed-meanwhile", said, "build again once all is saved")]


def states(shop: Path, content: Path | None) -> dict[Path, State]:
    """State of each file that a build reads; those that vanish meanwhile are left out."""
    found: dict[Path, State] = {}
    for path in files(shop, content):
        try:
            about = path.stat()
        except OSError:
            continue
        found[path] = about.st_mtime_ns, about.st_size, about.st_ino
    return found


def files(shop: Path, content: Path | None) -> Iterator[Path]:
    """The files that a build reads; those that editors keep beside them for themselves are none."""
    yield shop / "shop.yaml"
    for folder in READ:
        yield from (path for path in (shop / folder).glob("*.yaml") if not path.name.startswith("."))
    for tree in (shop / PHOTOS, *([content] if content is not None else [])):
        for path in tree.rglob("*"):
            hidden = any(part.startswith(".") for part in path.relative_to(tree).parts)
            if not hidden and not path.name.endswith("~") and path.is_file():
                yield path
