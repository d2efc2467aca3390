"""The files of a shop folder: which there are, in order of their names, and what keeps one from being read."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from quoting.findings import Finding, Mark
from quoting.written.kinds import nearest

ENDING = ".yaml"
LOOKALIKES = frozenset({".yml", ".json"})


class Files:
    """The files of one shop folder; what is wrong with folder or files is collected in ``findings``."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.findings: list[Finding] = []

    def shown(self, path: Path) -> str:
        """The path as messages name it: as the folder was given, then the file."""
        return "".join(c if c.isprintable() else "?" for c in path.as_posix())

    def refuse(self, path: Path, code: str, message: str, hint: str) -> None:
        """Tell what is wrong with a file or folder as such."""
        self.findings.append(Finding(Mark(self.shown(path), 1, 1), code, message, hint))

    def touched(self, name: str, shown: Iterable[str]) -> bool:
        """Whether a file of the shop (without its ending), a folder or a file in that is among those that are shown."""
        place = self.shown(self.folder / name)
        return any(one in (place, place + ENDING) or one.startswith(f"{place}/") for one in shown)

    def there(self) -> bool:
        """Whether the shop folder itself is one."""
        return self._is_folder(self.folder, "name the folder that holds shop.yaml")

    def listed(self, name: str, may_be_empty: bool = False) -> list[Path]:
        """The YAML files in a folder of the shop, sorted by name; those that must not be read are told."""
        place = self.folder / name
        if not self._is_folder(place, f"make a folder {name} beside shop.yaml") or not self.inside(place):
            return []
        told = len(self.findings)
        paths = self._paths(place)
        for path in paths:
            self._see_whether_read(path)
        found = [path for path in paths if path.suffix == ENDING]
        if not found and not may_be_empty and len(self.findings) == told:
            self.refuse(place, "nothing-there", f"there is no {ENDING} file in this folder", "put one there")
        return [path for path in found if self.inside(path)]

    def beside(self, name: str) -> list[Path]:
        """The YAML files in a folder that need not be there, sorted by name; other things may lie among them."""
        place = self.folder / name
        if not self._anything(place) or not self._is_folder(place, "make a folder of it") or not self.inside(place):
            return []
        found = []
        for path in self._paths(place):
            if path.suffix != ENDING and path.suffix.lower() in (ENDING, ".yml"):
                self.wrong_ending(path)
            elif path.suffix == ENDING and self.inside(path):
                found.append(path)
        return found

    def _paths(self, place: Path) -> list[Path]:
        """What lies in a folder, but for what is hidden; where nobody may look, that is told."""
        try:
            return sorted(path for path in place.iterdir() if not path.name.startswith("."))
        except OSError as error:
            self.refuse(place, "unreadable-file", f"this folder cannot be read: {_why(error)}", "ask who may read it")
            return []

    def _anything(self, path: Path) -> bool:
        """Whether anything at all stands there; what cannot be seen does."""
        try:
            return path.exists() or path.is_symlink()
        except OSError:
            return True

    def wrong_ending(self, path: Path) -> None:
        """Tell that a file looks like one of ours, but is not read."""
        hint = f"rename it to {path.stem}{ENDING}"
        self.refuse(path, "wrong-ending", f"only files that end in {ENDING} are read", hint)

    def _see_whether_read(self, path: Path) -> None:
        """Tell what looks as if it were read, and is not."""
        if path.suffix.lower() in LOOKALIKES or (path.suffix != ENDING and path.suffix.lower() == ENDING):
            self.wrong_ending(path)
        elif path.suffix != ENDING and path.is_dir():
            self.refuse(
                path, "not-a-file", "this is a folder; nothing in it is read", "move its files up into this one"
            )

    def inside(self, path: Path) -> bool:
        """Whether the path stays within the shop folder once links are followed; else that is told."""
        try:
            if path.resolve().is_relative_to(self.folder.resolve()):
                return True
        except (OSError, RuntimeError):  # a circle of links
            self.refuse(path, "outside-folder", "this link leads in a circle", "put the file itself here")
            return False
        self.refuse(path, "outside-folder", "this link leads out of the shop folder", "put the file itself here")
        return False

    def _is_folder(self, path: Path, hint: str) -> bool:
        try:
            if path.is_dir():
                return True
            there = path.exists() or path.is_symlink()
        except OSError as error:
            self.refuse(path, "unreadable-file", f"this folder cannot be read: {_why(error)}", "ask who may read it")
            return False
        if there:
            self.refuse(path, "not-a-folder", "a folder belongs here, and this is none", f"take it away; {hint}")
        else:
            meant = nearest(path.name, self._neighbors(path))
            hint = f"did you mean {meant}?" if meant else hint
            self.refuse(path, "no-such-folder", "this folder is not there", hint)
        return False

    def _neighbors(self, path: Path) -> list[str]:
        try:
            return sorted(other.name for other in path.parent.iterdir() if other.is_dir())
        except OSError:
            return []


def _why(error: OSError) -> str:
    return (error.strerror or "no reason given").lower()
