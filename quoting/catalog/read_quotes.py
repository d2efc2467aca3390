"""``quotes.yaml``: what is public of a shop's quotes, so that anybody can see whether one is good.

Public keys, the newest first, and the hashes of the numbers of quotes that were withdrawn.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import base64
import hashlib

from quoting.catalog.shop import QuoteKey
from quoting.nodes import Record

QUOTES = "quotes.yaml"
# 32 bytes (RFC 8032) in base64url without padding (RFC 4648, section 5): of the last sign two bits are beyond the end
KEY = r"[A-Za-z0-9_-]{42}[AEIMQUYcgkosw048]"
HASH = r"[0-9a-f]{64}"


def read_quotes(root: Record) -> tuple[tuple[QuoteKey, ...], tuple[str, ...]]:
    """Keys and hashes, in the order written."""
    keys = [_key(part) for part in root.records("keys", "this key")] if root.has("keys") else []
    withdrawn: list[str] = []
    if root.has("withdrawn"):
        for part in root.records("withdrawn", "this withdrawn quote"):
            found = part.form("hash", HASH, "the SHA-256 of a quote's number", "64 digits and letters a to f")
            part.day("on")
            if part.close():
                withdrawn.append(found)
    for at, key in enumerate(keys):
        if key is not None and any(other is not None and other.id == key.id for other in keys[:at]):
            root.fault("keys", "duplicate-id", f"the key {key.id} is written twice", "delete one of the two")
    root.close()
    return tuple(key for key in keys if key is not None), tuple(withdrawn)


def _key(part: Record) -> QuoteKey | None:
    text = part.form("key", KEY, "a public key as `bevelbook keys` writes it", "43 letters, digits, - and _")
    name = part.form("id", r"[0-9a-f]{8}", "the id of a key", "3f9a2b1c")
    since = part.day("since")
    retired = part.day("retired", since) if part.has("retired") else None
    recalled = part.flag("recalled", False)
    if not part.sound():
        part.close()
        return None
    public = base64.urlsafe_b64decode(text + "=")
    if hashlib.sha256(public).hexdigest()[:8] != name:
        part.fault("id", "wrong-form", f"`{name}` is not the id of this key", "put back the line as it was written")
    if retired is not None and retired < since:
        part.fault("retired", "reversed", "`retired` is before `since`", "write the later day second")
    return part.made(QuoteKey(name, public, since, retired, recalled, part.mark()))
