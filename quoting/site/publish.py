"""A site put where the public sees it, with what stood there before kept beside it.

Beside DIR lies ``.DIR.bevelbook-past``: of each published build the record N.json, and of the last three that stood
before the present one the site N/.  It is not in DIR, so that nothing of it is served; not in the shop, so that a
rename brings a site back.  Which build stands is written in the site itself, so that the two cannot disagree.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import json
import os
import shutil
import tempfile
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from quoting.findings import Finding, Mark
from quoting.show.differences import Changes
from quoting.site.build import BuildResult, End, build, resolved
from quoting.site.changes import compare
from quoting.site.material import Material, Progress
from quoting.site.place import MARKER, aside, number_of, recover, strangers, swap
from quoting.site.record import Boards, Record, as_bytes, from_bytes, record_of
from quoting.site.redirects import gone, write_stub

KEPT = 3  # sites beside the one that stands
RECORDS = 20


class NothingError(ValueError):
    """There is no such build."""


@dataclass(frozen=True, slots=True)
class Published:
    """What came of it."""

    result: BuildResult
    number: int  # of the build; 0 where nothing was put there
    changes: Changes | None  # None for the first, and where the build failed


@dataclass(frozen=True, slots=True)
class Build:
    """One published build: its number, the one that stood before it (0: none), and what it said."""

    number: int
    before: int
    record: Record


def past(output: Path) -> Path:
    """Where earlier builds of a site are kept."""
    return output.with_name(f".{output.name}.bevelbook-past")


def standing(output: Path) -> int:
    """The number of the published build that stands there; 0 where none does."""
    try:
        return number_of(output) if (output / MARKER).is_file() else 0
    except ValueError:
        return 0


def numbers(output: Path) -> list[int]:
    """All builds of which there is a record, in order."""
    return sorted(int(path.stem) for path in past(output).glob("*.json") if path.stem.isdecimal())


def build_at(output: Path, number: int) -> Build:
    """One of them.   Raises NothingError where there is none, ValueError where its record cannot be read."""
    path = past(output) / f"{number}.json"
    if not path.is_file():
        known = ", ".join(str(one) for one in numbers(output)) or "none"
        raise NothingError(f"no record of a build {number} of {output}; there is {known}")
    try:
        read = json.loads(path.read_bytes())
        return Build(number, int(read["before"]), from_bytes(json.dumps(read["record"]).encode()))
    except (ValueError, KeyError, TypeError, AttributeError) as error:
        raise ValueError(f"{path} cannot be read: {error}") from error


def last(output: Path) -> Build | None:
    """The build that stands, or the newest where something else was put there; None before the first."""
    known, now = numbers(output), standing(output)
    if now not in known:  # it was built and not published, or its record was taken away
        now = known[-1] if known and output.exists() else 0
    return build_at(output, now) if now else None


def settle(output: Path) -> None:
    """After a crash: the site comes back, or what it replaced goes where it is kept."""
    recover(output)
    old = aside(output)
    number = standing(old)
    if number and not (past(output) / str(number)).exists():
        past(output).mkdir(exist_ok=True)
        old.replace(past(output) / str(number))


def publish(shop: Path, output: Path, day: date, progress: Progress | None = None, dry: bool = False) -> Published:
    """Build, compare with what stands, put it there unless ``dry``.  Any error leaves what stands as it was.

    Raises ValueError where the record of the build that stands cannot be read.
    """
    output = resolved(output)
    settle(output)
    before = last(output)
    told: list[tuple[int, Changes | None]] = []
    boards = Boards()

    def put(site: Material, new: Path, _: Path) -> None:
        record = record_of(site, new, boards)
        changes = compare(before.record, record, f"build {before.number}") if before else None
        if before:
            leads = gone(before.record, record)
            for old, lead in leads.items():
                if not (new / old).exists() and not any(above.is_file() for above in (new / old).parents):
                    write_stub(new, old, lead, site.catalog.shop)
            record["redirects"] = {**leads, **record["redirects"]}
        told.append((0 if dry else _put(new, output, record), changes))

    result = build(shop, output, day, progress, end=End(put, boards.watch))
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


def _put(new: Path, output: Path, record: Record) -> int:
    """Write the record, then swap: a record without a site is harmless, a site without one could not be compared."""
    now = standing(output)
    number = max([now, *numbers(output)]) + 1
    place = past(output)
    place.mkdir(exist_ok=True)
    _write(place / f"{number}.json", b'{"before":%d,"record":%s}\n' % (now, as_bytes(record).strip()))
    swap(new, output, number, _room(output, now) if now else None)
    prune(output)
    return number


def _room(output: Path, number: int) -> Path:
    """Where a site will be kept; a copy that lies there (somebody put the site back by hand) makes room."""
    place = past(output) / str(number)
    if place.exists():
        shutil.rmtree(place.replace(place.with_name(f"gone-{number}")))
    return place


def _write(path: Path, content: bytes) -> None:
    """All of a file, down to the disk, or nothing of it."""
    side = path.with_suffix(".new")
    with side.open("wb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())
    side.replace(path)


def back(output: Path) -> tuple[int, list[Finding]]:
    """Put the build that stood before in the place of the present one: its number, or 0 and what is in the way.

    Raises NothingError where none is kept.
    """
    output = resolved(output)
    settle(output)
    now = standing(output)
    if not now:
        raise NothingError(f"what stands in {output} was not published, so nothing is known to go back to")
    kept = [one for one in chain(output, now) if (past(output) / str(one) / MARKER).is_file()]
    if not kept:
        raise NothingError(f"no build from before build {now} of {output} is kept")
    if found := strangers(output):
        return 0, found
    swap(past(output) / str(kept[0]), output, kept[0], _room(output, now))
    prune(output)
    return kept[0], []


def chain(output: Path, number: int) -> list[int]:
    """What stood before a build, the latest first."""
    found: list[int] = []
    while number:
        try:
            number = build_at(output, number).before
        except ValueError:  # an old record that is gone or spoiled ends the chain
            break
        if number in found:
            break
        found += [number] if number else []
    return found


def prune(output: Path) -> None:
    """Keep the last sites that can be gone back to, and records of the last builds; never a file of somebody else."""
    place, now = past(output), standing(output)
    sites = {str(one) for one in chain(output, now)[:KEPT]}
    records = {*numbers(output)[-RECORDS:], now, *(int(one) for one in sites)}
    for path in sorted(place.iterdir()):
        if path.name.startswith("gone-"):
            shutil.rmtree(path)
        elif path.is_dir() and path.name.isdecimal() and path.name not in sites and not strangers(path):
            away = path.replace(place / f"gone-{path.name}")
            shutil.rmtree(away)
        elif path.suffix == ".json" and path.stem.isdecimal() and int(path.stem) not in records:
            path.unlink()


def refused(output: Path, error: Exception) -> Finding:
    """A record that cannot be read, with a remedy."""
    hint = "move that folder away: then the next build counts as the first"
    return Finding(Mark(str(past(output)), 1, 1), "no-record", str(error), hint)
