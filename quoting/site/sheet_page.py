"""A quote as one printed page: one file, nothing from elsewhere, no script."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import base64
import hashlib
from itertools import count

from jinja2 import Environment, FileSystemLoader
from markupsafe import Markup

from quoting.languages import _, spoken
from quoting.places import shared
from quoting.show.amounts import day
from quoting.show.pictured import front_of
from quoting.show.qr import qr_svg
from quoting.show.recorded import frame_name
from quoting.show.seen import Seen
from quoting.show.terms import VERDICTS
from quoting.site.assets import sheet_of
from quoting.site.texts import Texts


def environment() -> Environment:
    """Templates of what stands outside the site."""
    loader = FileSystemLoader(shared("theme") / "templates")
    env = Environment(loader=loader, autoescape=True, trim_blocks=True, lstrip_blocks=True, extensions=[Texts])
    env.filters["day"] = day
    return env


class Layout(list[str]):
    """How a quote is laid out, as classes: of many pairs each is smaller, and says less of what its link tells."""

    def __init__(self, one: Seen) -> None:
        pairs = sum(len(alternative.pairs) for alternative in one.alternatives)
        self.dense, self.tight = pairs > 2, pairs > 4
        names = {"many": len(one.alternatives) > 1, "dense": self.dense, "tight": self.tight}
        super().__init__([name for name, so in names.items() if so] or ["one"])


def sheet_page(one: Seen, customer: str, link: str) -> str:
    """The whole file."""
    style = sheet_of(shared("theme") / "paper", ("sheet",))
    fronts = count()
    digest = base64.b64encode(hashlib.sha256(style.encode()).digest()).decode()
    return (
        environment()
        .get_template("sheet.html")
        .render(
            quote=one,
            layout=Layout(one),
            customer=customer,
            language=spoken().language,
            style=Markup(style),
            style_hash=f"sha256-{digest}",
            front=lambda pair: Markup(front_of(pair.frame, one.shop, one.frames, pair.paint, f"paint-{next(fronts)}")),
            name=frame_name,
            verdicts={name: _(text) for name, text in VERDICTS.items()},
            qr=Markup(qr_svg(link, _("The link of this quote as a QR code"))),
        )
    )
