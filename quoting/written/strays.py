"""Names that nobody asked for: misspelled, or left over from a comma or a missing space."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
from collections.abc import Sequence

from quoting.written.kinds import Fault, nearest, quoted
from quoting.written.node import Node, Scalar

NO_SPACE = re.compile(r"(?P<name>[a-z_]{1,60}):(?P<value>\S.{0,200})", re.ASCII)
# What a comma between thousands leaves of a number on either side of it, or what stands before its decimal comma
BEFORE_THOUSANDS = re.compile(r"[-+]?[0-9]{1,3}", re.ASCII)
THOUSANDS = re.compile(r"[0-9]{3}(?P<part>\.[0-9]{1,2})?", re.ASCII)
GROUPED = re.compile(r"[-+]?[0-9]{1,3}(?:[.' ][0-9]{3})+", re.ASCII)
DIGITS = re.compile(r"[0-9]{1,9}", re.ASCII)


def stray(key: Scalar, value: Node, known: Sequence[str], missing: Sequence[str], noun: str) -> tuple[Fault, str]:
    """The fault of an unknown name, and the known name that was meant by it, if any."""
    if isinstance(value, Scalar) and value.empty and (fault := glued(key, known)) is not None:
        return fault
    meant = nearest(key.text, missing) or nearest(key.text, known)
    said = f"{noun} has no field {quoted(key.text)}"
    if meant:
        return Fault("unknown-key", said, f"did you mean `{meant}`?"), meant
    return Fault("unknown-key", said, "it takes " + ", ".join(known) if known else ""), ""


def glued(key: Scalar, known: Sequence[str]) -> tuple[Fault, str] | None:
    """``a:52``: a name with its value stuck to the colon."""
    found = NO_SPACE.fullmatch(key.text)
    if found is None or found["name"] not in known:
        return None
    said = f"{quoted(key.text)} is read as one word"
    return Fault("no-space", said, f"put a space after the colon: {found['name']}: {found['value']}"), found["name"]


def loose(key: Scalar, before: tuple[Scalar, Node] | None, known: Sequence[str]) -> tuple[Fault, str]:
    """A word alone in braces: the rest of a number with a decimal comma, or of a text with a comma."""
    fault = glued(key, known)
    if fault is not None:
        return fault
    said = f"{quoted(key.text)} stands alone here: inside {{ }} a comma ends a value"
    hint = "give it a value, or delete it"
    if before is not None and isinstance(before[1], Scalar):
        name, cut = before[0].text[:60], before[1].text[:200]
        hint = f'{hint}; if the comma belongs to the text, write {name}: "{cut}, {key.text[:200]}"'
        if number := _number(cut, key.text):
            hint = number.format(name=name)
    return Fault("comma-splits", said, hint), key.text if key.text in known else ""


def _number(cut: str, rest: str) -> str:
    """How to write a number that a comma cut in two; empty where it is none."""
    grouped = THOUSANDS.fullmatch(rest) if BEFORE_THOUSANDS.fullmatch(cut) else None
    if grouped is not None and grouped["part"]:
        return f"write it without thousands marks: {{name}}: {cut}{rest}"
    if grouped is not None:
        return f"write {{name}}: {cut}{rest} if the comma parts thousands, {{name}}: {cut}.{rest} if decimals"
    if GROUPED.fullmatch(cut) and DIGITS.fullmatch(rest):
        return f"write it without thousands marks: {{name}}: {re.sub('[^-+0-9]', '', cut)}.{rest}"
    if DIGITS.fullmatch(rest) and DIGITS.fullmatch(cut.lstrip("+-")):
        return f"write a decimal point, not a comma: {{name}}: {cut}.{rest}"
    return ""
