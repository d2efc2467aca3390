"""What the wearer gets through the lenses that came back, in this frame's tilt and wrap, beside what was prescribed."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from dataclasses import dataclass, replace

from quoting.choosing import UnknownError, choice_of, pick
from quoting.issuing import Wanted
from quoting.kernel import quote
from quoting.kernel.lens import nasal
from quoting.kernel.power import crossed, minus_form
from quoting.kernel.wearing import as_worn
from quoting.offers import Ask, Offers
from quoting.ordering.making import measured_wanted, written_power
from quoting.orders.model import Order
from quoting.orders.verifying import NOT_READ, Verification
from quoting.prescription.model import EyeRx, Prescription
from quoting.show.ordered import eye_rx
from quoting.tables import eye_table

Power = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Met:
    """What one eye meets, what was prescribed, and the difference of the two as a lens."""

    eye: str
    met: Power
    prescribed: Power
    off: Power


def met_through(order: Order, one: Verification, offers: Offers) -> list[Met]:
    """For each lens whose power was read.   None where the shop has frame or lens no more, or no ray comes through."""
    try:
        package = pick("package", offers.catalog.packages, order.lens.id)
        color = next(c.id for c in offers.catalog.frames[order.frame.id].colorways if c.name == order.frame.color)
        size = f"{order.frame.a:g}-{order.frame.dbl:g}"
        choice = choice_of(offers.catalog, order.frame.id, size, color, package)
    except (UnknownError, KeyError, StopIteration):
        return []
    right, left = (None if side is None else eye_rx(side) for side in (order.right, order.left))
    wanted = measured_wanted(Wanted(choice, Ask(Prescription(right, left))), order.measured)
    job, _ = offers.job(wanted.choice, wanted.ask)
    job["measures"]["vertex"] = order.measured.vertex
    fit = quote.fit(job)
    lenses = {"R": fit["right"], "L": fit["left"]}
    told = []
    for name, side in order.sides():
        found = one.found.get(name)
        if found is None or found["sphere"] == NOT_READ:
            continue
        ordered = eye_rx(side)
        read = replace(ordered, sphere=found["sphere"], cylinder=found["cylinder"], axis=round(found["axis"]))
        worn = as_worn(job, nasal(eye_table(read), name == "L"), lenses[name])
        if not worn["flag"]:
            met = written_power(worn["sphere"], worn["cylinder"], worn["axis"], name == "L")
            told.append(Met(name, met, prescribed_of(ordered), difference(met, prescribed_of(ordered))))
    return told


def prescribed_of(rx: EyeRx) -> Power:
    """A prescription's power in minus-cylinder notation."""
    sphere, cylinder, axis = minus_form(rx.sphere, rx.cylinder, float(rx.axis))
    return sphere, cylinder, axis


def difference(one: Power, other: Power) -> Power:
    """What would have to be held before the second to make it the first, in minus-cylinder notation."""
    sphere, cylinder, axis = minus_form(*crossed([*one], [-other[0], -other[1], other[2]]))
    return round(sphere, 2), round(cylinder, 2), round(axis) or 180
