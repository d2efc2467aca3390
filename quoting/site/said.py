"""What Pelican says about a file of prose, in plain words and at the line it is about."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

from quoting.findings import Finding, Mark
from quoting.site.source import lines_of, mark_of, mark_of_damage, mark_of_text

HINT = "mend this file; prose is Markdown with `Title:`, `Date:` and `Summary:` at its top"
EXAMPLES = {"title": "`Title: Choosing a frame`", "date": "`Date: 2026-09-02`"}
# How docutils refuses to put a file or an address into a page (`file_insertion_enabled`)
TAKES_IN = re.compile(r".*?:(?P<line>[0-9]+): .*(?:directive disabled|access deactivated)", re.IGNORECASE)
Cause = BaseException | None


def not_processed(source: Path, _: tuple[str, ...], cause: Cause) -> Finding:
    """A file that cannot be read at all."""
    if isinstance(cause, UnicodeDecodeError):
        return Finding(mark_of_damage(source), "prose", "this file is not saved as UTF-8", "save it as UTF-8")
    written = re.match(r"['\"](.*)['\"] is not a valid date", str(cause))
    if isinstance(cause, ValueError) and written:
        hint = f"write year, month and day, such as {EXAMPLES['date']}"
        return Finding(mark_of_text(source, written[1]), "prose", f"`{written[1]}` is not a date", hint)
    name = re.search(r"property '(\w+)' of", str(cause))
    if isinstance(cause, AttributeError) and name:
        said = f"the name `{name[1].capitalize()}:` cannot be used at the top of a file"
        return Finding(mark_of(source, name[1]), "prose", said, "give the line another name, or delete it")
    taking = TAKES_IN.match(str(cause))
    if taking:
        number = int(taking["line"])
        mark = Mark(str(source), number, 1, lines_of(source)[number - 1])
        return Finding(mark, "prose", "this line would take another file into the page", "write here what is in it")
    return Finding(Mark(str(source), 1, 1), "prose", f"this file cannot be read: {cause}", HINT)


def missing(source: Path, words: tuple[str, ...], _: Cause) -> Finding:
    """No title, or no date where one must be."""
    key = words[1]
    said = f"this file has no `{key.capitalize()}:` at its top"
    hint = f"write it before the first empty line, such as {EXAMPLES.get(key, 'the others')}"
    return Finding(mark_of(source, key), "prose", said, hint)


def outside(source: Path, words: tuple[str, ...], _: Cause) -> Finding:
    """A page that climbs."""
    said = f"this page would be written to `{words[1]}`, outside of the site"
    return Finding(mark_of(source, "save_as", "slug"), "prose", said, "write a `Slug:` of letters, digits and hyphens")


def status(source: Path, words: tuple[str, ...], _: Cause) -> Finding:
    """A word that is no status."""
    said = f"`{words[0]}` is not a status"
    return Finding(mark_of(source, "status"), "prose", said, "write `Status: published`, `hidden` or `draft`")


def no_words(source: Path, words: tuple[str, ...], _: Cause) -> Finding:
    """A picture without a description."""
    said = f"the picture `{words[0]}` has no words for those who do not see it"
    hint = "write what it shows, such as `![A pilot frame from the side]({static}/images/side.jpg)`"
    return Finding(mark_of_text(source, words[0]), "no-alt", said, hint, "warning")


def wrong_word(source: Path, words: tuple[str, ...], _: Cause) -> Finding:
    """A link to a picture or a paper as if it were an article."""
    said = f"`{words[0]}` is no article or page"
    return Finding(mark_of_text(source, words[0]), "prose", said, "write {static} instead of {filename}", "warning")


def not_copied(source: Path, words: tuple[str, ...], _: Cause) -> Finding:
    """A picture that cannot be read."""
    return Finding(Mark(str(source), 1, 1), "unreadable-file", f"this file cannot be copied to the site: {words[2]}")


Say = Callable[[Path, tuple[str, ...], Cause], Finding]

# How Pelican's message begins, and what it is for us.  A link that leads nowhere is found on the built page, with its
# line, whether Pelican noticed it or not: quoting/site/links.py.
SAYINGS: dict[str, Say | None] = {
    "Could not process %s": not_processed,
    "Skipping %s: could not find information about": missing,
    "Skipping %s: file %r would be written outside": outside,
    "Unknown status '%s' for file %s": status,
    "Empty alt attribute for image %s in %s": no_words,
    "{filename} used for linking to static": wrong_word,
    "A problem occurred copying file %s to %s": not_copied,
    "Unable to find '%s', skipping url replacement": None,
    "Replacement Indicator %r not recognized": None,
}


def known(message: str) -> tuple[bool, Say | None]:
    """Whether we know what begins like this, and who says it in our words; None where somebody else does."""
    for beginning, say in SAYINGS.items():
        if message.startswith(beginning):
            return True, say
    return False, None
