"""What the engine has answered for boards: each front with each package at the powers of the bands.

The answers of a front lie together, and are read and kept together; those with one package are a text of their own in
it, which is understood when that package is asked for.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import json
from collections.abc import Callable, Collection
from contextlib import suppress
from typing import Any, cast

from quoting.kernel.lens import blank_lens
from quoting.kernel.records import Fit, Lens, Reason
from quoting.remembered import MOST_HELD, Memory, digest

LENS = tuple(blank_lens())
REASON = ("code", "verdict", "eye", "needed", "given")


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


def understood(text: object) -> dict[float, Fit]:
    """The answers with one package by power; none where the text has another form."""
    with suppress(ValueError, TypeError, RecursionError):
        return {float(power): unpacked(row) for power, row in json.loads(str(text))}
    return {}


class Front:
    """What is known of one front: by package, in the text as it was kept, and understood where it was asked for."""

    def __init__(self, texts: dict[str, object]) -> None:
        self.texts = texts
        self.known: dict[str, dict[float, Fit]] = {}

    def of(self, package: str) -> dict[float, Fit]:
        """The answers with a package, to be looked up and added to."""
        if package not in self.known:
            self.known[package] = understood(self.texts.get(package, "[]"))
        return self.known[package]

    def kept(self) -> dict[str, object]:
        """The texts, with what was added."""
        said = {}
        for package, answers in self.known.items():
            rows = [[power, row] for power, fit in answers.items() if (row := packed(fit)) is not None]
            if rows:
                said[package] = json.dumps(rows, separators=(",", ":"))
        return self.texts | said


class Fitted:
    """The answers of one shop; ``usual`` is all that they depend on beside front, package and power.

    ``packages``: the names of those there are.  What is known of others is not kept.
    """

    def __init__(self, memory: Memory, packages: Collection[str], usual: object) -> None:
        self._memory = memory
        self._packages = set(packages)
        self._usual = usual
        self._fronts: dict[str, Front] = {}
        self._new: set[str] = set()
        self._held = 0

    def get(self, front: str, package: str, power: float, work_out: Callable[[], Fit]) -> Fit:
        """The answer, worked out where it is not known."""
        if front not in self._fronts:
            if self._held >= MOST_HELD:
                self.keep()
                self._fronts, self._held = {}, 0
            self._fronts[front] = self._read(front)
        known = self._fronts[front].of(package)
        if power not in known:
            known[power] = work_out()
            self._new.add(front)
            self._held += 1
        return known[power]

    def pass_on(self, front: str) -> None:
        """Keep the answers of a front of which nothing was asked, for the next build."""
        if front not in self._fronts:
            self._memory.keep(self._key(front))

    def keep(self) -> None:
        """Write down what is new."""
        for front in sorted(self._new):
            self._memory.put(self._key(front), self._fronts[front].kept())
        self._new.clear()

    def _read(self, front: str) -> Front:
        found = self._memory.get(self._key(front))
        texts = found if isinstance(found, dict) else {}
        self._held += len(texts)
        return Front({package: text for package, text in texts.items() if package in self._packages})

    def _key(self, front: str) -> str:
        return digest(("fits", front, self._usual))
