"""The account that a shop's letters are sent with: ``private/mail.yaml``, for its owner's eyes alone."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import ssl
from dataclasses import dataclass, field
from pathlib import Path

from quoting.findings import Finding, errors
from quoting.nodes import read_text
from quoting.quoted.private import FOLDER, read_secret

FILE = "mail.yaml"
HOST = r"[A-Za-z0-9](?:[A-Za-z0-9.-]*[A-Za-z0-9])?"
EXAMPLE = """server: mail.example.org
security: starttls         # or tls, where the server asks for it from the first byte on
user: bench@example.org
password: "..."
"""
# RFC 6409 and RFC 8314: where a server takes letters from its own people
PORTS = {"starttls": 587, "tls": 465}


@dataclass(frozen=True, slots=True)
class Account:
    """Where letters are handed in, and as whom."""

    server: str
    port: int
    security: str  # starttls or tls; letters never go out in the clear
    user: str
    password: str = field(repr=False)
    sender: str = ""  # "": the shop's own address
    trusted: Path | None = None  # the certificate of a server that nobody else vouches for

    def context(self) -> ssl.SSLContext:
        """What the server must show: a good certificate in its own name.   Raises OSError, ssl.SSLError."""
        return ssl.create_default_context(cafile=str(self.trusted) if self.trusted is not None else None)


class NoAccountError(ValueError):
    """There is no account to send with; says in a few lines what to write."""


def read_account(shop: Path) -> tuple[Account | None, list[Finding]]:
    """The account and what was found.   Raises NoAccountError, OpenToOthersError, OSError."""
    path = shop / FOLDER / FILE
    if not path.exists():
        raise NoAccountError(f"there is no {path}. Write it, then chmod 600:\n{EXAMPLE}")
    root = read_text(read_secret(path).decode("utf-8", "replace"), str(path))
    server = root.form("server", HOST, "the name of a mail server", "mail.example.org")
    security = root.choice("security", tuple(PORTS), "starttls")
    account = Account(
        server,
        root.whole("port", 1, 65535, PORTS.get(security, 587)),
        security,
        root.text("user", ""),
        root.text("password", "", most=500),
        root.form("from", r"[^\s@<>]+@[^\s@<>]+", "a mail address", "bench@example.org", ""),
        path.parent / root.text("certificate") if root.has("certificate") else None,
    )
    root.close()
    return (None if errors(root.findings) else account), root.findings
