"""The manual: a page for every reason that the engine can give, with an example worked out while it is printed."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Mapping

from quoting.kernel.quote import answer
from quoting.kernel.records import Reason
from quoting.show.brief import MEANINGS
from quoting.show.example import USUAL, changed
from quoting.show.manual_impossible import IMPOSSIBLE_PAGES
from quoting.show.manual_lens import LENS_PAGES, Page
from quoting.show.manual_traces import TRACE_PAGES, trace_page
from quoting.show.manual_wearer import WEARER_PAGES
from quoting.show.reasons import WORDS, with_numbers

PAGES: dict[str, Page] = {**LENS_PAGES, **WEARER_PAGES, **IMPOSSIBLE_PAGES}
# What each code means, also those of traces, which no answer of the engine holds
MEANT: dict[str, str] = {
    **{code: MEANINGS[code] for code in PAGES},
    **{code: page.meaning for code, page in TRACE_PAGES.items()},
}


def told(changes: Mapping[str, object]) -> dict[str, Reason]:
    """What the engine says of the usual job with these changes, by code."""
    return {reason["code"]: reason for reason in reversed(answer(changed(changes))["fit"]["reasons"])}


def changes_text(changes: Mapping[str, object]) -> str:
    """The changes of the usual job, in words.

    >>> changes_text({"eyes.sphere": -2.5, "package.mirror": True}), changes_text({})
    ('eyes.sphere −2.5, package.mirror yes', 'as it is')
    """
    rows = [f"{path} {value_text(value)}" for path, value in changes.items()]
    return ", ".join(rows) or "as it is"


def value_text(value: object) -> str:
    """A value as an owner would write it; ranges by their ends."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, list):
        ends = [f"{one['low']:g} to {one['high']:g} with cylinder to {one['cylinder']:g}" for one in value]
        return " and ".join(ends) or "none"
    return f"{value:g}".replace("-", "−") if isinstance(value, (int, float)) else str(value)


def page_dict(code: str) -> dict[str, object]:
    """A page for programs.   Raises KeyError for an unknown code."""
    if code in TRACE_PAGES:
        return trace_page(code)
    page, words = PAGES[code], WORDS[code]
    reason = told(page.failing)[code]
    return {
        "code": code,
        "verdict": reason["verdict"],
        "meaning": MEANINGS[code],
        "rule": page.rule,
        "limit": page.where,
        "source": page.source,
        "advice": page.advice,
        "usual": USUAL,
        "passes": changes_text(page.passing),
        "fails": changes_text(page.failing),
        "needed": reason["needed"],
        "given": reason["given"],
        "customer": with_numbers(words.customer, reason, words.unit),
        "exact": with_numbers(words.exact, reason, words.unit),
    }


def page_text(code: str) -> str:
    """A page for people.   Raises KeyError for an unknown code."""
    page = page_dict(code)
    verdicts = {"no": "does not fit", "caution": "fits, with a caution"}
    verdict = "no outline is made of it" if code in TRACE_PAGES else verdicts[str(page["verdict"])]
    return "\n".join(
        [
            f"{code}: {verdict}",
            str(page["meaning"]),
            "",
            f"Rule:    {page['rule']}",
            f"Limit:   {page['limit']}",
            f"Source:  {page['source']}",
            f"To do:   {page['advice']}",
            "",
            f"Example: {page['usual']}",
            f"PASS     {page['passes']}",
            f"FAIL     {page['fails']}: needed {page['needed']:g}, given {page['given']:g}",
            *([f"         {page['customer']}"] if page["customer"] else []),
            f"         ({page['exact']})",
        ]
    )


def list_text() -> str:
    """Every code with its meaning, in the order in which they are told."""
    wide = max(len(code) for code in MEANT)
    return "\n".join(f"{code:{wide}}  {meaning}" for code, meaning in MEANT.items())
