"""Options that a package lists, and that its other properties never allow: the rules are those of kernel/treatments."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterator

from quoting.catalog.model import Package
from quoting.catalog.shop import Catalog
from quoting.findings import Finding

MARKED = {"mirror": "a mirror", "blue_filter": "a blue filter", "tint_over": "a tint over its other filter"}


def sense_of_options(catalog: Catalog) -> Iterator[Finding]:
    """Each option that is listed in vain, with what stands against it."""
    for package in catalog.packages.values():
        for option, words in MARKED.items():
            against = AGAINST[option](package) if getattr(package.treatments, option) else ()
            if against:
                said = f"the package `{package.id}` lists {words} (`{option}`), but {'; '.join(against)}"
                hint = f"correct it as the maker states it, or take `{option}` out: nobody can order it like this"
                yield Finding(package.mark, "never-allowed", said, hint, "warning")


def takes_tint(package: Package) -> bool:
    """Whether any tint is possible at all."""
    return package.material.tint_depth > 0 and (package.light == "clear" or package.treatments.tint_over)


def takes_mirror(package: Package) -> bool:
    """Whether a mirror is possible, with whatever else is chosen."""
    return package.treatments.mirror and not _against_mirror(package)


def _against_mirror(package: Package) -> tuple[str, ...]:
    found = []
    if not package.treatments.back_ar:
        found.append("a mirror needs an anti-reflective back (`back_ar`)")
    if package.light != "polarized" and not takes_tint(package):
        found.append("a mirror goes over a tint or a polarized lens, and this one takes no tint")
    return (*found, *_against_second(package))


def _against_second(package: Package) -> tuple[str, ...]:
    """Several special treatments at once need a word of the maker."""
    if package.light == "clear" or package.treatments.double_use:
        return ()
    return (f"it is {package.light} already, and two such treatments at once are not listed (`double_use`)",)


def _against_tint(package: Package) -> tuple[str, ...]:
    return () if package.material.tint_depth else ("its material takes no tint (`tint_depth`)",)


AGAINST = {"mirror": _against_mirror, "blue_filter": _against_second, "tint_over": _against_tint}
