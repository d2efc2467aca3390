"""Money is whole cents, read from text and written as text, never through a float.

>>> cents_from_text("129.90"), cents_from_text("129"), cents_from_text("0.5")
(12990, 12900, 50)
>>> written(12990), written(-50)
('129.90', '-0.50')
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re

AMOUNT = re.compile(r"(?P<sign>[-+]?)(?P<whole>[0-9]{1,9})(?:\.(?P<part>[0-9]{1,2}))?", re.ASCII)


def cents_from_text(text: str) -> int:
    """Cents of an amount such as ``129.90``. Raises ValueError for anything else, more than two decimals included."""
    match = AMOUNT.fullmatch(text.strip())
    if match is None:
        raise ValueError(f"not an amount of money: {text!r}")
    cents = int(match["whole"]) * 100 + int((match["part"] or "0").ljust(2, "0"))
    return -cents if match["sign"] == "-" else cents


def written(cents: int) -> str:
    """The amount with a point and two decimals."""
    sign = "-" if cents < 0 else ""
    return f"{sign}{abs(cents) // 100}.{abs(cents) % 100:02d}"


def basis_points_from_text(text: str) -> int:
    """Basis points of a percentage such as ``21`` or ``8.25``: 2100 and 825.

    >>> basis_points_from_text("8.25"), basis_points_from_text("21")
    (825, 2100)
    """
    return cents_from_text(text)
