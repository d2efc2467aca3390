"""What the lens of a combination wears: lines ``Tint: dusk``, ``Mirror: silver``, ``State: 23`` beside its package.

The tint is a mix of the tint book; a photochromic lens is drawn clear where no state is named.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from pathlib import Path
from typing import TypeVar

from quoting.catalog.model import Package
from quoting.catalog.shop import Catalog
from quoting.catalog.tints import Mix
from quoting.choosing import UnknownError, pick
from quoting.findings import Finding
from quoting.light.glass import CLEAR, states, takes
from quoting.light.lens_worn import LensWorn
from quoting.prescription.wishes import Wishes
from quoting.show.tints import why_not
from quoting.site.source import mark_of

T = TypeVar("T")


def lens_of(
    catalog: Catalog, package: Package, source: Path, words: dict[str, str]
) -> tuple[LensWorn | None, list[Finding]]:
    """The lens as it is drawn, or all that keeps it from being one."""
    found: list[Finding] = []
    mix = _picked(found, source, "tint", catalog.tints.mixes, words)
    mirror = _picked(found, source, "mirror", catalog.tints.mirrors, words)
    state = words.get("state", "").strip() or CLEAR
    for key, said, hint in _doubts(catalog, package, mix, mirror is not None, state):
        found.append(Finding(mark_of(source, key), "combination-tint", said, hint))
    if found:
        return None, found
    return LensWorn(package, mix, mirror.id if mirror is not None else "", state), []


def _picked(found: list[Finding], source: Path, kind: str, table: dict[str, T], words: dict[str, str]) -> T | None:
    """What a line names; None where there is no such line, or nothing of that name, which is told."""
    wanted = words.get(kind, "").strip()
    try:
        return pick(kind, table, wanted) if wanted else None
    except UnknownError as unknown:
        hint = "ids are those of tints.yaml"
        found.append(Finding(mark_of(source, kind), "combination-unknown", str(unknown), hint))
        return None


def _doubts(
    catalog: Catalog, package: Package, mix: Mix | None, mirrored: bool, state: str
) -> list[tuple[str, str, str]]:
    """What the lens does not take: the line, what is wrong, what to do."""
    found = []
    code = takes(catalog, package, mix.deepest) if mix is not None else ""
    if mix is not None and code:
        said = f"`{package.id}` does not take the tint `{mix.id}`: {why_not(package, code)}"
        found.append(("tint", said, "show another tint, or another package"))
    if mirrored and not package.treatments.mirror:
        found.append(("mirror", f"the list of `{package.id}` has no mirror on it", "show another package"))
    known = states(catalog, package)
    if state not in known:
        said = f"`{package.id}` has no state `{state}`: there is {', '.join(known)}"
        found.append(("state", said, "name one of these, or leave the line out"))
    return found


def wishes_of(lens: LensWorn) -> Wishes:
    """The same as what a customer wishes, so that rules and prices count it."""
    if lens.mix is None:
        return Wishes(mirror=bool(lens.mirror))
    return Wishes(tint_depth=lens.mix.deepest, tint_gradient=lens.mix.fades, mirror=bool(lens.mirror))
