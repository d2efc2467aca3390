"""The trace of a size: ``trace: tarn-52-18.dcs``, a file in ``traces/`` of the shop, as a tracer or a lab gives it."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from quoting.catalog.files import Files
from quoting.catalog.model import Outline
from quoting.kernel.calculators import rounded
from quoting.kernel.trace_faults import BOX_TOLERANCE_MM
from quoting.lab.jobs import Job, no_trace, read_job
from quoting.lab.traces import Trace, measured
from quoting.nodes import Record

FOLDER = "traces"
# As for photos: none hidden, none that climbs
NAME = r"(?:[^/\\:.][^/\\:]*/)*[^/\\:.][^/\\:]*"
MEANT = f"the name of a file in {FOLDER}/"
# Page and command reckon with the same decimals of an outline, mm
PLACES = 3


class Traces:
    """Reads the traces of a shop's sizes, each file once; what is wrong with a file is told at its own lines."""

    def __init__(self, files: Files, instead: Mapping[Path, bytes]) -> None:
        self.files = files
        self.instead = instead
        self._read: dict[Path, Job | None] = {}

    def of(self, size: Record, a: float, b: float) -> tuple[str, Outline | None]:
        """The file that a size names, and the outline in it; none where it names no file or a fault is told."""
        name = size.form("trace", NAME, MEANT, "tarn-52-18.dcs", default="")
        if not name or not size.sound("trace"):
            return "", None
        job = self._job(size, self.files.folder / FOLDER / name)
        if job is None:
            size.fail("trace")
            return name, None
        outline = outline_of_trace(chosen(job))
        self._see_box(size, outline, a, b)
        return name, outline

    def _job(self, size: Record, path: Path) -> Job | None:
        if path in self._read:
            return self._read[path]
        raw = self.instead.get(path)
        if raw is None and not path.is_file():
            said = f"there is no file {FOLDER}/{path.name}"
            size.fault("trace", "no-such-trace", said, "put it there with: bevelbook trace import FILE --frame ID")
            return None
        if raw is None:
            if not self.files.inside(path):
                return None
            raw = path.read_bytes()
        job, findings = read_job(raw, self.files.shown(path))
        self.files.findings += [one for one in findings if one.severity != "note"]
        if job is not None and not job.traces:
            self.files.findings.append(no_trace(self.files.shown(path)))
            job = None
        self._read[path] = job
        return job

    def _see_box(self, size: Record, outline: Outline, a: float, b: float) -> None:
        """The trace must be of this size."""
        found = measured(*outline)
        for name, stated, given in (("a", a, found.a), ("b", b, found.b)):
            if size.sound(name) and abs(given - stated) > BOX_TOLERANCE_MM + 0.005:
                said = f"the trace has `{name}` {given:.1f}, and this size says {stated:g}"
                size.fault("trace", "trace-not-this-size", said, "name the trace of this size, or mend the size")


def chosen(job: Job) -> Trace:
    """The trace that stands for both sides: the right one where there is one."""
    return next((one for one in job.traces if one.side == "R"), job.traces[0])


def outline_of_trace(one: Trace) -> Outline:
    """Its outline in the nasal frame, mm, on the decimals that are reckoned with."""
    xs, ys = one.outline()
    return tuple(rounded(x, PLACES) for x in xs), tuple(rounded(y, PLACES) for y in ys)
