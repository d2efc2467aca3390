"""A lab job: what it says of each eye and of the frame, its traces, and the lines that are not known here.

Unknown values are written ``?``, those of an eye that is not made are left empty, and both are read as nothing: a
value that is not there is never taken for 0.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from quoting.findings import Finding, Mark, errors
from quoting.lab.labels import DEPTHS, LABELS, TABLE, TRACED, Label
from quoting.lab.records import END, SEPARATOR, START, UNKNOWN, Line, Lines, Value, lines_of
from quoting.lab.traces import Reader, Trace, written

NUMBER = re.compile(r"[+-]?[0-9]{1,6}(?:\.[0-9]{0,6})?|[+-]?\.[0-9]{1,6}", re.ASCII)
SIDES = {"R": ("R",), "L": ("L",), "B": ("R", "L")}
WORDS = {"R": "right", "L": "left"}

# What has no base letter, and must not be lost: a minus above all
LETTERS = {"−": "-", "–": "-", "×": "x", "□": "-", "ß": "ss", "ø": "o", "Ø": "O", "æ": "ae", "Æ": "AE", "°": " deg"}
ASCII = str.maketrans(LETTERS)
DEPTHS_HINT = "the outline is; how a rim bends, say with the frame's curve and wrap"

Item = float | str | None


@dataclass(frozen=True, slots=True)
class Job:
    """``values``: label -> (right, left), or (value,) of the job as a whole; None where it is not known."""

    eyes: str = "B"
    values: Mapping[str, tuple[Item, ...]] = field(default_factory=dict)
    traces: tuple[Trace, ...] = ()
    others: tuple[str, ...] = ()  # lines that are not known here, as they were

    def of(self, label: str, side: str = "R") -> Item:
        """A value of one eye, or of the job."""
        found = self.values.get(label, (None,))
        return found[-1] if side == "L" else found[0]

    def number(self, label: str, side: str = "R") -> float | None:
        """The same where it is a number."""
        found = self.of(label, side)
        return found if isinstance(found, float) else None


def read_job(raw: bytes, file: str) -> tuple[Job | None, list[Finding]]:
    """The job of a file and what was found; None where an error forbids to use any of it."""
    found = lines_of(raw, file)
    reader = Reader(found)
    values: dict[str, tuple[Item, ...]] = {}
    firsts: dict[str, Line] = {}
    others: list[str] = []
    for line in found.rows:
        if line.label in TRACED:
            reader.take(line)
        elif line.label in DEPTHS:
            if not any(other.startswith(DEPTHS) for other in others):
                found.tell(line.mark, "dcs-depths", "the depths of a trace are not read here", DEPTHS_HINT, "note")
            others.append(line.mark.text)
        elif line.label not in LABELS:
            others.append(line.mark.text)
            _tell_unknown(line, found)
        elif line.label in firsts:
            said = f"`{line.label}` stands here a second time; the first is in line {firsts[line.label].mark.line}"
            found.tell(line.mark, "dcs-twice", said, "take one of the two out")
        else:
            firsts[line.label] = line
            values[line.label] = _items(line, LABELS[line.label], found)
    eyes = _eyes(values, firsts, found)
    width, height = (_first(values.get(name, ())) for name in ("HBOX", "VBOX"))
    traces = tuple(reader.traces(width, height))
    if errors(found.findings):
        return None, found.findings
    return Job(eyes, values, traces, tuple(others)), found.findings


def _first(items: tuple[Item, ...]) -> float | None:
    return next((item for item in items if isinstance(item, float)), None)


def _tell_unknown(line: Line, found: Lines) -> None:
    """Private labels begin with _ and are passed over; others are named."""
    if not line.label.startswith("_"):
        said = f"the record `{line.label}` is not known here and not used"
        found.tell(line.mark, "dcs-label-unknown", said, "compare it by eye where it matters", "note")


def _items(line: Line, label: Label, found: Lines) -> tuple[Item, ...]:
    """The values of a record; one for both eyes stands for the right one alone."""
    most = 2 if label.sides else 1
    values = line.values
    while len(values) > most and not values[-1].text:
        values = values[:-1]
    if len(values) > most:
        meant = "right;left" if label.sides else "one value"
        said = f"`{label.name}` has {len(values)} values; it holds {meant}"
        found.tell(values[most].mark, "dcs-fields", said, "take out what is too much")
        return (None,) * most
    items = [_item(value, label, found) for value in values]
    return tuple(items + [None] * (most - len(items)))


def _item(value: Value, label: Label, found: Lines) -> Item:
    if not value.known:
        return None
    if label.low is None:
        return value.text
    if not NUMBER.fullmatch(value.text):
        said = f"`{value.text}` is no number; `{label.name}` is the {label.meaning}"
        found.tell(value.mark, "dcs-not-a-number", said, "write a decimal point, and ? for what is not known")
        return None
    number = float(value.text)
    if not label.low <= number <= label.high:
        said = f"{value.text} cannot be meant: `{label.name}` is the {label.meaning}, {label.low:g} to {label.high:g}"
        found.tell(value.mark, "dcs-range", said, "mend it, or write ? for what is not known")
        return None
    return number


def _eyes(values: dict[str, tuple[Item, ...]], firsts: dict[str, Line], found: Lines) -> str:
    """For which eyes the job is: what DO says; without it, those that have a sphere."""
    said = values.get("DO", (None,))[0]
    powers = values.get("SPH", (None, None))
    if said is None:
        has = ("R" if powers[0] is not None else "") + ("L" if powers[-1] is not None else "")
        return has if has in ("R", "L") else "B"
    if said not in SIDES:
        text = f"`DO={said}` is for no eye: R, L or B for both"
        found.tell(firsts["DO"].values[0].mark, "dcs-eye", text, "write R, L or B")
        return "B"
    for at, side in enumerate("RL"):
        if side not in SIDES[str(said)] and powers[at] is not None:
            mark = firsts["SPH"].values[at].mark
            text = f"the job is for the {WORDS[str(said)]} eye alone (DO={said}), and the {WORDS[side]} has a sphere"
            found.tell(mark, "dcs-eye", text, "write DO=B, or take out the values of the other eye")
            break
    return str(said)


def write_job(job: Job, framed: bool = False) -> bytes:
    """The job as a file: known records in the order of the table, then the others, then the traces."""
    job = replace(job, values={"DO": (job.eyes,), **job.values})
    lines = [_record(one, job) for one in TABLE if one.name in job.values]
    lines += [*job.others, *(line for trace in job.traces for line in written(trace))]
    text = "".join(f"{line}\r\n" for line in lines)
    return (f"{START}{text}{END}" if framed else text).encode("ascii")


def _record(label: Label, job: Job) -> str:
    items = job.values[label.name]
    if not label.sides:
        return f"{label.name}={_text(items[0], label)}"
    made = SIDES[job.eyes]
    both = zip("RL", items, strict=True)
    texts = [_text(item, label) if side in made or item is not None else "" for side, item in both]
    return f"{label.name}={SEPARATOR.join(texts)}"


def _text(item: Item, label: Label) -> str:
    if item is None:
        return UNKNOWN
    if isinstance(item, str):
        return plain_text(item)
    return f"{item:+.{label.places}f}" if label.name in ("SPH", "CYL", "ADD") else f"{item:.{label.places}f}"


def plain_text(words: str) -> str:
    """Words as a record can hold them: ASCII, and none of the signs that part records and values.

    >>> plain_text("Ångström 1.60; clear")
    'Angstrom 1.60, clear'
    """
    bare = unicodedata.normalize("NFKD", words.translate(ASCII)).encode("ascii", "ignore").decode()
    return re.sub(r"[\x00-\x1f\x7f]", " ", bare.replace(SEPARATOR, ",")).strip() or UNKNOWN


def no_trace(file: str) -> Finding:
    """What is told of a file without one."""
    said = "this file holds no trace"
    return Finding(Mark(file, 1, 1), "dcs-no-trace", said, "a trace begins with a record such as TRCFMT=1;400;E;R;F")
