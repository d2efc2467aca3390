"""Photos of a frame or a colorway: ``photo: tarn-slate.jpg``, or ``photos`` with words for who does not see them."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.catalog.model import Photo
from quoting.nodes import Record

FOLDER = "photos"
# Parts of a path in the folder: none hidden, none that climbs; \ and : would mean something else on other machines
NAME = r"(?:[^/\\:.][^/\\:]*/)*[^/\\:.][^/\\:]*"
MEANT = f"the name of a file in {FOLDER}/"
EXAMPLE = "tarn-slate.jpg"
ROW = "{file: tarn-slate.jpg, alt: Tarn in slate from the front}"


def read_photos(record: Record) -> tuple[Photo, ...]:
    """All of them, in the order written; ``photo`` is the short form of one."""
    found = []
    if record.has("photo"):
        found.append(Photo(record.form("photo", NAME, MEANT, EXAMPLE), "", record.mark("photo")))
    if record.has("photos"):
        if found:
            said = f"{record.noun} has both `photo` and `photos`; it takes one of them"
            record.fault("photo", "one-of-two", said, "move the one into the list: photos: [{file: ...}]")
        for row in record.records("photos", "this photo", example=ROW):
            file = row.form("file", NAME, MEANT, example=EXAMPLE)
            found.append(Photo(file, row.text("alt", default="", most=200), row.mark("file")))
            row.close()
    return tuple(found)
