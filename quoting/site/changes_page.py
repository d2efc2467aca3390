"""What changes between two builds, as a page to look at: one file, nothing from elsewhere, no script."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re

import jinja2
from markupsafe import Markup

from quoting.places import shared
from quoting.show.changes import parts
from quoting.show.differences import Changes

FIGURE = re.compile(r"[-+−]?\W{0,3}[0-9].*")
WORDS = {"fits": "fits", "caution": "caution", "fits partly": "caution", "does not fit": "no"}


def kind(cell: str, head: str) -> str:
    """How a cell is set: amounts to the right, rises and falls and verdicts in their colors."""
    if head in ("Change", "Percent"):
        return "figure up" if cell.startswith("+") else "figure down" if cell else "figure"
    if head in ("Before", "After"):
        return WORDS.get(cell) or ("figure" if FIGURE.fullmatch(cell) else "")
    return "powers" if head == "Powers" else "arrow" if not head else ""


def changes_page(changes: Changes) -> str:
    """The whole file."""
    theme = shared("theme")
    loader = jinja2.FileSystemLoader(theme / "templates")
    env = jinja2.Environment(loader=loader, autoescape=True, trim_blocks=True, lstrip_blocks=True)
    tokens = (theme / "static" / "css" / "tokens.css").read_text(encoding="utf-8")
    template = env.get_template("changes.html")
    return template.render(changes=changes, parts=parts(changes), tokens=Markup(tokens), kind=kind)
