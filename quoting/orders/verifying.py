"""A pair that came back, held against its order: every check, what it means as worn, and what is told to the lab."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Any

from quoting.kernel.records import Check, Readings
from quoting.kernel.tolerance import place_kind
from quoting.kernel.verified import lacking, lens_checks, nothing_read
from quoting.kernel.verified_pair import alone_checks, overall, pair_checks, tint_check
from quoting.orders.model import Order
from quoting.orders.readings import ordered_readings

NOT_READ = nothing_read()["sphere"]

# What follows from the power that was read, which a pass always needs; its codes depend on what was ordered
OF_POWER = ("power", "power-flatter", "power-steeper", "cylinder", "axis")


@dataclass(frozen=True, slots=True)
class Verification:
    """The checks of a pair; ``result`` is pass, fail, part where too little was read to pass, or nothing."""

    day: str
    by: str
    standard: str
    result: str
    checks: tuple[Check, ...]
    found: dict[str, Readings]
    transmittance: float | None
    compensated: dict[str, Readings]  # the powers that the lab said it ground, which are then held instead
    again: tuple[Check, ...] = ()  # what did not pass at an earlier verification and was not read at this one

    def failed(self) -> list[Check]:
        """The checks that did not pass."""
        return [one for one in self.checks if one["verdict"] == "fail"]


@dataclass(frozen=True, slots=True)
class Read:
    """What was read: by eye, and how much light comes through, percent."""

    found: dict[str, Readings]
    transmittance: float | None
    compensated: dict[str, Readings]


def verified(order: Order, read: Read, day: str, by: str, standard: str = "") -> Verification:
    """Hold everything that was read against what was ordered."""
    by_standard, kind = standard or order.standard, order.lens.kind
    empty = nothing_read()
    ordered = {name: ordered_readings(order, side) for name, side in order.sides()}
    for name, given in read.compensated.items():
        for part in ("sphere", "cylinder", "axis", "prism_in", "prism_up", "add"):
            value = given[part]
            if name in ordered and value != NOT_READ:
                ordered[name][part] = value
    checks: list[Check] = []
    for name, wanted in ordered.items():
        checks += lens_checks(by_standard, kind, name, wanted, read.found.get(name, empty))
    if len(ordered) == 2:
        found = [read.found.get(name, empty) for name in "RL"]
        checks += pair_checks(by_standard, kind, ordered["R"], ordered["L"], found)
    else:
        for name, wanted in ordered.items():
            checks += alone_checks(by_standard, kind, name, wanted, read.found.get(name, empty))
    if order.tint is not None and read.transmittance is not None:
        checks += tint_check(through_of(order), read.transmittance)
    result = overall(checks)
    if result == "pass" and any(lacking(kind, ordered[name], read.found.get(name, empty)) for name in ordered):
        result = "part"
    return Verification(
        day, by, by_standard, result, tuple(checks), read.found, read.transmittance, read.compensated
    )


def after(earlier: Iterable[Iterable[Check]], one: Verification) -> Verification:
    """The verification beside the checks of earlier ones: no pass while what failed was not read again."""
    still: dict[tuple[str, str], Check] = {}
    for checks in [*earlier, one.checks]:
        for check in checks:
            key = (check["eye"], check["code"])
            if check["verdict"] != "fail":
                still.pop(key, None)
            elif check["code"] not in OF_POWER:
                still[key] = check
    failed = one.failed()
    again = tuple(check for check in still.values() if check not in failed)
    return replace(one, again=again, result="part" if again and one.result == "pass" else one.result)


def exchanged(order: Order, one: Verification) -> bool:
    """Whether the powers that were read would pass if each lens were in the other's place."""
    if set(one.found) != {"R", "L"} or any(found["sphere"] == NOT_READ for found in one.found.values()):
        return False
    other = {"R": one.found["L"], "L": one.found["R"]}

    def passed(found: dict[str, Readings]) -> bool:
        checks = verified(order, Read(found, None, one.compensated), one.day, one.by, one.standard).checks
        return all(check["verdict"] == "pass" for check in checks if check["code"] in OF_POWER)

    return passed(other) and not passed(one.found)


def through_of(order: Order) -> float:
    """How much light should come through at the darkest place, percent: as quoted, else the lens times its tint."""
    if order.tint is not None and order.tint.through:
        return order.tint.through
    lens = order.lens.transmittance or 100.0
    return lens * (100.0 - (order.tint.depth if order.tint else 0.0)) / 100.0


def missing(order: Order, one: Verification) -> list[str]:
    """What was not read of all that could be held, so that a pass is not taken for more than it is."""
    told = []
    for name, side in order.sides():
        wanted, found = ordered_readings(order, side), one.found.get(name, nothing_read())
        told += [f"{name} power"] if found["sphere"] == NOT_READ else []
        told += [f"{name} addition"] if wanted["add"] > 0 and found["add"] == NOT_READ else []
        told += [f"{name} prism" for part in ("prism_in", "prism_up") if wanted[part] and found[part] == NOT_READ][:1]
        told += [f"{name} {part}" for part in ("pd", "height") if found[part] == NOT_READ]
        # Of multifocals places say nothing of prism: it is held where it is read, and there alone
        apart = place_kind(order.lens.kind) != "single-vision" and f"{name} prism" not in told
        told += [f"{name} prism" for part in ("prism_in", "prism_up") if apart and found[part] == NOT_READ][:1]
    if order.tint is not None and one.transmittance is None:
        told.append("tint")
    return told


def written_verification(one: Verification) -> bytes:
    """As its file holds it; None where nothing was read."""

    def plain(value: Readings) -> dict[str, Any]:
        return {name: None if number == NOT_READ else number for name, number in value.items()}

    said = {
        "day": one.day,
        "by": one.by,
        "standard": one.standard,
        "result": one.result,
        "transmittance": one.transmittance,
        "found": {name: plain(value) for name, value in one.found.items()},
        "compensated": {name: plain(value) for name, value in one.compensated.items()},
        "checks": list(one.checks),
        "again": list(one.again),
    }
    return (json.dumps(said, indent=1, ensure_ascii=False) + "\n").encode("utf-8")
