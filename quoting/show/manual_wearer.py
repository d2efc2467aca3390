"""The manual's pages on near powers, the wearer, tints, treatments and driving."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.show.manual_lens import LIST, OTHER_LENS, PRACTICE, Page

NEAR = {"package.kind": "progressive", "range.near": True, "range.near_from": -6.0, "range.near_to": 0.0}
NEARS = "lenses/*.yaml: packages, ranges: near"
SAFE = "Choose polycarbonate or another impact-resistant material."
IMPACT = "lenses/*.yaml: materials: impact_resistant"
TREATED = "lenses/*.yaml: packages: treatments: "
POLARIZED = {"package.light": "polarized", "package.transmittance": 15.0}
MIRROR = {"package.mirror": True, "package.back_ar": True, "options.mirror": True, "options.tint_depth": 80.0}
LIGHT = f"shop.yaml: limits: driving_least (8 % where not written); {TREATED}transmittance, darkened"
CATEGORIES = "filter categories of ISO 12312-1: category 4, above 3 to 8 %, is not for driving"
PASSES = "what the lens passes (an untreated clear one 2 n / (n² + 1); a photochromic when dark) · (1 − tint depth)"

WEARER_PAGES: dict[str, Page] = {
    "near-too-plus": Page(
        "each principal power + add (or boost), on the next quarter diopter, ≤ the range's `near: to`", NEARS, LIST,
        OTHER_LENS, {**NEAR, "eyes.add": 2.0}, {**NEAR, "eyes.add": 2.25},
    ),
    "near-too-minus": Page(
        "each principal power + add (or boost), on the next quarter diopter, ≥ the range's `near: from`", NEARS, LIST,
        OTHER_LENS, {**NEAR, "eyes.sphere": -7.0, "eyes.add": 1.0}, {**NEAR, "eyes.sphere": -7.25, "eyes.add": 1.0},
    ),
    "impact-one-eyed": Page(
        "one seeing eye: the material is impact-resistant", IMPACT, "(practice); local law may ask for more", SAFE,
        {"options.one_eyed": True}, {"options.one_eyed": True, "package.impact_resistant": False},
    ),
    "impact-sport": Page(
        "for sport: the material is impact-resistant; that alone makes no sports or safety eyewear", IMPACT,
        "(practice); local law may ask for more", SAFE,
        {"options.sport": True}, {"options.sport": True, "package.impact_resistant": False},
    ),
    "image-size": Page(
        "larger / smaller spectacle magnification − 1, in percent, < image_difference; each is "
        "1 / (1 − (t/n) · F1) · 1 / (1 − h · F), F the mean power, h the vertex distance + 3 mm",
        "shop.yaml: limits: image_difference (3 % where not written)",
        "Keating, Geometric, Physical and Visual Optics; the limit is (practice, from memory)",
        "Ask for lenses with matched curves and centers, or think of contact lenses.",
        {"left.sphere": -3.0}, {"left.sphere": -6.0},
    ),
    "tint-too-deep": Page(
        "tint depth ≤ the least tint_depth of material and coats, all in percent of the light taken",
        "lenses/*.yaml: materials: tint_depth; tints.yaml: coats: tint_depth",
        "the makers of material and coat", "Choose a lighter tint, or another material or coat.",
        {"options.tint_depth": 85.0}, {"options.tint_depth": 90.0},
    ),
    "tint-over-filter": Page(
        "no tint over a photochromic or polarized lens, unless the package lists it", TREATED + "tint_over", LIST,
        "Leave out the tint, or choose a clear lens to be tinted.",
        {"package.light": "photochromic"}, {"package.light": "photochromic", "options.tint_depth": 20.0},
    ),
    "gradient-shallow": Page(
        "B ≥ gradient_height where the tint fades", "shop.yaml: limits: gradient_height (28 mm where not written)",
        PRACTICE, "Choose one depth all over, or a deeper frame.",
        {"options.tint_depth": 50.0, "options.tint_gradient": True},
        {"options.tint_depth": 50.0, "options.tint_gradient": True, "limits.gradient_height": 41.0},
    ),
    "mirror-not-offered": Page(
        "a mirror only where the package lists it", TREATED + "mirror", LIST, OTHER_LENS, MIRROR,
        {**MIRROR, "package.mirror": False},
    ),
    "mirror-needs-tint": Page(
        "a mirror only over a tint or a polarized lens", "the order itself", PRACTICE,
        "Choose a tint below the mirror.", MIRROR, {**MIRROR, "options.tint_depth": 0.0},
    ),
    "mirror-needs-back-ar": Page(
        "a mirror only with an anti-reflective back", TREATED + "back_ar", PRACTICE, OTHER_LENS,
        MIRROR, {**MIRROR, "package.back_ar": False},
    ),
    "blue-filter-not-offered": Page(
        "a blue filter only where the package lists it", TREATED + "blue_filter", LIST, OTHER_LENS,
        {"package.blue_filter": True, "options.blue_filter": True}, {"options.blue_filter": True},
    ),
    "double-use-not-offered": Page(
        "at most one of: photochromic or polarized, mirror, blue filter; unless the package lists several",
        TREATED + "double_use", LIST, "Leave out one of them.",
        {**POLARIZED, "package.blue_filter": True, "package.double_use": True, "options.blue_filter": True},
        {**POLARIZED, "package.blue_filter": True, "options.blue_filter": True},
    ),
    "light-not-stated": Page(
        "for driving, the package must state what it passes; what a mirror takes beside that is not known",
        TREATED + "transmittance, darkened", "follows from the rules on driving", "Ask the shop, which asks the maker.",
        {**POLARIZED, "options.driving": True}, {"package.light": "polarized", "options.driving": True},
    ),
    "very-dark": Page(
        PASSES + " > driving_least; a caution where the glasses are not said to be for driving", LIGHT, CATEGORIES,
        "Never drive with it; choose a lighter lens for the car.",
        POLARIZED, {**POLARIZED, "package.transmittance": 8.0},
    ),
    "too-dark-to-drive": Page(
        PASSES + " > driving_least", LIGHT, CATEGORIES, "Choose a lighter lens for driving.",
        {**POLARIZED, "options.driving": True},
        {**POLARIZED, "package.transmittance": 8.0, "options.driving": True},
    ),
    "too-dark-at-night": Page(
        "what the lens passes (a photochromic when clear) · (1 − tint depth) ≥ night_least",
        "shop.yaml: limits: night_least (75 % where not written); lenses/*.yaml: packages: treatments: transmittance",
        "ISO 14889 (from memory): below 75 % not for driving at night or twilight",
        "Choose a clear lens, with an anti-reflective coating, for driving at night.",
        {"options.tint_depth": 15.0, "options.night_driving": True},
        {"options.tint_depth": 20.0, "options.night_driving": True},
    ),
}  # fmt: skip
