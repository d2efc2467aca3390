"""A site put where the public sees it, compared with what stood there before; and what stood before had back."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import os
import tempfile
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from quoting.findings import Finding, Mark
from quoting.show.differences import Changes
from quoting.site.alone import BusyError, alone
from quoting.site.build import BuildResult, End, build, resolved
from quoting.site.changes import compare
from quoting.site.material import Material, Progress
from quoting.site.past import Build, NothingError, keep, last, numbers, prune, settle, to_go_back_to
from quoting.site.place import MARKER, files_in, mark, standing, stood, strangers
from quoting.site.record import Boards, Record, dayless, record_of
from quoting.site.redirects import leads, ours, write_stub
from quoting.site.swap import past, swap


@dataclass(frozen=True, slots=True)
class Published:
    """What came of it."""

    result: BuildResult
    number: int  # of the build; 0 where nothing was put there
    changes: Changes | None  # None for the first, and where the build failed


def publish(
    shop: Path, output: Path, day: date, progress: Progress | None = None, dry: bool = False, jobs: int = 0
) -> Published:
    """Build, compare with what stands, put it there unless ``dry``.  Any error leaves what stands as it was.

    ``jobs``: processes that work out boards; 0: as many as pay.

    Raises ValueError where the record of the build that stands cannot be read.
    """
    stands: list[Build | None] = []
    told: list[tuple[int, Changes | None]] = []
    boards = Boards()

    def put(site: Material, new: Path, place: Path) -> None:
        (before,) = stands
        record = record_of(site, new, boards)
        changes = compare(before.record, record, f"build {before.number}") if before else None
        if before:
            record["ours"], way = ours(before.record, record), leads(before.record, record)
            for old, lead in way.items():
                if not (new / old).exists() and not any(above.is_file() for above in (new / old).parents):
                    write_stub(new, old, lead, site.catalog.shop)
            record["redirects"] = way
        again = before if before and changes and changes.none and _same(before, record, new, place) else None
        told.append((0 if dry else _put(new, place, record, again), changes))

    end = End(put, boards.watch, lambda place: stands.append(last(place)), jobs)
    result = build(shop, output, day, progress, end=end)
    return Published(result, *(told[0] if told else (0, None)))


def recorded(
    shop: Path, day: date, progress: Progress | None = None, content: Path | None = None
) -> tuple[BuildResult, Record | None]:
    """What a shop's site would say now; nothing is put anywhere.  None where it cannot be built."""
    found: list[Record] = []
    boards = Boards()
    with tempfile.TemporaryDirectory(prefix="bevelbook-", ignore_cleanup_errors=True) as side:

        def put(site: Material, new: Path, _: Path) -> None:
            found.append(record_of(site, new, boards))

        result = build(shop, Path(side) / "site", day, progress, content, End(put, boards.watch))
    return result, found[0] if found else None


def _same(before: Build, record: Record, new: Path, output: Path) -> bool:
    """Whether a site that stands is the new one but for its day; what pages say was compared before."""
    if standing(output) != before.number or files_in(output) != files_in(new):
        return False
    others = (name for name in files_in(new) if name not in record["pages"])
    there, here = before.record["day"], record["day"]
    return all(_read(output / name, there) == _read(new / name, here) for name in others)


def _read(path: Path, day: str) -> str:
    return dayless(path.read_bytes().decode("latin-1"), day)  # pictures, too: each byte a letter


def _put(new: Path, output: Path, record: Record, again: Build | None) -> int:
    """Write the record, then swap: a record without a site is harmless, a site without one could not be compared.

    ``again`` is the build that stands, where the new one says the same: it keeps its number, so that of the builds that
    can be had back none makes room for its like.
    """
    before = again.before if again else stood(output)
    number = again.number if again else max([before, *numbers(output)]) + 1
    keep(output, number, before, record)
    mark(new, number, before)
    if hasattr(os, "sync"):  # a cut of power must not leave a site of empty files where a whole one stood
        os.sync()
    swap(new, output)
    prune(output)
    return number


def back(output: Path) -> tuple[int, list[Finding]]:
    """Put the build that stood before in the place of the present one: its number, or 0 and what is in the way.

    Raises NothingError where none is kept.
    """
    place = resolved(output)
    if not past(place).is_dir():
        raise NothingError(f"nothing was published to {output}, so nothing is known to go back to")
    try:
        with alone(place):
            return _back(place)
    except BusyError as busy:
        return 0, [busy.finding(output)]


def _back(output: Path) -> tuple[int, list[Finding]]:
    settle(output)
    now = stood(output)
    if not now:
        raise NothingError(f"what stands in {output} was not published, so nothing is known to go back to")
    kept = [one for one in to_go_back_to(output) if (past(output) / str(one) / MARKER).is_file()]
    if not kept:
        raise NothingError(f"no build from before build {now} of {output} is kept")
    place = past(output) / str(kept[0])
    if found := [*strangers(output), *strangers(place)]:
        return 0, found
    swap(place, output)
    prune(output)
    return kept[0], []


def stands_in(output: Path) -> Build | None:
    """The published build that stands there, after a crash brought to rest.   Raises BusyError, ValueError."""
    try:
        with alone(output):
            settle(output)
            return last(output)
    except OSError:  # a place where nothing can be written: then nothing was cut short there by us either
        return last(output)


def refused(output: Path, error: Exception) -> Finding:
    """A record that cannot be read, with a remedy."""
    hint = "move that folder away: then the next build counts as the first"
    place = past(output) if past(output).is_dir() else past(output.resolve())  # beside the folder that a link leads to
    return Finding(Mark(str(place), 1, 1), "no-record", str(error), hint)
