"""What the engine has answered for the boards of a shop, kept from one build to the next.

Whether a lens fits and how thick it gets does not depend on a price: so after a change of prices a build need not ask
the engine again.  An answer is found only under everything that it depends on, the engine's own text included; what is
not found is computed as ever.  The file lies in the user's cache (XDG Base Directory Specification) and may be deleted
at any time; one that cannot be read or written costs time and nothing else.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import json
import os
from contextlib import suppress
from functools import cache
from hashlib import blake2b
from pathlib import Path
from typing import Any, cast

from quoting import kernel
from quoting.kernel.lens import blank_lens
from quoting.kernel.records import Fit, Lens, Reason

LENS = tuple(blank_lens())
REASON = ("code", "verdict", "eye", "needed", "given")


def digest(value: object) -> str:
    """A short name for plain data; the same for the same data, in every process."""
    return blake2b(repr(value).encode(), digest_size=12).hexdigest()


@cache
def engine() -> str:
    """The name of the engine as its text stands."""
    folder = Path(kernel.__path__[0])
    return digest([(path.name, path.read_text(encoding="utf-8")) for path in sorted(folder.glob("*.py"))])


def cache_file(shop: Path) -> Path:
    """Where the answers for a shop lie.   Raises RuntimeError where the user has no home."""
    root = os.environ.get("XDG_CACHE_HOME", "")
    base = Path(root) if Path(root).is_absolute() else Path.home() / ".cache"
    return base / "bevelbook" / f"fits-{digest(str(shop.resolve()))}.json"


def packed(fit: Fit) -> list[Any] | None:
    """An answer as a short list; None for one whose two lenses differ, which no board asks for."""
    if fit["left"] != fit["right"]:
        return None
    reasons = [[cast(dict[str, Any], reason)[name] for name in REASON] for reason in fit["reasons"]]
    return [fit["verdict"], reasons, [cast(dict[str, Any], fit["right"])[name] for name in LENS]]


def unpacked(row: list[Any]) -> Fit:
    """The answer of such a list.   Raises ValueError or TypeError for what is none."""
    verdict, reasons, values = row
    lens = cast(Lens, dict(zip(LENS, values, strict=True)))
    told = [cast(Reason, dict(zip(REASON, one, strict=True))) for one in reasons]
    return {"verdict": verdict, "reasons": told, "right": lens, "left": lens}


class Memory:
    """The answers of earlier builds, and those of this one."""

    def __init__(self, file: Path | None) -> None:
        self.file = file
        self._known: dict[str, list[Any]] = read(file) if file else {}
        self._used: dict[str, list[Any]] = {}
        self._new = False

    @classmethod
    def of(cls, shop: Path) -> Memory:
        """The memory of a shop's folder."""
        try:
            return cls(cache_file(shop))
        except (OSError, RuntimeError):
            return cls(None)

    def get(self, key: str) -> Fit | None:
        """What is known under a key."""
        row = self._known.get(key)
        if row is None:
            return None
        try:
            found = unpacked(row)
        except (ValueError, TypeError):
            return None
        self._used[key] = row
        return found

    def put(self, key: str, fit: Fit) -> None:
        """Keep an answer."""
        row = packed(fit)
        if row is not None and self.file:
            self._used[key] = row
            self._new = True

    def save(self) -> None:
        """Write what this build has used, and nothing that it has not, whole or not at all."""
        if self.file is None or not (self._new or len(self._used) < len(self._known)):
            return
        text = json.dumps({"engine": engine(), "fits": self._used}, separators=(",", ":"))
        side = self.file.with_name(f"{self.file.name}.{os.getpid()}")
        try:
            self.file.parent.mkdir(parents=True, exist_ok=True)
            side.write_text(text, encoding="utf-8")
            side.replace(self.file)
        except OSError:
            return
        finally:
            with suppress(OSError):
                side.unlink(missing_ok=True)


def read(file: Path) -> dict[str, list[Any]]:
    """The answers of this very engine in a file; none where there are none."""
    try:
        found = json.loads(file.read_text(encoding="utf-8"))
        fits = found["fits"] if found["engine"] == engine() else {}
    except (OSError, ValueError, TypeError, KeyError, RecursionError):
        return {}
    return fits if isinstance(fits, dict) else {}
