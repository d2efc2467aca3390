"""``trace`` and ``swap``: outlines as a tracer gives them, in the catalog, and laid over each other."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import json
import sys
from dataclasses import replace
from datetime import date
from pathlib import Path

import click

from quoting.catalog.load import load_written
from quoting.catalog.model import Frame, Size
from quoting.catalog.read_traces import chosen, outline_of_trace
from quoting.catalog.shop import Catalog
from quoting.choosing import UnknownError, pick, size_of
from quoting.cli.adding import save
from quoting.cli.common import FOLDER, any_shop, loaded, misuse, own_shop, tell
from quoting.cli.completing import frame_ids
from quoting.findings import Finding, errors, printable
from quoting.keeping.traced import with_trace
from quoting.lab.jobs import Job, no_trace, read_job
from quoting.lab.labels import LABELS
from quoting.lab.traces import SOURCES
from quoting.show.overlay import overlay
from quoting.show.swapped import swap_dict, swap_text
from quoting.show.traced import compared_rows, trace_findings, trace_text
from quoting.swapping import compared, outlines
from quoting.tables import size_outline

FILE = click.argument("file", type=click.Path(dir_okay=False, path_type=Path))
JSON = click.option("--json", "as_json", is_flag=True, help="For programs; its form is in DEVELOPERS.md.")


@click.group()
def trace() -> None:
    """Frame traces and lab jobs in the open Data Communication Standard: look at one, take one into the catalog."""


def job_of(file: Path, as_json: bool = False) -> Job:
    """The job of a file.   Exit code 1 where it cannot be read, 2 where there is no such file."""
    if not file.is_file():
        misuse(f"there is no file {file}")
    job, findings = read_job(file.read_bytes(), file.as_posix())
    tell(findings, as_json and job is None)
    if job is None:
        sys.exit(1)
    return job


@trace.command("show")
@FILE
@JSON
def show(file: Path, as_json: bool) -> None:
    """What the job or trace in FILE says, record by record, and what its outlines measure."""
    job = job_of(file, as_json)
    if as_json:
        values = {name: list(items) for name, items in job.values.items()}
        sides = [
            {"side": one.side, "radii": len(one.radii), "equal_angles": one.equal, "source": one.source}
            for one in job.traces
        ]
        said = {"eyes": job.eyes, "values": values, "traces": sides, "unknown": list(job.others)}
        click.echo(json.dumps(said, indent=2, ensure_ascii=False))
        return
    for name, items in job.values.items():
        texts = ["?" if item is None else f"{item:g}" if isinstance(item, float) else item for item in items]
        click.echo(printable(f"{name:<8} {LABELS[name].meaning}: {'; '.join(texts)}"))
    for one in job.traces:
        click.echo(trace_text(one, SOURCES[one.source]))


@trace.command("import")
@FILE
@click.argument("shop", type=FOLDER, required=False)
@click.option("--frame", required=True, shell_complete=frame_ids, help="The frame's id.")
@click.option("--size", default="", help="Such as 52-18.  [default: the only one]")
@click.option("--package", default="", help="The lens to compare thickness with.  [default: one that fits]")
@click.option("--svg", type=click.Path(dir_okay=False, path_type=Path), help="Draw trace and estimate over each other.")
@click.option("--write/--dry-run", default=False, help="Write it, or only show it.  [default: --dry-run]")
def import_trace(
    file: Path, shop: Path | None, frame: str, size: str, package: str, svg: Path | None, write: bool
) -> None:
    """Take the trace in FILE as the outline of a frame's size, and show what that changes.

    Of a lab job only what is about the frame is kept, nothing of whom it was for.
    """
    folder = own_shop(shop)
    catalog, findings = load_written(folder)
    if catalog is None:
        tell(findings)
        sys.exit(1)
    try:
        found = pick("frame", catalog.frames, frame)
        one = size_of(found, size)
        if package:
            pick("package", catalog.packages, package)
    except UnknownError as fault:
        misuse(fault)
    job = job_of(file)
    _refuse([no_trace(file.as_posix())] if not job.traces else [])
    told = trace_findings(job, found, one)
    tell(told)
    if errors(told):
        sys.exit(1)
    _show(catalog, found, one, job, package, svg)
    addition = with_trace(folder, found, one, job)
    _refuse(addition.findings)
    if write:
        save(folder, addition)
        click.echo(f"Written: {', '.join(path.as_posix() for path in addition.contents)}")
    else:
        click.echo("Nothing was written; say --write.")


def _refuse(findings: list[Finding]) -> None:
    """Tell errors and end with exit code 1, where there are any."""
    if errors(findings):
        tell(findings)
        sys.exit(1)


def _show(catalog: Catalog, frame: Frame, size: Size, job: Job, package: str, svg: Path | None) -> None:
    outline = outline_of_trace(chosen(job))
    before, after = replace(size, outline=None), replace(size, outline=outline)
    rows = compared_rows(catalog, frame, before, after, package, date.today())
    wide = max(len(row[0]) for row in rows)
    click.echo(f"{'':<{wide}}  {'estimate':>9}  {'trace':>9}")
    for name, old, new in rows:
        click.echo(f"{name:<{wide}}  {old:>9}  {new:>9}")
    if svg is not None:
        names = (f"{frame.name} {size.label}: trace", "estimated from A, B, ED and shape")
        svg.write_text(overlay(outline, size_outline(before, frame.family), names), encoding="utf-8")
        click.echo(f"Drawn: {svg}")


@click.command()
@click.argument("frame", shell_complete=frame_ids)
@click.argument("other", shell_complete=frame_ids)
@click.option("--size", default="", help="Of the frame that the lenses were cut for.  [default: the only one]")
@click.option("--other-size", default="", help="Of the frame they shall go into.  [default: the only one]")
@click.option("--shop", type=FOLDER, help="The shop's folder.  [default: here, else the demo shop]")
@click.option("--svg", type=click.Path(dir_okay=False, path_type=Path), help="Draw both over each other.")
@JSON
def swap(
    frame: str, other: str, size: str, other_size: str, shop: Path | None, svg: Path | None, as_json: bool
) -> None:
    """Whether lenses cut for FRAME go into frame OTHER: yes, maybe or no, with the numbers.  Exit code 1 for no.

    A yes needs traces of both; of estimated outlines the best answer is maybe.
    """
    catalog = loaded(any_shop(shop), date.today(), as_json)
    try:
        one, two = pick("frame", catalog.frames, frame), pick("frame", catalog.frames, other)
        sizes = size_of(one, size), size_of(two, other_size)
    except UnknownError as fault:
        misuse(fault)
    found = compared(one, sizes[0], two, sizes[1])
    if svg is not None:
        names = (f"lens of {one.name} {sizes[0].label}", f"rim of {two.name} {sizes[1].label}")
        drawn = outlines(one, sizes[0], two, sizes[1])
        svg.write_text(overlay(*drawn, names, (found.shift_in, found.shift_up)), encoding="utf-8")
    if as_json:
        click.echo(json.dumps(swap_dict(one, sizes[0], two, sizes[1], found), indent=2, ensure_ascii=False))
    else:
        click.echo(swap_text(one, sizes[0], two, sizes[1], found))
        if svg is not None:
            click.echo(f"Drawn: {svg}")
    sys.exit(1 if found.verdict == "no" else 0)
