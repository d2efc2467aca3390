"""The fronts of a site: each drawn to scale in its colorway, its lenses in the color that was worked out for them."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from dataclasses import dataclass, field, replace
from functools import cached_property

from markupsafe import Markup

from quoting.catalog.model import Colorway, Frame, Size
from quoting.catalog.shop import Catalog
from quoting.languages import _, decimals
from quoting.light.lens_worn import LensWorn, sun_lens
from quoting.show.front import ROOM, front_svg, reach
from quoting.show.lens_paint import Stops, paint_worn, painted
from quoting.show.versions import color_text
from quoting.show.worn_text import worn_text
from quoting.site.page_data import fronts_script

PLAN, CARD = "plan", "card"

# CSS Values and Units, absolute lengths: 96 px are 1 in, which is 25.4 mm
PIXELS_MM = 96 / 25.4


@dataclass
class Fronts:
    """Drawings of one catalog; each paint is worked out once."""

    catalog: Catalog
    _paints: dict[tuple[str, str, str, str], Stops] = field(default_factory=dict)

    @cached_property
    def sheet(self) -> tuple[float, float]:
        """Half width and half height, mm, in which every front of the shop has room: all cards are to one scale."""
        sides = [
            (reach(frame.mounting, size, rim), size.b / 2 + rim * 1.3)
            for frame in self.catalog.frames.values()
            for size in frame.sizes
            for rim in (self.catalog.shop.mountings[frame.mounting].rim,)
        ]
        return max(side for side, _ in sides), max(high for _, high in sides)

    def paint(self, lens: LensWorn | None) -> Stops:
        """The paint of a lens; none where nothing is known of its light."""
        if lens is None:
            return ()
        key = (lens.package.id, lens.mix.id if lens.mix else "", lens.mirror, lens.state)
        if key not in self._paints:
            self._paints[key] = paint_worn(self.catalog, lens)
        return self._paints[key]

    def sun(self, color: Colorway) -> LensWorn | None:
        """The sun lens with which a colorway is drawn, where its owner says it."""
        return sun_lens(self.catalog, color)

    def worn(self, color: Colorway, lens: LensWorn | None = None) -> Stops:
        """What a drawing of a colorway wears: the paint of this lens, or of that which it is sold with.

        A clear one that is put into it is drawn as any clear glass.
        """
        if lens is not None:
            return () if lens.plain else self.paint(lens)
        return self.paint(self.sun(color))

    def front(
        self,
        frame: Frame,
        size: Size,
        color: Colorway,
        dimensions: bool = False,
        place: str = "",
        lens: LensWorn | None = None,
    ) -> Markup:
        """The front; without dimensions on the sheet that all cards share.

        ``lens``: the one in it, where it is not the one that the colorway is sold with.  ``place`` tells drawings of
        one page apart that show the same colorway.
        """
        title = self.title(frame, size, color)
        clear = replace(color, version="optical") if lens is not None and lens.plain else color
        rim = self.catalog.shop.mountings[frame.mounting].rim
        sheet = (0.0, 0.0) if dimensions else self.sheet
        svg = front_svg(frame, size, clear, rim, title, dimensions, sheet)
        where = place or (PLAN if dimensions else CARD)
        return Markup(painted(svg, self.worn(color, lens), f"shade-{where}-{frame.id}-{color.id}"))

    def title(self, frame: Frame, size: Size, color: Colorway) -> str:
        """What a front shows, in words."""
        told = {"frame": frame.name, "size": decimals(size.label), "color": color_text(color)}
        return _("Front of {frame} {size} in {color}, drawn to scale").format(**told)

    @cached_property
    def card(self) -> tuple[int, int]:
        """Width and height, in pixels of a style sheet, of the fronts on cards: all have one window."""
        side, high = self.sheet
        return round((side + ROOM) * 2 * PIXELS_MM), round((high + ROOM) * 2 * PIXELS_MM)

    def script(self, frame: Frame) -> str:
        """``frames/ID/fronts.js``: the front in each size, before anything is worn, which the page draws over."""
        bare = replace(frame.colorways[0], wears=None)
        drawings = {size.key: self.front(frame, size, bare, True) for size in frame.sizes}
        paints = {color.id: self.paint(self.sun(color)) for color in frame.colorways}
        return fronts_script(frame, drawings, paints)

    def sun_text(self, color: Colorway) -> str:
        """What is said of the sun lenses that a colorway is drawn with; "" where nobody says what they are."""
        lens = self.sun(color)
        return worn_text(self.catalog, lens, "sun") if lens is not None else ""

    def lens_text(self, lens: LensWorn) -> str:
        """The same of the lens of a combination."""
        return "" if lens.plain else worn_text(self.catalog, lens, "made")
