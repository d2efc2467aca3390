"""An offer as a quote that stands by itself: everything in it is written down, whatever the shop changes afterwards."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, fields
from datetime import date
from typing import TypeVar

from quoting.catalog.model import Package
from quoting.kernel.records import Lens as Made
from quoting.offers import Ask, Choice, Offer, Offers
from quoting.prescription.model import EyeRx, Prescription
from quoting.prescription.wishes import Wishes
from quoting.quoted import records
from quoting.quoted.positional import day_number
from quoting.show.lines import line_key, line_words
from quoting.show.reasons import told_once
from quoting.show.tint_record import mirror_record, passed_records, tint_record
from quoting.tables import true_ed
from quoting.terms import line_name

T = TypeVar("T")

FLAGS = tuple(one.name for one in fields(Wishes) if one.name != "tint_depth")


@dataclass(frozen=True, slots=True)
class Asked:
    """One pair of glasses: what a customer asked for, and the engine's answer."""

    offer: Offer
    ask: Ask
    changed: Mapping[str, tuple[int, str]] = field(default_factory=dict)  # by line: listed, why


@dataclass(frozen=True, slots=True)
class Issue:
    """What makes offers a quote."""

    number: str
    issued: date
    expires: date
    note: str = ""


def quote_record(alternatives: Sequence[Sequence[Asked]], issue: Issue, offers: Offers) -> records.Quote:
    """The quote; each alternative is one pair or two."""
    frames: list[records.Frame] = []
    lenses: list[records.Lens] = []
    prescriptions: list[records.Prescription] = []
    tints: list[records.Tint] = []
    pairs = [
        [
            pair_record(
                one,
                offers,
                _at(frames, frame_record(one.offer.choice)),
                _at(lenses, lens_record(one.offer.choice.package)),
                _at(prescriptions, prescription_record(one.ask.rx)),
                None if one.ask.mix is None else _at(tints, tint_record(one.ask.mix, offers.catalog)),
            )
            for one in together
        ]
        for together in alternatives
    ]
    return {
        "number": issue.number,
        "issued": day_number(issue.issued),
        "expires": day_number(issue.expires),
        "price_list": offers.catalog.price_list.version,
        "currency": offers.catalog.shop.currency,
        "region": offers.region(alternatives[0][0].ask.region).id,
        "frames": frames,
        "lenses": lenses,
        "prescriptions": prescriptions,
        "alternatives": pairs,
        "note": issue.note,
        "tints": tints,
    }


def _at(found: list[T], one: T) -> int:
    """Where it stands in the list; it is put there where it does not."""
    if one not in found:
        found.append(one)
    return found.index(one)


def hundredths(value: float) -> int:
    """Lengths, angles, weights as the form has them."""
    return round(value * 100)


def thousandths(value: float) -> int:
    """Powers as the form has them."""
    return round(value * 1000)


def _maybe(value: float | None) -> int | None:
    return None if value is None else hundredths(value)


def frame_record(choice: Choice) -> records.Frame:
    """The frame in its size and colorway."""
    frame, size, color = choice.frame, choice.size, choice.colorway
    return {
        "id": frame.id,
        "maker": frame.maker,
        "name": frame.name,
        "family": frame.family,
        "mounting": frame.mounting,
        "a": hundredths(size.a),
        "b": hundredths(size.b),
        "dbl": hundredths(size.dbl),
        "ed": hundredths(true_ed(size)),
        "temple": hundredths(size.temple),
        "color": color.id,
        "color_name": color.name,
        "front": color.front.removeprefix("#").lower(),
        "temples": color.temples.removeprefix("#").lower(),
        "weight": hundredths(size.weight),
        "sun": int(color.sun),
    }


def lens_record(package: Package) -> records.Lens:
    """The lens package."""
    return {
        "id": package.id,
        "maker": package.maker,
        "name": package.name,
        "design": package.design.name,
        "material": package.material.name,
        "coating": package.coating,
        "kind": package.design.kind,
        "light": package.light,
        "impact_resistant": int(package.material.impact_resistant),
    }


