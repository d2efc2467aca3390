"""One thing about a prescription that a human should look at, before it has a place in a text."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from dataclasses import dataclass

from quoting.findings import Severity


@dataclass(frozen=True, slots=True)
class Flag:
    """What it is about ("right sphere", "pd binocular", "written"), why, and what to do."""

    about: str
    code: str
    message: str
    hint: str
    severity: Severity = "warning"
