"""A link as a QR code (ISO/IEC 18004), to print and for the terminal.  The only file that knows segno.

>>> code = qr_svg("https://shop.example/quote/#1uz", "The quote's link")
>>> code[:21], code.count("<path")
('<svg class="qr" role=', 1)
>>> qr_columns("https://shop.example/quote/#1uz")
33
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import io
from functools import lru_cache

import segno

from quoting.show.pen import element

# Light modules around the code, as the standard asks for
QUIET = 4


@lru_cache(maxsize=8)
def _code(link: str) -> segno.QRCode:
    """The least code that holds the link: the link tells itself when a part of it is missing."""
    return segno.make(link, error="l", boost_error=False, micro=False)


def qr_columns(link: str) -> int:
    """How many modules wide the code is, with what must be light around it."""
    return int(_code(link).symbol_size(border=QUIET)[0])


def qr_svg(link: str, label: str) -> str:
    """The code as one path, a unit a module; dark on light, whatever is around it."""
    rows = [bytes(row) for row in _code(link).matrix_iter(border=QUIET)]
    runs = []
    for y, row in enumerate(rows):
        x = 0
        while x < len(row):
            long = 0
            while x + long < len(row) and row[x + long]:
                long += 1
            if long:
                runs.append(f"M{x} {y}h{long}v1h-{long}z")
            x += max(long, 1)
    size = len(rows)
    ground = element("rect", width=float(size), height=float(size), fill="#fff")
    body = ground + element("path", d="".join(runs), fill="#000", shape_rendering="crispEdges")
    return element("svg", body, class_="qr", role="img", aria_label=label, viewBox=f"0 0 {size} {size}")


def qr_text(link: str) -> str:
    """The code for a terminal, two modules a sign, with the terminal's own signs for black and white."""
    out = io.StringIO()
    _code(link).terminal(out, border=QUIET, compact=True)
    return out.getvalue()
