"""Files that cannot be read as YAML at all: what is wrong in plain words, at the place a person must look at."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import codecs
import re
from dataclasses import dataclass

from quoting.findings import Finding, Mark
from quoting.written.comments import hiding
from quoting.written.encodings import SAVE_AS, other_than_utf8, said_of
from quoting.written.node import Sheet

# YAML 1.2.2, section 5.1, production [1] c-printable, without the line breaks that editors do not count as such,
# and without the controls that turn the direction of writing (UAX #9), which make a line look like another
UNPRINTABLE = re.compile(
    "[^\t\n\r\x20-\x7e\xa0-\u2027\u202f-\u2065\u206a-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]"
)
BREAK = re.compile(r"\r\n|\r|\n")
INDICATED = re.compile(r"\b(?:alias|anchor|tag|block scalar)\b")  # begun by a character that means something in YAML
ESCAPE = re.compile(r"escape|hexdecimal")  # the second is libyaml's spelling
Place = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Trouble:
    """What the parser said, with its places counted from 0."""

    problem: str
    context: str
    at: Place | None
    since: Place | None  # where the thing began that went wrong
    first: int = 0  # the line in which what was read begins
    ended: bool = False  # whether it went wrong because nothing more was there


@dataclass(frozen=True, slots=True)
class Plain:
    """The same in plain words; ``at_start``: shown where the thing began."""

    problem: str  # what the parser's words hold, here and in the context
    context: str
    code: str
    message: str
    hint: str
    at_start: bool = False


NOT_YAML = Plain(
    "", "", "not-yaml", "this cannot be read as YAML", "compare it with the lines above, or put the text in quotes"
)
# The words of libyaml and of its Python twin; the first row that fits counts.
PLAINLY = (
    Plain(
        "mapping values are not allowed",
        "",
        "not-yaml",
        "a name with a colon cannot stand here",
        "check how far the line is indented; a text with a colon in it belongs in quotes",
    ),
    Plain(
        "could not find expected ':'",
        "",
        "not-yaml",
        "this line has no colon after its name",
        "write a name, a colon, a space and the value",
        True,
    ),
    Plain(
        "sequence entries are not allowed",
        "",
        "not-yaml",
        "a list cannot begin here",
        "put each - on a line of its own; a text that begins with - belongs in quotes",
    ),
    Plain(
        "expected '-' indicator",
        "",
        "not-yaml",
        "this line does not belong to the list above it",
        "begin it with -, or check how far it is indented",
    ),
    Plain("node content", "", "not-yaml", "a bracket closes here that was never opened", "delete it, or open it"),
    Plain("incompatible", "", "not-yaml", "this asks for another version of YAML", "delete the line with %YAML"),
    Plain(
        "document start",
        "",
        "second-document",
        "a second document begins here; one file holds one",
        "delete the line ---, or put the rest in another file",
    ),
    Plain(
        "",
        "block mapping",
        "not-yaml",
        "this line does not go on where the lines above left off",
        "check how far it is indented, and that text after a closing quote is inside the quotes",
    ),
    Plain(
        "",
        "block collection",
        "not-yaml",
        "this line does not belong to the list above it",
        "begin it with -, or check how far it is indented",
    ),
)


def lines_of(text: str) -> list[str]:
    """The lines as they can be shown: what cannot be seen is shown as a replacement character."""
    return BREAK.split(UNPRINTABLE.sub("\ufffd", text))


def decoded(raw: bytes, sheet: Sheet) -> str | None:
    """The text of a file saved as UTF-8, with or without byte order mark; or None, told."""
    if encoding := other_than_utf8(raw):
        sheet.findings.append(Finding(sheet.mark(0, 0), "not-utf-8", said_of(encoding), SAVE_AS))
        return None
    body = raw.removeprefix(codecs.BOM_UTF8)
    try:
        return body.decode("utf-8")
    except UnicodeDecodeError as error:
        sheet.lines = lines_of(body.decode("utf-8", "replace"))
        before = BREAK.split(body[: error.start].decode("utf-8", "replace"))
        said = "this character is not written in UTF-8, as the rest of the file must be"
        mark = sheet.mark(len(before) - 1, len(before[-1]))
        sheet.findings.append(Finding(mark, "not-utf-8", said, SAVE_AS))
        return None


def first_unprintable(text: str, sheet: Sheet) -> bool:
    """Whether the text holds a character nobody can see and YAML does not allow; the first one is told."""
    found = UNPRINTABLE.search(text)
    if found is None:
        return False
    before = BREAK.split(text[: found.start()])
    mark = sheet.mark(len(before) - 1, len(before[-1]))
    said = f"an invisible character (U+{ord(found[0]):04X}) stands here"
    sheet.findings.append(Finding(mark, "invisible-character", said, "delete it, or type the line anew"))
    return True


def syntax_fault(trouble: Trouble, sheet: Sheet) -> Finding:
    """The parser's trouble as a finding."""
    if "cannot start any token" in trouble.problem or "tab character" in trouble.problem:
        return _bad_start(trouble, sheet)
    if "nesting depth" in trouble.problem:
        said = "brackets are opened over and over here"
        return Finding(_mark(trouble.at or (0, 0), sheet), "too-deep", said, "close each bracket where it ends")
    if ESCAPE.search(trouble.problem):
        said = "a backslash means something special in double quotes"
        return Finding(_mark(trouble.at or (0, 0), sheet), "not-yaml", said, "use single quotes around the value")
    if "quoted scalar" in trouble.context:
        mark = _mark(trouble.since or (0, 0), sheet)
        return Finding(mark, "unclosed-quote", "a quote opens here and is never closed", "close it where the text ends")
    if INDICATED.search(trouble.context) or "tag handle" in trouble.problem:
        return _bad_start(trouble, sheet)
    if "flow" in trouble.context:
        return _in_bracket(trouble, sheet)
    for plain in PLAINLY:
        if plain.problem in trouble.problem and plain.context in trouble.context:
            break
    else:
        plain = NOT_YAML
    place = (trouble.since if plain.at_start else trouble.at) or trouble.at or (0, 0)
    return Finding(_mark(place, sheet), plain.code, plain.message, plain.hint)


