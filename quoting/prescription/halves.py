"""Monocular PDs from what was measured of them."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.prescription.model import Distances


def monocular(pd: Distances, default: float, sides: str = "RL") -> tuple[float, float, bool]:
    """Right and left monocular PD, and whether those of ``sides`` were measured.

    A binocular PD less the one side gives the other; halved it gives both, and counts as measured.
    """
    right, left = pd.right, pd.left
    if pd.binocular is not None and right is None:
        right = pd.binocular / 2 if left is None else pd.binocular - left
    if pd.binocular is not None and left is None and right is not None:
        left = pd.binocular - right
    known = (right is not None or "R" not in sides) and (left is not None or "L" not in sides)
    half = default / 2
    return half if right is None else right, half if left is None else left, known
