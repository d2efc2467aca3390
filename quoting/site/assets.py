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
    "site": ("tokens", "page", "drawing", "board", "live"),
    "print": ("print",),
    "views": ("views",),
    "quote": ("quote",),
}
# Script -> its parts in order: a part uses what those before it have made
SCRIPTS = {
    "first": ("first",),
    "site": ("core", "aloud", "offer", "ask", "panel", "paste"),
    "frame": ("section", "versions", "board"),
    "frames": ("suit", "list"),
    "answers": ("answers",),
    "views": ("front", "sitting", "map"),
    "life": ("front", "life"),
    "remedy": ("remedy",),
    "compare": ("compare",),
    "share": ("quote-form", "quote-link", "quote-made", "share"),
    "quote": ("core", "offer", "quote-form", "quote-link", "quote-trust", "quote-front", "quote-today", "quote-page"),
    "slip": ("slip-pieces", "slip-table", "slip"),
    "suit-worker": ("suit-data", "core", "offer", "suit", "suit-worker"),
}


def squeezed(script: str) -> str:
    """A script without indentation and without lines that hold a comment alone; each line stays where it was.

    No text of ours goes over the end of a line, so what begins a line is never inside one (a test holds that).

    >>> squeezed('// What follows:\\n  say("// no comment");  // but this\\n')
    '\\nsay("// no comment");  // but this\\n'
    """
    return re.sub(r"^[ \t]+", "", re.sub(r"^[ \t]*//.*$", "", script, flags=re.MULTILINE), flags=re.MULTILINE)


def sheet_of(folder: Path, parts: tuple[str, ...]) -> str:
    """The parts of a sheet as one, without comments and indentation."""
    text = "".join((folder / f"{part}.css").read_text(encoding="utf-8") for part in parts)
    lines = re.sub(r"/\*.*?\*/", "", text, flags=re.DOTALL).splitlines()
    return f"/* {NOTICE} */\n" + "".join(f"{line.strip()}\n" for line in lines if line.strip())


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
