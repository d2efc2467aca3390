"""The trace of a lens in a job: ``TRCFMT=1;N;E|U;R|L;F|P|D``, then radii, then angles where they are unequal.

Radii are in 1/100 mm, angles in 1/100 degree, counter-clockwise from 0, seen from the front, both sides each as it is.
From memory of the standard, but for the separators; the compressed format C and the depths behind ZFMT are not read.
Read radii go through the kernel's own ``trace_faults``.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field

from quoting.findings import Mark
from quoting.kernel.boxing import dimensions
from quoting.kernel.outline import area, perimeter
from quoting.kernel.trace import equal_angles, from_trace
from quoting.kernel.trace_faults import trace_faults
from quoting.lab.records import Line, Lines, Value

WHOLE = re.compile(r"[0-9]{1,5}", re.ASCII)
SOURCES = {"F": "the frame", "P": "a pattern", "D": "a demo lens"}
FORMATS = "TRCFMT=1;400;E;R;F: format, how many radii, E or U for equal or unequal angles, side, what was traced"
# How many radii a tracer takes, at least and at most
LEAST, MOST = 12, 3600
PER_LINE = 10


@dataclass(frozen=True, slots=True)
class Trace:
    """One side of a frame; radii in mm from a point inside, angles in degrees, both as the tracer had them."""

    side: str  # R or L
    source: str  # F, P or D
    radii: tuple[float, ...]
    angles: tuple[float, ...]
    mark: Mark = field(compare=False, repr=False)

    @property
    def equal(self) -> bool:
        """Whether the radii are equally far apart, from 0 on."""
        return list(self.angles) == equal_angles(len(self.radii))

    def outline(self) -> tuple[tuple[float, ...], tuple[float, ...]]:
        """The outline in the nasal frame about its box center, mm: xs and ys.   Of a trace without faults alone."""
        xs, ys = from_trace(list(self.radii), list(self.angles), self.side)
        return tuple(xs), tuple(ys)


@dataclass(frozen=True, slots=True)
class Dimensions:
    """What an outline measures, mm and mm²."""

    a: float
    b: float
    ed: float
    circumference: float
    area: float


def measured(xs: tuple[float, ...], ys: tuple[float, ...]) -> Dimensions:
    """The box, effective diameter, circumference and area of an outline."""
    a, b, ed = dimensions(list(xs), list(ys))[:3]
    return Dimensions(a, b, ed, perimeter(list(xs), list(ys)), area(list(xs), list(ys)))


@dataclass(slots=True)
class _Open:
    """A trace whose lines still come."""

    head: Line
    count: int
    unequal: bool
    side: str
    source: str
    radii: list[Value] = field(default_factory=list)
    angles: list[Value] = field(default_factory=list)


class Reader:
    """Takes the lines of traces in their order."""

    def __init__(self, found: Lines) -> None:
        self.found = found
        self.open: list[_Open] = []
        self.broken = False  # the lines that follow belong to a trace that is not read

    def take(self, line: Line) -> None:
        """One of the lines of a trace."""
        if line.label == "TRCFMT":
            self._begin(line)
        elif line.label in ("R", "A") and self.open and not self.broken:
            values = line.values if line.values[-1].text else line.values[:-1]  # a line may end with its separator
            (self.open[-1].radii if line.label == "R" else self.open[-1].angles).extend(values)
        elif line.label in ("R", "A") and not self.broken:
            said = f"`{line.label}` stands behind no trace format, so nobody knows whose radii these are"
            self.found.tell(line.mark, "dcs-trace-lost", said, f"put a record before it such as {FORMATS}")
            self.broken = True

    def _begin(self, line: Line) -> None:
        self.broken = True
        words = [value.text for value in line.values]
        if words and words[0] == "0":
            return  # no trace, said so
        wrong = _format_fault(words)
        if wrong is not None:
            at, said = wrong
            mark = line.values[at].mark if at < len(line.values) else line.mark
            self.found.tell(mark, "dcs-trace-format", said, f"write it such as {FORMATS}")
            return
        if any(one.side == words[3] for one in self.open):
            side = "right" if words[3] == "R" else "left"
            said = f"the {side} side is traced a second time"
            self.found.tell(line.mark, "dcs-twice", said, "take one of the two out")
            return
        self.broken = False
        self.open.append(_Open(line, int(words[1]), words[2] == "U", words[3], words[4] if len(words) > 4 else "F"))

    def traces(self, width: float | None, height: float | None) -> Iterator[Trace]:
        """All that could be read; ``width`` and ``height`` of the box where the job says them."""
        for one in self.open:
            made = self._made(one)
            if made is not None and self._sound(made, one.head, width, height):
                yield made

    def _made(self, one: _Open) -> Trace | None:
        if not self._counted(one.radii, one, "radii") or (one.unequal and not self._counted(one.angles, one, "angles")):
            return None
        radii, angles = self._hundredths(one.radii), self._hundredths(one.angles)
        if radii is None or angles is None:
            return None
        turned = angles if one.unequal else equal_angles(one.count)
        return Trace(one.side, one.source, tuple(radii), tuple(turned), one.head.mark)

    def _counted(self, values: list[Value], one: _Open, what: str) -> bool:
        if len(values) == one.count:
            return True
        said = f"this trace says {one.count} {what} and has {len(values)}"
        self.found.tell(one.head.values[1].mark, "dcs-trace-count", said, "trace again, or ask for the file again")
        return False

    def _hundredths(self, values: list[Value]) -> list[float] | None:
        found = []
        for value in values:
            if not WHOLE.fullmatch(value.text):
                said = f"`{value.text}` is no whole number of hundredths"
                self.found.tell(value.mark, "dcs-not-a-number", said, "such as 2416 for 24.16 mm")
                return None
            found.append(int(value.text) / 100)
        return found

    def _sound(self, one: Trace, head: Line, width: float | None, height: float | None) -> bool:
        """Whether an outline can be made of it, as the kernel says."""
        radii, angles = list(one.radii), list(one.angles)
        about = trace_faults(radii, angles, 0.0, 0.0)
        boxes = {"trace-box-a", "trace-box-b"}
        faults = [fault for fault in about if fault["code"] not in boxes]
        if not faults:
            own = measured(*one.outline())
            faults = trace_faults(radii, angles, own.a if width is None else width, own.b if height is None else height)
        for fault in faults:
            said = SHAPES[fault["code"]].format(**fault)
            self.found.tell(head.mark, "dcs-trace-shape", said, "trace again, or ask for the file again")
        return not faults


# What each fault of the kernel says of a trace
SHAPES = {
    "trace-too-few": "this trace has {given:g} radii, and an outline takes {needed:g} or more",
    "trace-angle-count": "this trace has {needed:g} radii and {given:g} angles",
    "trace-not-a-length": "number {given:g} of this trace is none that a lens can have",
    "trace-radius": "a radius of this trace is {given:g} mm, and none can be 0",
    "trace-angles-order": "the angles of this trace do not rise: {given:g}° stands behind {needed:g}°",
    "trace-angles-turn": "the angles of this trace go beyond one turn, to {given:g}°",
    "trace-gap": "this trace has a gap of {given:g}°, so its origin lies outside of it",
    "trace-too-rough": "this trace is so rough that its outline would cross itself",
    "trace-box-a": "this trace is {given:g} mm wide, and the job says {needed:g} (HBOX)",
    "trace-box-b": "this trace is {given:g} mm high, and the job says {needed:g} (VBOX)",
}


def _format_fault(words: list[str]) -> tuple[int, str] | None:
    """Which field of a trace format cannot be read, and why; None where all can."""
    if len(words) < 4:
        return len(words) - 1, "this trace format has fewer than four values"
    if words[0] != "1":
        return 0, f"`{words[0]}` is a trace format that is not read here; 1, the plain one, is"
    if not WHOLE.fullmatch(words[1]) or not LEAST <= int(words[1]) <= MOST:
        return 1, f"`{words[1]}` is no number of radii from {LEAST} to {MOST}"
    if words[2] == "C":
        return 2, "compressed radii are not read here"
    if words[2] not in ("E", "U"):
        return 2, f"`{words[2]}` is neither E nor U, equal or unequal angles"
    if words[3] not in ("R", "L"):
        return 3, f"`{words[3]}` is neither R nor L, the side that was traced"
    if len(words) > 4 and words[4] not in SOURCES:
        return 4, f"`{words[4]}` is none of F, P and D: frame, pattern, demo lens"
    return None


def written(one: Trace) -> list[str]:
    """The lines of a trace."""
    kind = "E" if one.equal else "U"
    lines = [f"TRCFMT=1;{len(one.radii)};{kind};{one.side};{one.source}"]
    for label, values in (("R", one.radii), ("A", () if one.equal else one.angles)):
        whole = [str(round(value * 100)) for value in values]
        lines += [f"{label}={';'.join(whole[at : at + PER_LINE])}" for at in range(0, len(whole), PER_LINE)]
    return lines
