"""One value as a person writes it in YAML: plain where that reads back as the same text, else in double quotes.

>>> scalar("Alder"), scalar("#444a52"), scalar("-2.00"), scalar("hard, blue"), scalar("hard, blue", braces=True)
('Alder', '"#444a52"', '-2.00', 'hard, blue', '"hard, blue"')
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.nodes import read_text

LONG = 1_000_000


def scalar(text: str, braces: bool = False) -> str:
    """The text as a field's value on a line of its own, and where asked within braces as well.

    What is not printable raises ValueError.
    """
    if not text.isprintable():
        raise ValueError(f"no text of one line: {text!r}")
    if text and _reads_back(f"x: {text}\n", text) and (not braces or _reads_back(f"{{x: {text}, y: 1}}\n", text)):
        return text
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'


def _reads_back(written: str, text: str) -> bool:
    root = read_text(written, "value")
    return root.text("x", most=LONG) == text and root.sound("x") and not root.findings
