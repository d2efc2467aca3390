"""The form of a verification as one page that works offline on a tablet, with the kernel's own checks in it."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from markupsafe import Markup

from quoting.calculators.model import KINDS, shown
from quoting.catalog.shop import Shop
from quoting.kernel.records import Readings
from quoting.kernel.verified import NOT_READ
from quoting.orders.model import Order
from quoting.orders.readings import NAMED, ordered_readings
from quoting.orders.verifying import through_of
from quoting.places import shared
from quoting.show.clauses import AS_PRISM, HELD, STANDARDS, TOLERANCES, WHAT
from quoting.site.assets import NOTICE, script_of, sheet_of
from quoting.site.bench_page import digest
from quoting.site.page_data import compact
from quoting.site.sheet_page import environment
from quoting.site.to_js import emit, kernel_paths
from quoting.site.to_js_bundle import bundle

ROOTS = {
    "calculators": ["rounded"],
    "verified": ["lacking", "lens_checks"],
    "verified_pair": ["alone_checks", "pair_checks", "tint_check", "overall"],
}
# Field, label, kind of its number
FIELDS = (
    ("sphere", "Sphere", "power"),
    ("cylinder", "Cylinder", "power"),
    ("axis", "Axis", "axis"),
    ("add", "Addition", "power"),
    ("prism_in", "Prism base in (minus: out)", "toward"),
    ("prism_up", "Prism base up (minus: down)", "toward"),
    ("pd", "From the middle of the bridge", "mm"),
    ("height", "Height", "mm"),
    ("center", "Center thickness", "fine"),
    ("base", "Base curve", "plain"),
    ("segment_tilt", "Tilt of the segment's line", "angle"),
)
# What a lab says of a compensated power
GROUND = ("sphere", "cylinder", "axis", "add", "prism_in", "prism_up")
LIMITS = {"sphere": (-40, 40), "cylinder": (-20, 20), "axis": (0, 180), "tint": (0, 100)}


@cache
def kernel_script() -> str:
    """The kernel's checks, emitted once a process."""
    return bundle(emit(kernel_paths(), short=True, roots=ROOTS))


def verify_page(order: Order, _: Shop) -> str:
    """The whole file; of the wearer only the order's number is in it."""
    theme = shared("theme")
    sheets = sheet_of(theme / "static" / "css", ("tokens",)) + sheet_of(theme / "bench", ("bench", "verify"))
    style = sheets.replace(f"/* {NOTICE} */\n", "")
    ordered = {name: ordered_readings(order, side) for name, side in order.sides()}
    bifocal = order.lens.kind == "bifocal"
    limits = LIMITS | {field: (low, high) for field, low, high in NAMED.values()}
    data = {
        "id": order.id,
        "kind": order.lens.kind,
        "ordered": ordered,
        "through": through_of(order),
        "fields": [name for name, _, _ in FIELDS],
        "labels": {name: label.partition(" (")[0].lower() for name, label, _ in FIELDS} | {"tint": "light through"},
        "limits": limits,
        "kinds": KINDS,
        "held": {code: (WHAT[code], *rest) for code, rest in HELD.items()},
        "tolerances": TOLERANCES,
        "asPrism": AS_PRISM,
        "NOT_READ": NOT_READ,
    }
    kernel = kernel_script()
    own = script_of(theme / "bench", ("verify",))
    script = f"{kernel}globalThis.bevelOrder={compact(data)};\n{own}"
    return (
        environment()
        .get_template("verify.html")
        .render(
            order=order,
            standards=STANDARDS,
            eyes=[(name, list(_fields(found, bifocal))) for name, found in ordered.items()],
            ground=GROUND,
            through=shown("percent", through_of(order)),
            style=Markup(style),
            style_hash=digest(style),
            script=Markup(script),
            script_hash=digest(script),
        )
    )


def _fields(ordered: Readings, bifocal: bool) -> Iterator[tuple[str, str, str, str]]:
    """Field, label, unit, what was ordered."""
    for name, label, kind in FIELDS:
        value = ordered[name]  # type: ignore[literal-required]
        if name == "add" and not value:
            continue
        if name == "segment_tilt" and not bifocal:
            continue
        if name == "axis" and not ordered["cylinder"]:
            value = NOT_READ
        yield name, label, KINDS[kind][2], shown(kind, value) if value != NOT_READ else ""
