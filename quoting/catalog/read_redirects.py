"""Pages that moved: ``redirects`` of shop.yaml leads from the place of a page that is gone to one that stands."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re

from quoting.catalog.shop import Redirect
from quoting.nodes import Record

# One part of a path: RFC 3986's unreserved characters, not beginning with a point
PLACE = r"/?(?:[A-Za-z0-9_~-][A-Za-z0-9._~-]*/)*(?:[A-Za-z0-9_~-][A-Za-z0-9._~-]*)?"
MEANT = "a page's place in the site"
EXAMPLE = "frames/kestrel"


def page_at(place: str) -> str:
    """The file of the site that a place names.

    >>> page_at("frames/kestrel"), page_at("/"), page_at("frames/kestrel/"), page_at("old.html")
    ('frames/kestrel/index.html', 'index.html', 'frames/kestrel/index.html', 'old.html')
    """
    bare = place.strip("/")
    return bare if bare.endswith(".html") else f"{bare}/index.html".lstrip("/")


def read_redirects(root: Record) -> tuple[Redirect, ...]:
    """All of them, in the order written."""
    if not root.has("redirects"):
        return ()
    part = root.record("redirects", "`redirects`", example="{frames/kestrel: frames/merlin}")
    found = [_read(part, name) for name in part.names()]
    part.close()
    for at, redirect in enumerate(found):
        twin = next((one for one in found[:at] if one.old == redirect.old), None)
        if twin is not None:
            said = f"`{redirect.written}` and `{twin.written}` are one page"
            part.key_fault(redirect.written, "duplicate-id", said, "delete one of the two")
    for redirect in found:
        _no_circle(part, redirect, found)
    return tuple(found)


def _read(part: Record, name: str) -> Redirect:
    to = part.form(name, PLACE, MEANT, EXAMPLE)
    if not re.fullmatch(PLACE, name, re.ASCII):
        said = f"`{name}` is not {MEANT}"
        part.key_fault(name, "wrong-form", said, f"write what stands after the site's address, such as {EXAMPLE}")
    return Redirect(page_at(name), page_at(to), name, part.mark(name))


def _no_circle(part: Record, redirect: Redirect, found: list[Redirect]) -> None:
    """Whoever follows it must arrive somewhere."""
    leads = {one.old: one.new for one in found}
    at, way = redirect.new, [redirect.old]
    while at in leads and at not in way:
        way.append(at)
        at = leads[at]
    if at == redirect.old:
        said = f"`{redirect.written}` leads in a circle: {' → '.join([*way, at])}"
        part.fault(redirect.written, "redirect-circle", said, "let one of them lead to a page that stands")
