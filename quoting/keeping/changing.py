"""From prices as they are to prices as they shall be: what changes by how much, and the files that say so."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from statistics import median

from quoting.catalog.load import load_written
from quoting.findings import Finding, Mark, errors
from quoting.keeping.splice import NotPlainError, spliced
from quoting.keeping.standing import Spot, Standing, prices_of

ENOUGH = 5  # the median of fewer changes says little about each of them


@dataclass(frozen=True, slots=True)
class Change:
    """One price, and what it shall be, in cents."""

    spot: Spot
    cents: int

    @property
    def percent(self) -> float | None:
        """By how much, in percent of the old price; None where that was 0."""
        return (self.cents - self.spot.cents) * 100 / self.spot.cents if self.spot.cents else None


@dataclass(frozen=True, slots=True)
class Watch:
    """From where on a change is unusual: in percent, and in points away from the median change of all."""

    most: float = 20.0
    from_median: float = 10.0


def median_percent(changes: Iterable[Change]) -> float | None:
    """The change in the middle of all, in percent; None where there is none."""
    found = [change.percent for change in changes if change.percent is not None]
    return median(found) if found else None


def unusual(changes: Sequence[Change], watch: Watch) -> dict[tuple[str, str, str, float], str]:
    """Why a change should be looked at twice, by the key of its price."""
    middle = median_percent(changes)
    found: dict[tuple[str, str, str, float], str] = {}
    for change in changes:
        percent = change.percent
        if percent is None or middle is None:
            found[change.spot.key] = "the old price was 0"
        elif abs(percent) > watch.most:
            found[change.spot.key] = f"more than {watch.most:g} %"
        elif len(changes) >= ENOUGH and abs(percent - middle) > watch.from_median:
            found[change.spot.key] = f"more than {watch.from_median:g} points from the median {middle:+.1f} %"
    return found


def in_place(standing: Standing, changes: Iterable[Change]) -> tuple[dict[Path, bytes], list[Finding]]:
    """The files with the new numbers where the old ones stand, and which of them cannot be written there."""
    edits: dict[Path, list[tuple[Mark, int]]] = {}
    findings = []
    for change in changes:
        spot = change.spot
        if not spot.plain:
            findings.append(_follows(spot))
        else:
            edits.setdefault(spot.path, []).append((spot.mark, change.cents))
    contents: dict[Path, bytes] = {}
    for path, marked in edits.items():
        try:
            contents[path] = spliced(standing.files[path], marked)
        except NotPlainError as fault:
            said = "this price is broken over lines or written with escapes, so no number can be put in its place"
            findings.append(Finding(fault.mark, "not-plain", said, "write it as a number on one line"))
    return contents, list(dict.fromkeys(findings))


def _follows(spot: Spot) -> Finding:
    said = f"the price of `{spot.id}` follows from this change in percent, so no number can be put in its place"
    hint = "write into a list of its own, with --into and --effective; or write the prices out here"
    return Finding(spot.mark, "follows-from-change", said, hint)


def checked(standing: Standing, contents: Mapping[Path, bytes], changes: Iterable[Change], day: date) -> list[Finding]:
    """What would be wrong with the shop once the files held this: faults, or other prices than were meant.

    Of a file that is new, warnings are told as well: nobody has read them yet.
    """
    catalog, findings = load_written(standing.folder, contents)
    if catalog is None:
        return errors(findings)
    meant = prices_of(standing.catalog, day) | {change.spot.key: change.cents for change in changes}
    found = prices_of(catalog, day)
    wrong = sorted(key for key in meant.keys() | found.keys() if meant.get(key) != found.get(key))
    if not wrong:
        new = {path.as_posix() for path in contents if path not in standing.files}
        return [finding for finding in findings if finding.mark.file in new]
    names = ", ".join(f"`{key[1]}`" for key in dict.fromkeys((kind, name) for kind, name, *_ in wrong))
    said = f"the files would give other prices than were meant for {names}"
    mark = Mark(str(standing.folder), 1, 1)
    return [Finding(mark, "not-as-meant", said, "see whether somebody changes the files just now, then try again")]
