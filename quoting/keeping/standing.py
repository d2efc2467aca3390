"""The prices of a day with the places where they stand: beside the package or colorway, or in a price list."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import Literal

from quoting.catalog import steps
from quoting.catalog.files import Files
from quoting.catalog.in_time import as_on, changed, until
from quoting.catalog.shop import Catalog
from quoting.findings import Mark
from quoting.money import basis_points_from_text
from quoting.nodes import Record, read_text


@dataclass(frozen=True, slots=True)
class Spot:
    """One price of a day.  ``low`` and ``high`` are the powers of a lens's band, 0 for a frame."""

    kind: Literal["lens", "frame"]
    maker: str
    id: str  # of the package or frame
    colorway: str  # "" for a lens
    name: str
    low: float
    high: float
    cents: int
    path: Path  # the file the price comes from
    mark: Mark
    source: str  # the version of the list it comes from; "" where it stands beside package or colorway
    plain: bool  # whether the amount stands at the mark; else a change in percent does

    @property
    def key(self) -> tuple[str, str, str, float]:
        """No two prices of a day share it."""
        return self.kind, self.id, self.colorway, self.low


@dataclass(frozen=True, slots=True)
class Standing:
    """All prices of a day, in the order of the files, and what the files held."""

    folder: Path
    catalog: Catalog  # with prices as written beside packages and colorways
    day: date
    by_id: dict[tuple[str, str], list[Spot]]  # by kind and id of the package or frame
    files: dict[Path, bytes]
    lists: dict[str, Path]  # the file of each version

    @property
    def spots(self) -> tuple[Spot, ...]:
        """All of them."""
        return tuple(spot for found in self.by_id.values() for spot in found)

    def of(self, kind: str, key: str) -> list[Spot]:
        """The prices of one package or frame."""
        return self.by_id.get((kind, key), [])

    def record(self, path: Path) -> Record:
        """One of the files anew, as a record."""
        return read_text(self.files[path].decode("utf-8"), Files(self.folder).shown(path))

    def later(self, kind: str, key: str) -> list[str]:
        """The versions of lists that begin after the day and say something of this package or frame."""
        held = len(until(self.catalog.price_lists, self.day))
        return [
            one.version
            for one in self.catalog.price_lists[held:]
            if key in ({part.package for part in one.lenses} if kind == "lens" else {part.frame for part in one.frames})
        ]


def standing(folder: Path, catalog: Catalog, day: date) -> Standing:
    """Where the prices of a day stand; ``catalog`` is what `load_written` gives for the folder without any fault."""
    files, roots = _read(folder)
    spots: dict[tuple[str, str], list[Spot]] = {}
    for path, root in roots["lenses"]:
        for package in root.records("packages", "this package", needed=False):
            rows = list(_lens_rows(package, "prices", package.text("id"), catalog, path, ""))
            spots["lens", package.text("id")] = rows
    for path, root in roots["frames"]:
        for frame in root.records("frames", "this frame"):
            spots["frame", frame.text("id")] = list(_colorways(frame, catalog, path))
    lists = {root.text("version"): (path, root) for path, root in roots["prices"]}
    for prices in until(catalog.price_lists, day):
        path, root = lists[prices.version]
        _enter_list(spots, path, root, catalog)
    named = {version: path for version, (path, _) in lists.items()}
    return Standing(folder, catalog, day, spots, files, named)


def prices_of(catalog: Catalog, day: date) -> dict[tuple[str, str, str, float], int]:
    """All prices of a day by their keys, as the engine would get them."""
    on = as_on(catalog, day)
    lenses = {("lens", one.id, "", band.low): band.lens_cents for one in on.packages.values() for band in one.prices}
    frames = {
        ("frame", one.id, color.id, 0.0): color.price_cents for one in on.frames.values() for color in one.colorways
    }
    return lenses | frames


def _read(folder: Path) -> tuple[dict[Path, bytes], dict[str, list[tuple[Path, Record]]]]:
    listing = Files(folder)
    files: dict[Path, bytes] = {}
    roots: dict[str, list[tuple[Path, Record]]] = {}
    for name in ("lenses", "frames", "prices"):
        for path in listing.listed(name):
            files[path] = path.read_bytes()
            record = read_text(files[path].decode("utf-8"), listing.shown(path))
            roots.setdefault(name, []).append((path, record))
    return files, roots


def _lens_rows(part: Record, field: str, key: str, catalog: Catalog, path: Path, source: str) -> Iterator[Spot]:
    package = catalog.packages[key]
    for row in part.records(field, "this price"):
        span = steps.read_span(row)
        yield Spot(
            "lens", package.maker, key, "", package.name, span.low, span.high,
            row.money("lens"), path, row.mark("lens"), source, True,
        )  # fmt: skip


def _colorways(record: Record, catalog: Catalog, path: Path) -> Iterator[Spot]:
    frame = catalog.frames[record.text("id")]
    for row in record.records("colorways", "this colorway"):
        color, name = row.text("id"), f"{frame.name}, {row.text('name')}"
        yield Spot(
            "frame", frame.maker, frame.id, color, name, 0.0, 0.0,
            row.money("price"), path, row.mark("price"), "", True,
        )  # fmt: skip


def _enter_list(spots: dict[tuple[str, str], list[Spot]], path: Path, root: Record, catalog: Catalog) -> None:
    """What a list says takes the place of what stood before."""
    source = root.text("version")
    lenses, frames = root.record("lenses", "", needed=False), root.record("frames", "", needed=False)
    for name in lenses.names():
        key = "lens", name
        rows = list(_lens_rows(lenses, name, name, catalog, path, source)) if lenses.is_list(name) else []
        spots[key] = sorted(rows, key=lambda spot: spot.low) or _raised(spots[key], lenses, name, path, source)
    for name in frames.names():
        key = "frame", name
        if not frames.is_mapping(name):
            spots[key] = _raised(spots[key], frames, name, path, source)
            continue
        part = frames.record(name, "")
        for place, spot in enumerate(spots[key]):
            if part.has(color := spot.colorway):
                new = replace(
                    spot, cents=part.money(color), path=path, mark=part.mark(color), source=source, plain=True
                )
                spots[key][place] = new


def _raised(spots: list[Spot], part: Record, name: str, path: Path, source: str) -> list[Spot]:
    """Prices that follow from those before by a change in percent (of the form that load has checked)."""
    basis_points = basis_points_from_text(part.text(name).removesuffix("%"))
    return [
        replace(
            spot, cents=changed(spot.cents, basis_points), path=path, mark=part.mark(name), source=source, plain=False
        )
        for spot in spots
    ]
