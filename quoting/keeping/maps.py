"""The column maps of a shop: which there are, and all that is wrong with them, as `check` tells it."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from pathlib import Path

from quoting.catalog.files import Files
from quoting.catalog.shop import Catalog
from quoting.findings import Finding
from quoting.keeping.columns import FOLDER, ColumnMap, read_map


def maps_of(folder: Path) -> tuple[list[Path], list[Finding]]:
    """The column maps of a shop, by name, and what in their folder cannot be one.  A shop need not have any."""
    files = Files(folder)
    place = folder / FOLDER
    if not place.exists() and not place.is_symlink():
        return [], []
    found = files.listed(FOLDER, may_be_empty=True)
    return found, files.findings


def maps_read(folder: Path, catalog: Catalog | None) -> tuple[list[tuple[Path, ColumnMap]], list[Finding]]:
    """Those that can be read, and what is wrong with the others.

    Without a catalog (the shop has faults of its own) nobody asks whether makers and packages are there.
    """
    paths, findings = maps_of(folder)
    read = [(path, *read_map(path, catalog)) for path in paths]
    findings = [*findings, *(fault for _, _, faults in read for fault in faults)]
    return [(path, used) for path, used, _ in read if used is not None], findings
