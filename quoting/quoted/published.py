"""``quotes.yaml`` as the commands change it: the newest line first, every other byte as it was.

>>> first = with_entry(None, "keys", "{id: 3f9a2b1c}")
>>> print(with_entry(first, "keys", "{id: 5ce86efb}").decode())
# What the site publishes of your quotes, so that anybody can see whether one is good.
# Written by `bevelbook keys` and `bevelbook quotes withdraw`; the newest stands first.
keys:
  - {id: 5ce86efb}
  - {id: 3f9a2b1c}
<BLANKLINE>
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from datetime import date
from pathlib import Path

from quoting.catalog.read_quotes import QUOTES, read_quotes
from quoting.catalog.shop import QuoteKey
from quoting.findings import Mark, errors
from quoting.keeping.splice import replaced
from quoting.keeping.whole import write_all
from quoting.nodes import Record, read_text
from quoting.quoted.trust import number_hash

HEAD = """# What the site publishes of your quotes, so that anybody can see whether one is good.
# Written by `bevelbook keys` and `bevelbook quotes withdraw`; the newest stands first.
"""


class NotOursError(ValueError):
    """The file is not laid out as the commands write it; what to write by hand is said in one sentence."""


def read_published(shop: Path) -> tuple[bytes | None, tuple[QuoteKey, ...], tuple[str, ...]]:
    """The file, None where there is none, and what it says.   Raises NotOursError where it has faults."""
    path = shop / QUOTES
    raw = path.read_bytes() if path.exists() else None
    if raw is None:
        return None, (), ()
    root = _record(raw)
    keys, withdrawn = read_quotes(root)
    if errors(root.findings):
        raise NotOursError(f"{path} has faults: see `bevelbook check`")
    return raw, keys, withdrawn


def put(shop: Path, before: bytes | None, after: bytes) -> None:
    """Write the file.   Raises NotOursError where it would have faults, StaleError where somebody else wrote it."""
    root = _record(after)
    read_quotes(root)
    if errors(root.findings):
        raise NotOursError(f"{shop / QUOTES} is not laid out as this command writes it, and was left as it is")
    path = shop / QUOTES
    write_all(shop, {path: after}, {path: before})


def with_entry(raw: bytes | None, section: str, entry: str) -> bytes:
    """The file with one more entry, before all others of its section.   Raises NotOursError."""
    if raw is None:
        return f"{HEAD}{section}:\n  - {entry}\n".encode()
    root = _record(raw)
    if not root.has(section):
        end = b"" if raw.endswith(b"\n") else b"\n"
        return raw + end + f"{section}:\n  - {entry}\n".encode()
    first = root.records(section, "this entry")[0].mark()
    before = first.text[: first.column - 1]
    if before.strip() != "-":
        raise NotOursError(f"{first}: put this line before it by hand: - {entry}")
    start = Mark(first.file, first.line, 1, first.text, 0)
    return replaced(raw, [(start, f"{before}{entry}\n")])


def with_more(raw: bytes, key: str, words: str) -> bytes:
    """The file with more said of one key, such as ``retired: 2027-01-01``.   Raises NotOursError."""
    part = next(one for one in _record(raw).records("keys", "this key") if one.form("id", ".*", "", "") == key)
    since = part.mark("since")
    if not since.text[: since.column].lstrip().startswith("- {"):
        raise NotOursError(f"{since}: write `{words}` beside it by hand")
    after = Mark(since.file, since.line, since.column + since.length, since.text, 0)
    return replaced(raw, [(after, f", {words}")])


def publish_withdrawn(shop: Path, number: str, day: date) -> None:
    """Publish that a quote is withdrawn: the hash of its number, and nothing else of it.

    Raises NotOursError, StaleError, OSError.
    """
    before, _, withdrawn = read_published(shop)
    digest = number_hash(number)
    if digest not in withdrawn:
        put(shop, before, with_entry(before, "withdrawn", f'{{hash: "{digest}", on: {day}}}'))


def _record(raw: bytes) -> Record:
    return read_text(raw.decode("utf-8", "replace"), QUOTES)
