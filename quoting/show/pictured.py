"""The front of a frame as a quote has it, whether or not the shop still sells it."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import cast

from quoting.catalog.model import FAMILIES, MOUNTINGS, Colorway, Family, Frame, Mounting, Outline, Size
from quoting.catalog.shop import Shop
from quoting.findings import Mark
from quoting.languages import _
from quoting.quoted import records
from quoting.show.front import front_svg
from quoting.show.lens_paint import Stops, painted
from quoting.show.raster import png
from quoting.show.recorded import frame_name

NOWHERE = Mark("", 1, 1)
# So many dots wide a picture is in a letter: twice what it is shown at, for screens with fine dots
DOTS = 640


def front_of(
    frame: records.Frame, shop: Shop, known: Mapping[str, Frame] | None = None, paint: Stops = (), id_: str = "paint"
) -> str:
    """The drawing as SVG; "" where the shape or the mounting is none that we know.

    ``known`` are the frames that the shop sells: where that of the quote was traced, it is drawn by its trace.  With
    ``paint`` its lenses wear a tint; ``id_`` no other drawing of the page may have.
    """
    if frame["family"] not in FAMILIES or frame["mounting"] not in MOUNTINGS:
        return ""
    mounting = cast(Mounting, frame["mounting"])
    a, b, dbl, ed = frame["a"] / 100, frame["b"] / 100, frame["dbl"] / 100, frame["ed"] / 100
    size = Size(a, b, dbl, ed, frame["temple"] / 100, frame["weight"] / 100, NOWHERE)
    size = replace(size, outline=_traced(frame, known or {}))
    color = Colorway(
        frame["color"],
        frame["color_name"],
        "sun" if frame["sun"] else "optical",
        0,
        f"#{frame['front']}",
        f"#{frame['temples']}",
        "in-stock",
        NOWHERE,
    )
    family = cast(Family, frame["family"])
    whole = Frame(
        frame["id"], frame["name"], frame["maker"], family, mounting, "", 0.0, 0.0, 0.0, (size,), (color,), "", NOWHERE
    )
    label = _("Front of {frame}, drawn to scale").format(frame=frame_name(frame))
    drawn = front_svg(whole, size, color, shop.mountings[mounting].rim, label, dimensions=False)
    return painted(drawn, paint, id_) if paint else drawn


def _traced(frame: records.Frame, known: Mapping[str, Frame]) -> Outline | None:
    """The outline of that very size, where the shop has a trace of it."""
    sizes = known[frame["id"]].sizes if frame["id"] in known else ()
    box = [frame["a"], frame["b"], frame["dbl"]]
    return next((one.outline for one in sizes if [round(x * 100) for x in (one.a, one.b, one.dbl)] == box), None)


def picture_of(
    frame: records.Frame, shop: Shop, known: Mapping[str, Frame] | None = None, paint: Stops = ()
) -> bytes:
    """The drawing as PNG; b"" where there is none."""
    svg = front_of(frame, shop, known, paint)
    return png(svg, DOTS) if svg else b""
