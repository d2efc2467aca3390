"""A mail address as every server takes it: letters of ASCII alone (RFC 5321), a domain in its form for machines.

>>> mailbox("m@example.org"), mailbox(" jorg@exämple.org ")
('m@example.org', 'jorg@xn--exmple-cua.org')
>>> mailbox("jörg@example.org")
Traceback (most recent call last):
quoting.posting.mailbox.NoMailboxError: 'jörg@example.org' has letters beyond ASCII before the @; few servers take them
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re

# What stands unquoted in an address, loosely: what else is wrong with it, its server says
SHAPE = re.compile(r"[^\s@<>,;:\"()\[\]\\]+@[^\s@<>,;:\"()\[\]\\]+\.[^\s@<>,;:\"()\[\]\\]+")
# Python knows the older names of domains (IDNA 2003, RFC 3490), which mean another domain where one of these stands
# (Unicode Technical Standard 46, table 1, "deviations")
DEVIATIONS = frozenset("ßς\u200c\u200d")


class NoMailboxError(ValueError):
    """Why a text is no address that letters can go to, in one sentence."""


def mailbox(text: str) -> str:
    """The address.   Raises NoMailboxError."""
    text = text.strip()
    if not SHAPE.fullmatch(text):
        raise NoMailboxError(f"{text!r} is not a mail address")
    user, _at, domain = text.rpartition("@")
    if not user.isascii():
        raise NoMailboxError(f"{text!r} has letters beyond ASCII before the @; few servers take them")
    if DEVIATIONS & set(domain):
        raise NoMailboxError(f"{text!r}: write the domain in its form for machines, which begins with xn--")
    try:
        return f"{user}@{domain.encode('idna').decode()}"
    except UnicodeError as fault:
        raise NoMailboxError(f"{text!r} is not a mail address") from fault
