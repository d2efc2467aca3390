"""Names in the order in which a dictionary of the site's language has them."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any, TypeVar

from quoting.catalog.model import Frame, Package
from quoting.languages import in_order
from quoting.show import terms

Made = TypeVar("Made", Frame, Package)


def by_maker(things: Iterable[Made]) -> list[tuple[str, list[Made]]]:
    """Frames or packages by their makers, the makers by name."""
    makers: dict[str, list[Made]] = {}
    for thing in things:
        makers.setdefault(thing.maker, []).append(thing)
    return sorted(makers.items(), key=lambda group: in_order(group[0]))


def by_title(pages: Iterable[Any]) -> list[Any]:
    """Pages by their titles."""
    return sorted(pages, key=lambda page: in_order(page.title))


def choices(names: Iterable[str], said: Callable[[str], str] = str) -> list[tuple[str, str]]:
    """What one may choose among, each name once with its words, in order of these."""
    return sorted(((name, said(name)) for name in set(names)), key=lambda choice: in_order(choice[1]))


def families(frames: Iterable[Frame]) -> list[tuple[str, str]]:
    """The shapes that frames have."""
    return choices((frame.family for frame in frames), terms.family)


def mountings(frames: Iterable[Frame]) -> list[tuple[str, str]]:
    """The mountings that frames have."""
    return choices((frame.mounting for frame in frames), terms.mounting)


def makers(frames: Iterable[Frame]) -> list[tuple[str, str]]:
    """The makers of frames."""
    return choices(frame.maker for frame in frames)
