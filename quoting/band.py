"""The prescription that a cell of a lens board stands for."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.catalog.model import Package
from quoting.prescription.model import EyeRx, Prescription

# The add for which a band's cell is computed; the design's range narrows it.
# (practice) the middle of the usual +0.75 ... +3.50
USUAL_ADD = 2.0


def band_prescription(package: Package, power: float) -> Prescription:
    """The prescription that a band's cell stands for: a power as a sphere, and an add where the design has one."""
    add = 0.0
    if package.design.kind in ("progressive", "bifocal"):
        low = min(part.add_from for part in package.ranges)
        high = max(part.add_to for part in package.ranges)
        add = min(max(USUAL_ADD, low), high)
    eye = EyeRx(power, add=add)
    return Prescription(eye, eye, source="band")
