"""Style and scripts of the pages: the small files of the theme, joined into the few that a page asks for.

A page waits for each sheet before it shows anything, so there is one; what is for paper comes beside it and keeps
nobody waiting.  A script is deferred or comes when it is needed, as the reader of slips and the drawings of a chosen
lens do.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
import shutil
from pathlib import Path

NOTICE = "SPDX-License-Identifier: AGPL-3.0-or-later"

# Sheet -> its parts in order: what comes later may differ from what comes before
SHEETS = {
    "site": ("tokens", "page", "front", "drawing", "board", "live"),
    "print": ("print",),
    "views": ("views",),
    "picked": ("picked",),
    "quote": ("quote",),
    "tints": ("tints",),
}
# What a front takes along that is a file of its own
FRONT = ("tokens", "front")
# Script -> its parts in order: a part uses what those before it have made
SCRIPTS = {
    "first": ("first",),
    "site": ("core", "aloud", "offer", "ask", "panel", "paste"),
    "frame": ("section", "versions", "rows", "board"),
    "frames": ("cheapest", "suit", "list"),
    "answers": ("cheapest", "answers"),
    "views": ("lens-paint", "front", "sitting", "contours", "map"),
    "life": ("lens-paint", "front", "life"),
    "remedy": ("remedy",),
    "tints": ("tints",),
    "tinge": ("tinge",),
    "mixing": ("mixing",),
    "tinted": ("lens-paint", "front", "tint-frame"),
    "compare": ("compare",),
    "share": ("quote-form", "quote-link", "quote-made", "share", "picked-tint", "options", "detail"),
    "quote": ("core", "offer", "quote-form", "quote-link", "quote-trust", "quote-today", "quote-page"),
    "quote-front": ("quote-front",),
    "quote-tint": ("lens-paint", "quote-tint"),
    "slip": ("slip-pieces", "slip-table", "slip", "slip-box"),
    "suit-worker": ("suit-data", "core", "offer", "cheapest", "suit", "suit-worker"),
}


# Texts as they are, and what needs no blank before or after it.  + and - do: a - -b is not a--b.  A slash with a blank
# on either side divides; one that begins or ends a pattern stands close to something on one side
APART = re.compile(r"""("(?:[^"\\]|\\.)*"|'(?:[^'\\]|\\.)*')|[ \t]*([{}()\[\];,:?<>=&|!*])(?! / )[ \t]*| (/) """)

# Texts as they are, and what is said of a line behind it
SAID = re.compile(r"""("(?:[^"\\]|\\.)*"|'(?:[^'\\]|\\.)*')| // .*$""")

# What of a sheet may lose the blanks beside it; no text in our sheets holds any of these
CLOSER = (": ", "; ", ", ", " { ", " {\n", " }")


def squeezed(script: str) -> str:
    """A script without comments and without needless blanks; each line stays where it was.

    No text of ours goes over the end of a line (a test holds that).  A line with a slash that does not divide may hold
    a pattern, one with a backtick a template: these lose their indentation alone.

    >>> squeezed('// What follows:\\n  say("a, b", c / 2); // halved\\n  say(/a, b/);\\n')
    '\\nsay("a, b",c/2);\\nsay(/a, b/);\\n'
    """
    return "\n".join(_line(line.strip()) for line in script.split("\n"))


def _line(line: str) -> str:
    if line.startswith("//"):
        return ""
    if "`" not in line:
        line = SAID.sub(lambda found: found[1] or "", line)
    code = APART.sub(lambda found: found[2] or "", line)
    if "/" in code or "`" in code:
        return line
    return APART.sub(lambda found: found[1] or found[2] or found[3], line)


def sheet_of(folder: Path, parts: tuple[str, ...]) -> str:
    """The parts of a sheet as one, without comments and needless blanks."""
    text = "".join((folder / f"{part}.css").read_text(encoding="utf-8") for part in parts)
    lines = re.sub(r"/\*.*?\*/", "", text, flags=re.DOTALL).splitlines()
    text = "".join(f"{line.strip()}\n" for line in lines if line.strip())
    for spaced in CLOSER:
        text = text.replace(spaced, spaced.strip(" \n"))
    return f"/* {NOTICE} */\n{text}"


def script_of(folder: Path, parts: tuple[str, ...]) -> str:
    """The parts of a script as one."""
    text = "".join(squeezed((folder / f"{part}.js").read_text(encoding="utf-8")) for part in parts)
    return f"// {NOTICE}\n" + "".join(f"{line}\n" for line in text.splitlines() if line)


def write_assets(static: Path, output: Path) -> None:
    """``theme/`` of a site from ``static`` of the theme.   Raises OSError."""
    for folder, wholes, make in (("css", SHEETS, sheet_of), ("js", SCRIPTS, script_of)):
        (output / folder).mkdir(parents=True)
        for name, parts in wholes.items():
            (output / folder / f"{name}.{folder}").write_text(make(static / folder, parts), encoding="utf-8")
    for path in static.iterdir():
        if path.is_file():
            shutil.copyfile(path, output / path.name)
