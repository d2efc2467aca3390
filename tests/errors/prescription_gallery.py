"""Prescriptions that are odd: each folder in ``prescriptions/`` is named after a code and shows it.

``rx.txt`` is a slip, ``rx.json`` a FHIR resource, ``rx.yaml`` a form; ``expected.txt`` is the exact text of all that is
told.  ``given.txt`` says what else is known, a line each:

    today DAY             the day to reckon with
    months COUNT          the age from which the shop points a prescription out
    heights RIGHT LEFT    what was measured
    fill COUNT TEXT       the file holds this text so many times
    bytes HEX ...         the file holds these bytes
"""

import tempfile
from contextlib import chdir
from datetime import date
from pathlib import Path

from quoting.findings import Finding, Mark
from quoting.prescription.distances import height_flags
from quoting.prescription.file import read_file

HERE = Path(__file__).parent / "prescriptions"


def folders():
    """The folders of the gallery, by name."""
    return sorted(path for path in HERE.iterdir() if path.is_dir() and path.name[0] not in "._")


def findings_of(folder):
    """What is told of a folder's prescription."""
    (source,) = folder.glob("rx.*")
    raw, known, flags = source.read_bytes(), {}, []
    given = folder / "given.txt"
    for line in given.read_text(encoding="utf-8").splitlines() if given.exists() else ():
        what, rest = line.split(" ", 1)
        if what == "today":
            known["today"] = date.fromisoformat(rest)
        elif what == "months":
            known["max_age_months"] = int(rest)
        elif what == "heights":
            flags = list(height_flags(*map(float, rest.split())))
        elif what == "fill":
            count, text = rest.split(" ", 1)
            raw = text.encode() * int(count)
        elif what == "bytes":
            raw = bytes.fromhex(rest)
        else:
            raise ValueError(f"nothing is known by {line!r}")
    with tempfile.TemporaryDirectory() as place, chdir(place):
        Path(source.name).write_bytes(raw)
        found = read_file(Path(source.name), **known).findings
    measured = [Finding(Mark("--height", 1, 1), one.code, one.message, one.hint, one.severity) for one in flags]
    return [*found, *measured]


def rendered(folder):
    """The text of all findings, as a person sees it."""
    return "".join(f"{finding}\n\n" for finding in findings_of(folder)).rstrip("\n") + "\n"
