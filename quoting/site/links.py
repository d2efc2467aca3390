"""The links of prose, followed on the built site: each must lead to a file that is there."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
from collections.abc import Collection, Iterable
from html.parser import HTMLParser
from pathlib import Path
from posixpath import dirname, join, normpath
from typing import Any
from urllib.parse import unquote, urlsplit

from quoting.findings import Finding, Severity
from quoting.site.source import mark_of_text

# What Pelican replaces: {filename}guides/one.md, or the older |filename|guides/one.md.  It leaves what it cannot find
LEFT = re.compile(r"[{|](?P<what>\w+)[|}](?P<value>.*)")
# From the top of whatever host the site is on; //host is another one
AT_TOP = re.compile("/(?!/)")
ATTRIBUTES = ("href", "src", "poster", "data")
WAYS = "name prose with {filename}, pictures and papers with {static}, other pages by their address in the site"
BEGINS = "a path after {filename} or {static} begins in this file's folder, or with / in the folder of the prose"


class Links(HTMLParser):
    """All links of a piece of HTML, in order."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """One element."""
        self.found += [value.strip() for name, value in attrs if name in ATTRIBUTES and value]


def links_of(html: str) -> list[str]:
    """All links of a piece of HTML.

    >>> links_of('<p><a href="../one.html#two">x</a> <img src="three.png"></p>')
    ['../one.html#two', 'three.png']
    """
    reader = Links()
    reader.feed(html)
    reader.close()
    return reader.found


def target_of(link: str, page: str) -> tuple[str, str]:
    """The path in the site that a link of a page names, and the place there; ("", "") where it leads elsewhere.

    >>> target_of("../b/index.html#x", "guides/a/index.html"), target_of("mailto:x@example.org", "a")
    (('guides/b/index.html', 'x'), ('', ''))

    Raises ValueError where it is no address at all.
    """
    parts = urlsplit(link)
    if parts.scheme or parts.netloc or not parts.path:
        return "", ""
    path = unquote(parts.path)
    inner = path.lstrip("/") if path.startswith("/") else join(dirname(page), path)
    return normpath(inner), unquote(parts.fragment)


def file_at(output: Path, target: str) -> Path | None:
    """The file that a path of the site opens; None where there is none."""
    places = () if target.startswith("..") else (output / target, output / target / "index.html")
    return next((place for place in places if place.is_file()), None)


def unresolved(written: str, what: str, value: str, source: Path, content: Path) -> tuple[str, str]:
    """What is wrong with a link that Pelican left as it was written."""
    if what not in ("filename", "static", "attach"):
        return f"`{written}` names no file: `{what}` means nothing here", WAYS
    path = unquote(urlsplit(value).path)
    if (content / path.lstrip("/") if path.startswith("/") else source.parent / path).is_file():
        return f"the link to `{value}` leads to a file that gets no page", "see what else is told about that file"
    return f"the link to `{value}` leads nowhere: there is no such file among the prose", BEGINS


def fault_of(
    link: str, written: str, page: Any, output: Path, content: Path, unmade: Collection[str] = ()
) -> tuple[str, str]:
    """What is wrong with a link, and the remedy; ("", "") where nothing is.

    Nobody can say that of what leads into the folders ``unmade``, nor of a place in a page that has nothing in it.
    """
    source = content / page.get_relative_source_path()
    left = LEFT.match(written)
    if left and LEFT.match(link):
        return unresolved(written, left["what"], left["value"], source, content)
    try:
        target, place = target_of(link, page.save_as)
    except ValueError:
        return f"`{written}` is no address", "see how it is written"
    if not target or target.partition("/")[0] in unmade:
        return "", ""
    found = file_at(output, target)
    if found is None and (source.parent / target_of(link, "")[0]).is_file():
        return f"`{written}` is not copied to the site like this", f"write `{{static}}{written}`"
    if found is None:
        return f"the link to `{written}` leads nowhere: the site has no `{target}`", WAYS
    text = found.read_text(encoding="utf-8") if place and found.suffix == ".html" else ""
    if text and f'id="{place}"' not in text:
        return f"`{target}` is there, but has no place named `{place}`", "see what comes after #"
    return "", ""


def broken_links(pages: Iterable[Any], output: Path, content: Path, unmade: Collection[str] = ()) -> list[Finding]:
    """What is wrong with the links in the text of articles and pages, each told once for its file, at its line."""
    found: dict[Finding, None] = {}
    for page in pages:
        source = content / page.get_relative_source_path()
        root = "/".join([".."] * page.save_as.count("/")) or "."
        for link, written in zip(links_of(page.get_content(root)), links_of(page._content), strict=True):
            said, hint = fault_of(link, written, page, output, content, unmade)
            kind: Severity = "error"
            if not said and AT_TOP.match(link):
                said, kind = f"`{written}` leads to the top of the host, which need not be that of the site", "warning"
                hint = f"write `{root}{written}`: that holds in a folder and from disk, too"
            if said:
                mark = mark_of_text(source, written, unquote(written))
                found[Finding(mark, "broken-link", said, hint, kind)] = None
    return list(found)
