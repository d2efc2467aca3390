"""What a shop keeps about light: dyes, what lens materials and treatments pass, coats and mirrors, and its mixes.

Curves are spectra of the kernel: shares from 0 to 1, 280 to 780 nm by 5.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from quoting.catalog.model import Package
from quoting.findings import Mark

Curve = tuple[float, ...]
# Degrees Celsius at which a darkened state may be stated: ISO 12312-1 and ISO 8980-3 name these three
TEMPERATURES = (5, 23, 35)
USUAL_TEMPERATURE = 23


@dataclass(frozen=True, slots=True)
class Dye:
    """A dye by what it passes at depth 1."""

    id: str
    name: str
    passes: Curve
    mark: Mark = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Photochromic:
    """What a photochromic lens passes between its surfaces: clear, and darkened by degrees Celsius.

    Without packages it is every photochromic lens that no other one names; so it is with polarizers.
    """

    id: str
    name: str
    packages: tuple[str, ...]
    clear: Curve
    darkened: dict[int, Curve]
    mark: Mark = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Polarizer:
    id: str
    name: str
    packages: tuple[str, ...]
    passes: Curve
    mark: Mark = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Coat:
    """What a coat leaves a surface to reflect; ``tint_depth`` is the deepest tint that may lie under it, 100: any.

    ``front`` and ``back`` are the coatings, in the words of packages, that lay it on that side.
    """

    id: str
    name: str
    reflects: Curve
    front: tuple[str, ...]
    back: tuple[str, ...]
    tint_depth: int
    mark: Mark = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Mirror:
    id: str
    name: str
    reflects: Curve
    mark: Mark = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Mix:
    """A mix of the tint book: parts of dyes, and the percent of light that the dye takes at both ends."""

    id: str
    name: str
    code: str  # as the lab or the bench knows it
    parts: dict[str, float]  # id of a dye -> parts
    top: float
    bottom: float
    fade_from: float  # shares of the box from its top
    fade_to: float
    about: str
    mark: Mark = field(compare=False, repr=False)

    @property
    def fades(self) -> bool:
        """Whether it is a gradient."""
        return self.top != self.bottom

    @property
    def deepest(self) -> float:
        """Percent of light that it takes where it is darkest."""
        return max(self.top, self.bottom)


@dataclass(frozen=True, slots=True)
class TintBook:
    dyes: dict[str, Dye] = field(default_factory=dict)
    materials: dict[str, Curve] = field(default_factory=dict)  # what each passes between its surfaces
    photochromics: tuple[Photochromic, ...] = ()
    polarizers: tuple[Polarizer, ...] = ()
    coats: tuple[Coat, ...] = ()
    mirrors: dict[str, Mirror] = field(default_factory=dict)
    mixes: dict[str, Mix] = field(default_factory=dict)


NO_TINTS = TintBook()


def refused(coats: Iterable[Coat], package: Package, depth: float) -> str:
    """Why a lens does not take a tint that takes so many percent of the light at its darkest: a code, or "".

    ``too-deep`` for its material, ``under-coat`` for its coat, ``over-filter`` where its list has no tint over it.
    """
    if depth > package.material.tint_depth:
        return "too-deep"
    if package.light != "clear" and not package.treatments.tint_over:
        return "over-filter"
    lying = (one for one in coats if package.coating in (*one.front, *one.back))
    return "under-coat" if any(depth > coat.tint_depth for coat in lying) else ""
