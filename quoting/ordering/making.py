"""From an accepted quote to an order: the fit once more, with what was measured in place of what was estimated."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date

from quoting.issuing import Wanted
from quoting.kernel import quote, records
from quoting.kernel.layout import fitting_height
from quoting.kernel.lens import nasal
from quoting.kernel.wearing import as_worn
from quoting.offers import Measures, Offers
from quoting.orders.model import (
    FORM,
    Changed,
    Measured,
    Order,
    OrderedFrame,
    OrderedLens,
    Side,
    Tint,
    Told,
)
from quoting.prescription.model import Distances, EyeRx
from quoting.quoted import records as quoted
from quoting.show.reasons import exact, told_once
from quoting.tables import eye_table, true_ed

WISHES = ("mirror", "blue_filter", "slab_off", "rush", "sport", "one_eyed", "driving", "night_driving")


@dataclass(frozen=True, slots=True)
class Asked:
    """Which pair of which quote, and what is said beyond what was measured."""

    id: str
    quote: str
    letter: str
    pair: int
    customer: str
    standard: str
    tint: Tint | None = None
    note: str = ""
    overruled: str = ""


@dataclass(frozen=True, slots=True)
class Made:
    """The order, and why it cannot be made unless that is overruled."""

    order: Order
    refusals: tuple[str, ...]


def measured_wanted(wanted: Wanted, measured: Measured) -> Wanted:
    """The same wishes with what was measured."""
    rx = wanted.ask.rx
    pd = Distances(right=measured.pd_right, left=measured.pd_left, near=rx.pd.near)
    measures = Measures(
        measured.height_right, measured.height_left, measured.tilt, measured.wrap, wanted.ask.measures.child
    )
    return replace(wanted, ask=replace(wanted.ask, rx=replace(rx, pd=pd), measures=measures))


def made(asked: Asked, wanted: Wanted, pair: quoted.Pair, measured: Measured, offers: Offers) -> Made:
    """The order of one pair.  Lenses that cannot be ground at all leave their side empty of figures: then it raises.

    Raises ValueError where a lens cannot be made.
    """
    one = measured_wanted(wanted, measured)
    job, _ = offers.job(one.choice, one.ask)
    job["measures"]["vertex"] = measured.vertex
    fit = quote.fit(job)
    eyes = (("R", one.ask.rx.right, fit["right"]), ("L", one.ask.rx.left, fit["left"]))
    sides = {name: _side(name, eye, lens, job, measured) for name, eye, lens in eyes if eye is not None}
    reasons = told_once(fit["reasons"])
    told = tuple(
        Told(reason["code"], reason["verdict"], reason["eye"], exact(reason, one.choice.package)) for reason in reasons
    )
    refusals = [reason.text for reason in told if reason.verdict == "no"]
    refusals += _too_old(one.ask.rx.written, offers)
    choice, wishes = one.choice, one.ask.wishes
    order = Order(
        FORM, asked.id, asked.quote, asked.letter, asked.pair, offers.day.isoformat(), asked.customer,
        _frame(one), _lens(one), sides.get("R"), sides.get("L"),
        one.ask.rx.written.isoformat() if one.ask.rx.written else "",
        measured, fit["verdict"], told, asked.overruled,
        tuple(_wish(name, one, offers) for name in WISHES if getattr(wishes, name)),
        asked.tint if wishes.tint_depth else None,
        asked.standard, asked.note,
        tuple(changes(pair, sides, measured, fit["verdict"], offers.catalog.packages[choice.package.id].name)),
    )  # fmt: skip
    return Made(order, tuple(refusals))


def _wish(name: str, one: Wanted, offers: Offers) -> str:
    mirror = offers.catalog.tints.mirrors.get(one.ask.mirror) if name == "mirror" else None
    return f"mirror {mirror.name}" if mirror is not None else name.replace("_", "-")


def _too_old(written: date | None, offers: Offers) -> list[str]:
    months = offers.catalog.shop.prescription_months
    if written is None:
        return []
    age = (offers.day.year - written.year) * 12 + offers.day.month - written.month - (offers.day.day < written.day)
    return [f"the prescription of {written} is older than {months} months"] if age >= months else []


def _side(name: str, eye: EyeRx, lens: records.Lens, job: records.Job, measured: Measured) -> Side:
    left = name == "L"
    if lens["fault"]:
        word = "left" if left else "right"
        raise ValueError(f"the {word} lens cannot be made: {lens['fault']}")
    own = nasal(eye_table(eye), left)
    worn = as_worn(job, own, lens)
    pupil = measured.height_left if left else measured.height_right
    return Side(
        eye.sphere, eye.cylinder, eye.axis, eye.add, eye.prism_in, eye.prism_up,
        measured.pd_left if left else measured.pd_right,
        round(lens["height"], 2),
        round(fitting_height(job["package"]["kind"], pupil), 2),
        lens["base_curve"], round(lens["center"], 2), round(lens["edge_max"], 2), lens["edge_max_at"],
        round(lens["edge_min"], 2), lens["edge_min_at"], round(lens["blank_exact"], 2), lens["blank_largest"],
        round(lens["decentration_in"], 2), round(lens["decentration_up"], 2), round(lens["weight"], 2),
        None if worn["flag"] else written_power(worn["sphere"], worn["cylinder"], worn["axis"], left),
        written_power(worn["order_sphere"], worn["order_cylinder"], worn["order_axis"], left)
        if worn["converged"] and not worn["flag"] else None,
    )  # fmt: skip


def written_power(sphere: float, cylinder: float, axis: float, left: bool) -> tuple[float, float, float]:
    """A power of the nasal frame as it is written."""
    seen = (180.0 - axis) % 180.0 if left else axis % 180.0
    return round(sphere, 2), round(cylinder, 2), round(seen) or 180


def _frame(one: Wanted) -> OrderedFrame:
    frame, size, color = one.choice.frame, one.choice.size, one.choice.colorway
    return OrderedFrame(
        frame.id, frame.maker, frame.name, frame.mounting, frame.material, color.name, size.label,
        size.a, size.b, size.dbl, true_ed(size), size.temple, frame.curve, size.outline is not None, color.sun,
        frame.family,
        None if frame.groove is None else (frame.groove.width, frame.groove.depth),
        tuple((hole.inward, hole.up, hole.diameter) for hole in size.holes),
    )  # fmt: skip


def _lens(one: Wanted) -> OrderedLens:
    pack = one.choice.package
    return OrderedLens(
        pack.id, pack.maker, pack.name, pack.design.name, pack.design.kind, pack.material.name, pack.material.index,
        pack.light, pack.coating, pack.finished, pack.design.position_of_wear, pack.material.impact_resistant,
        pack.treatments.transmittance,
    )  # fmt: skip


def changes(pair: quoted.Pair, sides: dict[str, Side], measured: Measured, verdict: str, package: str) -> list[Changed]:
    """What differs from the quote, in the order of the sheet; what is the same to the printed digit is left out."""
    used = pair["measures"]
    rows = [
        ("R", "PD R", used["used_pd_right"] / 100, measured.pd_right, "mm"),
        ("L", "PD L", used["used_pd_left"] / 100, measured.pd_left, "mm"),
        ("R", "pupil height R", used["used_height_right"] / 100, measured.height_right, "mm"),
        ("L", "pupil height L", used["used_height_left"] / 100, measured.height_left, "mm"),
    ]
    for name, part in (("R", pair["right"]), ("L", pair["left"])):
        side = sides.get(name)
        if part is not None and side is not None:
            rows += [
                (name, f"thickest edge {name}", part["edge_max"] / 100, side.edge_max, "mm"),
                (name, f"center {name}", part["center"] / 100, side.center, "mm"),
                (name, f"weight {name}", part["weight"] / 100, side.weight, "g"),
            ]
    found = [
        Changed(what, f"{old:.1f} {unit}", f"{new:.1f} {unit}")
        for eye, what, old, new, unit in rows
        if eye in sides and f"{old:.1f}" != f"{new:.1f}"
    ]
    if pair["verdict"] != verdict:
        found.append(Changed(f"{package} in this frame", pair["verdict"], verdict))
    return found
