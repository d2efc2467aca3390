"""What was read off a lens: ``-2.27 -0.74 x 12 add=+2.00 pd=31.5 height=21 center=2.0 base=4.0 in=0 up=0``.

The power stands first, in either notation; all others are named.  What is not written was not read.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import json
import re
from dataclasses import dataclass

from quoting.kernel.records import Readings
from quoting.kernel.verified import NOT_READ, nothing_read
from quoting.orders.model import Order, Side

POWER = re.compile(
    r"(?P<sphere>[+-]?(?:[0-9]{1,2}(?:\.[0-9]{1,3})?|\.[0-9]{1,3})|pl(?:ano)?)"
    r"(?:\s*(?:DS|(?P<cylinder>[+-](?:[0-9]{1,2}(?:\.[0-9]{1,3})?|\.[0-9]{1,3}))\s*[x×@*/ ]\s*(?P<axis>[0-9]{1,3})))?",
    re.ASCII | re.IGNORECASE,
)
VALUE = re.compile(r"[+-]?[0-9]{1,3}(?:\.[0-9]{1,3})?", re.ASCII)
# Name -> field, least, greatest
NAMED = {
    "add": ("add", 0.0, 6.0),
    "in": ("prism_in", -30.0, 30.0),
    "up": ("prism_up", -30.0, 30.0),
    "pd": ("pd", 15.0, 50.0),
    "height": ("height", 1.0, 75.0),
    "center": ("center", 0.2, 30.0),
    "base": ("base", 0.0, 20.0),
    "tilt": ("segment_tilt", -45.0, 45.0),
}


class ReadingError(ValueError):
    """What was typed is no reading, in one sentence."""


def readings(text: str, eye: str) -> Readings:
    """What was typed for one eye.   Raises ReadingError."""
    written = text.replace("−", "-").replace(",", ".").strip()
    found = nothing_read()
    head = POWER.match(written)
    rest = written
    if head is not None and "=" not in written[: head.end() + 1]:
        rest = written[head.end() :]
        _power(found, head, eye)
    for part in rest.split():
        name, sign, value = part.partition("=")
        if not sign or name not in NAMED:
            raise ReadingError(f"{eye}: {part!r} is no reading; after the power write {', '.join(NAMED)} with =")
        if not VALUE.fullmatch(value):
            raise ReadingError(f"{eye}: {part!r}: {value!r} is not a number such as 31.5")
        field, low, high = NAMED[name]
        if found[field] != NOT_READ:  # type: ignore[literal-required]
            raise ReadingError(f"{eye}: {name} is written twice")
        if not low <= float(value) <= high:
            raise ReadingError(f"{eye}: {name} {value} cannot be meant: {low:g} to {high:g}")
        found[field] = float(value)  # type: ignore[literal-required]
    return found


def _power(found: Readings, head: re.Match[str], eye: str) -> None:
    sphere = 0.0 if head["sphere"].lower().startswith("pl") else float(head["sphere"])
    cylinder, axis = float(head["cylinder"] or 0), float(head["axis"] or 180)
    if head["sphere"][0] not in "+-pP" and sphere != 0:
        raise ReadingError(f"{eye}: {head['sphere']} has no sign: write + or -")
    if abs(sphere) > 40 or abs(cylinder) > 20 or not 0 <= axis <= 180:
        raise ReadingError(f"{eye}: {head[0]!r} is no power of a lens")
    found["sphere"], found["cylinder"], found["axis"] = sphere, cylinder, axis or 180.0


def ordered_readings(order: Order, side: Side) -> Readings:
    """What should be read of a lens."""
    found = nothing_read()
    multifocal = order.lens.kind in ("progressive", "bifocal")
    found["sphere"], found["cylinder"], found["axis"] = side.sphere, side.cylinder, float(side.axis)
    found["add"] = side.add if multifocal else 0.0
    found["prism_in"], found["prism_up"] = side.prism_in, side.prism_up
    found["pd"], found["center"], found["base"] = side.pd, side.center, side.base
    found["height"] = side.fitting if multifocal else side.reference
    return found


@dataclass(frozen=True, slots=True)
class Saved:
    """What the form page of an order saved."""

    found: dict[str, Readings]
    transmittance: float | None
    by: str
    standard: str
    compensated: dict[str, Readings]  # what the lab says it ground


def read_saved(raw: bytes, order: str) -> Saved:
    """The file that the form page saved; every value is held to what it can mean.   Raises ReadingError."""
    try:
        said = json.loads(raw)
        of, found = said["order"], said["found"]
        if of != order:
            raise ReadingError(f"this file is of order {of}, not of {order}")
        eyes = {name: _from_form(name, found[name]) for name in found if name in ("R", "L")}
        said_ground = said.get("compensated", {})  # an older form has none
        ground = {name: _from_form(name, said_ground[name]) for name in said_ground if name in ("R", "L")}
        through = None if said["transmittance"] is None else share_through(str(said["transmittance"]))
        by, standard = str(said["by"]), str(said["standard"])
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError) as fault:
        if isinstance(fault, ReadingError):
            raise
        raise ReadingError("this is no file that verify.html saved") from fault
    if standard not in ("ansi", "iso") or not by.isprintable() or len(by) > 80:
        raise ReadingError("this is no file that verify.html saved")
    return Saved(eyes, through, by, standard, ground)


def _from_form(eye: str, values: dict[str, float | None]) -> Readings:
    """The values of one eye, through the same words as if they were typed."""
    power = values["sphere"], values["cylinder"], values["axis"]
    if power[1] and (power[0] is None or power[2] is None):
        raise ReadingError(f"{eye}: a cylinder was read without its {'sphere' if power[0] is None else 'axis'}")
    words = [f"{power[0]:+.3f} {power[1] or 0:+.3f} x {round(power[2] or 180)}"] if power[0] is not None else []
    given = ((name, values.get(field)) for name, (field, _, _) in NAMED.items())  # an older form has fewer fields
    words += [f"{name}={value:.3f}" for name, value in given if value is not None]
    return readings(" ".join(words), eye)


def share_through(text: str) -> float:
    """Light that comes through, percent.   Raises ReadingError."""
    written = text.strip().replace(",", ".").removesuffix("%").strip()
    if not VALUE.fullmatch(written) or not 0 <= float(written) <= 100:
        raise ReadingError(f"tint: {text!r} is not a share of light from 0 to 100 percent")
    return float(written)
