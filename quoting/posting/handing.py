"""One letter handed to a mail server (SMTP, RFC 5321; STARTTLS, RFC 3207; login, RFC 4954), and what came of it.

Until the server has the last line of a letter it must not deliver it (RFC 5321, section 4.1.1.4); so only while its
answer to that line is awaited can nobody tell whether the letter went out.  ``begun`` is called just before.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import contextlib
import re
import smtplib
import ssl
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Literal

from quoting.findings import printable
from quoting.posting.account import Account

State = Literal["sent", "waiting", "refused", "unsure", "dropped"]
SECONDS = 30.0
END = b".\r\n"


@dataclass(frozen=True, slots=True)
class Outcome:
    """``waiting``: nothing went out, and it may be tried again; ``refused``: the server will never take it.

    ``dropped``: it was not handed in, since what it says is over.
    """

    state: State
    words: str


def hand_in(
    account: Account, sender: str, to: str, letter: bytes, begun: Callable[[], None], seconds: float = SECONDS
) -> Outcome:
    """Hand a letter in.   Raises only what ``begun`` raises; then nothing went out."""
    try:
        server = _connected(account, seconds)
    except smtplib.SMTPAuthenticationError as fault:
        return Outcome("waiting", f"the server refuses user name or password: {_said(fault.smtp_error)}")
    except smtplib.SMTPNotSupportedError as fault:
        return Outcome("waiting", f"the server offers no encryption or no login: {fault}")
    except ssl.SSLError as fault:
        return Outcome("waiting", f"the server's certificate is not to be trusted: {fault}")
    except UnicodeError:  # SMTP's own logins take ASCII alone
        return Outcome("waiting", "user name and password can be told to a server in ASCII letters only")
    except (smtplib.SMTPException, OSError) as fault:
        return Outcome("waiting", f"the server cannot be reached: {_why(fault)}")
    try:
        return _handed(server, sender, to, letter, begun)
    finally:
        with contextlib.suppress(smtplib.SMTPException, OSError):
            server.close()


def _connected(account: Account, seconds: float) -> smtplib.SMTP:
    """A connection that nobody reads along, logged in.   Raises SMTPException, OSError."""
    if account.security == "tls":
        server: smtplib.SMTP = smtplib.SMTP_SSL(
            account.server, account.port, timeout=seconds, context=account.context()
        )
    else:
        server = smtplib.SMTP(account.server, account.port, timeout=seconds)
    try:
        if account.security == "starttls":
            server.starttls(context=account.context())
        if account.user:
            server.login(account.user, account.password)
        server.ehlo_or_helo_if_needed()
    except BaseException:
        server.close()
        raise
    return server


def _handed(server: smtplib.SMTP, sender: str, to: str, letter: bytes, begun: Callable[[], None]) -> Outcome:
    try:
        for good, code, said in _asked(server, sender, to):
            if code // 100 != good:
                return Outcome("refused" if code >= 500 else "waiting", _said(said))
        server.send(_stuffed(letter))
    except UnicodeError:  # other letters need an extension (RFC 6531) that few servers offer
        return Outcome("refused", "an address with letters beyond ASCII before its @ cannot be written to from here")
    except (smtplib.SMTPException, OSError) as fault:
        return Outcome("waiting", f"the connection broke before the letter was through: {_why(fault)}")
    begun()
    try:
        server.send(END)
        code, said = server.getreply()
    except (smtplib.SMTPException, OSError) as fault:
        return Outcome("unsure", f"the connection broke while the server took the letter: {_why(fault)}")
    with contextlib.suppress(smtplib.SMTPException, OSError):
        server.quit()
    states: dict[int, State] = {2: "sent", 4: "waiting", 5: "refused"}
    if code // 100 in states:
        return Outcome(states[code // 100], _said(said))
    return Outcome("unsure", f"the server's answer to the letter cannot be understood: {_said(said)}")


def _asked(server: smtplib.SMTP, sender: str, to: str) -> Iterator[tuple[int, int, bytes]]:
    """The first digit that lets a letter go on, and what the server says: to sender, recipient, the letter's beginning.

    To the beginning it must say 354: whatever else it says, it would take the letter for commands.
    """
    yield 2, *server.mail(sender)
    yield 2, *server.rcpt(to)
    yield 3, *server.docmd("DATA")


def _stuffed(letter: bytes) -> bytes:
    """Lines ended by CRLF, and a point doubled where it begins one (RFC 5321, section 4.5.2)."""
    lines = re.sub(rb"\r\n|\r|\n", b"\r\n", letter)
    lines = re.sub(rb"(?m)^\.", b"..", lines)
    return lines if lines.endswith(b"\r\n") else lines + b"\r\n"


def _said(said: bytes | str) -> str:
    text = said.decode("utf-8", "replace") if isinstance(said, bytes) else said
    return printable(" ".join(text.split()))[:300]


def _why(fault: Exception) -> str:
    if isinstance(fault, TimeoutError) or "timed out" in str(fault):  # smtplib tells some of them as a closed line
        return "it did not answer in time"
    if isinstance(fault, smtplib.SMTPResponseException):
        return _said(fault.smtp_error)
    return _said(str(fault)) or type(fault).__name__
