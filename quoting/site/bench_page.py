"""The calculators as one page for the bench: one file, nothing from elsewhere; the kernel works in it as in a page."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import base64
import hashlib
from typing import Any

from markupsafe import Markup

from quoting.calculators.model import KINDS, Calculator, Result, shown
from quoting.calculators.table import TABLE
from quoting.places import shared
from quoting.site.assets import NOTICE, script_of, sheet_of
from quoting.site.page_data import compact
from quoting.site.sheet_page import environment
from quoting.site.to_js import emit, kernel_paths
from quoting.site.to_js_bundle import bundle

# What the drawings ask beside the calculators
DRAWN = {"outline": ["from_box"]}


def digest(text: str) -> str:
    """What a policy calls a script or style that stands within the page."""
    return "sha256-" + base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()


def named(one: Calculator) -> tuple[str, str]:
    """Module and function of the kernel by which the page calls it."""
    return one.call.__module__.rpartition(".")[2], one.call.__name__


def bench_script() -> str:
    """The kernel's calculators, the table of them, the drawings, and what joins them."""
    roots: dict[str, list[str]] = {**DRAWN, "calculators": ["rounded"]}
    for one in TABLE:
        module, function = named(one)
        roots[module] = [*roots.get(module, []), function]
    table: dict[str, Any] = {
        "kinds": KINDS,
        "calculators": [one.as_dict() | dict(zip(("module", "call"), named(one), strict=True)) for one in TABLE],
    }
    own = script_of(shared("theme") / "bench", ("draw", "bench"))
    return f"{bundle(emit(kernel_paths(), short=True, roots=roots))}globalThis.bevelBench={compact(table)};\n{own}"


def answers() -> dict[str, list[tuple[Result, str]]]:
    """What each calculator's example comes to: what stands there without script."""
    return {one.name: list(zip(one.results, one.told(one.answer(one.values({}))), strict=True)) for one in TABLE}


def bench_page() -> str:
    """The whole file."""
    theme = shared("theme")
    tokens = sheet_of(theme / "static" / "css", ("tokens",))
    style = tokens + sheet_of(theme / "bench", ("bench",)).replace(f"/* {NOTICE} */\n", "")
    script = bench_script()
    return (
        environment()
        .get_template("bench.html")
        .render(
            calculators=TABLE,
            answers=answers(),
            shown=shown,
            units={kind: unit for kind, (_, _, unit) in KINDS.items()},
            style=Markup(style),
            style_hash=digest(style),
            script=Markup(script),
            script_hash=digest(script),
        )
    )
