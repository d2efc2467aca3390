"""Trying a change: it is noted only where the engine, asked again, no longer tells the reasons it is against.

What comes instead must not forbid either.  The verdict that is noted is the engine's for the whole changed job.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.quote import fit
from quoting.kernel.records import Job, Reason, Remedy


def among(words: list[str], word: str) -> bool:
    """Whether a word is one of several.

    >>> among(["a", "b"], "b"), among([], "b")
    (True, False)
    """
    found = False
    for one in words:
        if one == word:
            found = True
    return found


def standing(reasons: list[Reason], codes: list[str]) -> list[str]:
    """Which of these codes are told as reasons, each once, in the order of the codes."""
    found: list[str] = []
    for code in codes:
        for reason in reasons:
            if reason["code"] == code and not among(found, code):
                found.append(code)
    return found


def forbidding(reasons: list[Reason]) -> list[str]:
    """The codes of all reasons that forbid."""
    found: list[str] = []
    for reason in reasons:
        if reason["verdict"] == "no" and not among(found, reason["code"]):
            found.append(reason["code"])
    return found


def cleared(before: list[Reason], after: list[Reason], codes: list[str]) -> bool:
    """Whether none of these codes is left, and nothing forbids that did not before."""
    if len(standing(after, codes)) > 0:
        return False
    known = forbidding(before)
    come = 0
    for code in forbidding(after):
        if not among(known, code):
            come += 1
    return come == 0


def attempt(
    found: list[Remedy], before: list[Reason], codes: list[str], changed: Job, what: str, span: list[float], number: int
) -> None:
    """Note a change, whose number may lie within ``span``, where it clears those of the codes that stand."""
    told = standing(before, codes)
    if len(told) == 0:
        return
    fitted = fit(changed)
    if cleared(before, fitted["reasons"], told):
        found.append(
            {
                "what": what,
                "codes": told,
                "low": span[0],
                "high": span[1],
                "number": number,
                "verdict": fitted["verdict"],
            }
        )
