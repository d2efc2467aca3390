"""What the engine has answered for boards: each front with each package at the powers of the bands.

The answers of a front lie together, and are read and kept together.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Callable, Collection
from contextlib import suppress
from typing import Any, cast

from quoting.kernel.lens import blank_lens
from quoting.kernel.records import Fit, Lens, Reason
from quoting.remembered import MOST_HELD, Memory, digest

LENS = tuple(blank_lens())
REASON = ("code", "verdict", "eye", "needed", "given")

# package and power
Asked = tuple[str, float]


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


class Fitted:
    """The answers of one shop; ``usual`` is all that they depend on beside front, package and power.

    ``packages``: the names of those there are.  What is known of others is not kept.
    """

    def __init__(self, memory: Memory, packages: Collection[str], usual: object) -> None:
        self._memory = memory
        self._packages = set(packages)
        self._usual = usual
        self._fronts: dict[str, dict[Asked, Fit]] = {}
        self._new: set[str] = set()
        self._held = 0

    def get(self, front: str, package: str, power: float, work_out: Callable[[], Fit]) -> Fit:
        """The answer, worked out where it is not known."""
        if front not in self._fronts:
            if self._held >= MOST_HELD:
                self.keep()
                self._fronts, self._held = {}, 0
            self._fronts[front] = self._read(front)
            self._held += len(self._fronts[front])
        known = self._fronts[front]
        if (package, power) not in known:
            known[package, power] = work_out()
            self._new.add(front)
            self._held += 1
        return known[package, power]

    def pass_on(self, front: str) -> None:
        """Keep the answers of a front of which nothing was asked, for the next build."""
        if front not in self._fronts:
            self._memory.keep(self._key(front))

    def keep(self) -> None:
        """Write down what is new."""
        for front in sorted(self._new):
            rows: dict[str, list[Any]] = {}
            for (package, power), fit in self._fronts[front].items():
                if (row := packed(fit)) is not None:
                    rows.setdefault(package, []).append([power, row])
            self._memory.put(self._key(front), rows)
        self._new.clear()

    def _read(self, front: str) -> dict[Asked, Fit]:
        found: dict[Asked, Fit] = {}
        with suppress(ValueError, TypeError, AttributeError):
            for package, rows in (self._memory.get(self._key(front)) or {}).items():
                if package in self._packages:
                    found |= {(package, float(power)): unpacked(row) for power, row in rows}
        return found

    def _key(self, front: str) -> str:
        return digest(("fits", front, self._usual))
