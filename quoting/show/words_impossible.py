"""The sentences of reasons that a number of a job cannot be right: nothing was worked out from it."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.languages import marked
from quoting.show.words_lens import Words

IMPOSSIBLE_WORDS: dict[str, Words] = marked({
    "impossible-sphere": Words(
        "D",
        "The sphere cannot be right; please check the prescription.",
        "Sphere {given} D is outside of what can be worked out (limit {needed} D).",
    ),
    "impossible-cylinder": Words(
        "D",
        "The cylinder cannot be right; please check the prescription.",
        "Cylinder {given} D is outside of what can be worked out (limit {needed} D).",
    ),
    "impossible-axis": Words(
        "plain",
        "The axis cannot be right: it goes from 1 to 180.",
        "Axis {given}° is outside of 0 to 180° (limit {needed}°).",
    ),
    "impossible-add": Words(
        "D",
        "The addition cannot be right; please check the prescription.",
        "Add {given} D is outside of what can be worked out (limit {needed} D).",
    ),
    "impossible-prism": Words(
        "plain",
        "The prism cannot be right; please check the prescription.",
        "Prism {given} Δ is outside of what can be worked out (limit {needed} Δ).",
    ),
    "impossible-pd": Words(
        "mm",
        "The pupillary distance cannot be right; please measure it again.",
        "Monocular PD {given} mm is outside of what can be worked out (limit {needed} mm).",
    ),
    "impossible-height": Words(
        "mm",
        "The pupil height cannot be right: the pupil lies within the lens.",
        "Pupil height {given} mm is outside of the box (limit {needed} mm).",
    ),
    "impossible-vertex": Words(
        "mm",
        "The distance from lens to eye cannot be right.",
        "Vertex distance {given} mm is outside of what can be worked out (limit {needed} mm).",
    ),
    "impossible-box": Words(
        "mm",
        "We have a wrong size for this frame; please tell us.",
        "A box dimension of {given} mm is outside of what can be worked out (limit {needed} mm).",
    ),
    "impossible-outline": Words(
        "mm",
        "We have a wrong shape for this frame; please tell us.",
        "The outline has {given} where {needed} is the limit: points, sides of the box in mm, or area in mm².",
    ),
    "impossible-mounting": Words(
        "mm",
        "We have a wrong limit for this frame's mounting; please tell us.",
        "A mounting limit of {given} mm is outside of what can be worked out (limit {needed} mm).",
    ),
    "impossible-form": Words(
        "plain",
        "We have a wrong curve or angle for this frame; please tell us.",
        "A frame curve or angle of {given} is outside of what can be worked out (limit {needed}).",
    ),
    "impossible-material": Words(
        "plain",
        "We have a wrong figure for this lens's material; please tell us.",
        "A figure of the material, {given}, is outside of what can be worked out (limit {needed}).",
    ),
    "impossible-design": Words(
        "plain",
        "We have a wrong figure for this lens's design; please tell us.",
        "A figure of the design, {given}, is outside of what can be worked out (limit {needed}).",
    ),
    "impossible-ranges": Words(
        "plain",
        "We have wrong powers for this lens; please tell us.",
        "A figure of the ranges, {given}, is outside of what can be worked out (limit {needed}).",
    ),
    "impossible-chart": Words(
        "plain",
        "We have a wrong chart for this lens; please tell us.",
        "A figure of a chart, {given}, is outside of what can be worked out (limit {needed}).",
    ),
    "impossible-limits": Words(
        "plain",
        "We have a wrong limit for our own work; please tell us.",
        "A limit of the shop, {given}, is outside of what can be worked out (limit {needed}).",
    ),
    "impossible-tint": Words(
        "plain",
        "A tint takes between 0 and 100 % of the light.",
        "Tint of {given} % is outside of 0 to 100 % (limit {needed} %).",
    ),
    "impossible-money": Words(
        "plain",
        "We have a wrong price for this; please tell us.",
        "An amount of {given} cents or basis points is outside of what can be priced (limit {needed}).",
    ),
    "unknown-word": Words(
        "plain",
        "We have a word in our data that our own engine does not know; please tell us.",
        "A kind, a light treatment, or what a surcharge or discount is for, is not known.",
    ),
})  # fmt: skip
