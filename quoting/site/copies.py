"""Copies of photos, kept from one build to the next under all that they depend on."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from hashlib import blake2b

from quoting.pictures import PILLOW, Copy, Look, height_at
from quoting.site.shelf import Shelf

WIDTHS = (480, 960, 1600)  # pixels: a card, a card on a fine screen, a whole page
RECIPE = "1"  # of pictures.copies: another one, other names


def widths_for(about: Look) -> tuple[int, ...]:
    """The widths of the copies of a picture: none is larger than it is.

    >>> widths_for(Look("JPEG", 4000, 3000)), widths_for(Look("PNG", 700, 500)), widths_for(Look("PNG", 480, 300))
    ((480, 960, 1600), (480, 700), (480,))
    """
    return (*(width for width in WIDTHS if width < about.width), min(about.width, WIDTHS[-1]))[: len(WIDTHS)]


def name_of(raw: bytes) -> str:
    """What a photo's copies are called after: what is in it, and how they are made."""
    return blake2b(raw, digest_size=8, person=f"photo {RECIPE}".encode()).hexdigest()


class Kept:
    """The copies of earlier builds."""

    def __init__(self) -> None:
        self._shelf = Shelf("photos")

    def get(self, name: str, about: Look) -> list[Copy] | None:
        """All copies of a photo; None where one of them is not there."""
        found = [self._one(name, width, height_at(width, about)) for width in widths_for(about)]
        whole = [copy for copy in found if copy is not None]
        return whole if len(whole) == len(found) else None

    def _one(self, name: str, width: int, height: int) -> Copy | None:
        kept = self._shelf.get(f"{name}-{PILLOW}-{width}x{height}")
        return Copy(kept[0], width, height, kept[1]) if kept else None

    def put(self, name: str, copies: list[Copy]) -> None:
        """Keep the copies of a photo."""
        for copy in copies:
            self._shelf.put(f"{name}-{PILLOW}-{copy.width}x{copy.height}", copy.ending, copy.content)

    def clear_out(self) -> None:
        """Delete what no build has used for long."""
        self._shelf.clear_out()
