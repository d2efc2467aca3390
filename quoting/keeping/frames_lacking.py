"""What a table of frames has no column for, and how to give it instead: values there are, options to fill in."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from quoting.catalog.shop import Catalog
from quoting.findings import Finding, Mark
from quoting.keeping.adding import FRAMES
from quoting.keeping.entries import Entry
from quoting.keeping.frame_words import CHOICES
from quoting.keeping.questions import COLORWAYS, SIZES, Question, frame_questions

# What every frame must have
NEEDED = (
    *("maker", "name", "family", "mounting", "material", "curve", "wrap", "tilt"),
    *("a", "b", "dbl", "ed", "temple", "color", "version", "price", "front", "temples", "stock"),
)
OPEN = "..."  # stands in a proposed option where nobody but the owner knows the value
MOST = 8  # so many headings or values stand in one sentence
# What is usual, where nothing of the shop says it (practice)
EXAMPLES = {"curve": "4", "wrap": "5", "tilt": "8", "a": "52", "b": "38", "dbl": "18", "ed": "55.5", "temple": "145"}
EXAMPLES |= {"price": "129.00", "front": "#444a52", "temples": "#444a52"}


def lacking(found: Iterable[str], fixed: Iterable[str]) -> list[str]:
    """The fields that no column and no option holds; a size as on temples holds three."""
    there = {*found, *fixed}
    there |= {"a", "dbl", "temple"} if "size" in there else set()
    return [name for name in NEEDED if name not in there]


def no_columns(missing: Sequence[str], mark: Mark, unused: Sequence[str], catalog: Catalog) -> list[Finding]:
    """A finding for each field that every frame must have, and nothing of the table says."""
    heads = f" (not used yet: {_some(unused)})" if unused else ""
    found = []
    for name in missing:
        value = EXAMPLES.get(name, "VALUE") + _known(name, catalog)
        hint = f"name its column with --column {name}=HEADING{heads}, or give all rows one with --set {name}={value}"
        words = f"the {FRAMES.words[name]} `{name}`" if name in FRAMES.words else f"`{name}`"
        found.append(Finding(mark, "no-column", f"no column holds {words}", hint))
    return found


def options(missing: Iterable[str], catalog: Catalog, maker: str) -> list[str]:
    """Options that give what is missing, with what is usual for a frame of this maker; OPEN where nobody knows.

    A table without a color gets one for all its rows.
    """
    asked = [*frame_questions(catalog, maker), *SIZES.questions, *COLORWAYS.questions]
    nothing: Entry = {}
    usual = {one.name: one.usual(nothing) for one in asked if isinstance(one, Question)}
    return [part for name in missing for part in ("--set", f"{name}={usual.get(name, '') or OPEN}")]


def _known(name: str, catalog: Catalog) -> str:
    """Which values are possible, or which the shop has."""
    if name in CHOICES:
        return f", one of {_some(CHOICES[name])}"
    frames = catalog.frames.values()
    there: Mapping[str, Iterable[str]] = {
        "maker": (one.maker for one in frames),
        "material": (one.material for one in frames),
        "color": (color.name for one in frames for color in one.colorways),
    }
    known = tuple(dict.fromkeys(there.get(name, ())))
    return f"; the shop has {_some(known)}" if known else ""


def _some(words: Sequence[str]) -> str:
    more = f" and {len(words) - MOST} more" if len(words) > MOST else ""
    return ", ".join(words[:MOST]) + more


def field_to_add(missing: Finding) -> str:
    """The field that is missing, by what the finding says to add."""
    return re.split(r"[: ]", missing.hint.removeprefix("add "), maxsplit=1)[0]


def for_options(fault: Finding) -> Finding:
    """A fault of the column of prices, with the option that helps here."""
    hints = {
        "point-or-comma": "say which parts hundredths: --decimal comma or --decimal point",
        "not-a-price": "correct the cell, or name another column with --column price=HEADING",
    }
    return replace(fault, hint=hints.get(fault.code, fault.hint))
