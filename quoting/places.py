"""Where theme, prose and demo shop lie: inside an installed wheel, or beside the package in a checkout."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from pathlib import Path

PACKAGE = Path(__file__).resolve().parent


def shared(name: str) -> Path:
    """The folder ``theme``, ``content`` or ``demo_catalog``.   Raises FileNotFoundError when the install is broken."""
    for candidate in (PACKAGE / "share" / name, PACKAGE.parent / name):
        if candidate.is_dir():
            return candidate
    raise FileNotFoundError(f"the folder {name!r} did not come with this install of bevelbook: install it again")
