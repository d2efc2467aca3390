"""Where pages that are gone lead: small pages in their place, which say so and lead on."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import html
import re
from collections.abc import Mapping
from pathlib import Path
from posixpath import dirname, relpath

from quoting.catalog.shop import Redirect, Shop
from quoting.findings import Finding
from quoting.languages import _, speaking
from quoting.site.editions import edition_of
from quoting.site.record import Record

MAKER = re.compile(r'<h2 id="(?P<place>[^"]+)">(?P<maker>[^<]*)</h2>')
# Led on at once, as the technique H76 of WCAG 2.2 has it; the sentence is for browsers that do not follow
STUB = """<!DOCTYPE html>
<html lang="{language}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; base-uri 'none'; form-action 'none'">
<meta http-equiv="refresh" content="0; url={link}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<meta name="robots" content="noindex">
<title>{gone}: {shop}</title>
<link rel="canonical" href="{canonical}">
</head>
<body>
<p>{sentence}</p>
</body>
</html>
"""


def own_redirects(shop: Shop, output: Path) -> list[Finding]:
    """Write the pages that the owner asks for; what is wrong with those that cannot be."""
    leads = {one.old: one.new for one in shop.redirects}
    found: list[Finding] = []
    good: dict[str, tuple[str, str]] = {}
    for one in shop.redirects:
        fault = _fault(one, leads, output)
        if fault is None:
            good[one.old] = (end_of(one.old, leads), "")
        else:
            found.append(fault)
    for old, lead in good.items():
        write_stub(output, old, lead, shop)
    return found


def _fault(one: Redirect, leads: Mapping[str, str], output: Path) -> Finding | None:
    if (output / one.old).exists() or any(parent.is_file() for parent in (output / one.old).parents):
        said = f"`{one.written}` stands in the site, so nobody who comes there can be led on"
        return Finding(one.mark, "redirect-from-page", said, "delete this line, or take the page away")
    if not (output / end_of(one.old, leads)).is_file():
        said = f"`{one.written}` leads to {end_of(one.old, leads)}, which is no page of the site"
        return Finding(one.mark, "redirect-nowhere", said, "name a page that stands, such as frames")
    return None


def end_of(old: str, leads: Mapping[str, str]) -> str:
    """Where somebody arrives who follows all leads; there are no circles among an owner's."""
    way, at = {old}, leads[old]
    while at in leads and at not in way:
        way.add(at)
        at = leads[at]
    return at


def ours(before: Record, now: Record) -> dict[str, tuple[str, str]]:
    """Each page that was public once and is gone, with the nearest one at that time and the maker's part of it.

    What the owner says of a page is left out, so that it can be taken back.
    """
    known = {**before["ours"], **{old: nearest(old, before, now) for old in before["pages"]}}
    return {old: lead for old, lead in sorted(known.items()) if old not in now["pages"]}


def leads(before: Record, now: Record) -> dict[str, tuple[str, str]]:
    """Where each address leads that is no page: as the owner says, else to the nearest page that stands."""
    own, pages, found = now["redirects"], now["pages"], ours(before, now)
    steps = {old: lead[0] for old, lead in {**found, **own}.items()}
    for old, lead in {**found, **own}.items():
        end = end_of(old, steps)
        if end not in pages and old not in own:
            found[old] = (_list_of(old, pages), "")
        else:
            found[old] = lead if end == lead[0] else (end, "")
    return dict(sorted(found.items()))


def nearest(old: str, before: Record, now: Record) -> tuple[str, str]:
    """The page that has its title now, or a frame of the same make; else the list that it stood in."""
    kind = old.split("/")[0]
    new = [page for page in now["pages"] if page not in before["pages"] and page.split("/")[0] == kind]
    same = [page for page in new if now["pages"][page][1] == before["pages"][old][1]]
    if len(same) == 1:
        return same[0], ""
    frame = before["frames"].get(old.split("/")[1]) if kind == "frames" and old.count("/") > 1 else None
    if frame is None:
        return _list_of(old, now["pages"]), ""
    alike = [
        f"frames/{name}/index.html"
        for name, one in now["frames"].items()
        if name not in before["frames"] and one["maker"] == frame["maker"]
        and one["boards"].keys() == frame["boards"].keys() and one["prices"].keys() == frame["prices"].keys()
    ]  # fmt: skip
    return (alike[0], "") if len(alike) == 1 else (_list_of(old, now["pages"]), frame["maker"])


def _list_of(old: str, pages: Mapping[str, object]) -> str:
    """The list above a page, or the first page where there is none."""
    folder = f"{old.split('/')[0]}/index.html"
    return folder if folder in pages and folder != old else "index.html"


def write_stub(output: Path, old: str, lead: tuple[str, str], shop: Shop) -> None:
    """The page in the place of one that is gone."""
    target, maker = lead
    text = (output / target).read_text(encoding="utf-8")
    title = re.search(r"<title>(.*?)</title>", text, re.DOTALL)
    places = {html.unescape(found["maker"]): found["place"] for found in MAKER.finditer(text)}
    place = f"#{places[maker]}" if maker in places else ""
    link = html.escape(relpath(target, dirname(old) or ".") + place)
    root = shop.url.rstrip("/")
    canonical = html.escape(f"{root}/{target}") if root else link
    (output / old).parent.mkdir(parents=True, exist_ok=True)
    said = html.escape(html.unescape(title[1].strip())) if title else html.escape(target)
    edition = edition_of(old, shop)
    with speaking(edition.tongue):
        on = _('This page is gone. <a href="{link}">Go on to {title}</a>.').format(link=link, title=said)
        gone = _("Gone")
    page = STUB.format(
        link=link, canonical=canonical, sentence=on, gone=gone, shop=html.escape(shop.name), language=edition.tag
    )
    (output / old).write_text(page, encoding="utf-8")
