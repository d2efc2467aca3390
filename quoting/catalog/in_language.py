"""A catalog in the words that its owner wrote for another language; ids, numbers and makers are as they were."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass, replace
from typing import Any, TypeVar, cast

from quoting.catalog.read_languages import of_language
from quoting.catalog.shop import Catalog

# The fields that hold words for customers
OWN = frozenset({"name", "tagline", "about", "text", "coating", "material", "cautions", "cautions_for", "alt"})

T = TypeVar("T")


def in_language(catalog: Catalog, language: str) -> Catalog:
    """The same shop for customers who read this language."""
    words = of_language(catalog.said, language)
    return _coats_turned(_Turned(words).whole(catalog), words) if words else catalog


def _coats_turned(catalog: Catalog, words: Mapping[str, str]) -> Catalog:
    """Coats name coatings in the words of packages: they follow them, so that each lens keeps its surfaces."""

    def turned(coatings: tuple[str, ...]) -> tuple[str, ...]:
        return tuple(words.get(text, text) for text in coatings)

    coats = tuple(replace(one, front=turned(one.front), back=turned(one.back)) for one in catalog.tints.coats)
    return replace(catalog, tints=replace(catalog.tints, coats=coats))


class _Turned:
    """Turns texts; what several parts share is turned once, and is one thing afterwards, too."""

    def __init__(self, words: Mapping[str, str]) -> None:
        self.words = words
        self._known: dict[int, Any] = {}

    def whole(self, thing: T) -> T:
        """A dataclass with all of its parts."""
        if id(thing) not in self._known:
            changed: dict[str, Any] = {}
            for one in fields(cast(Any, thing)):
                before = getattr(thing, one.name)
                after = self.part(before, one.name in OWN)
                if after is not before:
                    changed[one.name] = after
            self._known[id(thing)] = replace(cast(Any, thing), **changed) if changed else thing
        return cast(T, self._known[id(thing)])

    def part(self, value: Any, own: bool) -> Any:
        """The value of a field; ``own``: what is text in it is for customers."""
        if isinstance(value, str):
            return self.words.get(value, value) if own else value
        if is_dataclass(value):
            return self.whole(value)
        if not isinstance(value, tuple | dict):
            return value
        parts = list(value.values() if isinstance(value, dict) else value)
        after = [self.part(one, own) for one in parts]
        if all(one is other for one, other in zip(parts, after, strict=True)):
            return value
        return dict(zip(value, after, strict=True)) if isinstance(value, dict) else tuple(after)


def own_texts(catalog: Catalog) -> Iterator[str]:
    """All texts for customers in the owner's files, as they stand in the catalog."""
    seen: set[int] = set()
    waiting: list[tuple[Any, bool]] = [
        (part, False)
        for part in (catalog.shop, catalog.materials, catalog.designs, catalog.packages, catalog.frames, catalog.tints)
    ] + [(catalog.price_lists or (catalog.price_list,), False)]
    while waiting:
        value, own = waiting.pop()
        if isinstance(value, str):
            if own and value:
                yield value
        elif isinstance(value, tuple | dict):
            waiting += [(one, own) for one in (value.values() if isinstance(value, dict) else value)]
        elif is_dataclass(value) and id(value) not in seen:
            seen.add(id(value))
            waiting += [(getattr(value, one.name), one.name in OWN) for one in fields(value)]
