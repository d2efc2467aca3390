"""JSON with the place of every key: parsed without losing a digit, and without one of two equal keys vanishing.

>>> sheet = json_sheet('{"a": [1.50, {"b": null}]}', "rx.json")
>>> sheet.value, sheet.mark(("a", 1, "b")).column
({'a': [Decimal('1.50'), {'b': None}]}, 15)
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import json
import re
from dataclasses import dataclass, field
from decimal import Decimal

from quoting.findings import Finding, Mark
from quoting.prescription.lexemes import Slip
from quoting.written.kinds import quoted

Path = tuple[str | int, ...]
Json = dict[str, "Json"] | list["Json"] | str | bool | Decimal | None

MOST_CHARACTERS = 200_000  # a prescription has two thousand
MOST_DEPTH = 20  # the deepest element of a VisionPrescription lies 6 deep
LONGEST = 30  # characters of a number
NUMBER = re.compile(r"-?[0-9]+(?:\.[0-9]+)?(?:[eE][-+]?[0-9]{1,2})?")
STROKE = re.compile(r'"(?:[^"\\]|\\.)*"?|[{}\[\]]', re.DOTALL)
PIECE = re.compile(r'"(?:[^"\\]|\\.)*"|[{}\[\],:]|[^\s{}\[\],:"]+')


@dataclass(slots=True)
class JsonSheet:
    """A parsed text, the places in it, and what was wrong with it as JSON."""

    slip: Slip
    value: Json = None
    spans: dict[Path, tuple[int, int]] = field(default_factory=dict)
    findings: list[Finding] = field(default_factory=list)

    def mark(self, path: Path = ()) -> Mark:
        """The place of a key or list entry; of the nearest one around it where there is none."""
        while path and path not in self.spans:
            path = path[:-1]
        return self.slip.mark(*self.spans.get(path, (0, 1)))

    def tell(self, mark: Mark, code: str, message: str, hint: str = "") -> None:
        """Note what is wrong."""
        self.findings.append(Finding(mark, code, message, hint))


def json_sheet(text: str, name: str) -> JsonSheet:
    """Parse a text.  Nothing raises; ``findings`` is empty when all is well."""
    sheet = JsonSheet(Slip(text, name))
    if len(text) > MOST_CHARACTERS:
        said = f"this file has {len(text):,} characters; {MOST_CHARACTERS:,} are the most"
        sheet.tell(sheet.mark(), "file-too-large", said, "send the prescription alone")
    elif _depth(text) > MOST_DEPTH:
        said = f"this is nested more than {MOST_DEPTH} deep"
        sheet.tell(sheet.mark(), "too-deep", said, "send the prescription alone")
    else:
        _parse(sheet, text)
    return sheet


def shown(value: Json, most: int = 40) -> str:
    """A value as JSON has it, a text without its quotes, between backticks.

    >>> shown(True), shown(None), shown("od"), shown(Decimal("1.50")), shown({"a": [False]})
    ('`true`', '`null`', '`od`', '`1.50`', '`{"a": [false]}`')
    """
    if isinstance(value, str | Decimal):
        return quoted(str(value), most)
    return quoted(json.dumps(value, ensure_ascii=False, default=str), most)


def _parse(sheet: JsonSheet, text: str) -> None:
    body = " " + text[1:] if text.startswith("\ufeff") else text  # a byte order mark is no part of the text
    try:
        sheet.value = json.loads(body, parse_float=_number, parse_int=_number, parse_constant=_number)
    except json.JSONDecodeError as error:
        mark = sheet.slip.mark(error.pos, error.pos + 1)
        said = "this is not JSON from here on" if text.strip() else "this file is empty"
        hint = "compare it with what the sender exported: it may be cut short, or a comma or quote is missing"
        sheet.tell(mark, "not-json", said, hint)
    except ValueError as error:
        at = max(body.find(str(error)), 0)
        mark = sheet.slip.mark(at, at + len(str(error)))
        sheet.tell(mark, "not-a-number", f"{quoted(str(error))} is no number to count with", "ask the sender for it")
    else:
        _find_places(sheet, body)


def _number(text: str) -> Decimal:
    """A JSON number; what no prescription holds (NaN, hundreds of digits, huge exponents) is a ValueError."""
    if len(text) > LONGEST or NUMBER.fullmatch(text) is None:
        raise ValueError(text)
    return Decimal(text)


def _depth(text: str) -> int:
    """How deep brackets nest, those inside texts not counted."""
    depth = deepest = 0
    for found in STROKE.finditer(text):
        if found.group() in ("{", "["):
            depth += 1
            deepest = max(deepest, depth)
        elif found.group() in ("}", "]"):
            depth -= 1
    return deepest


def _find_places(sheet: JsonSheet, text: str) -> None:
    """Walk the pieces of well-formed JSON and note where each key and each list entry stands."""
    stack: list[Path] = [()]  # the path of each open object or list
    count: list[int] = [-1]  # the number of the entry in an open list; -1 in an object
    here: Path = ()
    pieces = [(found.group(), found.span()) for found in PIECE.finditer(text)]
    for (piece, span), after in zip(pieces, [*pieces[1:], ("", ("", ""))], strict=True):
        if piece in "}]":
            stack.pop()
            count.pop()
            continue
        if piece == "," and count[-1] >= 0:
            count[-1] += 1
        if piece in ",:":
            continue
        if count[-1] >= 0:
            here = (*stack[-1], count[-1])
            sheet.spans[here] = span
        elif after[0] == ":":
            here = (*stack[-1], json.loads(piece))
            _note(sheet, here, span)
        if piece in "{[":
            stack.append(here)
            count.append(0 if piece == "[" else -1)


def _note(sheet: JsonSheet, path: Path, span: tuple[int, int]) -> None:
    if path in sheet.spans:
        before = sheet.mark(path)
        said = f"the key `{path[-1]}` is there twice: see line {before.line}, column {before.column}"
        sheet.tell(sheet.slip.mark(*span), "key-twice", said, "keep the one that is meant")
    else:
        sheet.spans[path] = span
