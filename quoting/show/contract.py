"""The JSON that ``fit --json`` and ``quote --json`` promise to programs.  Lengths mm, weights g, money in cents."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from dataclasses import asdict

from quoting.catalog.shop import Catalog
from quoting.kernel.records import Lens
from quoting.offers import Ask, Offer, Offers
from quoting.prescription.model import EyeRx
from quoting.prescription.wishes import NOTHING
from quoting.remedies import remedies
from quoting.show.lines import line_text
from quoting.show.reasons import customer, exact
from quoting.show.remedies import remedy_dict
from quoting.show.tint_lines import ask_dict
from quoting.show.weights import pair_weight


def lens_dict(lens: Lens) -> dict[str, object]:
    """One lens.  Where it cannot be ground, only ``fault`` and its layout are told."""
    laid_out: dict[str, object] = {
        "base_curve": lens["base_curve"],
        "decentration_in_mm": round(lens["decentration_in"], 2),
        "decentration_up_mm": round(lens["decentration_up"], 2),
        "reference_height_mm": round(lens["height"], 2),
        "blank_min_mm": round(lens["blank_exact"], 2),
        "blank_rule_mm": round(lens["blank_rule"], 2),
        "blank_largest_mm": lens["blank_largest"],
    }
    if lens["fault"]:
        return {"fault": lens["fault"], **laid_out}
    return {
        "edge_max_mm": round(lens["edge_max"], 2),
        "edge_max_at": lens["edge_max_at"],
        "edge_min_mm": round(lens["edge_min"], 2),
        "edge_min_at": lens["edge_min_at"],
        "center_mm": round(lens["center"], 2),
        "weight_g": round(lens["weight"], 2),
        **laid_out,
    }


def offer_dict(offer: Offer, ask: Ask, offers: Offers) -> dict[str, object]:
    """One package for one customer."""
    package = offer.choice.package
    region = offers.region(ask.region)
    sides = (("R", offer.has_right, offer.fit["right"]), ("L", offer.has_left, offer.fit["left"]))
    bill, weight = offer.bill, pair_weight(offer)
    return {
        "package": package.id,
        "name": package.name,
        "maker": package.maker,
        "kind": package.design.kind,
        "verdict": offer.fit["verdict"],
        "reasons": [
            {**reason, "text": customer(reason, package), "exact": exact(reason, package)}
            for reason in offer.fit["reasons"]
        ],
        "eyes": {side: lens_dict(lens) for side, made, lens in sides if made},
        "weight_pair_g": None if weight is None else round(weight, 2),
        "estimated": list(offer.estimated),
        "lines": [
            {
                "code": line["code"],
                "text": line_text(line, offer.choice, offers.catalog, region),
                "cents": line["cents"],
            }
            for line in bill["lines"]
        ],
        "total_cents": bill["total_cents"] if bill["priced"] else None,
        "discounts_not_given": offer.not_given(ask),
        **ask_dict(ask, package, offers.catalog),
        "tax_included_cents": bill["tax_included_cents"],
        "currency": offers.catalog.shop.currency,
    }


def answer_dict(offer: Offer, ask: Ask, offers: Offers) -> dict[str, object]:
    """The same, and what would make it fit."""
    return offer_dict(offer, ask, offers) | {"remedies": [remedy_dict(one) for one in remedies(offers, offer, ask)]}


def eye_dict(eye: EyeRx | None) -> dict[str, object] | None:
    """One eye as it was read."""
    if eye is None:
        return None
    return {
        "sphere": eye.sphere,
        "cylinder": eye.cylinder,
        "axis": eye.axis,
        "add": eye.add,
        "prism_in": eye.prism_in,
        "prism_up": eye.prism_up,
    }


def asked_dict(offer: Offer, ask: Ask, catalog: Catalog) -> dict[str, object]:
    """What was asked: frame, prescription, measurements."""
    choice, pd = offer.choice, ask.rx.pd
    return {
        "shop": catalog.shop.name,
        "frame": choice.frame.id,
        "size": choice.size.key,
        "colorway": choice.colorway.id,
        "prescription": {
            "R": eye_dict(ask.rx.right),
            "L": eye_dict(ask.rx.left),
            "pd": {"binocular": pd.binocular, "right": pd.right, "left": pd.left, "near": pd.near},
            "written": ask.rx.written.isoformat() if ask.rx.written else None,
        },
        "measures": {
            "height_right": ask.measures.height_right,
            "height_left": ask.measures.height_left,
            "tilt": ask.measures.tilt,
            "wrap": ask.measures.wrap,
            "child": ask.measures.child,
        },
        **({"wishes": asdict(ask.wishes)} if ask.wishes != NOTHING else {}),
        "price_list": catalog.price_list.version,
    }
