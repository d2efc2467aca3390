"""What the page says of a pasted slip, and of each piece of it.  What stands in braces is filled in there."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.languages import Counted, by_number, in_context, marked

SLIP: dict[str, str | Counted] = marked({
    "slip-read": "Read. Please compare it with your slip.",
    "slip-unread": "Not understood: {pieces}. Nothing was guessed: please fill in what is missing.",
    "slip-piece": in_context("a piece of a slip", "“{text}”"),
    "slip-nothing": "There is no prescription in this text that we can read.",
    # How each piece was read
    "slip-right": "right eye",
    "slip-left": "left eye",
    "slip-both": "both eyes",
    "slip-of": "{eye}, {what}",
    "slip-plano": "plano, sphere 0.00",
    "slip-sphere": "sphere {value}",
    "slip-cylinder": "cylinder {value}",
    "slip-axis": "axis {value}°",
    "slip-add": "addition {value}",
    "slip-base-in": "prism {amount} base in",
    "slip-base-out": "prism {amount} base out",
    "slip-base-up": "prism {amount} base up",
    "slip-base-down": "prism {amount} base down",
    "slip-pd-binocular": "PD {value} mm",
    "slip-pd-right": "right half of the PD {value} mm",
    "slip-pd-left": "left half of the PD {value} mm",
    "slip-pd-near": "PD for near {value} mm: not used here",
    "slip-none": in_context("on a slip", "none"),
    "slip-label": "the unit of what stands before it",
    "slip-table": "the columns of a table",
    "slip-unused": "not used here",
    "slip-old": by_number("months", "more than {months} month ago", "more than {months} months ago"),
    "slip-bad": "not understood",
    "slip-whose": "for which eye? OD or OS before it",
    "slip-sign": "plus or minus?",
    "slip-point": "without its point or comma",
    "slip-eye-behind": "stands behind a value: each eye goes before what is meant for it",
    "slip-twice": "given twice: which one is meant?",
    "slip-axis-missing": "a cylinder without its axis",
    "slip-axis-alone": "an axis without a cylinder",
    "slip-no-sphere": "no sphere was read for this eye",
    "slip-contact": "of contact lenses: their powers are not those of glasses",
    "slip-too-long": "too long: paste the lines of the prescription only",
})
