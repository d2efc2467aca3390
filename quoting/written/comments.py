"""Colors without quotes: in YAML a ``#`` behind a space begins a comment, and in braces it hides their end.

>>> hiding(["a: 1 # one", "b: {name: Slate, front: #444a52}", "c: 3"], None, 2)
(1, 24)
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re

# Quotes open only where a text begins; elsewhere they are apostrophes.  Lines are cut, so that no line costs much.
PIECE = re.compile(r"""(?<![^\s\[{,:])(?:"(?:[^"\\]|\\.)*"|'(?:[^']|'')*')|[\[\]{}]|(?<=\s)\#|^\#""")
CLOSING = re.compile(r"[\]}]")
OPENING, CLOSED = ("[", "{"), ("]", "}")
LONGEST = 10_000


def hiding(lines: list[str], first: int | None, last: int, start: int = 0) -> tuple[int, int] | None:
    """The first ``#`` in these lines, from 0, that stands in the place of a value within brackets; its line and column.

    ``first``: where the bracket opens that is never closed; None where that is not known, and then only brackets that
    open in the line of the ``#`` and close behind it are looked for, from the line ``start`` on.
    """
    depth = 0
    for at in range(first if first is not None else start, min(last, len(lines) - 1) + 1):
        line = lines[at][:LONGEST]
        for piece in PIECE.finditer(line):
            sign, before, after = piece[0], line[: piece.start()].rstrip(), line[piece.end() :]
            if sign == "#":
                if depth > 0 and before.endswith(":") and (first is not None or CLOSING.search(after)):
                    return at, piece.start()
                break
            depth += (sign in OPENING) - (sign in CLOSED)
        depth = depth if first is not None else 0
    return None
