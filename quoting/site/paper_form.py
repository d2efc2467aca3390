"""A prescription on paper, or in a letter: for those whose browser runs no script, and for who would rather write."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from urllib.parse import quote

from quoting.catalog.model import Frame
from quoting.catalog.shop import Shop
from quoting.languages import _, in_context, marked

EYES = marked({"R": "Right eye", "L": "Left eye"})
OF_EYE = marked({
    "sphere": "Sphere",
    "cylinder": "Cylinder",
    "axis": "Axis",
    "add": in_context("column of a prescription", "Add"),
    "prism": "Prism",
    "pd": "PD",
    "height": "Height",
})
OF_ORDER = marked({
    "frame": "Frame",
    "size": "Size",
    "color": "Colorway",
    "lens": "Lens package",
    "wishes": "Tint and other wishes",
    "child": "For somebody under 18?",
    "day": "Day of the prescription",
    "name": "Your name",
    "reach": "Your mail or phone",
    "to": "Parcel to",
})


def form() -> dict[str, list[str]]:
    """What is asked, in the language that is spoken: the eyes, of each eye, and of all that is ordered."""
    tables = {"eyes": EYES, "eye": OF_EYE, "order": OF_ORDER}
    return {name: [_(text) for text in table.values()] for name, table in tables.items()}


def form_letter(shop: Shop, frame: Frame | None = None) -> str:
    """The same as a letter to the shop with a line for each, as an address (RFC 6068)."""
    asked = form()
    first, *rest = asked["order"]
    lines = [f"{first}: {frame.maker} {frame.name}" if frame else f"{first}: ", *(f"{name}: " for name in rest)]
    for eye in asked["eyes"]:
        lines += ["", eye, *(f"{name}: " for name in asked["eye"])]
    subject, body = (quote(text, safe="") for text in (_("Your prescription"), "\r\n".join(lines)))
    return f"mailto:{quote(shop.email, safe='@')}?subject={subject}&body={body}"
