"""What is wrong with someone's data, as a value with a place and a remedy.

>>> mark = Mark("shop.yaml", 3, 6, "  a: 52,5", 4)
>>> print(Finding(mark, "not-a-length", "`a` is not a length in mm", "write a point, not a comma"))
shop.yaml:3:6: error: `a` is not a length in mm [not-a-length]
3 |   a: 52,5
  |      ^^^^
hint: write a point, not a comma
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

Severity = Literal["error", "warning", "note"]

# Control characters (Unicode category Cc) and those that turn the direction of writing (UAX #9): someone else's data
# must not move the reader's cursor
RANGES = (range(0x20), range(0x7F, 0xA0), range(0x202A, 0x202F), range(0x2066, 0x206A))
UNPRINTABLE = {code: "\ufffd" for codes in RANGES for code in codes}


def printable(text: str) -> str:
    """The text on one line, with what a terminal would obey instead of showing replaced by U+FFFD.

    >>> printable("\x1b[2Jred")
    '\ufffd[2Jred'
    """
    return text.translate(UNPRINTABLE)


@dataclass(frozen=True, slots=True, order=True)
class Mark:
    """A place in something a person wrote: line and column count from 1, as editors do."""

    file: str
    line: int
    column: int
    text: str = ""  # the whole line, to be shown
    length: int = 1  # how many characters the caret underlines

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"

    def excerpt(self) -> str:
        """The line with its number, and carets under the part that is meant.

        A long line is shown around the mark, so that the caret stays in sight.
        """
        number = str(self.line)
        start = max(0, self.column - 1 - 60) if len(self.text) > 120 else 0
        shown = printable(self.text[start : start + 120].replace("\t", " "))
        room = max(1, len(shown) - (self.column - 1 - start))
        carets = "^" * max(1, min(self.length, room))
        indent = " " * (self.column - 1 - start)
        return f"{number} | {shown}\n{' ' * len(number)} | {indent}{carets}"


@dataclass(frozen=True, slots=True)
class Finding:
    """One fault: where, which rule's word, what is wrong in the optician's words, and what to do about it."""

    mark: Mark
    code: str
    message: str
    hint: str = ""
    severity: Severity = "error"
    unchecked: str = ""  # what nobody could check because of it, such as "the rest of this file"

    def line(self) -> str:
        """One line for people: ``file:line:column: severity: message [code]``."""
        return printable(f"{self.mark}: {self.severity}: {self.message} [{self.code}]")

    def for_editor(self) -> str:
        """One line as editors jump by it: ``file:line:column: code message``."""
        return printable(f"{self.mark}: {self.code} {self.message}")

    def __str__(self) -> str:
        parts = [self.line()]
        if self.mark.text:
            parts.append(self.mark.excerpt())
        if self.hint:
            parts.append(printable(f"hint: {self.hint}"))
        if self.unchecked:
            parts.append(printable(f"not checked yet: {self.unchecked}"))
        return "\n".join(parts)

    def as_dict(self) -> dict[str, object]:
        """The same for programs."""
        return {
            "file": self.mark.file,
            "line": self.mark.line,
            "column": self.mark.column,
            "severity": self.severity,
            "code": self.code,
            "message": self.message,
            "hint": self.hint,
            "unchecked": self.unchecked,
        }


def errors(findings: Iterable[Finding]) -> list[Finding]:
    """Only those that forbid to go on."""
    return [finding for finding in findings if finding.severity == "error"]


def in_order(findings: Iterable[Finding]) -> list[Finding]:
    """By file and place, as a reader goes through them."""
    return sorted(findings, key=lambda finding: (finding.mark, finding.code))
