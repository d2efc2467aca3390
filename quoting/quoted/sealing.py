"""From a quote to the text of its link and back: compact JSON, squeezed, and signed where a shop vouches for it.

A signed text holds the key's id (4 bytes), the signature (64 bytes) and the squeezed record; what is signed is
all of it but the signature, and the text's first letters.  So nothing in it can be changed unnoticed, and a signature
cannot be moved to something else.  An unsigned one holds the squeezed record alone.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal, cast

from quoting.quoted.armor import SHAPE, armored, bared, candidates
from quoting.quoted.form import VERSION
from quoting.quoted.positional import FORM, FormError, packed, unpacked
from quoting.quoted.records import Quote
from quoting.quoted.squeezing import squeezed, unsqueezed

KEY_BYTES, SIGNATURE_BYTES = 4, 64
# The largest record that the form allows is smaller; so no text can be made to fill the memory
MOST_BYTES = 200_000
# What is signed begins with this, so that no signature of ours can be taken for one of something else
DOMAIN = b"bevelbook quote\x00"

Sign = Callable[[bytes], bytes]  # 64 bytes for a message
Fault = Literal["nothing", "no-quote", "newer", "damaged"]


@dataclass(frozen=True, slots=True)
class Opened:
    """What a link holds.  Whether a signature is good, `quoting.quoted.trust` says."""

    text: str  # of the link, as it was made
    quote: Quote | None = None
    key: str = ""  # the id of the key of a signed one, eight hexadecimal digits
    signature: bytes = b""
    message: bytes = b""  # what is signed
    fault: Fault | Literal[""] = ""


def unsigned(quote: Quote) -> str:
    """The text of a link nobody vouches for.   Raises FormError."""
    return armored(VERSION, "u", compressed(quote))


def sealed(quote: Quote, key: str, sign: Sign) -> str:
    """The text of a signed link; ``key`` is the id of the key that ``sign`` signs with.   Raises FormError."""
    body = compressed(quote)
    name = bytes.fromhex(key)
    return armored(VERSION, "s", name + sign(message_of(VERSION, name, body)) + body)


def message_of(version: int, key: bytes, body: bytes) -> bytes:
    """What is signed."""
    return DOMAIN + f"{version}s".encode() + key + body


def compressed(quote: Quote) -> bytes:
    """The record as canonical JSON, squeezed.   Raises FormError."""
    return squeezed(VERSION, written(packed(FORM, "quote", quote)))


def written(value: object) -> bytes:
    """JSON that is written in one way only: no blanks, and no escape that is not needed."""
    return json.dumps(value, separators=(",", ":"), ensure_ascii=False).encode()


def opened(text: str) -> Opened:
    """What a link or a pasted text holds; what cannot be opened has a ``fault``.   Never raises."""
    if not text.strip():
        return Opened("", fault="nothing")
    first: Opened | None = None
    for candidate in candidates(text):
        found = _opened(candidate)
        if found.quote is not None or found.fault == "newer":
            return found
        first = first or found
    return first or Opened("", fault="no-quote")


def _opened(text: str) -> Opened:
    shape = SHAPE.fullmatch(text)
    if shape is None:
        return Opened(text, fault="no-quote")
    version, kind = int(shape["version"]), shape["kind"]
    if version > VERSION:
        return Opened(text, fault="newer")
    body = bared(shape["body"])
    if body is None or kind not in "su":
        return Opened(text, fault="damaged")
    if kind == "u":
        quote = _record(version, body)
        return Opened(text, quote, fault="" if quote else "damaged")
    key, signature, rest = body[:KEY_BYTES], body[KEY_BYTES:][:SIGNATURE_BYTES], body[KEY_BYTES + SIGNATURE_BYTES :]
    quote = _record(version, rest)
    return Opened(text, quote, key.hex(), signature, message_of(version, key, rest), "" if quote else "damaged")


def _record(version: int, body: bytes) -> Quote | None:
    """The quote in squeezed bytes, or None where they hold none."""
    raw = unsqueezed(version, body, MOST_BYTES)
    if raw is None:
        return None
    try:
        value = json.loads(raw)
        if written(value) != raw:
            return None
        quote = cast(Quote, unpacked(FORM, "quote", value))
        return quote if _whole(quote) else None
    except (ValueError, RecursionError, FormError):
        return None


def _whole(quote: Quote) -> bool:
    """Whether it names only what it holds, and something at all."""
    pairs = [pair for one in quote["alternatives"] for pair in one]
    return (
        all(quote["alternatives"])
        and bool(pairs)
        and all(
            pair["frame"] < len(quote["frames"])
            and pair["lens"] < len(quote["lenses"])
            and pair["prescription"] < len(quote["prescriptions"])
            and (pair["tint"] is None or pair["tint"] < len(quote["tints"]))
            for pair in pairs
        )
    )
