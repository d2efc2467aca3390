"""``data/engine.js``: the part of the kernel that the pages need, as one script."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import ast
from functools import cache
from pathlib import Path

from quoting.site.assets import squeezed
from quoting.site.subset_facts import KERNEL
from quoting.site.to_js import emit, kernel_paths
from quoting.site.to_js_bundle import bundle

# What the scripts of the theme call: the answer to a job, the section they draw, the range that fits
ROOTS = ("quote", "section", "ranges")


def imported(path: Path) -> set[str]:
    """The modules of the kernel that one of them names in its imports."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    froms = [node.module or "" for node in tree.body if isinstance(node, ast.ImportFrom)]
    return {name.removeprefix(KERNEL) for name in froms if name.startswith(KERNEL)}


def needed(paths: dict[str, Path]) -> list[Path]:
    """The modules from the roots on down."""
    found: dict[str, Path] = {}
    waiting = list(ROOTS)
    while waiting:
        name = waiting.pop()
        if name in paths and name not in found:
            found[name] = paths[name]
            waiting += imported(paths[name])
    return list(found.values())


@cache
def engine_script() -> str:
    """The script, emitted once a process; lines stay.   Raises OutsideSubsetError where the kernel left its subset."""
    return squeezed(bundle(emit(needed({path.stem: path for path in kernel_paths()}), short=True)))
