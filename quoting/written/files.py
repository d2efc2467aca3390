"""The bytes of a file, or why it is not read."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import stat
from pathlib import Path

from quoting.findings import Finding
from quoting.written.node import Sheet

ALL = "all of this file"


def raw_of(path: Path, sheet: Sheet, most: int) -> bytes | None:
    """What is in a file of at most so many bytes; None where it cannot be read, which is told."""
    try:
        state = path.stat()
        if not stat.S_ISREG(state.st_mode):
            _refused(sheet, "not-a-file", "this is not a file", "put a YAML file here")
        elif state.st_size > most:
            said = f"this file has {state.st_size:,} bytes; {most:,} are the most"
            _refused(sheet, "file-too-large", said, "split it into several files", ALL)
        else:
            return path.read_bytes()
    except FileNotFoundError:
        _refused(sheet, "no-such-file", "this file is not there", "write it, or correct the name")
    except OSError as error:
        reason = (error.strerror or "no reason given").lower()
        _refused(sheet, "unreadable-file", f"this file cannot be read: {reason}", "ask who may read it", ALL)
    return None


def _refused(sheet: Sheet, code: str, message: str, hint: str, unchecked: str = "") -> None:
    sheet.findings.append(Finding(sheet.mark(0, 0), code, message, hint, unchecked=unchecked))
