"""Shares of an amount and the lines of a bill, in whole cents, half a cent up."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.records import Line


def share(cents: int, basis_points: int) -> int:
    """A share of an amount, half a cent up.

    >>> share(12990, 810)
    1052
    """
    return (cents * basis_points + 5000) // 10000


def share_within(cents: int, basis_points: int) -> int:
    """The part of an amount that is tax when the amount already holds it, half a cent up.

    >>> share_within(12100, 2100)
    2100
    """
    whole = 10000 + basis_points
    return (2 * cents * basis_points + whole) // (2 * whole)


def add_line(lines: list[Line], code: str, name: str, kind: str, eye: str, count: int, cents: int) -> None:
    """Append one line; ``cents`` is for all of its pieces."""
    lines.append({"code": code, "id": name, "kind": kind, "eye": eye, "count": count, "cents": cents})
