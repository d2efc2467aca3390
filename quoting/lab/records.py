"""The records of a message: ``LABEL=value;value``, one a line, each with its place.

Framing as in ISO 16284:2001, read in a transcription: a message may stand between 0x1C and 0x1D, a check value behind
0x1E; records end with CR LF, fields are parted by ``;``, a ``*`` marks a record that must not be left out, ``?`` stands
for what is not known.  Lone line ends are taken too, as editors leave them.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field

from quoting.findings import Finding, Mark

START, END, CHECK = "\x1c", "\x1d", "\x1e"
SEPARATOR, UNKNOWN = ";", "?"
LABEL = re.compile(r"(?P<flag>\*?)(?P<label>[A-Z_][A-Z0-9_]{0,15})(?P<gap> *= *)", re.ASCII)
# More bytes than any job with both traces at a tenth of a degree, and longer than one with all its radii in a line
MOST_BYTES, LONGEST_LINE = 500_000, 25_000


@dataclass(frozen=True, slots=True)
class Value:
    """One field of a record as it was written, without blanks around it."""

    text: str
    mark: Mark

    @property
    def known(self) -> bool:
        """Whether it says anything."""
        return self.text not in ("", UNKNOWN)


@dataclass(frozen=True, slots=True)
class Line:
    """One record."""

    label: str
    values: tuple[Value, ...]
    mark: Mark  # of the label
    needed: bool = False  # flagged with *


@dataclass(slots=True)
class Lines:
    """All records of a message, and what was found."""

    rows: list[Line] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)

    def tell(self, mark: Mark, code: str, said: str, hint: str, severity: str = "error") -> None:
        self.findings.append(Finding(mark, code, said, hint, severity))  # type: ignore[arg-type]


def lines_of(raw: bytes, file: str) -> Lines:
    """The records of the bytes of a file; nothing in them raises."""
    found = Lines()
    if len(raw) > MOST_BYTES:
        said = f"this file has {len(raw):,} bytes; {MOST_BYTES:,} are the most"
        found.tell(Mark(file, 1, 1), "dcs-too-long", said, "name the file of one job")
        return found
    text = raw.decode("latin-1")
    texts = re.split(r"\r\n|\n|\r", text)
    _framing(texts, file, found)
    for number, line in enumerate(texts, start=1):
        _line(line, Mark(file, number, 1, line), found)
    if not found.rows and not found.findings:
        said = "there is no record of a lab job in this file"
        found.tell(Mark(file, 1, 1), "dcs-empty", said, "a record is a line such as SPH=-2.00;-1.25")
    return found


def _framing(texts: list[str], file: str, found: Lines) -> None:
    """Take the signs away that begin and end a message."""
    inside, wrong = False, ""
    begins = 0
    for at, line in enumerate(texts):
        begins += line.count(START)
        if END in line and begins == 0:
            wrong = wrong or "a message ends here that never began"
        if begins > 1:
            wrong = wrong or "a second message begins here; a file holds one job"
        inside = (inside or START in line) and END not in line
        texts[at] = line.replace(START, "").split(CHECK)[0].replace(END, "")
        if wrong:
            found.tell(Mark(file, at + 1, 1, texts[at]), "dcs-cut", wrong, "ask for the file again")
            return
    if inside:
        said = "the message has no end: the file may be cut short"
        found.tell(Mark(file, len(texts), 1, texts[-1]), "dcs-cut", said, "ask for the file again")


def _line(line: str, mark: Mark, found: Lines) -> None:
    if not line.strip():
        return
    if len(line) > LONGEST_LINE:
        short = Mark(mark.file, mark.line, 1, line[:60])
        said = f"this line has {len(line):,} characters; no record has more than {LONGEST_LINE:,}"
        found.tell(short, "dcs-too-long", said, "ask for the file again: its line ends may be lost")
        return
    strange = next((at for at, char in enumerate(line) if not (" " <= char <= "~" or char == "\t")), None)
    if strange is not None:
        said = f"the byte 0x{ord(line[strange]):02X} is no character of a record"
        place = Mark(mark.file, mark.line, strange + 1, line)
        found.tell(place, "dcs-not-ascii", said, "records are written in ASCII; ask for the file again")
        return
    head = LABEL.match(line)
    if head is None:
        said = "this line is no record: it has no label in capitals with = behind it"
        found.tell(Mark(mark.file, mark.line, 1, line, len(line)), "dcs-no-label", said, "take it out, or mend it")
        return
    label_mark = Mark(mark.file, mark.line, head.start("label") + 1, line, len(head["label"]))
    values = tuple(_values(line, head.end(), mark))
    found.rows.append(Line(head["label"], values, label_mark, bool(head["flag"])))


def _values(line: str, start: int, mark: Mark) -> Iterator[Value]:
    for part in line[start:].split(SEPARATOR):
        text = part.strip()
        place = start + (len(part) - len(part.lstrip()) if text else 0)
        yield Value(text, Mark(mark.file, mark.line, place + 1, line, max(1, len(text))))
        start += len(part) + 1
