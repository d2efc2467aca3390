"""A shop's own keys: the private ones in ``private/keys``, the public ones in ``quotes.yaml``."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import base64
from datetime import date
from pathlib import Path

from quoting.catalog.shop import QuoteKey
from quoting.quoted.private import FOLDER, folder, read_secret, write_new
from quoting.quoted.published import put, read_published, with_entry, with_more
from quoting.quoted.signing import NoKeyError, Private

KEYS = "keys"


class KeyringError(ValueError):
    """Why there is no key to sign with, or none to do something with, in one sentence."""


def file_of(shop: Path, key: str) -> Path:
    """Where the private key of that id lies."""
    return shop / FOLDER / KEYS / f"{key}.pem"


def new_key(shop: Path, day: date) -> str:
    """Make a pair of keys; the id.  The private one is written first: nobody can need one that is not there.

    Raises NotOursError, StaleError, OSError.
    """
    before, _, _ = read_published(shop)
    key = Private.new()
    public = base64.urlsafe_b64encode(key.public).decode().rstrip("=")
    after = with_entry(before, "keys", f'{{id: "{key.id}", key: "{public}", since: {day}}}')
    folder(shop, KEYS)
    write_new(file_of(shop, key.id), key.pem)
    put(shop, before, after)
    return key.id


def retire_key(shop: Path, key: str, day: date, recalled: bool) -> None:
    """Take a key out of use; what it signed before stays good unless it is called back.

    Raises KeyringError, NotOursError, StaleError, OSError.
    """
    before, keys, _ = read_published(shop)
    known = {one.id: one for one in keys}
    if key not in known or before is None:
        raise KeyringError(f"there is no key {key}" + (f": there is {', '.join(known)}" if known else ""))
    one = known[key]
    if one.retired is not None and (one.recalled or not recalled):
        raise KeyringError(f"the key {key} has been out of use since {one.retired}")
    words = [] if one.retired is not None else [f"retired: {max(day, one.since)}"]
    words += ["recalled: yes"] if recalled else []
    put(shop, before, with_more(before, key, ", ".join(words)))


def state_of(shop: Path, key: QuoteKey) -> str:
    """What a key is good for, in words."""
    if key.recalled:
        return "called back"
    if key.retired is not None:
        return f"out of use since {key.retired}"
    return "signs" if file_of(shop, key.id).exists() else "its private key is not on this machine"


def signing_key(shop: Path) -> Private:
    """The newest key that is in use.   Raises KeyringError, OpenToOthersError, OSError."""
    _, keys, _ = read_published(shop)
    usable = [key for key in keys if key.retired is None and not key.recalled]
    here = [key for key in usable if file_of(shop, key.id).exists()]
    if not here:
        more = f": the private key of {usable[0].id} is not in {FOLDER}/{KEYS}" if usable else ""
        raise KeyringError(f"there is no key to sign with{more}; make one with `bevelbook keys new`")
    path = file_of(shop, here[0].id)
    try:
        key = Private.from_pem(read_secret(path))
    except NoKeyError as fault:
        raise KeyringError(f"{path}: {fault}") from fault
    if key.id != here[0].id:
        raise KeyringError(f"{path} holds another key than its name says")
    return key
