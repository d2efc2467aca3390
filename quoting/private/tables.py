"""What private files may name, and what they have named so far: each cost once over all files."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import TypeVar

from quoting.catalog.model import Frame, Material, Package
from quoting.catalog.shop import Catalog
from quoting.catalog.table import T, Table
from quoting.findings import Mark
from quoting.nodes import Record
from quoting.private.model import BandCost, Cost

V = TypeVar("V")


@dataclass(frozen=True, slots=True)
class Known:
    """The ids of the catalog.  Without a catalog the tables are incomplete, so that no name is refused."""

    packages: Table[Package]
    materials: Table[Material]
    frames: Table[Frame]
    options: Mapping[str, str] | None  # name: what it is; None where nobody knows

    @classmethod
    def of(cls, catalog: Catalog | None, options: Mapping[str, str]) -> Known:
        """Of a catalog, or of none."""
        if catalog is None:
            return cls(_table("package", None), _table("material", None), _table("frame", None), None)
        return cls(
            _table("package", catalog.packages),
            _table("material", catalog.materials),
            _table("frame", catalog.frames),
            options,
        )


def _table(noun: str, made: Mapping[str, T] | None) -> Table[T]:
    table: Table[T] = Table(noun)
    table.complete = made is not None
    for key, value in (made or {}).items():
        table.keep(key, value, Mark("", 1, 1))
    return table


@dataclass(slots=True)
class Entries:
    """What was read, and where each entry stands."""

    packages: dict[str, tuple[BandCost, ...]] = field(default_factory=dict)
    materials: dict[str, Cost] = field(default_factory=dict)
    options: dict[str, Cost] = field(default_factory=dict)
    frames: dict[str, dict[tuple[str, str], Cost]] = field(default_factory=dict)
    marks: dict[tuple[str, str], Mark] = field(default_factory=dict)

    def read(
        self, root: Record, part: tuple[str, str, str], into: dict[str, V], reader: Callable[[Record, str], V]
    ) -> None:
        """One part of a file, name by name.  ``part``: its field, what its names are, and an example."""
        field_name, noun, example = part
        if not root.has(field_name):
            return
        record = root.record(field_name, f"`{field_name}`", example=example)
        for name in record.names():
            value = reader(record, name)
            if self.first(record, name, f"the cost of the {noun} `{name}`", noun):
                into[name] = value
        record.close()

    def first(self, record: Record, name: str, said: str, kind: str = "") -> bool:
        """Whether nothing was written of this before; else that is told.  Within one place YAML itself tells it."""
        seen = self.marks.setdefault((kind, name), record.mark(name))
        if seen == record.mark(name):
            return True
        record.fault(name, "second-cost", f"{said} stands already at {seen}", "keep one of the two")
        return False
