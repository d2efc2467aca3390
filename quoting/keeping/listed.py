"""Changes written into a price list that holds from a day on: one that is there, or a new one after the one before.

A new list begins as a copy of the list in force on its day, without what that one says of single lenses and frames:
that goes on to count by itself.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import replace
from pathlib import Path

from quoting.catalog.files import ENDING
from quoting.catalog.in_time import in_force
from quoting.catalog.steps import power
from quoting.findings import Finding, Mark
from quoting.keeping.changing import Change, in_place
from quoting.keeping.splice import replaced, token_at
from quoting.keeping.standing import Spot, Standing
from quoting.money import written

VERSION = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]{0,39}", re.ASCII)  # it also names the file
SECTION = re.compile(r"^(?:lenses|frames)[ \t]*:.*(?:\r?\n|\r|$)(?:(?![^\s]).*(?:\r?\n|\r|$))*", re.MULTILINE)


def into_list(standing: Standing, version: str, changes: Sequence[Change]) -> tuple[dict[Path, bytes], list[Finding]]:
    """The file of the list of this version with the changes in it; ``standing`` is that of the list's day."""
    path = standing.lists.get(version)
    if path is not None:
        return _into_old(standing, path, version, changes)
    path = standing.folder / "prices" / f"{version}{ENDING}"
    if path.exists():
        mark = Mark(path.as_posix(), 1, 1)
        return {}, [Finding(mark, "other-version", f"this file holds another version than {version}", "rename it")]
    base = standing.lists[in_force(standing.catalog.price_lists, standing.day).version]
    root, raw = standing.record(base), standing.files[base]
    raw = replaced(raw, [(root.mark("version"), version), (root.mark("effective"), standing.day.isoformat())])
    raw = SECTION.sub("", raw.decode("utf-8")).encode("utf-8")
    for name, rows in (("lenses", _lenses(standing, changes)), ("frames", _frames(changes))):
        raw = _appended(raw, name, rows) if rows else raw
    return {path: raw}, []


def _into_old(
    standing: Standing, path: Path, version: str, changes: Sequence[Change]
) -> tuple[dict[Path, bytes], list[Finding]]:
    """Numbers that stand in the list are put in place; what it does not name yet is added to it."""
    own = [change for change in changes if change.spot.source == version]
    contents, findings = in_place(standing, own)
    fresh = [change for change in changes if change.spot.source != version]
    after = replace(standing, files={**standing.files, **contents})
    raw = after.files[path]
    for name, rows in (("lenses", _lenses(standing, fresh)), ("frames", _frames(fresh))):
        raw = _entered(replace(after, files={**after.files, path: raw}), path, name, rows)
    return ({path: raw} if raw != standing.files[path] else {}), findings


Rows = dict[str, list[str]]  # by package its rows, by frame its colorways


def _lenses(standing: Standing, changes: Iterable[Change]) -> Rows:
    """All rows of each package that changes: those of a list count instead of all that stood before."""
    new = {change.spot.key: change.cents for change in changes if change.spot.kind == "lens"}
    return {key: [_row(spot, new) for spot in standing.of("lens", key)] for _, key, _, _ in new}


def _row(spot: Spot, new: dict[tuple[str, str, str, float], int]) -> str:
    cents = new.get(spot.key, spot.cents)
    return f"{{from: {power(spot.low)}, to: {power(spot.high)}, lens: {written(cents)}}}"


def _frames(changes: Iterable[Change]) -> Rows:
    rows: Rows = {}
    for change in changes:
        if change.spot.kind == "frame":
            rows.setdefault(change.spot.id, []).append(f"{change.spot.colorway}: {written(change.cents)}")
    return rows


def _appended(raw: bytes, name: str, rows: Rows) -> bytes:
    """The file with a part of this name at its end."""
    text = raw.decode("utf-8")
    end = "\r\n" if "\r\n" in text else "\n"
    lines = [f"{name}:"]
    for key, values in rows.items():
        lines += _block(name, key, values, "  ")
    return (text + ("" if text.endswith(("\n", "\r")) else end) + end.join([*lines, ""])).encode("utf-8")


def _block(name: str, key: str, values: Sequence[str], indent: str) -> list[str]:
    """One package or frame as lines; the first one indented as well."""
    if name == "frames":
        return [f"{indent}{key}: {{{', '.join(values)}}}"]
    return [f"{indent}{key}:", *(f"{indent}  - {value}" for value in values)]


def _entered(standing: Standing, path: Path, name: str, rows: Rows) -> bytes:
    """The file with more packages or frames, and with more colorways of frames it names."""
    root, raw = standing.record(path), standing.files[path]
    if not rows:
        return raw
    if not root.is_mapping(name):
        return _appended(raw, name, rows)
    part = root.record(name, "")
    edits = []
    for key in [key for key in rows if part.is_mapping(key)]:
        values = rows[key]
        edits.append(_inserted(raw, part.mark(key), f"{', '.join(values)}, ", values))
    fresh = {key: values for key, values in rows.items() if not part.is_mapping(key)}
    if fresh:
        brackets = "{}" if name == "frames" else "[]"
        short = ", ".join(f"{key}: {brackets[0]}{', '.join(values)}{brackets[1]}" for key, values in fresh.items())
        lines = [line for key, values in fresh.items() for line in _block(name, key, values, "")]
        edits.append(_inserted(raw, root.mark(name), f"{short}, " if part.names() else short, lines))
    return replaced(raw, edits)


def _inserted(raw: bytes, mark: Mark, in_braces: str, on_lines: Sequence[str]) -> tuple[Mark, str]:
    """The change that puts more at the beginning of marked names with values: behind their brace, or before them."""
    one = replace(mark, length=1)
    first = token_at(raw, one)
    if first == "{":
        return one, first + in_braces
    end, indent = "\r\n" if b"\r\n" in raw else "\n", " " * (mark.column - 1)
    return one, "".join(f"{line}{end}{indent}" for line in on_lines) + first
