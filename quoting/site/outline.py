"""The outline of a site: each file in its place, with nothing in it but prose.

It shows in a moment what is wrong with prose, what its links lead to included, of however many frames the shop has.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from typing import Any

from pelican.writers import Writer

# Folders of a site that an outline does without: photos and cards are named after what is in them
NOT_IN_OUTLINE = ("photos", "cards")
# The places that every page has (theme/templates/base.html)
EVERYWHERE = '<i id="main"></i><i id="aloud"></i>'


class OutlineWriter(Writer):  # type: ignore[misc]
    """Writes what is Pelican's own in each page, and nothing of what the templates show of the catalog."""

    def write_file(self, name: str, template: Any, *given: Any, **words: Any) -> None:
        """A page where the template's would stand."""
        super().write_file(name, JustProse(), *given, **words)


class JustProse:
    """In the place of a template: an article or page as places in it are named, else nothing.

    What is nothing has places that are not known; so has a combination, which shows the catalog around its words.
    """

    def render(self, values: dict[str, Any]) -> str:
        """What stands in the file."""
        prose = values.get("article") or values.get("page")
        if prose is None or getattr(prose, "combination", None):
            return ""
        return f"{EVERYWHERE}{prose.content}"
