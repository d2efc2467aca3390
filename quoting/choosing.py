"""From what somebody says to what the catalog has: ids with a did-you-mean, numbers for two eyes.

Misuse raises UnknownError with one sentence that says what would have been right.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import replace
from difflib import get_close_matches
from typing import TypeVar

from quoting.catalog.in_language import in_language
from quoting.catalog.model import Colorway, Frame, Package, Size
from quoting.catalog.shop import Catalog
from quoting.offers import Choice, Offers
from quoting.prescription.model import Distances, Prescription

T = TypeVar("T")

# Ophthalmic lengths never need more digits than a ruler shows
NUMBER = re.compile(r"[0-9]{1,3}(?:[.,][0-9]{1,2})?", re.ASCII)


class UnknownError(ValueError):
    """Somebody named what is not there, or wrote a number that cannot be read."""


def similar(wanted: str, known: Iterable[str]) -> str:
    """``did you mean ...?`` or the list of what there is.

    >>> similar("kestrl", ["kestrel", "tarn"])
    'did you mean kestrel?'
    >>> similar("kestrl", [])
    'there is none'
    """
    names = list(known)
    close = get_close_matches(wanted, names, n=3, cutoff=0.6)
    if close:
        return f"did you mean {' or '.join(close)}?"
    shown = ", ".join(names[:12] or ["none"]) + (", ..." if len(names) > 12 else "")
    return f"there is {shown}"


def pick(kind: str, table: Mapping[str, T], wanted: str) -> T:
    """The entry of that id.   Raises UnknownError."""
    if wanted in table:
        return table[wanted]
    raise UnknownError(f"no {kind} {wanted!r}: {similar(wanted, table)}")


def size_of(frame: Frame, wanted: str) -> Size:
    """A size by ``52-18``, ``52□18`` or ``52``; the only one where nothing is said.   Raises UnknownError."""
    sizes = {size.key: size for size in frame.sizes}
    key = wanted.replace("□", "-")
    if not key and len(sizes) == 1:
        return frame.sizes[0]
    by_width = [size for size in frame.sizes if key == f"{size.a:g}"]
    if len(by_width) == 1:
        return by_width[0]
    if not key:
        raise UnknownError(f"{frame.name} comes in {len(sizes)} sizes, say which: {', '.join(sizes)}")
    return pick(f"size of {frame.name}", sizes, key)


def colorway_of(frame: Frame, wanted: str) -> Colorway:
    """A colorway by its id; the only one where nothing is said.   Raises UnknownError."""
    colors = {color.id: color for color in frame.colorways}
    if not wanted and len(colors) == 1:
        return frame.colorways[0]
    if not wanted:
        raise UnknownError(f"{frame.name} comes in {len(colors)} colorways, say which: {', '.join(colors)}")
    return pick(f"colorway of {frame.name}", colors, wanted)


def choice_of(catalog: Catalog, frame: str, size: str, color: str, package: Package) -> Choice:
    """One thing a customer can point at.   Raises UnknownError."""
    found = pick("frame", catalog.frames, frame)
    return Choice(found, size_of(found, size), colorway_of(found, color), package)


def number(text: str, what: str, low: float, high: float) -> float:
    """A length or angle within sense; a decimal comma is read as one.   Raises UnknownError.

    >>> number("31,5", "PD", 20, 40)
    31.5
    """
    if not NUMBER.fullmatch(text.strip()):
        raise UnknownError(f"{what}: {text!r} is not a number such as 31.5")
    value = float(text.strip().replace(",", "."))
    if not low <= value <= high:
        raise UnknownError(f"{what}: {value:g} is not between {low:g} and {high:g}")
    return value


def pair(text: str, what: str, low: float, high: float) -> tuple[float, float]:
    """``21/20.5`` for right and left, or one number for both.   Raises UnknownError."""
    parts = text.split("/")
    if len(parts) > 2:
        raise UnknownError(f"{what}: {text!r} is not one number nor right/left such as 21/20.5")
    values = [number(part, what, low, high) for part in parts]
    return values[0], values[-1]


def with_pd(rx: Prescription, text: str) -> Prescription:
    """The prescription with the PD that was measured: ``63`` or ``31.5/32``.   Raises UnknownError."""
    if not text:
        return rx
    if "/" in text:
        right, left = pair(text, "monocular PD", 20, 40)
        return replace(rx, pd=Distances(right=right, left=left, near=rx.pd.near))
    return replace(rx, pd=Distances(binocular=number(text, "PD", 40, 80), near=rx.pd.near))


def in_words(offers: Offers, language: str) -> Offers:
    """The engine over the same shop in the words its owner wrote for a language."""
    catalog = in_language(offers.catalog, language)
    return offers if catalog is offers.catalog else Offers(catalog, offers.day, offers.memory)


def same_choice(choice: Choice, catalog: Catalog) -> Choice:
    """A choice from the same shop in other words, in those of this catalog."""
    frame, package = catalog.frames[choice.frame.id], catalog.packages[choice.package.id]
    size = next(one for one in frame.sizes if one.key == choice.size.key)
    color = next(one for one in frame.colorways if one.id == choice.colorway.id)
    return Choice(frame, size, color, package)
