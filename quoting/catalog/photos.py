"""The photos that a catalog names: whether each is there, in the shop, and an image that can be shown.

They are looked at where they are shown or checked, and nowhere else: a quote at the counter waits for no photo.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import stat
import unicodedata
from collections.abc import Iterable, Iterator
from pathlib import Path

from quoting.catalog.files import Files
from quoting.catalog.model import Frame, Photo
from quoting.catalog.read_photos import FOLDER
from quoting.findings import Finding, Mark, Severity
from quoting.pictures import ENDINGS, Look, NotAPictureError, look
from quoting.written.kinds import nearest

# (practice) the largest that telephones and cameras of this decade make of one frame, as JPEG and developed
MOST_BYTES = 40_000_000
MOST_PIXELS = 60_000_000
# Narrower than the card it is shown in, a photo is blurred on most screens
LEAST_WIDTH = 400
PRIVATE = "private"  # nothing of it is ever shown, not by a link either
NAMED = 5  # so many names stand in one sentence
ALL_ENDINGS = tuple(ending for endings in ENDINGS.values() for ending in endings)
OTHER = "photos are JPEG, PNG or WebP; telephones and photo programs save or export them as JPEG"


class Photos:
    """The photos of one shop folder."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.top = folder / FOLDER
        self._inside, self._private = _resolved(folder), _resolved(folder / PRIVATE)
        self._listed: dict[Path, dict[str, str]] = {}
        self._looked: dict[Path, Look] = {}

    def there(self, name: str) -> Path | None:
        """The file of that name, upper case and lower as written; whether ä is one character or two does not count."""
        place = self.top
        for part in name.split("/"):
            found = self._names(place).get(unicodedata.normalize("NFC", part))
            if found is None:
                return None
            place = place / found
        return place

    def findings(self, photo: Photo) -> Iterator[Finding]:
        """All that is wrong with one photo, told where the shop's files name it."""
        path = self.there(photo.file)
        if path is None:
            yield _of(photo, "no-such-photo", f"there is no `{photo.file}` in {FOLDER}/", self._meant(photo.file))
            return
        fault = self._fault(path, photo)
        yield from [fault] if fault is not None else self._sense(photo, self._looked[path])

    def seen(self, photo: Photo) -> tuple[Path, Look] | None:
        """Where a photo is and what its head says; None where anything forbids to show it."""
        path = self.there(photo.file)
        if path is None or self._fault(path, photo) is not None:
            return None
        return path, self._looked[path]

    def _fault(self, path: Path, photo: Photo) -> Finding | None:
        if path in self._looked:
            return None
        name = f"`{FOLDER}/{photo.file}`"
        where = self._astray(path)
        if where:
            return _of(photo, "outside-folder", f"{name} is a link that leads {where}", "put the file itself here")
        try:
            about = path.stat()
            if not stat.S_ISREG(about.st_mode):
                return _of(photo, "not-a-photo", f"{name} is no file", "name a file; " + OTHER)
            if about.st_size > MOST_BYTES:
                said = f"{name} has {about.st_size:,} bytes; {MOST_BYTES:,} are the most"
                return _of(photo, "photo-too-large", said, "export it smaller; 1600 pixels of width are shown")
            return self._look(path, photo, name)
        except OSError as error:
            reason = (error.strerror or "no reason given").lower()
            return _of(photo, "unreadable-file", f"{name} cannot be read: {reason}", "see who may read it")

    def _astray(self, path: Path) -> str:
        """Where a link leads that must not be followed; nothing where all is well."""
        real = _resolved(path)
        if real is None or not path.exists():
            return "nowhere"
        if self._inside is None or not real.is_relative_to(self._inside):
            return "out of the shop folder"
        return "to what is private" if self._private is not None and real.is_relative_to(self._private) else ""

    def _look(self, path: Path, photo: Photo, name: str) -> Finding | None:
        try:
            found = look(path)
        except NotAPictureError as error:
            said = f"{name} is empty" if not path.stat().st_size else f"{name} {error}"
            return _of(photo, "not-a-photo", said, OTHER)
        if found.width * found.height > MOST_PIXELS:
            said = f"{name} has {found.width:,} × {found.height:,} pixels; {MOST_PIXELS:,} in all are the most"
            return _of(photo, "photo-too-large", said, "export it smaller; 1600 pixels of width are shown")
        self._looked[path] = found
        return None

    def _sense(self, photo: Photo, found: Look) -> Iterator[Finding]:
        if Path(photo.file).suffix.lower() not in ENDINGS[found.kind]:
            said = f"`{FOLDER}/{photo.file}` holds a {found.kind}, and its name says something else"
            hint = f"name it {Path(photo.file).stem}{ENDINGS[found.kind][0]}"
            yield _of(photo, "photo-ending", said, hint, "warning")
        if found.width < LEAST_WIDTH:
            said = f"`{FOLDER}/{photo.file}` is {found.width} pixels wide and will look blurred"
            yield _of(photo, "photo-small", said, f"take one of {LEAST_WIDTH} pixels or more, better 1600", "warning")

    def _names(self, place: Path) -> dict[str, str]:
        """What a folder holds: each name in composed characters, and as the file system has it."""
        if place not in self._listed:
            try:
                names = [one.name for one in place.iterdir()] if place.is_dir() else []
            except OSError:
                names = []
            self._listed[place] = {unicodedata.normalize("NFC", name): name for name in sorted(names)}
        return self._listed[place]

    def _meant(self, name: str) -> str:
        place, _, last = name.rpartition("/")
        known = list(self._names(self.top / place if place else self.top))
        folded = next((one for one in known if one.casefold() == last.casefold()), "")
        if folded:
            return f"did you mean `{folded}`? upper case and lower count"
        near = nearest(last, known)
        return f"did you mean `{near}`?" if near else f"put the file there, or take the line out: {FOLDER}/{name}"

    def all(self) -> list[Path]:
        """All files in the folder that could be photos by their endings, in order."""
        found = (path for path in self.top.rglob("*") if path.is_file()) if self.top.is_dir() else ()
        hidden = (path for path in found if not any(part.startswith(".") for part in path.relative_to(self.top).parts))
        return sorted(path for path in hidden if path.suffix.lower() in ALL_ENDINGS)


