"""Every code a finding about the commands that add frames and packages can have, and what it means."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

IMPORTS = {
    "no-headings": "No row of a file names columns of frames.",
    "two-headings": "Two columns of a file could both hold the same thing.",
    "no-such-column": "A column that was named is not in the file.",
    "no-column": "Nothing says a thing that every frame must have: no column, and no value for all.",
    "not-a-size": "A cell in the column of sizes is not written as on temples.",
    "rows-differ": "Two rows say different things of the same frame, size or colorway.",
    "already-there": "The shop has this frame already; what the file says of it is left out.",
    "same-id": "Two frames of a file would get the same id.",
}
WRITING = {
    "no-place": "A list is written so that no entry can be put behind its last one.",
    "not-only-new": "With a new entry in its file, something else of the shop would read otherwise.",
}
ENTRY_CODES: dict[str, str] = {**IMPORTS, **WRITING}
