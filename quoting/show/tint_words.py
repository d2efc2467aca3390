"""What is said about tinted lenses, for customers: short, from the figures, and nothing about health.

The codes are those of quoting/kernel/consequences.py; what stands in braces is filled in.  Categories and driving:
ISO 12312-1.  How much of the ultraviolet light windshields keep: Boxer Wachler, *JAMA Ophthalmology* 2016 (96 percent
on average).  The rest is common practice.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.records import Told
from quoting.languages import _, decimals, marked

SENTENCES = marked({
    "category-0": "Filter category 0: clear or hardly tinted, passes {percent} % of the light.",
    "category-1": "Filter category 1: a light tint, passes {percent} % of the light.",
    "category-2": "Filter category 2: a medium tint, passes {percent} % of the light.",
    "category-3": "Filter category 3: dark, for the sun, passes {percent} % of the light.",
    "category-4": "Filter category 4: very dark, passes only {percent} % of the light.",
    "category-5": "Darker than any filter category, passes only {percent} % of the light: not for wearing outdoors.",
    "day-never": "So dark that nobody may drive behind it, not even by day: 8 % or less is passed.",
    "day-color": "Not for driving: some color comes through at only {percent} % of what the whole light does.",
    "day-fine": "Within the standard's limits of light and color for driving by day, signal lights aside.",
    "night-never": "Not for driving at night or at twilight.",
    "night-fine": "While clear it is light enough for driving at night.",
    "in-cold": "In the cold it gets darkest: {percent} % at 5 °C.",
    "in-heat": "In heat it stays lighter: {percent} % at 35 °C.",
    "behind-windshield": "Behind a windshield, which stops most ultraviolet light, it stays near {percent} %.",
    "how-fast": "It darkens within a minute or so, and takes longer to clear.",
    "settles": "Over the first weeks it settles in.",
    "indoors": "Indoors, too, it passes only {percent} %: lamps look dimmer.",
    "dulls-blue": "Blue looks dull through it.",
    "dulls-green": "Green looks dull through it.",
    "dulls-red": "Red looks dull through it.",
    "lifts-blue": "Blue stands out through it.",
    "lifts-green": "Green stands out through it.",
    "lifts-red": "Red stands out through it.",
    "mirrored": "From outside it is a mirror and hides the eyes: {percent} % of the light comes back.",
    "eyes-hidden": "From outside the eyes can hardly be seen.",
    "eyes-faint": "From outside the eyes can be seen faintly.",
    "uv-kept": "Ultraviolet light stays within what the standard leaves a filter of this category.",
    "uv-over": "More ultraviolet light passes than the standard leaves such a filter: choose another material.",
    "uv-unknown": "How much ultraviolet light it passes is not stated.",
    "child": "For a child: a material that resists impact, no darker than category 3, and nothing tinted at twilight.",
})  # fmt: skip
# Why a lens does not take a tint, see quoting/light/glass.py; what the figures do not rest on
REFUSED = marked({
    "too-deep": "deeper than {material} takes: {most} %",
    "over-filter": "no tint over this lens",
    "under-coat": "deeper than goes under its coat",
    "no-mirror": "no mirror on this lens",
})  # fmt: skip
UNSTATED = marked({
    "light": "Its color is not stated: it is taken as neutral.",
    "nothing": "How much light it passes is not stated: the figures are without it.",
})  # fmt: skip
SIGNALS = marked("Whether signal lights keep their color (Q) is not computed: the standard's spectra are not at hand.")

# What the page of tints says, and its scripts
PAGE = marked({
    "place-top": "at the top",
    "place-middle": "in the middle",
    "place-bottom": "at the bottom",
    "state-clear": "clear",
    "state-dark": "dark at {degrees} °C",
    "drive-night": "day and night",
    "drive-day": "by day",
    "drive-never": "never",
    "front-label": "Front of {frame} with these lenses, drawn to scale",
    "street-label": "A drawn street with signal lights, seen through {name}",
    "street-plain": "The same street without a lens",
    "street-note": (
        "A drawn street through the middle of the lens. It is as dark as the lens makes it; eyes get used to it. "
        "The lamps are drawn lights, not those of a standard."
    ),
    "street-here": (
        "A drawn street through this place of the lens. It is as dark as the lens makes it; eyes get used to it. "
        "The lamps are drawn lights, not those of a standard."
    ),
    "through": "The street through it",
    "everywhere": "Every front of this page is drawn with it now.",
    "recipe": "{parts}; takes {top} % of the light",
    "recipe-fading": "{parts}; takes {top} % of the light above, {bottom} % below, fading at {first} to {last} % down",
    "dye-none": "no dye",
    "dye": "Dye {number}",
    "parts": "Parts",
    "dark-top": "Light it takes, %",
    "dark-bottom": "At the bottom, %",
    "fades": "Fades toward the bottom",
    "fade-from": "Begins to fade, % of the height",
    "fade-to": "Ends to fade, % of the height",
    "lens": "Lens",
    "mirror": "Mirror",
    "mirror-none": "none",
    "state": "State",
    "ground": "Ground",
    "ground-skin": "skin",
    "ground-white": "white",
    "name": "Name of your mix",
    "ask": "Ask the shop for it",
    "link": "Address of this mix",
    "begin": "Begin a mix of your own with it",
    "ask-subject": "A tint: {name}",
    "ask-body": "I would like this tint: {recipe}.\nOn: {lens}.\n{address}",
    "own": "my own mix",
    "not-taken": "This lens does not take it: {why}.",
    "nothing-mixed": "Choose a dye and give it a part.",
    "never-so-dark": "These dyes never take so much light.",
    "no-tint": "no tint",
    "tint": "Tint",
    "light": "Light",
    "category": "Category",
    "driving": "Driving",
    "uva": "UV-A",
    "where": "Where",
    "figures": "Light that passes in percent, filter category, ultraviolet light, driving",
    "mixed-told": "{light} % of the light, category {category}",
})  # fmt: skip


def percents(value: float) -> str:
    """With one decimal, as the language writes it."""
    return decimals(f"{value:.1f}")


def sentence(told: Told) -> str:
    """One thing in words."""
    return _(SENTENCES[told["code"]]).format(percent=percents(told["percent"]))
