"""The sentences of reasons about powers and about the lens in its frame."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from typing import NamedTuple

from quoting.languages import marked


class Words(NamedTuple):
    unit: str  # "D" or "mm" or "deg" or "prism": how both numbers are written
    customer: str
    exact: str


LENS_WORDS: dict[str, Words] = marked({
    "power-too-minus": Words(
        "D",
        "Made down to {needed}; your prescription needs {given}.",
        "A principal power of {given} D lies below the package's least, {needed} D.",
    ),
    "power-too-plus": Words(
        "D",
        "Made up to {needed}; your prescription needs {given}.",
        "A principal power of {given} D lies above the package's greatest, {needed} D.",
    ),
    "cylinder-too-strong": Words(
        "plain",
        "Made with a cylinder up to {needed}; yours is {given}.",
        "The cylinder of {given} D is stronger than the package's {needed} D.",
    ),
    "power-not-together": Words(
        "D",
        "Not made in this combination of sphere and cylinder.",
        "Sphere {needed} D and cylinder {given} D are each within the package's ranges, but in no range together.",
    ),
    "add-missing": Words(
        "D",
        "This lens needs a reading addition, and the prescription has none.",
        "A multifocal without an add; the package starts at {needed} D.",
    ),
    "add-too-low": Words(
        "D",
        "Made with an addition from {needed}; yours is {given}.",
        "The add of {given} D lies below the package's {needed} D.",
    ),
    "add-too-high": Words(
        "D",
        "Made with an addition up to {needed}; yours is {given}.",
        "The add of {given} D lies above the package's {needed} D.",
    ),
    "add-left-out": Words(
        "D",
        "Your reading addition of {needed} is not in this lens: it is for distance only.",
        "The add of {needed} D is not made in a single-vision lens.",
    ),
    "add-needs-progressive": Words(
        "D",
        "Helps a little near ({given}); your addition of {needed} asks for a progressive or bifocal lens.",
        "A boost of {given} D stands against a prescribed add of {needed} D.",
    ),
    "prism-too-strong": Words(
        "plain",
        "Made with a prism up to {needed} Δ; yours is {given} Δ.",
        "The prescribed prism of {given} Δ is more than the package's {needed} Δ.",
    ),
    "blank-too-small": Words(
        "mm",
        "The frame is too large for this lens: it needs a {needed} mm blank, the lens comes in {given} mm.",
        "Minimum blank {needed} mm (exact, with edging allowance) against a largest blank of {given} mm.",
    ),
    "blank-close": Words(
        "mm",
        "The lens is only just large enough for this frame; we check it on the frame itself.",
        "By the rule of thumb the blank must be {needed} mm, the largest is {given} mm; the outline is estimated.",
    ),
    "height-too-low": Words(
        "mm",
        "Needs {needed} mm of height below the pupil; this frame gives {given} mm.",
        "Fitting height {given} mm is below the design's minimum of {needed} mm.",
    ),
    "above-too-low": Words(
        "mm",
        "Needs {needed} mm of lens above the pupil; this frame gives {given} mm.",
        "{given} mm above the fitting cross; the design wants {needed} mm.",
    ),
    "wrap-design-needed": Words(
        "plain",
        "This frame is strongly curved; the lens is not made for curved frames.",
        "The frame (curve {needed} D) counts as a wrap; the design, on base {given}, is not offered for wraps.",
    ),
    "curve-too-far": Words(
        "plain",
        "The lens would be much {way} than the frame and would not hold.",
        "Lens base curve {given} D against a frame curve of {needed} D.",
    ),
    "curve-far": Words(
        "plain",
        "The lens is {way} than the frame; we adjust the frame to it.",
        "Lens base curve {given} D against a frame curve of {needed} D.",
    ),
    "edge-too-thick": Words(
        "mm",
        "The edge would be {given} mm thick; this frame takes less than {needed} mm.",
        "Thickest edge {given} mm reaches the mounting's limit of {needed} mm.",
    ),
    "edge-thick": Words(
        "mm",
        "The edge will be {given} mm thick and can be seen from the side.",
        "Thickest edge {given} mm reaches the mounting's caution of {needed} mm.",
    ),
    "edge-too-thin": Words(
        "mm",
        "The edge would be only {given} mm thin; this frame needs {needed} mm to hold it.",
        "Thinnest edge {given} mm is below the mounting's minimum of {needed} mm.",
    ),
    "not-drillable": Words(
        "plain",
        "This lens material would crack at the holes of a drilled frame.",
        "The material is not for drilled mounts.",
    ),
    "impact-needed": Words(
        "plain",
        "Children need an impact-resistant lens; this one is not.",
        "The material is not impact-resistant; the wearer is under 18 or otherwise needs it.",
    ),
    "tilt-not-compensated": Words(
        "plain",
        "The frame sits strongly tilted; the lens is not calculated for that.",
        "Pantoscopic tilt {given}° is above {needed}°, and the design is not compensated for the position of wear.",
    ),
    "wrap-not-compensated": Words(
        "plain",
        "The frame is bent around the face; the lens is not calculated for that.",
        "Face-form angle {given}° is above {needed}°, and the design is not compensated for the position of wear.",
    ),
    "cannot-be-ground": Words(
        "plain",
        "No lens of this power can be made as large as this frame needs it.",
        "On base {given} a surface ends within the {needed} mm to the farthest edge, or the chart has no center.",
    ),
    "reading-imbalance": Words(
        "plain",
        "Your eyes differ so much that reading through the lower part may be uncomfortable; ask us.",
        "Vertical imbalance {given} Δ at 10 mm below center (limit {needed} Δ): consider slab-off or single vision.",
    ),
})  # fmt: skip

BIFOCAL = marked({
    "height-too-low": Words(
        "mm",
        "Needs {needed} mm of height for the reading segment; this frame gives {given} mm.",
        "Segment height {given} mm is below the design's minimum of {needed} mm.",
    ),
    "above-too-low": Words(
        "mm",
        "Needs {needed} mm of lens above the reading segment; this frame gives {given} mm.",
        "{given} mm above the segment's top; the design wants {needed} mm.",
    ),
})  # fmt: skip