def _bad_start(trouble: Trouble, sheet: Sheet) -> Finding:
    mark = _mark(trouble.since or trouble.at or (0, 0), sheet)
    if "tab character" in trouble.problem:
        mark = _mark(trouble.at or (0, 0), sheet)
    character = mark.text[mark.column - 1 : mark.column]
    if character in {"\t", ""}:
        return Finding(mark, "tab", "a tab stands where the line is indented", "indent with spaces only")
    return Finding(mark, "not-yaml", f"a text cannot begin with {character}", "put it in quotes")


def _in_bracket(trouble: Trouble, sheet: Sheet) -> Finding:
    """A color without quotes hides the end of its bracket, and the parser trips over a later line."""
    node = "flow node" in trouble.context
    first = trouble.since[0] if trouble.since is not None and not node else None
    place = hiding(sheet.lines, first, (trouble.at or (0, 0))[0], trouble.first)
    if place is not None:
        said = "an unquoted # begins a comment, so the bracket that opens before it is never closed"
        return Finding(sheet.mark(*place), "unclosed-bracket", said, 'put the color in quotes, such as "#3b2a1e"')
    if node or trouble.since is None:
        said = "a bracket is not closed before this, or a value is missing"
        hint = "look for a [ or { without its end, or a comma too many"
        return Finding(_mark(trouble.at or (0, 0), sheet), "unclosed-bracket", said, hint)
    return _bracket(trouble, trouble.since, sheet)


def _bracket(trouble: Trouble, since: Place, sheet: Sheet) -> Finding:
    opened, closing = ("[", "]") if "sequence" in trouble.context else ("{", "}")
    at = trouble.at or since
    if at[0] == since[0] and not trouble.ended:
        mark = _mark(at, sheet)
        return Finding(
            mark,
            "unclosed-bracket",
            f"a comma or the closing {closing} is missing before this",
            f"the {opened} stands at column {since[1] + 1}; a text with a colon or comma belongs in quotes",
        )
    mark = _mark(since, sheet)
    said = f"the {opened} that opens here is never closed"
    return Finding(mark, "unclosed-bracket", said, f"put {closing} where it ends")


def _mark(place: Place, sheet: Sheet) -> Mark:
    line, column = place
    last = len(sheet.lines) - 1
    if line > last or (line == last and last > 0 and not sheet.lines[last]):
        line = max(0, last - 1)  # the end of the file: show the last line that holds something
        column = len(sheet.lines[line])
    return sheet.mark(line, column)
