"""``languages/es.yaml``: what an owner wrote in the shop's files, in the words of another language.

A text is named as it stands there, so nothing else in the files changes; what has no words here stays as it is.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from quoting.catalog.shop import Said
from quoting.languages import languages
from quoting.nodes import Record
from quoting.written.kinds import meant_hint

FOLDER = "languages"
EXAMPLE = "{text: Black, say: Negro}"


def read_said(root: Record, path: Path) -> list[Said]:
    """All that one file says, in the order written; its name is that of a language."""
    language, known = path.stem, languages()
    found = []
    for part in root.records("texts", "this text", example=EXAMPLE):
        one = Said(language, part.prose("text", example="Black"), part.prose("say", example="Negro"), part.mark("text"))
        if part.close():
            found.append(one)
    if language not in known:
        said = f"this file must be named after one of the languages {', '.join(known)}, not `{language}`"
        root.fault("texts", "not-a-choice", said, meant_hint(language, known) or f"such as {known[-1]}.yaml")
    root.close()
    told: set[str] = set()
    for one in found:
        if one.text in told:
            root.fault("texts", "duplicate-id", f"`{short(one.text)}` is written twice", "delete one of the two")
        told.add(one.text)
    return found


def short(text: str, most: int = 40) -> str:
    """The beginning of a text, where all of it would be too much.

    >>> short("An estimate until a licensed optician has checked it.")
    'An estimate until a licensed optician …'
    """
    return text if len(text) <= most else f"{text[:most].rpartition(' ')[0]} …"


def of_language(all_said: Iterable[Said], language: str) -> dict[str, str]:
    """Text -> its words in a language."""
    return {one.text: one.say for one in all_said if one.language == language and one.say}


