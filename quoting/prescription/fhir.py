"""Reads an HL7 FHIR VisionPrescription (R4, R4B, R5) as JSON.

Source: HL7 FHIR, resource VisionPrescription: ``lensSpecification[]`` with ``prism[]`` (R4 on).  DSTU2 and STU3 had
``dispense[]`` instead and are refused.  Names of people in the resource are not read.

>>> reading = read_fhir('{"resourceType": "Patient"}')
>>> print(reading.findings[0].line())
prescription.json:1:2: error: this is a FHIR Patient, not a VisionPrescription [not-a-prescription]
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
from datetime import date

from quoting.findings import Severity
from quoting.prescription.draft import Draft
from quoting.prescription.fhir_lens import read_lens
from quoting.prescription.json_marks import Json, JsonSheet, Path, json_sheet, shown
from quoting.prescription.model import Reading

# FHIR: an element that changes the meaning of what it stands in must not be passed over by who does not know it
MODIFIERS = ("modifierExtension", "implicitRules")
DAY = re.compile(r"([0-9]{4}-[0-9]{2}-[0-9]{2})(?:T.*)?", re.DOTALL)
# HL7 FHIR value set fm-status: what each code says about this prescription
STATUS: dict[str, tuple[str, Severity]] = {
    "cancelled": ("this prescription was cancelled", "error"),
    "entered-in-error": ("this prescription was entered in error", "error"),
    "draft": ("this prescription is a draft: the prescriber has not released it", "warning"),
}
ASK = "ask the prescriber for one that is in force"
ASK_DAY = "ask the prescriber on which day it was written"


def read_fhir(
    text: str,
    name: str = "prescription.json",
    *,
    today: date | None = None,
    max_age_months: int | None = None,
    child: bool = False,
) -> Reading:
    """What a VisionPrescription says about both eyes, with every finding.   Nothing raises.

    Contact lenses are refused.  With ``today`` the date is looked at; ``max_age_months`` is the shop's limit.
    """
    sheet = json_sheet(text, name)
    draft = Draft(sheet.mark(), "FHIR VisionPrescription")
    draft.findings += sheet.findings
    root = sheet.value
    if not sheet.findings:
        if isinstance(root, dict) and root.get("resourceType") == "VisionPrescription":
            _resource(sheet, draft, root)
        else:
            _refuse_other(sheet, draft, root)
    return draft.reading(today, max_age_months, child)


def _refuse_other(sheet: JsonSheet, draft: Draft, root: Json) -> None:
    kind = root.get("resourceType") if isinstance(root, dict) else None
    said = f"this is a FHIR {kind[:60]}" if isinstance(kind, str) else "this is no FHIR resource"
    hint = "send the VisionPrescription that is inside" if kind == "Bundle" else "send a VisionPrescription"
    draft.say(sheet.mark(("resourceType",)), "not-a-prescription", f"{said}, not a VisionPrescription", hint)


def _resource(sheet: JsonSheet, draft: Draft, root: dict[str, Json]) -> None:
    ident = root.get("id")
    draft.source += f"/{ident[:64]}" if isinstance(ident, str) else ""
    for key in MODIFIERS:
        if key in root:
            said = f"`{key}` changes what this prescription means, in a way that is not known here"
            draft.say(sheet.mark((key,)), "modifier-unknown", said, "ask the sender what it says")
    _status(sheet, draft, root.get("status"))
    _written(sheet, draft, root.get("dateWritten"))
    lenses = root.get("lensSpecification")
    if "dispense" in root:
        said = "this is a VisionPrescription of FHIR DSTU2 or STU3, with `dispense`; R4, R4B and R5 are read"
        draft.say(sheet.mark(("dispense",)), "fhir-version", said, "ask the sender for R4 or later")
    elif not isinstance(lenses, list) or not lenses:
        said = "there is no list `lensSpecification`, so no lens is prescribed"
        draft.say(sheet.mark(("lensSpecification",)), "lens-missing", said, "ask the sender for the whole resource")
    else:
        for at, lens in enumerate(lenses):
            _lens(sheet, draft, ("lensSpecification", at), lens)


def _lens(sheet: JsonSheet, draft: Draft, path: Path, lens: Json) -> None:
    if isinstance(lens, dict):
        read_lens(sheet, draft, path, lens)
    else:
        said = f"{shown(lens)} in `lensSpecification` is no lens specification"
        draft.say(sheet.mark(path), "wrong-shape", said, "ask the sender for the whole resource")


def _status(sheet: JsonSheet, draft: Draft, status: Json) -> None:
    mark = sheet.mark(("status",))
    if status == "active":
        draft.token(mark, "active", "in force")
    elif isinstance(status, str) and status in STATUS:
        said, severity = STATUS[status]
        draft.say(mark, "status", said, ASK, severity)
    elif status is None:
        said = "there is no `status`: whether the prescription is in force is not said"
        draft.say(mark, "status", said, ASK, "warning")
    else:
        said = f"the status {shown(status)} is none of active, draft, cancelled, entered-in-error"
        draft.say(mark, "status", said, ASK)


def _written(sheet: JsonSheet, draft: Draft, written: Json) -> None:
    """``dateWritten``: a day, with or without a time; a year or a month alone is not enough to tell the age."""
    mark = sheet.mark(("dateWritten",))
    if written is None:
        draft.say(mark, "undated", "there is no `dateWritten`: the age is not known", ASK_DAY, "warning")
        return
    found = DAY.fullmatch(written) if isinstance(written, str) else None
    try:
        value = date.fromisoformat(found.group(1)) if found else None
    except ValueError:
        value = None
    if value is not None:
        draft.put_date(value, mark)
        draft.token(mark, str(written)[:40], f"written on {value}")
        return
    partial = isinstance(written, str) and re.fullmatch(r"[0-9]{4}(?:-[0-9]{2})?", written)
    said = f"`dateWritten` {shown(written)} " + ("names no day" if partial else "is no day of the calendar")
    draft.say(mark, "undated", said, ASK_DAY, "warning" if partial else "error")
