"""What was ordered as an HL7 FHIR VisionPrescription, R4, R4B and R5 alike (the three have the same elements).

It says what the glasses are; it is no new prescription: the prescriber is whoever wrote the old one.  FHIR has no
oblique prism: what is oblique stands as in or out and up or down.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from typing import Any

from quoting.orders.model import Order, Side

PRODUCT = "http://terminology.hl7.org/CodeSystem/ex-visionprescriptionproduct"
ABSENT = "http://hl7.org/fhir/StructureDefinition/data-absent-reason"
EYES = {"R": "right", "L": "left"}


def vision_prescription(order: Order, shop: str) -> dict[str, Any]:
    """The resource as JSON has it."""
    dated: dict[str, Any] = {"dateWritten": order.written}
    if not order.written:
        dated = {"_dateWritten": {"extension": [{"url": ABSENT, "valueCode": "unknown"}]}}
    return {
        "resourceType": "VisionPrescription",
        "identifier": [{"value": order.id}],
        "status": "active",
        "created": order.day,
        "patient": {"display": order.customer},
        **dated,
        "prescriber": {"display": f"as on the prescription that {shop} was given"},
        "lensSpecification": [_lens(name, side, order) for name, side in order.sides()],
    }


def _lens(name: str, side: Side, order: Order) -> dict[str, Any]:
    found: dict[str, Any] = {
        "product": {"coding": [{"system": PRODUCT, "code": "lens"}]},
        "eye": EYES[name],
        "sphere": side.sphere,
    }
    if side.cylinder:
        found |= {"cylinder": side.cylinder, "axis": side.axis}
    prism = [
        {"amount": abs(amount), "base": base if amount > 0 else other}
        for amount, base, other in ((side.prism_in, "in", "out"), (side.prism_up, "up", "down"))
        if amount
    ]
    if prism:
        found["prism"] = prism
    if side.add:
        found["add"] = side.add
    if order.tint is not None:
        said = (f"tint {order.tint.depth:g} %", order.tint.name, order.tint.recipe)
        found["color"] = ", ".join(part for part in said if part)
    return found | {"brand": f"{order.lens.maker} {order.lens.name}"}
