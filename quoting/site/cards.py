"""The pictures that go with links to pages: painted once for each drawing, and kept from one build to the next."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path

from quoting.catalog.model import Colorway, Frame, Size
from quoting.catalog.photos import photos_of
from quoting.catalog.shop import Shop
from quoting.languages import _, decimals
from quoting.show.card import HEIGHT, WIDTH, card, drawn, name_of
from quoting.show.lens_paint import Stops
from quoting.show.versions import color_text
from quoting.site.album import Album
from quoting.site.shelf import Shelf

FOLDER = "cards"


@dataclass(frozen=True, slots=True)
class Preview:
    """A picture of a page: its address in the site, pixels, and what it shows."""

    address: str
    width: int
    height: int
    alt: str


@dataclass
class Cards:
    """The pictures of one build.  They go into ``output``, each once."""

    output: Path | None = None
    _made: set[str] = field(default_factory=set)
    _shelf: Shelf = field(default_factory=lambda: Shelf(FOLDER))

    def of(self, frame: Frame, size: Size, color: Colorway, rim: float, alt: str, stops: Stops = ()) -> Preview:
        """The picture of a frame in a size and a colorway.   Raises OSError where it cannot be written."""
        svg = drawn(frame, size, color, rim, stops)
        name = name_of(svg)
        if self.output is not None and name not in self._made:
            kept = self._shelf.get(name)
            content = kept[1] if kept else card(svg)
            if not kept:
                self._shelf.put(name, ".png", content)
            (self.output / FOLDER).mkdir(exist_ok=True)
            (self.output / FOLDER / f"{name}.png").write_bytes(content)
            self._made.add(name)
        return Preview(f"{FOLDER}/{name}.png", WIDTH, HEIGHT, alt)

    def clear_out(self) -> None:
        """Forget what no build has used for long."""
        self._shelf.clear_out()


def preview_of(
    cards: Cards, album: Album, shop: Shop, frame: Frame, size: Size, color: Colorway | None = None, stops: Stops = ()
) -> Preview:
    """A photo of the colorway, or of the frame where none is named; where there is none, the drawing.

    ``stops`` is the paint of its lenses.
    """
    photos = album.of(color.photos if color else tuple(photos_of(frame)))
    if photos:
        return Preview(*photos[0].largest, album.alt(photos[0], frame, color))
    shown = color or frame.shown_first
    said = _("Front of {frame} {size} in {color}, drawn to scale")
    alt = said.format(frame=frame.name, size=decimals(size.label), color=color_text(shown))
    return cards.of(frame, size, shown, shop.mountings[frame.mounting].rim, alt, stops)
