"""What the scripts of the pages say.  What stands in braces is filled in there."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

# What is wrong with a field, or hardly ever meant
FIELDS = {
    "not-a-number": "“{text}” is not a number",
    "axis-whole": "An axis is a whole number of degrees",
    "axis-range": "An axis lies between 1 and 180",
    "sphere-range": "A sphere lies between {least} and +{most}",
    "cylinder-range": "A cylinder lies between {least} and +{most}",
    "add-range": "An addition lies between {least} and +{most}",
    "prism_in-range": "A prism lies between {least} and {most}",
    "prism_up-range": "A prism lies between {least} and {most}",
    "pd-range": "Half a PD lies between {least} and {most} mm",
    "pd-both-range": "A PD for both eyes lies between 30 and 90 mm",
    "height-range": "A height lies between {least} and {most} mm",
    "off-step": "Powers go in steps of 0.25 D, hardly ever of 0.125",
    "sphere-missing": "The sphere is missing; plano is 0.00",
    "axis-missing": "A cylinder needs its axis",
    "direction-missing": "In, out, up or down?",
}
DOUBTS = {
    "doubt-sphere": "{side}: a sphere beyond 20 D is rare. Is the point in its place?",
    "doubt-cylinder": "{side}: a cylinder beyond 6 D is rare. Is the point in its place?",
    "doubt-add": "{side}: additions are usually between +0.50 and +4.00.",
    "doubt-vertical": "{side}: please confirm the vertical prism with your prescriber.",
    "doubt-one-add": "Only one eye has an addition. Usually both have the same.",
    "doubt-signs": "One eye is plus and the other minus. Is a sign missing?",
    "doubt-apart": "Your eyes differ by two diopters or more. Ask us before you choose.",
    "doubt-pd": "A PD is usually between {least} and {most} mm.",
    "doubt-pd-sides": "The halves of the PD differ by more than 4 mm. Please measure again.",
}
PANEL = {
    "panel-empty": "Type a prescription, or paste it: every lens on this site then answers for your eyes.",
    "panel-faults": "{count} to mend before anything is worked out.",
    "panel-read": "Read as: {text}",
    "kept": "Kept in this browser, and nowhere else.",
    "not-kept": "Not kept: gone when you leave this site.",
    "cannot-keep": "This browser does not let pages keep anything.",
    "slip-read": "Read. Please compare it with your slip.",
    "slip-unread": "Not understood: {pieces}. Nothing was guessed: please fill in what is missing.",
    "slip-nothing": "There is no prescription in this text that we can read.",
    "not-glazed": "no lens",
    "pd-of": "PD {text}",
}
BOARD = {
    "board-status": "{fits} of {all} lens packages fit, {caution} of them with a caution.",
    "board-none": "None of the {all} lens packages fits in this size. The reasons stand beside each.",
    "live-region": "Lens board for your prescription",
    "board-caption": "Lenses for {frame} {size} and your prescription",
    "board-fault": "We cannot work this out here. Please ask us; the table below holds for single powers.",
    "column-package": "Lens package",
    "column-verdict": "Fits?",
    "column-price": "Pair of lenses",
    "column-edge": "Thickest edge",
    "column-center": "Center",
    "column-weight": "Weight",
    "column-range": "Spheres that fit",
    "range-none": "none",
    "column-section": "Section",
    "column-compare": "Compare",
    "verdict-fits": "fits",
    "verdict-caution": "fits, with a caution",
    "verdict-no": "does not fit",
    "no-price": "ask us",
    "edge": "{mm} mm",
    "grams": "{grams} g",
    "more-reasons": "{count} more",
    "choose": "Choose {name}",
    "compare": "Compare {name}",
    "compare-full": "Four at most: take one away first.",
    "compare-title": "Side by side",
    "filter-left": "{shown} of {all} shown.",
    "quote-title": "What it costs",
    "quote-total": "Total",
    "quote-tax": "of which tax {amount}",
    "quote-estimate": "An estimate until a licensed optician has checked your prescription and your measurements.",
    "quote-list": "Price list {version}.",
    "quote-none": "There is no price for this power. Please ask us.",
    "quote-weight": "Both lenses {lenses} g, with the frame {whole} g",
    "quote-weight-lenses": "Both lenses {lenses} g",
    "lens-made": "edge {least} mm {least_at} to {most} mm {most_at}, center {center} mm, {weight} g",
    "section-label": "{side} lens in section: center {center} mm, nasal {nasal} mm, temporal {temporal} mm thick",
    "estimated": "Estimated: {what}.",
    "nasal": "nasal",
    "temporal": "temporal",
}

LIST = {
    "suits": "{name} in {size}: {edge} mm at the thickest, lenses {grams} g, all in",
    "suits-none": "No such lens fits your prescription in this frame.",
    "list-shown": "{shown} of {all} frames.",
    "list-fit": "{fit} of {shown} frames take such a lens for your prescription.",
    "list-working": "Working it out for every frame …",
}

PAGE = {**FIELDS, **DOUBTS, **PANEL, **BOARD, **LIST}
