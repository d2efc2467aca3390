"""The published builds of a site, as they are kept beside it.

Beside DIR lies ``.DIR.bevelbook-past``: of each published build the record N.json, and of the last three that stood
before the present one the site N/.  It is not in DIR, so that nothing of it is served; not in the shop, so that a
rename brings a site back.  Which build stands is written in the site itself, so that the two cannot disagree.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import hashlib
import json
import os
import shutil
from dataclasses import dataclass
from pathlib import Path

from quoting.site.place import MARKER, standing, stood, strangers
from quoting.site.record import Record, as_bytes, from_bytes
from quoting.site.swap import GONE, aside, drop, left_over, past, recover

KEPT = 3  # sites beside the one that stands
RECORDS = 20


class NothingError(ValueError):
    """There is no such build."""


@dataclass(frozen=True, slots=True)
class Build:
    """One published build: its number, the one that stood before it (0: none), and what it said."""

    number: int
    before: int
    record: Record


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
        record = from_bytes(json.dumps(read["record"]).encode())
        if read.get("digest", digest := _digest(record)) != digest:
            raise ValueError("somebody changed it")
        return Build(number, int(read["before"]), record)
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError) as error:
        raise ValueError(f"the record of build {number} is damaged, or of another version of bevelbook") from error


def last(output: Path) -> Build | None:
    """The build that stands, or the newest where something else was put there; None before the first."""
    known, now = numbers(output), stood(output)
    if now not in known:  # its record was taken away, or what stands came from somewhere else
        now = known[-1] if known and output.exists() else 0
    return build_at(output, now) if now else None


def keep(output: Path, number: int, before: int, record: Record) -> None:
    """Write the record of a build, down to the disk, or nothing of it."""
    path = past(output) / f"{number}.json"
    path.parent.mkdir(exist_ok=True)
    side = path.with_suffix(".new")
    with side.open("wb") as file:
        parts = before, _digest(record).encode(), as_bytes(record).strip()
        file.write(b'{"before":%d,"digest":"%s","record":%s}\n' % parts)
        file.flush()
        os.fsync(file.fileno())
    side.replace(path)


def _digest(record: Record) -> str:
    return hashlib.sha256(as_bytes(record)).hexdigest()


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


def to_go_back_to(output: Path) -> list[int]:
    """The builds that stood before what stands now, the latest first; not all of their sites may be kept."""
    now = stood(output)
    return [one for one in (now, *chain(output, now)) if one and one != standing(output)]


def settle(output: Path) -> None:
    """After a crash: the site comes back, what it replaced goes where it is kept, what was not finished goes away."""
    recover(output)
    if aside(output).is_dir():
        _home(aside(output), output)
    for side in left_over(output):
        if not side.is_symlink() and side.is_dir():
            _home(side / "site", output)
            if not strangers_in(side / "site"):
                shutil.rmtree(side)
    if past(output).is_dir():
        for place in sorted(past(output).iterdir()):
            if place.name.startswith(GONE):
                shutil.rmtree(place)
            elif place.name.isdecimal() and (place / MARKER).is_file() and standing(place) != int(place.name):
                _home(place, output)


def strangers_in(site: Path) -> bool:
    """Whether somebody put files of their own into a site."""
    return (site / MARKER).is_file() and bool(strangers(site))


def _home(old: Path, output: Path) -> None:
    """A site that stood there goes where it is kept; one that never did, or that lies there already, goes away."""
    number = standing(old)
    if number in to_go_back_to(output) and not (past(output) / str(number)).exists():
        past(output).mkdir(exist_ok=True)
        old.replace(past(output) / str(number))
    elif (old / MARKER).is_file():
        drop(old)


def prune(output: Path) -> None:
    """Keep the last sites that can be gone back to, and records of the last builds; never a file of somebody else."""
    place = past(output)
    if not place.is_dir():
        return
    sites = {str(one) for one in to_go_back_to(output)[:KEPT]}
    records = {*numbers(output)[-RECORDS:], stood(output), *(int(one) for one in sites)}
    for path in sorted(place.iterdir()):
        if path.is_dir() and path.name.isdecimal() and path.name not in sites and not strangers(path):
            shutil.rmtree(path.replace(place / f"{GONE}{path.name}"))
        elif path.suffix == ".json" and path.stem.isdecimal() and int(path.stem) not in records:
            path.unlink()
