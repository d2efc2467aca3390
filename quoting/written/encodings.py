"""Which encoding a file that is not UTF-8 was saved in: by its byte order mark, else by where its zero bytes lie.

>>> other_than_utf8("name: Tarn".encode("utf-16")), other_than_utf8("name: Tarn".encode("utf-16-be"))
('UTF-16', 'UTF-16')
>>> other_than_utf8("name: Tarn".encode())
''
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import codecs

# That of UTF-32 in little-endian order begins with that of UTF-16, so it comes first
MARKS = {
    codecs.BOM_UTF32_LE: "UTF-32",
    codecs.BOM_UTF32_BE: "UTF-32",
    codecs.BOM_UTF16_LE: "UTF-16",
    codecs.BOM_UTF16_BE: "UTF-16",
}
# Text in letters, digits and signs up to U+00FF has one zero byte in two (UTF-16) or three in four (UTF-32), always at
# the same places; half of that is taken for enough, since names may hold other letters
ENOUGH = 0.5
LOOKED_AT = 4096
SAVE_AS = "save it as UTF-8 in your editor"


def said_of(encoding: str) -> str:
    """That a file is saved in another encoding."""
    return f"this file is saved as {encoding}; we read UTF-8"


def other_than_utf8(raw: bytes) -> str:
    """The name of the encoding where it can be told and is not UTF-8; else nothing."""
    for beginning, name in MARKS.items():
        if raw.startswith(beginning):
            return name
    for name, width in (("UTF-32", 4), ("UTF-16", 2)):
        body = raw[: min(len(raw), LOOKED_AT) // width * width]
        zeros = [body[at::width].count(0) for at in range(width)]
        if body and _unit(zeros, len(body) / width * ENOUGH) and 0 in (zeros[0], zeros[-1]):
            return name
    return ""


def _unit(zeros: list[int], enough: float) -> bool:
    """Whether all bytes of a unit but its first or its last are mostly zero."""
    return min(zeros[1:]) >= enough or min(zeros[:-1]) >= enough
