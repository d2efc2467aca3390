"""A trace into the catalog: the file into ``traces/``, its name behind the size, all checked before it is written."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from pathlib import Path

from quoting.catalog.load import load_written
from quoting.catalog.model import Frame, Size
from quoting.catalog.read_traces import FOLDER
from quoting.findings import Finding, Mark, errors
from quoting.keeping.adding import Addition
from quoting.keeping.splice import replaced, token_at
from quoting.lab.jobs import Job, write_job
from quoting.nodes import Record, read_text

ENDING = ".dcs"
# What of a lab job belongs to the frame and stays; the customer's part is never kept with a trace
OF_THE_FRAME = ("HBOX", "VBOX", "DBL", "FED", "CIRC", "FCRV", "FTYP", "ETYP")


def trace_name(frame: Frame, size: Size) -> str:
    """The file of a size's trace."""
    return f"{frame.id}-{size.key.replace('.', '_')}{ENDING}"


def of_the_frame(job: Job) -> Job:
    """What of a job is about the frame alone: nothing of whoever it was for."""
    values = {name: items for name, items in job.values.items() if name in OF_THE_FRAME}
    return Job("B", values, job.traces)


def with_trace(folder: Path, frame: Frame, size: Size, job: Job) -> Addition:
    """The files of the shop once the size has this trace, and what a check of them tells."""
    path, name = Path(size.mark.file), trace_name(frame, size)
    target = folder / FOLDER / name
    raw = path.read_bytes()
    before: dict[Path, bytes | None] = {path: raw, target: target.read_bytes() if target.is_file() else None}
    record = _record(raw, frame.id, size)
    if record is None:
        said = "this size stands no more where it was read"
        return Addition({}, {}, [Finding(size.mark, "not-only-new", said, "somebody changes the file: try again")])
    contents = {path: _named(raw, record, name), target: write_job(of_the_frame(job))}
    catalog, findings = load_written(folder, contents)
    found = list(errors(findings))
    if catalog is not None:
        made = next((one for one in catalog.frames[frame.id].sizes if one.key == size.key), None)
        if made is None or made.trace != name:
            said = "with the trace in its file, something else of the shop would read otherwise"
            found.append(Finding(size.mark, "not-only-new", said, f"write it by hand: trace: {name}"))
    return Addition(contents, before, found)


def _record(raw: bytes, frame: str, size: Size) -> Record | None:
    root = read_text(raw.decode("utf-8-sig"), "file")
    for one in root.records("frames", "this frame", needed=False):
        if one.word("id", default="") == frame:
            for row in one.records("sizes", "this size", needed=False):
                mark = row.mark()
                if (mark.line, mark.column) == (size.mark.line, size.mark.column):
                    return row
    return None


def _named(raw: bytes, size: Record, name: str) -> bytes:
    """The file with the trace's name behind the effective diameter, or in place of the old one."""
    if size.has("trace"):
        return replaced(raw, [(size.mark("trace"), name)])
    mark = size.mark("ed")
    head = size.mark()
    inside = head.text[head.column - 1 : head.column] == "{"
    lead = ", " if inside else "\n" + " " * (head.column - 1)
    return replaced(raw, [(mark, f"{token_at(raw, mark)}{lead}trace: {name}")])


def place(file: Path) -> Mark:
    """The head of a file that was given."""
    return Mark(file.as_posix(), 1, 1)
