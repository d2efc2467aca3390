"""How a tint looks: colors as they are written, and a front that wears it."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Sequence
from html import escape

from quoting.kernel import records
from quoting.kernel.colors import srgb, xyz
from quoting.kernel.filters import skin
from quoting.show.front import LIGHT
from quoting.show.pen import element, number

# Stops of a gradient, as shares of the height of the box; a tint that is the same all over needs the first alone
STOPS = tuple(n / 10 for n in range(11))
# How a front writes its clear lenses, see `front.glass`
GLASS = f'class="glass" fill="currentColor" fill-opacity="{number(LIGHT)}"'
WHITE = "white"
SKIN = "skin"
GROUNDS = (SKIN, WHITE)
# How wide a strip is beside a front, mm
STRIP = 14.0


def hexed(channels: Sequence[float]) -> str:
    """sRGB as it is written.

    >>> hexed([1.0, 0.5, 0.0])
    '#ff8000'
    """
    return "#" + "".join(f"{int(255 * value + 0.5):02x}" for value in channels)


def ground_color(ground: str) -> str:
    """The ground itself, without a lens before it."""
    return hexed(srgb(xyz(skin()))) if ground == SKIN else "#ffffff"


def shade(id_: str, filters: Sequence[records.Filter], ground: str) -> str:
    """A gradient from the top of the box to its lowest point, in the colors of a lens on a ground."""
    last = max(1, len(filters) - 1)
    colors = [one["on_skin"] if ground == SKIN else one["on_white"] for one in filters]
    stops = "".join(element("stop", offset=f"{n / last:g}", stop_color=hexed(color)) for n, color in enumerate(colors))
    return element("linearGradient", stops, id=id_, x1="0", y1="0", x2="0", y2="1")


def tinted_front(clear: str, filters: Sequence[records.Filter], id_: str) -> str:
    """A front that was drawn with clear lenses, on skin, its lenses in the colors that were worked out.

    At its right the same lens lies on each ground as a swatch strip, from its top to its lowest point.
    """
    head, rest = clear.split(">", 1)
    box = head.split('viewBox="', 1)[1].split('"', 1)[0]
    left, top, wide, high = (float(part) for part in box.split())
    whole = f"{number(left)} {number(top)} {number(wide + STRIP * len(GROUNDS))} {number(high)}"
    head = head.replace(f'viewBox="{box}"', f'viewBox="{whole}"')
    shades = "".join(shade(f"{id_}-{ground}", filters, ground) for ground in GROUNDS)
    behind = _patch(left, top, wide, high, ground_color(SKIN), "behind")
    strips = "".join(
        _patch(left + wide + STRIP * n, top, STRIP, high, f"url(#{id_}-{ground})") for n, ground in enumerate(GROUNDS)
    )
    worn = rest.replace(GLASS, f'class="tint" fill="url(#{escape(id_)}-{SKIN})"', 1)
    return f"{head}>{shades}{behind}{strips}{worn}"


def _patch(x: float, y: float, wide: float, high: float, fill: str, class_: str | None = None) -> str:
    return element("rect", x=x, y=y, width=wide, height=high, fill=fill, stroke="none", class_=class_)
