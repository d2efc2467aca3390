"""What holds a lens beside the rim's outline: the groove of a cord, the holes of screws."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Groove:
    """Of the cord of a semi-rimless frame, mm."""

    width: float
    depth: float


@dataclass(frozen=True, slots=True)
class Hole:
    """One hole of a drilled lens, from the box center in the nasal frame, mm."""

    inward: float  # toward the nose; minus: toward the temple
    up: float
    diameter: float