def _resolved(path: Path) -> Path | None:
    """The path with its links followed; None for a circle."""
    try:
        return path.resolve()
    except (OSError, RuntimeError):
        return None


def photos_of(frame: Frame) -> list[Photo]:
    """All photos of a frame: those of its colorways, then its own."""
    return [*(photo for color in frame.colorways for photo in color.photos), *frame.photos]


def photo_findings(folder: Path, frames: Iterable[Frame], whole: bool = True) -> list[Finding]:
    """All that is wrong with the photos of these frames; where they are all of a shop, those too that nothing names."""
    named = [photo for frame in frames for photo in photos_of(frame) if photo.file]
    photos = Photos(folder)
    found = [finding for photo in named for finding in photos.findings(photo)]
    found += _alike(named)
    return [*found, *(_unused(photos, {photos.there(photo.file) for photo in named}) if whole else ())]


def _unused(photos: Photos, shown: set[Path | None]) -> Iterator[Finding]:
    """One note of all photos that nothing names: a name may have been forgotten."""
    unused = [path for path in photos.all() if path not in shown]
    if unused:
        names = ", ".join(f"`{path.relative_to(photos.top).as_posix()}`" for path in unused[:NAMED])
        names += f" and {len(unused) - NAMED} more" if len(unused) > NAMED else ""
        said = f"no frame and no colorway names {names}: shown nowhere"
        hint = "name it at a colorway, such as photo: tarn-slate.jpg, or take it away"
        yield Finding(Mark(Files(photos.folder).shown(unused[0]), 1, 1), "photo-unused", said, hint, "note")


def _alike(named: list[Photo]) -> Iterator[Finding]:
    """Photos whose names differ in upper and lower case alone: many machines can keep only one of them."""
    seen: dict[str, Photo] = {}
    for photo in named:
        first = seen.setdefault(unicodedata.normalize("NFC", photo.file).casefold(), photo)
        if unicodedata.normalize("NFC", first.file) != unicodedata.normalize("NFC", photo.file):
            said = f"`{photo.file}` and `{first.file}` at {first.mark} differ in upper and lower case alone"
            yield _of(photo, "photo-names", said, "rename one of them: on many machines they are one file", "warning")


def _of(photo: Photo, code: str, message: str, hint: str, severity: Severity = "error") -> Finding:
    return Finding(photo.mark, code, message, hint, severity)
