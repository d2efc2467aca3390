"""All scripts of the kernel as one classic script, which a page loads with one `<script src>`.

It declares nothing but the global `bevelKernel`; there each module has its own name, as in `bevelKernel.quote.answer`.
No ES module, no `eval`, no inline code: it works from `file://` and under `script-src 'self'`.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import PurePath


def bundle(scripts: Mapping[str, str]) -> str:
    """One script of all those that `to_js.emit` gives, in their order.

    The last line tells the runtime where each of them begins, so that an error still knows its line of Python.

    >>> print(bundle({"runtime.js": "one;\\ntwo;\\n", "power.js": "three;\\n"}), end="")
    one;
    two;
    three;
    bevelKernel.runtime.bundled(new Error(), [["runtime", 1], ["power", 3]]);
    """
    starts: list[tuple[str, int]] = []
    line = 1
    for name, script in scripts.items():
        starts.append((PurePath(name).stem, line))
        line += script.count("\n")
    return "".join(scripts.values()) + f"bevelKernel.runtime.bundled(new Error(), {json.dumps(starts)});\n"
