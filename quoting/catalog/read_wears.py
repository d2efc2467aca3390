"""``wears: {tint: dusk}`` at a colorway: what its sun lenses are, so that drawings show them as they look.

``lens`` names a package of the shop that they are like, ``mirror`` a mirror, ``state`` the degrees at which a
photochromic lens is drawn dark.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeVar

from quoting.catalog.model import Package, Wears
from quoting.catalog.read_tints import Read
from quoting.catalog.table import Table
from quoting.catalog.tints import TEMPERATURES, Coat, Mix, refused
from quoting.nodes import Record

T = TypeVar("T")

EXAMPLE = "{tint: dusk}"
IDS = ("tint", "lens", "mirror")
CLEAR = "clear"
STATES = (CLEAR, *(str(degrees) for degrees in TEMPERATURES))
# Why a lens does not take a tint, to the owner
WHY = {
    "no-tint": "its material takes none",
    "too-deep": "its material takes {most} percent of the light at most, and this mix takes {depth:g}",
    "over-filter": "it is {light}, and its list has no tint over that",
    "under-coat": "so deep a tint does not go under its coat",
}


@dataclass(frozen=True)
class Worn:
    """What a colorway may name."""

    tints: Read
    packages: Table[Package]


def read_wears(colorway: Record, version: str, worn: Worn | None) -> Wears | None:
    """What the colorway wears; None where it does not say.  Without ``worn`` no name is looked up."""
    if not colorway.has("wears"):
        return None
    part = colorway.record("wears", "`wears`", example=EXAMPLE)
    mix = _found(part, "tint", "dusk", worn.tints.mixes if worn else None)
    package = _found(part, "lens", "plain-150-hard", worn.packages if worn else None)
    mirror = _found(part, "mirror", "silver", worn.tints.mirrors if worn else None)
    state = part.choice("state", STATES, default=CLEAR)
    tint, lens, over = [part.word(name, default="") if part.sound() else "" for name in IDS]
    if not part.close():
        return None
    if not (tint or lens or over):
        colorway.fault("wears", "empty-value", "`wears` names no tint, no lens and no mirror", f"write say {EXAMPLE}")
    if version == "optical":
        said = "an optical version is sold with clear demo lenses, so it wears nothing"
        colorway.fault("wears", "does-not-belong", said, "say it of the sun version, or in a combination")
    if worn is not None:
        _taken(part, mix, package, mirror is not None, worn.tints.book.coats)
        _darkens(part, package, state)
    return Wears(tint, lens, over, "" if state == CLEAR else state, colorway.mark("wears"))


def _found(part: Record, name: str, example: str, table: Table[T] | None) -> T | None:
    """What the id in a field names, where there is such a field."""
    return table.named(part, name, example) if part.has(name) and table is not None else None


def _taken(part: Record, mix: Mix | None, package: Package | None, mirrored: bool, coats: tuple[Coat, ...]) -> None:
    """Whether that lens takes the mix and the mirror."""
    if package is None:
        return
    code = refused(coats, package, mix.deepest) if mix is not None else ""
    if mix is not None and code:
        most = package.material.tint_depth
        why = WHY[code if most else "no-tint"].format(most=most, depth=mix.deepest, light=package.light)
        said = f"the lens `{package.id}` does not take the mix `{mix.id}`: {why}"
        part.fault("tint", "not-taken", said, "name another mix, or another lens")
    if mirrored and not package.treatments.mirror:
        said = f"the list of `{package.id}` has no mirror on it"
        part.fault("mirror", "not-taken", said, "name another lens, or write `mirror: yes` under its treatments")


def _darkens(part: Record, package: Package | None, state: str) -> None:
    """A state is for what darkens."""
    if state != CLEAR and (package is None or package.light != "photochromic"):
        said = "no photochromic lens is named here, so nothing darkens"
        part.fault("state", "does-not-belong", said, "name one as `lens`, or delete `state`")
