"""A prescription in a file: FHIR JSON, a YAML form, or a typed slip, by its ending."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

from quoting.findings import Finding, Mark
from quoting.prescription.fhir import read_fhir
from quoting.prescription.form import read_form
from quoting.prescription.model import Reading
from quoting.prescription.text import read_slip
from quoting.written.encodings import SAVE_AS, other_than_utf8, said_of

MOST_BYTES = 1_000_000  # a prescription has two thousand
# No text holds these bytes, in whichever encoding of the PC it was saved; pictures and documents do
CONTROLS = re.compile(rb"[\x00-\x08\x0e-\x1f]")
PHOTO = "type the prescription into a text file; a photo cannot be read"
READERS = {".json": read_fhir, ".yaml": read_form, ".yml": read_form}


def read_file(
    path: Path, *, today: date | None = None, max_age_months: int | None = None, child: bool = False
) -> Reading:
    """What a file says about both eyes: ``.json`` as FHIR, ``.yaml`` as a form, anything else as a slip.

    Nothing raises: a file that cannot be read is a finding.
    """
    path = Path(path)
    try:
        if path.is_file() and path.stat().st_size > MOST_BYTES:
            said = f"this file has more than {MOST_BYTES:,} bytes"
            return _refused(path, "file-too-large", said, "send the prescription alone")
        raw = path.read_bytes()
    except FileNotFoundError:
        return _refused(path, "no-such-file", "this file is not there", "correct the name")
    except OSError as error:
        said = f"this file cannot be read: {(error.strerror or 'no reason given').lower()}"
        return _refused(path, "unreadable-file", said, "ask who may read it")
    if encoding := other_than_utf8(raw):
        return _refused(path, "not-text", said_of(encoding), SAVE_AS)
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        said = f"this file is not text in UTF-8: byte {error.start + 1} is none of it"
        return _refused(path, "not-text", said, PHOTO if CONTROLS.search(raw) else SAVE_AS)
    reader = READERS.get(path.suffix.lower(), read_slip)
    return reader(text, str(path), today=today, max_age_months=max_age_months, child=child)


def _refused(path: Path, code: str, message: str, hint: str) -> Reading:
    return Reading(None, (), (Finding(Mark(str(path), 1, 1), code, message, hint),))
