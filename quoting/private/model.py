"""What the shop pays, and what it must be left with: the owner's alone.

Money in cents, without tax; rates in basis points (1/100 of a percent); powers in diopters.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from quoting.findings import Mark


@dataclass(frozen=True, slots=True)
class Cost:
    """What one piece costs the shop, and where that is written."""

    cents: int
    mark: Mark = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class BandCost:
    """What one lens costs the shop whose strongest principal power lies in low..high."""

    low: float
    high: float
    cost: Cost


@dataclass(frozen=True, slots=True)
class Floor:
    """The least that must be left of a price without tax, once the cost is paid: a part of it and an amount.

    >>> floor = Floor(4000, 500)
    >>> floor.kept_by(2000, 1200), floor.kept_by(2000, 1201), floor.kept_by(1000, 550)
    (True, False, False)
    """

    basis_points: int
    cents: int

    def kept_by(self, net_cents: int, cost_cents: int) -> bool:
        """Whether enough is left; both halves of the floor must hold."""
        left = net_cents - cost_cents
        return left >= self.cents and left * 10_000 >= self.basis_points * net_cents


@dataclass(frozen=True, slots=True)
class Costs:
    """All that is written in the private files of a shop."""

    packages: Mapping[str, tuple[BandCost, ...]]  # one lens, by package; from low to high
    materials: Mapping[str, Cost]  # one lens without any option
    options: Mapping[str, Cost]  # coating, light, design, surcharge: one lens, or a pair where the surcharge is for one
    frames: Mapping[str, Mapping[tuple[str, str], Cost]]  # by frame: (colorway, size), each "" where it is for all
    lens_floor: Floor | None
    frame_floor: Floor | None

    def of_frame(self, frame: str, colorway: str, size: str) -> Cost | None:
        """What a frame costs in a colorway and a size; None where nobody wrote it."""
        rows = self.frames.get(frame, {})
        asked = ((colorway, size), (colorway, ""), ("", size), ("", ""))
        return next((rows[key] for key in asked if key in rows), None)
