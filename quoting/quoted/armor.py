"""Bytes as the text behind the ``#`` of a link, and that text again from whatever a mail program made of it.

The text is the version of the form, ``s`` for signed or ``u`` for unsigned, base64url without padding (RFC 4648,
section 5), and a ``z``: so it neither ends in a sign that programs leave off a link, nor can it be cut short unnoticed.

>>> armored(1, "u", b"a quote")
'1uYSBxdW90ZQz'
>>> list(candidates("<https://shop.example/quote/#1uYSBx=\\r\\ndW90ZQz>."))
['1uYSBxdW90ZQz']
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import base64
import binascii
import re
from collections.abc import Iterator

END = "z"
SHAPE = re.compile(r"(?P<version>[1-9][0-9]{0,2})(?P<kind>[a-z])(?P<body>[A-Za-z0-9_-]*)", re.ASCII)
BEGIN = re.compile(r"[1-9][0-9]{0,2}[a-z][A-Za-z0-9_-]", re.ASCII)
HEAD = re.compile(r"[1-9][0-9]{0,2}[a-z]", re.ASCII)  # alone where a line was broken behind it

# What is looked at of a pasted mail, and in how many pieces a link may have been broken
MOST_TEXT = 200_000
MOST_PIECES = 80

# Quoted-printable (RFC 2045, section 6.7): soft line breaks, and bytes as = and two digits; the same with % in links
SOFT = re.compile(r"=[ \t]*\r?\n")
CODED = re.compile(r"[=%]([0-9A-Fa-f]{2})")
# What typing aids make of hyphens
DASHES = {0x2010: "-", 0x2011: "-", 0x2012: "-", 0x2013: "-", 0x2014: "--", 0x2212: "-", 0xFE63: "-", 0xFF0D: "-"}
# Soft hyphens and signs of no width, which programs put in where a line may break
UNSEEN = dict.fromkeys([0x00AD, 0x200B, 0x200C, 0x200D, 0x2060, 0xFEFF])
# A line break, with the marks of a reply and blanks that follow
FOLD = re.compile(r"[ \t]*\r?\n(?:[ \t]*[>|])*[ \t]*")


def armored(version: int, kind: str, body: bytes) -> str:
    """The text of a link.   ``kind``: ``s`` signed, ``u`` unsigned."""
    return f"{version}{kind}{base64.urlsafe_b64encode(body).decode().rstrip('=')}{END}"


def address(site: str, text: str) -> str:
    """The link; ``site`` is where the pages stand, an address or a folder, "" where nobody knows.

    >>> address("https://shop.example/", "1uz"), address("", "1uz")
    ('https://shop.example/quote/#1uz', 'quote/index.html#1uz')
    """
    if site.lower().startswith(("http://", "https://")):
        return f"{site.rstrip('/')}/quote/#{text}"
    return f"{site.rstrip('/')}/quote/index.html#{text}" if site else f"quote/index.html#{text}"


def bared(body: str) -> bytes | None:
    """The bytes of the part behind version and kind, or None where it is cut short or otherwise not ours."""
    if not body.endswith(END):
        return None
    text = body.removesuffix(END)
    try:
        found = base64.b64decode(text + "=" * (-len(text) % 4), altchars=b"-_", validate=True)
    except (binascii.Error, ValueError):
        return None
    # Of the texts that mean the same bytes only one is ours: the bits beyond the last byte are 0
    return found if base64.urlsafe_b64encode(found).decode().rstrip("=") == text else None


def candidates(text: str) -> Iterator[str]:
    """What in a text may be that of a link, the likeliest first: its pieces joined to ever longer ones."""
    plain = _plain(text[:MOST_TEXT])
    marked, behind = "#" in plain, plain.rpartition("#")[2]
    pieces = re.findall(r"[A-Za-z0-9_-]+", behind, re.ASCII)[:MOST_PIECES]
    for start, piece in enumerate(pieces):
        if not (BEGIN.match(piece) or (marked and start == 0 and HEAD.fullmatch(piece))):
            continue
        for end in range(start + 1, len(pieces) + 1):
            yield "".join(pieces[start:end])
        return


def _plain(text: str) -> str:
    """Without what mail programs put in: soft breaks, coded signs (twice over), folded lines, dashes."""
    text = SOFT.sub("", text.translate(UNSEEN).translate(DASHES))
    for _ in range(2):
        text = CODED.sub(lambda found: _one_sign(found[1]), text)
    return FOLD.sub("\n", text)


def _one_sign(digits: str) -> str:
    code = int(digits, 16)
    return chr(code) if code < 0x7F else " "
