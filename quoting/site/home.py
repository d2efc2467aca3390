"""What the first page shows of all that there is."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterable
from itertools import zip_longest

from quoting.catalog.model import Frame

FRAMES = 6


def some_of(frames: Iterable[Frame]) -> list[Frame]:
    """Frames of as many mountings as there are: one of each in turn, in the order of the catalog."""
    groups: dict[str, list[Frame]] = {}
    for frame in frames:
        groups.setdefault(frame.mounting, []).append(frame)
    turns = zip_longest(*groups.values())
    return [frame for turn in turns for frame in turn if frame is not None][:FRAMES]
