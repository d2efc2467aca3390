"""Sense of a frame's colors: which of them is sold in which version, optical or sun, and whether that is said."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterator

from quoting.catalog.model import Colorway, Frame
from quoting.catalog.shop import Catalog
from quoting.findings import Finding


def sense_of_colors(catalog: Catalog) -> Iterator[Finding]:
    """Everything that is odd about the colors of all frames."""
    for frame in catalog.frames.values():
        yield from _twice(frame)
        yield from _versions(frame)


def _twice(frame: Frame) -> Iterator[Finding]:
    """Two colorways of one name and version: customers cannot tell them apart."""
    seen: dict[tuple[str, bool], Colorway] = {}
    for one in frame.colorways:
        first = seen.setdefault((one.name.casefold(), one.sun), one)
        if first is not one:
            said = f"{one.name} of `{frame.id}` has the name and the version of `{first.id}` in line {first.mark.line}"
            hint = "give the two names that tell them apart, or delete one"
            yield Finding(one.mark, "same-color", said, hint, "warning")


def _versions(frame: Frame) -> Iterator[Finding]:
    """A sun version has its optical one, or says that there is none; both go by the name."""
    for one in frame.colorways:
        other = frame.other_version(one)
        if one.version == "sun" and other is None:
            said = f"{one.name} of `{frame.id}` is sold as a sun version only, and its colorway does not say so"
            hint = "write `version: sun-only`; or give it the name of the optical colorway that has the same color"
            yield Finding(one.mark, "sun-unsaid", said, hint, "warning")
        if one.version == "sun-only" and other is not None:
            said = f"{one.name} of `{frame.id}` says sun-only, and the colorway `{other.id}` is its optical version"
            hint = "write `version: sun`; or give the two different names, if they are different colors"
            yield Finding(one.mark, "not-sun-only", said, hint, "warning")
