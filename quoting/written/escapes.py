"""Escapes in double quotes: what they put into a text is held to the same as what is typed there."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re

from quoting.findings import Finding
from quoting.written.kinds import Fault
from quoting.written.node import Sheet
from quoting.written.refusals import BREAK, UNPRINTABLE

# YAML 1.2.2, section 5.7: a carriage return comes into a value by an escape only; breaks as typed become line feeds
HIDDEN = re.compile(rf"{UNPRINTABLE.pattern}|\r")
BEYOND = re.compile(r"\\U(?!000[0-9a-f]|0010)[0-9a-f]{8}", re.IGNORECASE)  # Unicode ends at U+10FFFF
HINT = "delete the backslash and what belongs to it; where a backslash is meant, use single quotes"


def hidden(value: str) -> Fault | None:
    """The fault of a value that holds a character nobody can see; the first one is told."""
    found = HIDDEN.search(value)
    if found is None:
        return None
    said = f"an escape in this text stands for an invisible character (U+{ord(found[0]):04X})"
    return Fault("invisible-character", said, HINT)


def shown(value: str) -> str:
    """The value as it may be shown: what cannot be seen as a replacement character."""
    return HIDDEN.sub("\ufffd", value)


def beyond_unicode(text: str, sheet: Sheet) -> Finding | None:
    """Where an escape asks for a character that there is not, at which libyaml's Python twin gives up."""
    found = BEYOND.search(text)
    if found is None:
        return None
    before = BREAK.split(text[: found.start()])
    mark = sheet.mark(len(before) - 1, len(before[-1]), len(found[0]))
    return Finding(mark, "not-yaml", "an escape in double quotes asks for a character that there is not", HINT)
