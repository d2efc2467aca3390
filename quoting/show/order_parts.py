"""The parts of an order's papers: a title with rows, each a label with one value or with one for each eye."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from dataclasses import dataclass

PRESCRIPTION, CENTRATION, LENS, FRAME, TINT = "prescription", "centration", "lens", "frame", "tint"


@dataclass(frozen=True, slots=True)
class Row:
    label: str
    values: tuple[str, ...]  # one, or right and left


@dataclass(frozen=True, slots=True)
class Part:
    title: str
    rows: tuple[Row, ...]
    what: str = ""  # which part it is, whatever language its title is in

    @property
    def both(self) -> bool:
        """Whether its rows have a value for each eye."""
        return any(len(row.values) > 1 for row in self.rows)
