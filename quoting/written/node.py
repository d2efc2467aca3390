"""What was written, before anyone asks what it means: scalars, lists and mappings with their places."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.findings import Finding, Mark

NOTHING = frozenset({"", "~", "null", "Null", "NULL"})  # plain scalars that YAML 1.1 reads as no value


class Node:
    """Something written at a place; line and column count from 0 here, as the parser does."""

    __slots__ = ("column", "line", "width")

    def __init__(self, line: int, column: int, width: int) -> None:
        self.line = line
        self.column = column
        self.width = width


class Scalar(Node):
    """One value as written; ``broken``: a fault with it was told already (an alias or a tag)."""

    __slots__ = ("broken", "plain", "text")

    def __init__(self, place: tuple[int, int, int], text: str, plain: bool, broken: bool = False) -> None:
        super().__init__(*place)
        self.text = text
        self.plain = plain  # written without quotes and not as a block of text
        self.broken = broken

    @property
    def empty(self) -> bool:
        """Whether nothing stands here."""
        return self.text in NOTHING if self.plain else not self.text.strip()


class Listing(Node):
    """A list; ``items`` in order.  ``partial``: some could not be read, which was told."""

    __slots__ = ("items", "partial")

    def __init__(self, place: tuple[int, int, int], items: list[Node]) -> None:
        super().__init__(*place)
        self.items = items
        self.partial = False


class Mapping(Node):
    """Names and their values; ``loose`` names stand in braces without a colon, as a comma leaves them.

    ``partial``: some names could not be read; ``spoiled``: one stands twice, or is none.  Both were told.
    """

    __slots__ = ("entries", "loose", "partial", "spoiled")

    def __init__(self, place: tuple[int, int, int]) -> None:
        super().__init__(*place)
        self.entries: dict[str, tuple[Scalar, Node]] = {}
        self.loose: list[Scalar] = []
        self.partial = False
        self.spoiled = False


class Sheet:
    """One file or text while it is read: its lines, what was found in it, and its fields in trade words."""

    __slots__ = ("findings", "lines", "shown", "words")

    def __init__(self, shown: str, words: dict[str, str] | None = None) -> None:
        self.shown = shown
        self.lines: list[str] = []
        self.words = words or {}
        self.findings: list[Finding] = []

    def mark(self, line: int, column: int, width: int = 1) -> Mark:
        """A place counted from 1, with the line that stands there."""
        text = self.lines[line] if line < len(self.lines) else ""
        return Mark(self.shown, line + 1, column + 1, text, max(1, min(width, len(text) - column)))

    def mark_of(self, node: Node) -> Mark:
        """The place of a node."""
        return self.mark(node.line, node.column, node.width)
