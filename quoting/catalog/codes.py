"""Every code a finding about a shop folder can have, and what it means.

A code is a promise: it stays once it is public, and tests/errors/ has a folder of its name with a shop that
shows it and the exact text that is told.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

FILES = {
    "no-such-folder": "A folder of the shop is not where it belongs.",
    "not-a-folder": "Something else stands where a folder belongs.",
    "nothing-there": "A folder holds no file to read, or its files nothing to quote.",
    "wrong-ending": "A file looks like one of ours, but only files that end in .yaml are read.",
    "outside-folder": "A link leads out of the shop folder, or in a circle; links inside it are followed.",
    "second-price-list": "Two price lists have the same version or hold from the same day on.",
    "no-such-file": "A file of the shop is not where it belongs.",
    "not-a-file": "Something else stands where a file belongs.",
    "unreadable-file": "The system does not let us read a file or folder.",
    "file-too-large": "A file is larger than we read at once.",
    "empty-file": "A file holds nothing but blanks and comments.",
    "not-utf-8": "A file is not saved as UTF-8.",
    "invisible-character": "A file holds a control character that editors do not show, or an escape for one.",
}
YAML = {
    "not-yaml": "A line cannot be read as YAML; reading of the file ends there.",
    "tab": "A line is indented with a tab; YAML takes spaces only.",
    "unclosed-quote": "A quote opens and is never closed.",
    "unclosed-bracket": "A bracket or brace is not closed, or a comma is missing inside it.",
    "second-document": "A file holds more than one YAML document; the others would be lost.",
    "anchor": "YAML shorthand (& and *) is not taken: every value stands where it is used.",
    "tag": "A YAML type tag (!) is not taken: the field decides the type.",
    "too-deep": "Brackets or indentation are nested deeper than any of our files.",
    "not-a-name": "A list or nothing stands where the name of a field belongs.",
    "duplicate-key": "A field is written twice in one place; one of the two would be lost.",
    "no-space": "There is no space after a colon, so name and value are read as one word.",
    "comma-splits": "A comma inside braces ended a value that was meant to go on.",
}
FIELDS = {
    "missing": "A field that must be there is not.",
    "unknown-key": "A field has a name that nobody reads: misspelled, or in the wrong place.",
    "empty-value": "A field is there, but its value is not.",
    "wrong-shape": "A list, a single value or names with values stand where another of the three belongs.",
    "not-a-choice": "A word is not one of those that are possible here.",
    "not-an-id": "An id holds more than lower-case letters, digits and single hyphens; it stands in links.",
    "wrong-form": "A text has not the form of what belongs here, such as a currency or an e-mail address.",
    "line-break": "A text that belongs on one line is broken into several.",
    "too-long": "A text is longer than there is room for.",
    "not-yes-or-no": "Yes or no belongs here.",
    "not-a-date": "A day belongs here, as year-month-day.",
    "not-a-color": "A color belongs here, as # and six digits or letters in quotes.",
    "not-a-number": "A number belongs here.",
    "not-a-whole-number": "A number without decimals belongs here.",
    "not-a-length": "A length belongs here, as a number of millimeters.",
    "not-an-angle": "An angle belongs here, as a number of degrees.",
    "not-a-power": "A power belongs here, as a number of diopters.",
    "not-an-amount": "An amount of money belongs here, as a number with at most two decimals.",
    "not-a-percentage": "A percentage belongs here, as a number with at most two decimals.",
    "out-of-range": "A number is too small or too large to be meant here.",
    "off-step": "A power does not lie on the steps in which powers are written.",
    "does-not-belong": "A field means nothing in this place, though it does in another.",
    "one-of-two": "Of two fields exactly one must be written.",
    "reversed": "The larger of two values, or the later of two days, stands where the smaller belongs.",
}
SENSE = {
    "unknown-locale": "There is no such language in such a country.",
    "unknown-currency": "No country pays with this currency.",
    "currency-decimals": "Amounts in this currency do not have the two decimals that prices are counted with.",
    "duplicate-id": "Two parts of one kind have the same id.",
    "duplicate-size": "Two sizes of a frame have the same lens width and distance between lenses.",
    "unknown-id": "A field names something that is written nowhere.",
    "gap": "Between two rows there are powers that no row holds.",
    "overlap": "Two rows hold the same power.",
    "not-covered": "Rows do not reach as far as the powers the package comes in.",
    "never-used": "A row holds only powers the package does not come in.",
    "ed-impossible": "No lens of this shape, width and height can have this effective diameter.",
    "taller-than-wide": "A lens is taller than wide, which is hardly ever meant.",
    "base-not-made": "A base curve chart names a curve that the design is not made on.",
    "nothing-off": "A discount takes nothing off.",
    "discount-over": "A discount ends before its price list begins to hold.",
    "redirect-circle": "Pages that moved lead to each other, and nobody who follows arrives.",
    "list-not-yet": "The price list begins to hold after the day that is reckoned with.",
}
WHOLE = {
    "unknown-text": "Words in another language are for a text that stands nowhere in the shop's files.",
    "not-translated": "A caution has no words in a language that the site speaks.",
    "discount-past": "A discount of the list in force has ended.",
    "same-model": "Two frames of one maker have the same name.",
    "same-color": "Two colorways of one frame have the same name and version.",
    "sun-unsaid": "A color is sold as a sun version only, and its colorway does not say so.",
    "not-sun-only": "A colorway says that it is sold as a sun version only, and the frame has its optical version.",
    "implausible": "A temple or an empty frame's weight is possible, but frames hardly have it.",
    "cheaper-though-stronger": "A lens costs less in a stronger band than in a weaker one.",
    "price-apart": "A price is five times, or a fifth of, what its like cost.",
    "price-jump": "A price more than doubles or halves from one price list to the next.",
    "lists-crossed": "Of two price lists the one with the later version begins before the other.",
    "list-far-off": "A price list begins in years: its day is mistyped.",
    "empty-column": "A column of the lens board holds powers that no package has.",
    "too-tall": "A design needs more height than the tallest lens of all frames has.",
    "never-allowed": "A package lists an option that its other properties never allow.",
    "never-due": "A surcharge is for what no frame and no package of the shop has.",
    "fits-no-frame": "The engine fits a package into no frame at any power that is tried.",
    "no-lens-fits": "The engine fits no package into a size of a frame.",
    "placeholder": "A line that a new shop begins with still holds an example.",
    "not-all-tried": "The shop is so large that not for every frame and package a fit was looked for.",
}
TINTS = {
    "no-such-curve": "A file of measured values that a curve names is not in the shop's folder.",
    "not-a-curve": "The values of a curve cannot be read, or do not reach over the visible light.",
    "duplicate-code": "Two mixes of the tint book have the same order code.",
    "never-so-dark": "The dyes of a mix never take as much light as it asks, however deep they are.",
    "not-taken": "A colorway wears a tint or a mirror that the lens it names does not take.",
    "no-material-takes-it": "A mix is deeper than any lens material of the shop takes a tint.",
    "darker-than-8": "A mix is so dark that nobody may drive behind it.",
}
PRIVATE = {
    "second-cost": "A wholesale cost, or the floor, is written in two files; one of the two would be lost.",
    "cost-over-price": "Something costs the shop more than it brings without tax.",
    "under-floor": "A price leaves less than the shop's own floor.",
}
PHOTOS = {
    "no-such-photo": "A photo that is named is not in the folder photos/.",
    "not-a-photo": "What is named as a photo is no JPEG, PNG or WebP that can be read.",
    "photo-too-large": "A photo has more bytes or more pixels than are worked on.",
    "photo-ending": "A photo's name ends otherwise than what is in it.",
    "photo-small": "A photo has so few pixels that it will look blurred.",
    "photo-names": "Two photos have names that differ in upper and lower case alone.",
    "photo-unused": "Photos in the folder photos/ that no frame and no colorway names.",
}
TRACES = {
    "no-such-trace": "A trace that a size names is not in the folder traces/.",
    "trace-not-this-size": "A trace that a size names is of a lens of another width or height.",
}
CODES: dict[str, str] = {**FILES, **YAML, **FIELDS, **SENSE, **WHOLE, **PRIVATE, **PHOTOS, **TRACES, **TINTS}
