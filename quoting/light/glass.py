"""The curves that lie in a lens of the shop: its material, its treatment in one state, its surfaces.

What nobody stated is told by its name and never guessed: ``material`` (no curve: nothing is known of the ultraviolet
light), ``light`` (a treatment by its percent alone: taken as neutral), ``nothing`` (a treatment without any figure).
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeVar

from quoting.catalog.model import Package
from quoting.catalog.shop import Catalog
from quoting.catalog.tints import USUAL_TEMPERATURE, Curve, Mix, Photochromic, Polarizer, refused
from quoting.kernel import records
from quoting.kernel.coated import fresnel, transmitted
from quoting.kernel.luminous import luminous
from quoting.kernel.spectrum import flat, product

CLEAR = "clear"
T = TypeVar("T", Photochromic, Polarizer)


@dataclass(frozen=True, slots=True)
class Stack:
    """A lens in one state; ``unstated`` names what its figures do not rest on."""

    glass: records.Glass
    state: str  # "clear", or the degrees Celsius of a darkened photochromic lens
    unstated: tuple[str, ...]


def photochromic_of(catalog: Catalog, package: Package) -> Photochromic | None:
    """What is stated of its darkening."""
    return _of(catalog.tints.photochromics, package) if package.light == "photochromic" else None


def polarizer_of(catalog: Catalog, package: Package) -> Polarizer | None:
    """What is stated of its film."""
    return _of(catalog.tints.polarizers, package) if package.light == "polarized" else None


def _of(stated: tuple[T, ...], package: Package) -> T | None:
    named = next((one for one in stated if package.id in one.packages), None)
    return named or next((one for one in stated if not one.packages), None)


def states(catalog: Catalog, package: Package) -> tuple[str, ...]:
    """The states in which a lens is: one, or clear and darkened at each temperature that is stated."""
    if package.light != "photochromic":
        return (CLEAR,)
    stated = photochromic_of(catalog, package)
    return (CLEAR, *(str(degrees) for degrees in (stated.darkened if stated else (USUAL_TEMPERATURE,))))


def glass_of(catalog: Catalog, package: Package, state: str = CLEAR, mirror: str = "") -> Stack:
    """The curves of a lens in a state, mirrored or not."""
    index = fresnel(package.material.index)
    front, back = list(flat(index)), list(flat(index))
    for coat in catalog.tints.coats:
        front = list(coat.reflects) if package.coating in coat.front else front
        back = list(coat.reflects) if package.coating in coat.back else back
    bare: records.Glass = {"internal": flat(1.0), "front": front, "back": back}
    unstated = []
    material = catalog.tints.materials.get(package.material.id)
    if material is None:
        unstated.append("material")
    treatment, lacking = _treatment(catalog, package, state, bare)
    inside = product([list(material or flat(1.0)), treatment])
    if mirror:
        front = list(catalog.tints.mirrors[mirror].reflects)
    return Stack({"internal": inside, "front": front, "back": back}, state, (*unstated, *lacking))


def _treatment(catalog: Catalog, package: Package, state: str, bare: records.Glass) -> tuple[list[float], list[str]]:
    """What a photochromic or polarized lens passes between its surfaces, and what was not stated of it."""
    curve = _curve(catalog, package, state)
    if package.light == CLEAR or curve is not None:
        return list(curve or flat(1.0)), []
    percent = package.treatments.transmittance if state == CLEAR else package.treatments.darkened
    if not percent:
        return flat(1.0), ["nothing"]
    surfaces = luminous(transmitted(bare, flat(1.0)))
    return flat(min(1.0, percent / 100 / surfaces)), ["light"]


def _curve(catalog: Catalog, package: Package, state: str) -> Curve | None:
    film = polarizer_of(catalog, package)
    if film is not None:
        return film.passes
    stated = photochromic_of(catalog, package)
    if stated is None:
        return None
    return stated.clear if state == CLEAR else stated.darkened.get(int(state))


def tint_of(catalog: Catalog, mix: Mix | None) -> records.Tint:
    """A mix as the kernel reads it; None is no dye at all."""
    if mix is None:
        return {"dyes": [], "parts": [], "top": 0.0, "bottom": 0.0, "fade_from": 0.0, "fade_to": 1.0}
    return {
        "dyes": [list(catalog.tints.dyes[dye].passes) for dye in mix.parts],
        "parts": list(mix.parts.values()),
        "top": mix.top,
        "bottom": mix.bottom,
        "fade_from": mix.fade_from,
        "fade_to": mix.fade_to,
    }


def takes(catalog: Catalog, package: Package, depth: float) -> str:
    """Why a lens does not take a tint of this depth: see `quoting.catalog.tints.refused`."""
    return refused(catalog.tints.coats, package, depth)
