"""Every code a finding about a prescription can have, and what it means; tests/errors/prescriptions shows each."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

EYES = {
    "nothing-read": "A text holds nothing that can be read as a prescription.",
    "slip-too-long": "A text is longer than any slip.",
    "unreadable": "A piece of a slip cannot be read; it is quoted back and nothing is guessed.",
    "eye-missing": "A value stands before any eye is named.",
    "eye-behind": "An eye is named behind a value, where it goes before what is meant for it.",
    "eye-twice": "An eye is given twice, with different values.",
    "given-twice": "A value is given twice, and the two differ.",
    "one-eye": "Only one eye is given.",
    "table-row-unclear": "A row has more or other cells than the headings of its table.",
    "balance-lens": "A balance lens is asked for, and nobody wrote its power.",
    "set-aside": "Something is understood that no lens is ordered by here.",
}
POWERS = {
    "sphere-missing": "An eye has no sphere.",
    "sign-missing": "A power has neither plus nor minus.",
    "dash-or-minus": "A dash before a power may be a minus or a hyphen.",
    "point-missing": "A power has no decimal point.",
    "axis-missing": "A cylinder has no axis.",
    "axis-alone": "An axis has no cylinder.",
    "axis-not-whole": "An axis is no whole number of degrees.",
    "axis-range": "An axis is not from 1 to 180.",
    "axis-sign": "An axis has a sign.",
    "axis-zero": "An axis of 0 is the meridian of 180.",
    "sphere-strong": "A sphere is stronger than nearly all are.",
    "cylinder-strong": "A cylinder is stronger than nearly all are.",
    "signs-differ": "One eye is plus and the other minus.",
    "powers-differ": "The eyes differ by more than is usual.",
    "reading-imbalance": "Below the centers the eyes would be pulled apart when reading.",
}
NEAR = {
    "add-minus": "An addition is below zero.",
    "add-range": "An addition is lower or higher than nearly all are.",
    "add-one-eye": "Only one eye has an addition.",
    "adds-differ": "The additions of the eyes differ.",
    "add-for-both": "An addition stands once, behind the second eye, and is read for both.",
    "add-by-place": "A number is read as an addition by its place alone.",
}
PRISMS = {
    "base-missing": "A prism has no base.",
    "base-range": "A base is no direction from 0 to 360 degrees, and no word for one.",
    "prism-sign": "A prism has a sign, where its base says the direction.",
    "prism-vertical": "A vertical prism is large enough to be confirmed.",
    "prism-unreadable": "A prism has not both an amount and a base.",
}
DISTANCES = {
    "not-a-pd": "A pupillary distance is none that anybody has.",
    "pd-without-number": "A pupillary distance is named without its number.",
    "pd-unclear": "A number may be the distance of one eye or of both.",
    "pd-one-eye": "Only half of the pupillary distance is given.",
    "pd-range": "A pupillary distance is smaller or larger than is usual.",
    "pd-uneven": "The halves of the pupillary distance differ by more than is usual.",
    "pd-sum": "The halves of the pupillary distance do not add up to the whole that is given.",
    "pd-near": "The near distance is not a little less than the far one.",
    "height-uneven": "The measured heights differ by more than is usual.",
}
DAYS = {
    "date-impossible": "A date is no day of the calendar.",
    "date-ambiguous": "Nobody can tell which of two numbers is the month.",
    "date-future": "A prescription is dated after today.",
    "undated": "A prescription has no date.",
    "too-old": "A prescription is older than the shop's limit.",
    "expired": "A prescription was valid until a day before today.",
}
RECORDS = {
    "not-text": "A file is no text, or not in UTF-8.",
    "not-json": "A file is no JSON.",
    "key-twice": "A name stands twice in one place of a JSON file.",
    "not-a-prescription": "A FHIR resource is no VisionPrescription.",
    "fhir-version": "A VisionPrescription is written as FHIR did before version 4.",
    "status": "A VisionPrescription is not in force, or does not say so.",
    "lens-missing": "A VisionPrescription prescribes no lens.",
    "eye-code": "A lens is for neither the right nor the left eye.",
    "contact-lenses": "Contact lenses are prescribed; glasses cannot be made from them.",
    "product-unknown": "A lens does not say that it is for glasses.",
    "prescriber-note": "The prescriber left a note.",
    "modifier-unknown": "An extension may change what the rest means, and is not known here.",
    "not-used": "An element of a lens is not used for glasses, or not here.",
    "unknown-field": "A lens has an element that FHIR does not have.",
}
RX_CODES: dict[str, str] = {**EYES, **POWERS, **NEAR, **PRISMS, **DISTANCES, **DAYS, **RECORDS}
