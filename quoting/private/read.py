"""The private files of a shop: wholesale costs and the floor.

Only commands that the owner alone runs may import this room; nothing that makes a site does (tests/test_floors.py).
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from quoting.catalog.files import Files
from quoting.catalog.load import collecting_nothing
from quoting.catalog.shop import Catalog
from quoting.findings import Finding, Mark, errors, in_order
from quoting.nodes import Record, read
from quoting.private.model import Costs, Floor
from quoting.private.read_frame_costs import read_frames
from quoting.private.read_lens_costs import known_options, read_materials, read_options, read_packages
from quoting.private.tables import Entries, Known
from quoting.quoted.private import FOLDER

WORDS = {
    "cost": "wholesale cost",
    "percent": "least margin in percent",
    "amount": "least margin",
}
FLOOR = "{percent: 40, amount: 8.00}"
MOST_PERCENT = 99  # a whole price is never left


def read_costs(folder: Path, catalog: Catalog | None, needed: bool = False) -> tuple[Costs | None, list[Finding]]:
    """The costs of a shop, and what was found.   None where there are none, or where any of them is faulty.

    ``catalog`` has the ids that may be named; without it only the form of the files is looked at.  ``needed``: it is a
    fault where nothing is written.  Nothing in the files raises.
    """
    files = Files(folder)
    paths = files.beside(FOLDER)
    if needed and not paths and not files.findings:
        files.findings.append(nothing(folder))
    with collecting_nothing():
        roots = [read(path, files.shown(path), WORDS) for path in paths]
        costs = _read(roots, catalog)
    findings = in_order(dict.fromkeys([*files.findings, *(one for root in roots for one in root.findings)]))
    return (costs if paths and not errors(findings) else None), findings


def nothing(folder: Path) -> Finding:
    """There is no cost at all."""
    mark = Mark((folder / FOLDER).as_posix(), 1, 1)
    hint = f"write {FOLDER}/costs.yaml with `packages: {{plain-150: 9.50}}` and `frames: {{tarn: 48.00}}` in it"
    if not (folder / FOLDER).is_dir():
        return Finding(mark, "no-such-folder", "this shop has no folder of costs, so no margin is known", hint)
    return Finding(mark, "nothing-there", "there is no .yaml file in this folder, so no margin is known", hint)


def _read(roots: Sequence[Record], catalog: Catalog | None) -> Costs:
    known = Known.of(catalog, known_options(catalog) if catalog is not None else {})
    entries = Entries()
    floors: dict[str, Floor] = {}
    for root in roots:
        read_floor(root, entries, floors)
        read_materials(root, known, entries)
        read_options(root, known, entries)
        read_packages(root, known, entries)
        read_frames(root, known, entries)
        root.close()
    return Costs(
        entries.packages,
        entries.materials,
        entries.options,
        entries.frames,
        floors.get("lenses", floors.get("")),
        floors.get("frames", floors.get("")),
    )


def read_floor(root: Record, entries: Entries, floors: dict[str, Floor]) -> None:
    """The floor: for lenses and frames alike, or with a part of its own for either."""
    if not root.has("floor"):
        return
    part = root.record("floor", "the floor", example=FLOOR)
    if not entries.first(root, "floor", "the floor"):
        return
    if part.has("percent") or part.has("amount"):
        floors[""] = _floor(part)
    for name in ("lenses", "frames"):
        if part.has(name):
            own = part.record(name, f"the floor of {name}", example=FLOOR)
            floors[name] = _floor(own)
            _says_something(own, ("percent", "amount"))
            own.close()
    _says_something(part, ("percent", "amount", "lenses", "frames"))
    part.close()


def _floor(record: Record) -> Floor:
    percent = record.percent("percent", most=MOST_PERCENT, example="40", default=0)
    return Floor(percent, record.money("amount", example="8.00", default=0))


def _says_something(record: Record, names: Sequence[str]) -> None:
    known = [name for name in names if record.has(name)]
    if record.readable and not known and not record.names():
        record.fault("", "empty-value", f"{record.noun} is empty", f"write for example {FLOOR}, or delete the line")
