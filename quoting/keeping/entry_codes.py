"""Every code a finding about the commands that add frames and packages can have, and what it means."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

ENTRY_CODES = {
    "no-place": "A list is written so that no entry can be put behind its last one.",
    "not-only-new": "With a new entry in its file, something else of the shop would read otherwise.",
}
