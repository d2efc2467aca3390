"""Going through the pieces of a slip: look ahead, take, tell how it was read, refuse.

Every piece that is not a mere separator ends in one token or in one error; that is what `tell`, `refuse` and
`prose` are for.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from quoting.findings import Mark, Severity
from quoting.prescription.draft import Draft
from quoting.prescription.lexemes import Lexeme, Slip
from quoting.prescription.words import HARMLESS, known
from quoting.written.kinds import Fault, quoted

IGNORED = "ignored: not part of the prescription"
LABEL = "goes with the line below"
SEPARATORS = HARMLESS | frozenset("-*>_`<~!?#")


@dataclass(slots=True)
class Cursor:
    """A place among the pieces, and the draft that what is read goes into."""

    slip: Slip
    draft: Draft
    pieces: list[Lexeme]
    at: int = 0
    words: list[tuple[int, int]] = field(default_factory=list)  # ignored stretches, as positions of pieces

    @classmethod
    def over(cls, slip: Slip, draft: Draft) -> Cursor:
        """A cursor at the start of a slip."""
        return cls(slip, draft, known(slip))

    def part(self, pieces: list[Lexeme]) -> Cursor:
        """A cursor over a few pieces, such as one cell of a table."""
        return Cursor(self.slip, self.draft, pieces)

    # --- looking ---

    def next_at(self, start: int | None = None, line: bool = False) -> int:
        """Position of the next piece that is no separator; with ``line``, of a line's end if that comes first."""
        at = self.at if start is None else start
        while at < len(self.pieces) and self._separates(at, line):
            at += 1
        return at

    def peek(self, ahead: int = 0, line: bool = False) -> Lexeme | None:
        """The next piece that is no separator, or one further ahead; with ``line``, on this line only."""
        at = self.next_at(line=line)
        for _ in range(ahead):
            at = self.next_at(at + 1, line)
        if at >= len(self.pieces) or self.pieces[at].kind == "break":
            return None
        return self.pieces[at]

    def is_role(self, *roles: str, ahead: int = 0, line: bool = False) -> bool:
        """Whether the next piece plays one of these roles."""
        piece = self.peek(ahead, line)
        return piece is not None and piece.role in roles

    def is_number(self, ahead: int = 0, line: bool = False) -> bool:
        """Whether the next piece is a readable number."""
        piece = self.peek(ahead, line)
        return piece is not None and piece.kind == "number"

    def before(self, back: int = 1) -> Lexeme | None:
        """The piece before the one just taken."""
        at = self.at - 1 - back
        return self.pieces[at] if at >= 0 else None

    def _separates(self, at: int, line: bool) -> bool:
        piece = self.pieces[at]
        if piece.kind == "break":
            return not line
        return piece.kind == "symbol" and not piece.role and piece.plain in SEPARATORS

    # --- taking ---

    def take(self) -> Lexeme:
        """The very next piece."""
        self.at += 1
        return self.pieces[self.at - 1]

    def skip_to(self, line: bool = False) -> Lexeme:
        """The next piece that is no separator, taken with the separators before it."""
        self.at = self.next_at(line=line)
        return self.take()

    def accept(self, *roles: str, line: bool = True) -> list[Lexeme]:
        """The next piece if it plays one of these roles, taken; as a list of one or none."""
        return [self.skip_to(line)] if self.is_role(*roles, line=line) else []

    def accept_number(self, line: bool = False) -> list[Lexeme]:
        """The next piece if it is a number, taken; as a list of one or none."""
        return [self.skip_to(line)] if self.is_number(line=line) else []

    def accept_nothing(self) -> list[Lexeme]:
        """The word none, or a dash where a value would stand, taken: ``axis: -``."""
        at = self.at + (self.at < len(self.pieces) and self.pieces[self.at].plain in ":=")
        if at < len(self.pieces) and self.pieces[at].plain == "-":
            self.at = at
            return [self.take()]
        return self.accept("none")

    # --- telling ---

    def mark(self, parts: Sequence[Lexeme]) -> Mark:
        """The mark of neighboring pieces."""
        return self.slip.mark(parts[0].start, parts[-1].end)

    def text(self, parts: Sequence[Lexeme]) -> str:
        """Neighboring pieces as written."""
        return self.slip.text[parts[0].start : parts[-1].end]

    def tell(self, parts: Sequence[Lexeme], meaning: str) -> None:
        """Say how these pieces were read."""
        self.draft.token(self.mark(parts), self.text(parts), meaning)

    def refuse(self, parts: Sequence[Lexeme], fault: Fault, severity: Severity = "error") -> None:
        """Say that these pieces cannot be read; ``fault.said`` goes on from the quoted text.

        Of pieces on several lines the last line is marked: there stands the value, and above it its label.
        """
        line = self.slip.line_of(parts[-1].start)
        above = [part for part in parts if self.slip.line_of(part.start) < line]
        if above:
            self.tell(above, LABEL)
            parts = parts[len(above) :]
        message = f"{quoted(self.text(parts))} {fault.said}"
        self.draft.say(self.mark(parts), fault.code, message, fault.hint, severity)

    def value(self, parts: list[Lexeme], read: Callable[[str], float | Fault], plain: str = "") -> float | None:
        """The value of the last of these pieces, or None when it has none and that was told."""
        value = read(plain or parts[-1].plain)
        if isinstance(value, Fault):
            self.refuse(parts, value)
            return None
        return value

    def prose(self, piece: Lexeme) -> None:
        """Words that say nothing about the prescription; neighbors become one token."""
        at = self.at - 1
        if self.words and all(self._separates(i, line=True) for i in range(self.words[-1][1] + 1, at)):
            self.words[-1] = (self.words[-1][0], at)
        else:
            self.words.append((at, at))

    def tell_prose(self) -> None:
        """Say what was ignored."""
        for first, last in self.words:
            self.tell([self.pieces[first], self.pieces[last]], IGNORED)
        self.words.clear()


def magnitude(piece: Lexeme) -> str:
    """The number without a dash before it, where a minus makes no sense: ``PD - 63``."""
    return piece.plain[1:] if piece.role in ("dash", "apart") and piece.plain[0] == "-" else piece.plain
