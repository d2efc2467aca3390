"""A film of a combination, somewhere else on the web: one line ``Film: https://... and its title``.

The page links to it and embeds nothing: no request leaves the site until a visitor follows the link.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from urllib.parse import urlsplit

from quoting.findings import Finding
from quoting.site.source import mark_of

HINT = "write its address and then its title, such as `Film: https://films.example.org/kestrel Kestrel in the sun`"


@dataclass(frozen=True, slots=True)
class Film:
    address: str
    title: str
    host: str  # where it is, in words that a visitor can judge


def film_of(source: Path, written: str) -> tuple[Film | None, list[Finding]]:
    """The film that an article names, or what is wrong with that line; neither where there is no such line."""
    address, _, title = written.strip().partition(" ")
    if not address:
        return None, []
    host = host_of(address)
    said = "" if host else f"`{address}` is no address that begins with https://"
    said = said or ("" if title.strip() else "the film has no title")
    if said:
        return None, [Finding(mark_of(source, "film"), "combination-film", said, HINT)]
    return Film(address, title.strip(), host), []


def host_of(address: str) -> str:
    """The host of a plain https address; "" where it is none.

    >>> host_of("https://films.example.org/a?b=c"), host_of("http://films.example.org"), host_of("https://u:p@x.org/")
    ('films.example.org', '', '')
    """
    try:
        parts = urlsplit(address)
        host = parts.hostname or ""
        plain = parts.scheme == "https" and "@" not in parts.netloc and (parts.port is None or parts.port > 0)
    except ValueError:
        return ""
    return host if plain and "." in host.strip(".") and not any(sign in address for sign in "<>\"\\") else ""
