"""``order from``: which pair it is, and what was measured on the wearer; asked for where it is not said."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from typing import Any

from quoting.choosing import UnknownError, number, pair
from quoting.cli.common import misuse
from quoting.cli.prompting import answer, in_terminal
from quoting.findings import Finding, Mark, printable
from quoting.ordering.preparing import Begun, pairs_of
from quoting.orders.model import Measured
from quoting.quoted.register import Entry


def which_pair(entry: Entry) -> int:
    """Which pair is ordered: of two, each is measured in its own frame.   Exit code 2 where nobody can be asked."""
    if pairs_of(entry) == 1:
        return 1
    if not in_terminal():
        misuse(f"quote {entry.number} has two pairs, each to be measured in its own frame: say --pair 1 or --pair 2")
    return int(answer("It has two pairs. Which one, 1 or 2", _one_or_two))


def _one_or_two(text: str) -> Finding | None:
    return None if text in ("1", "2") else Finding(Mark("answer", 1, 1), "not-a-choice", "write 1 or 2")


def measured_of(ready: Begun, words: dict[str, Any]) -> Measured:
    """What was measured: from the options, else asked for.   Exit code 2 where nobody can be asked."""
    ask, usual, rx = in_terminal(), ready.defaults, ready.wanted.ask.rx
    if rx.right is None or rx.left is None:
        eye = "left" if rx.right is None else "right"
        pds = _one("--pd", f"Monocular PD of the {eye} eye", words["pd"], 20, 40, ask)
        heights = _one("--height", f"Pupil height of the {eye} eye", words["height"], 5, 45, ask)
    else:
        pds = _both("--pd", "Monocular PDs, right/left", words["pd"], 20, 40, ask)
        heights = _both("--height", "Pupil heights, right/left", words["height"], 5, 45, ask)
    bounds = {"vertex": (4.0, 30.0), "tilt": (0.0, 30.0), "wrap": (0.0, 35.0)}
    others, not_measured = {}, []
    for name, (low, high) in bounds.items():
        text = words[name]
        if not text and ask:
            text = answer(
                f"{name.capitalize()}, empty for the usual {usual[name]:g}", _check(name, low, high), empty=True
            )
        others[name] = number(text, name, low, high) if text else usual[name]
        not_measured += [] if text else [name]
    by = words["by"].strip() or (answer("Who measured", lambda _: None) if ask else "")
    if not by or printable(by) != by or len(by) > 80:
        misuse("say who measured with --by, on one line")
    return Measured(*pds, *heights, others["vertex"], others["tilt"], others["wrap"], by, tuple(not_measured))


def _one(option: str, question: str, text: str, low: float, high: float, ask: bool) -> tuple[float, float]:
    """Of a job for one eye; both may be written all the same."""
    if "/" in text:
        return pair(text, question, low, high)
    _needed(option, text, ask)
    value = number(text or answer(question, _check(question, low, high)), question, low, high)
    return value, value


def _needed(option: str, text: str, ask: bool) -> None:
    if not text and not ask:
        misuse(f"{option} is not said, and nobody is here to be asked: it was estimated until now")


def _both(option: str, question: str, text: str, low: float, high: float, ask: bool) -> tuple[float, float]:
    _needed(option, text, ask)
    written = text or answer(question, _check(question, low, high, both=True))
    if "/" not in written:
        raise UnknownError(f"{option}: measure each eye: write right/left such as 31.5/32")
    return pair(written, question, low, high)


def _check(what: str, low: float, high: float, both: bool = False) -> Any:
    def check(text: str) -> Finding | None:
        try:
            if both and "/" not in text:
                raise UnknownError("write right/left such as 31.5/32")
            pair(text, what, low, high) if both else number(text, what, low, high)
        except UnknownError as fault:
            return Finding(Mark("answer", 1, 1), "not-a-number", str(fault))
        return None

    return check
