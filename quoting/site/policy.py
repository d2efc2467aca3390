"""What a page may load: its own style, scripts and pictures.  It may ask nobody for anything else, and send nothing."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
from urllib.parse import urlsplit

from markupsafe import Markup

OWN = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:"
NO_WAY_OUT = "base-uri 'none'; form-action 'none'"


def policy(url: str) -> Markup:
    """The content security policy of a page of the site at ``url`` (empty where that is not known).

    What judges a page for search engines reads robots.txt out of the page itself, so that one address may be asked for.

    >>> print(policy("https://shop.example.org/glasses").split("; ")[4])
    connect-src https://shop.example.org/robots.txt
    >>> "connect-src" in policy("")
    False
    """
    host = urlsplit(url).netloc
    if not re.fullmatch(r"[A-Za-z0-9.-]+(:\d+)?", host):
        return Markup(f"{OWN}; {NO_WAY_OUT}")  # these, and a host of such letters, hold nothing to escape
    return Markup(f"{OWN}; connect-src https://{host}/robots.txt; {NO_WAY_OUT}")
