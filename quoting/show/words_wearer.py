"""The sentences of reasons about near powers, the wearer, tints, treatments and driving."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.languages import marked
from quoting.show.words_lens import Words

WEARER_WORDS: dict[str, Words] = marked({
    "near-too-plus": Words(
        "D",
        "Its reading part is made up to {needed}; yours would be {given}.",
        "A near power of {given} D lies above the package's greatest, {needed} D.",
    ),
    "near-too-minus": Words(
        "D",
        "Its reading part is made down to {needed}; yours would be {given}.",
        "A near power of {given} D lies below the package's least, {needed} D.",
    ),
    "impact-one-eyed": Words(
        "plain",
        "With one seeing eye you need an impact-resistant lens; this one is not.",
        "The material is not impact-resistant; the wearer has one seeing eye.",
    ),
    "impact-sport": Words(
        "plain",
        "For sport you need an impact-resistant lens; this one is not.",
        "The material is not impact-resistant; the glasses are for sport.",
    ),
    "image-size": Words(
        "plain",
        "Your two eyes would see things in different sizes; ask us what evens that out.",
        "Spectacle magnification differs by {given} % (limit {needed} %): consider matched curves and centers.",
    ),
    "tint-too-deep": Words(
        "plain",
        "This lens takes a tint up to {needed} %; you asked for {given} %.",
        "Tint of {given} % absorption against the {needed} % of material and coat.",
    ),
    "tint-over-filter": Words(
        "plain",
        "This lens already darkens or filters; it is not tinted on top.",
        "A tint of {given} % over a photochromic or polarized lens is not listed for this package.",
    ),
    "gradient-shallow": Words(
        "mm",
        "A tint that fades looks best in a lens {needed} mm high; this one is {given} mm.",
        "A gradient in a lens of B {given} mm; it wants {needed} mm.",
    ),
    "mirror-not-offered": Words(
        "plain",
        "This lens is not made with a mirror.",
        "No mirror is listed for this package.",
    ),
    "mirror-needs-tint": Words(
        "plain",
        "A mirror needs a tint below it; choose one.",
        "A mirror is made over a tint or a polarized lens only; none is asked for.",
    ),
    "mirror-needs-back-ar": Words(
        "plain",
        "Behind a mirror you would see your own eye: this lens has no anti-reflective back.",
        "A mirror wants an anti-reflective back; none is stated for this package.",
    ),
    "blue-filter-not-offered": Words(
        "plain",
        "This lens is not made with a blue filter.",
        "No blue filter is listed for this package.",
    ),
    "double-use-not-offered": Words(
        "plain",
        "These treatments are not made together on this lens.",
        "{given} special treatments at once; the package lists {needed}.",
    ),
    "light-not-stated": Words(
        "plain",
        "We do not know yet whether you may drive with this lens; ask us.",
        "Driving wants {needed} %; the lens alone passes {given} % (0: not stated), and a mirror takes more.",
    ),
    "very-dark": Words(
        "plain",
        "So dark that you must not drive with it: it lets {given} % of the light through.",
        "Luminous transmittance {given} % at its darkest is at or below {needed} %: not for driving.",
    ),
    "too-dark-to-drive": Words(
        "plain",
        "Too dark to drive with: it lets {given} % of the light through.",
        "Luminous transmittance {given} % at its darkest is at or below {needed} %: not for driving.",
    ),
    "too-dark-at-night": Words(
        "plain",
        "Too dark for driving at night: it lets {given} % through, and {needed} % is needed.",
        "Luminous transmittance {given} % is below {needed} %: not for driving at night or twilight.",
    ),
})  # fmt: skip