def eye_record(eye: EyeRx | None) -> records.Eye | None:
    """One eye as it was read."""
    if eye is None:
        return None
    return {
        "sphere": thousandths(eye.sphere),
        "cylinder": thousandths(eye.cylinder),
        "axis": eye.axis,
        "add": thousandths(eye.add),
        "prism_in": thousandths(eye.prism_in),
        "prism_up": thousandths(eye.prism_up),
    }


def prescription_record(rx: Prescription) -> records.Prescription:
    """The prescription as it was read."""
    return {
        "right": eye_record(rx.right),
        "left": eye_record(rx.left),
        "pd": _maybe(rx.pd.binocular),
        "pd_right": _maybe(rx.pd.right),
        "pd_left": _maybe(rx.pd.left),
        "pd_near": _maybe(rx.pd.near),
        "written": day_number(rx.written) if rx.written else None,
    }


def figures_record(made: bool, lens: Made) -> records.Figures | None:
    """One lens as it was worked out; None where there is none."""
    if not made or lens["fault"]:
        return None
    return {
        "edge_max": hundredths(lens["edge_max"]),
        "center": hundredths(lens["center"]),
        "weight": hundredths(lens["weight"]),
        "edge_max_at": lens["edge_max_at"],
    }


def pair_record(
    one: Asked, offers: Offers, frame: int, lens: int, prescription: int, tint: int | None
) -> records.Pair:
    """One pair; the numbers say which frame, lens, prescription and tint of the quote it has."""
    offer, ask = one.offer, one.ask
    (used, _), given = offers.measures(offer.choice.size, ask), ask.measures
    return {
        "frame": frame,
        "lens": lens,
        "prescription": prescription,
        "verdict": offer.fit["verdict"],
        "measures": {
            "used_pd_right": hundredths(used["pd_right"]),
            "used_pd_left": hundredths(used["pd_left"]),
            "used_height_right": hundredths(used["height_right"]),
            "used_height_left": hundredths(used["height_left"]),
            "height_right": _maybe(given.height_right),
            "height_left": _maybe(given.height_left),
            "tilt": _maybe(given.tilt),
            "wrap": _maybe(given.wrap),
            "child": int(given.child),
        },
        "right": figures_record(offer.has_right, offer.fit["right"]),
        "left": figures_record(offer.has_left, offer.fit["left"]),
        "lines": line_records(one, offers),
        "tax_included": offer.bill["tax_included_cents"],
        "reasons": [
            {
                "code": reason["code"],
                "verdict": reason["verdict"],
                "eye": reason["eye"],
                "needed": hundredths(reason["needed"]),
                "given": hundredths(reason["given"]),
            }
            for reason in told_once(offer.fit["reasons"])
        ],
        "estimated": list(offer.estimated),
        "wishes": {
            "tint_depth": hundredths(ask.wishes.tint_depth),
            "others": [name for name in FLAGS if getattr(ask.wishes, name)],
        },
        "discounts": list(ask.discounts),
        "tint": tint,
        "mirror": mirror_record(ask.mirror, offers.catalog),
        "passed": passed_records(offers.catalog, offer.choice.package, ask.mix, ask.mirror),
    }


def line_records(one: Asked, offers: Offers) -> list[records.Line]:
    """The bill; none where there is no price."""
    offer, region = one.offer, offers.region(one.ask.region)
    sun = offer.choice.colorway.sun
    lines = offer.bill["lines"] if offer.bill["priced"] else []
    changed = [one.changed.get(line_name(line), (None, "")) for line in lines]
    return [
        {
            "key": line_key(line, sun),
            "text": line_words(line, offers.catalog, region),
            "cents": line["cents"],
            "listed": listed,
            "reason": reason,
        }
        for line, (listed, reason) in zip(lines, changed, strict=True)
    ]
