"""The photos of a shop as a site shows them: copies in several widths, each under a name that says what is in it."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import os
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path

from quoting.catalog.model import Colorway, Frame, Photo
from quoting.catalog.photos import MOST_BYTES, Photos, photos_of
from quoting.catalog.read_photos import FOLDER
from quoting.catalog.shop import Catalog
from quoting.findings import Finding
from quoting.languages import _
from quoting.pictures import NotAPictureError, copies, look
from quoting.show.versions import color_text
from quoting.site.copies import Kept, name_of, widths_for

# The copies of one photo by rising width: address in the site, width and height in pixels
Copies = tuple[tuple[str, int, int], ...]
AT_ONCE = 2  # photos in memory at the same time: the largest take half a gigabyte each


@dataclass(frozen=True, slots=True)
class Shown:
    """One photo of the site."""

    photo: Photo
    copies: Copies

    @property
    def largest(self) -> tuple[str, int, int]:
        """The copy that is shown by itself."""
        return self.copies[-1]


class Album:
    """The photos of one build.  Empty until `make`."""

    def __init__(self) -> None:
        self._copies: dict[str, Copies] = {}  # by the file of the photo

    def of(self, photos: tuple[Photo, ...]) -> list[Shown]:
        """Those of them that can be shown."""
        return [Shown(photo, self._copies[photo.file]) for photo in photos if photo.file in self._copies]

    def first(self, frame: Frame) -> tuple[Shown, Colorway] | None:
        """The photo that stands for a frame in lists: the first of the first colorway that has one."""
        return next(((shown, color) for color in frame.colorways for shown in self.of(color.photos)), None)

    def addresses(self, frame: Frame) -> list[str]:
        """The addresses of all photos of a frame in the site, each of its widest copy."""
        return [shown.largest[0] for shown in self.of(tuple(photos_of(frame)))]

    def alt(self, shown: Shown, frame: Frame, color: Colorway | None) -> str:
        """What a photo shows, in the shop's own words where it has any."""
        if shown.photo.alt:
            return shown.photo.alt
        if color is None:
            return _("Photo of {frame}").format(frame=frame.name)
        return _("Photo of {frame} in {color}").format(frame=frame.name, color=color_text(color))

    def make(self, folder: Path, catalog: Catalog, output: Path) -> Iterator[Finding]:
        """Write the copies of all photos into ``output``; what is found is told.   Raises OSError."""
        known, kept = Photos(folder), Kept()
        places: dict[Photo, Path] = {}
        names: dict[Path, str] = {}  # of each file, after what it shows first
        for slug, photo in _named(catalog):
            if (seen := known.seen(photo)) is not None:
                places[photo] = seen[0]
                names.setdefault(seen[0], slug)
        if names:
            (output / FOLDER).mkdir()
        with ThreadPoolExecutor(min(AT_ONCE, os.cpu_count() or 1)) as workers:
            made = dict(
                zip(names, workers.map(lambda path: _written(path, names[path], output, kept), names), strict=True)
            )
        for photo, path in places.items():
            found = made[path]
            if isinstance(found, NotAPictureError):
                said = f"`{FOLDER}/{photo.file}` {found}"
                yield Finding(photo.mark, "not-a-photo", said, "export it again, as a JPEG")
            else:
                self._copies[photo.file] = found
        kept.clear_out()


def _named(catalog: Catalog) -> Iterator[tuple[str, Photo]]:
    """All photos in the order of the catalog, each with a name for what it shows."""
    for frame in catalog.frames.values():
        for color in frame.colorways:
            yield from ((f"{frame.id}-{color.id}", photo) for photo in color.photos)
        yield from ((frame.id, photo) for photo in frame.photos)


def _written(path: Path, slug: str, output: Path, kept: Kept) -> Copies | NotAPictureError:
    """Put the copies of one photo into the site; they are held no longer than that takes."""
    with path.open("rb") as file:
        raw = file.read(MOST_BYTES)
    name, copies_made = name_of(raw), []
    try:
        about = look(raw)
        found = kept.get(name, about)
        if found is None:
            found = copies(raw, widths_for(about))
            kept.put(name, found)
    except NotAPictureError as error:
        return error
    for copy in found:
        address = f"{FOLDER}/{slug}-{name}-{copy.width}{copy.ending}"
        (output / address).write_bytes(copy.content)
        copies_made.append((address, copy.width, copy.height))
    return tuple(copies_made)
