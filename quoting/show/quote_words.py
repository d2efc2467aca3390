"""What the page of a quote says.  What stands in braces is filled in there."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.languages import in_context, marked
from quoting.show.tint_words import PAGE, SENTENCES

# How a quote stands, see quoting/quoted/trust.py; what cannot be opened, see quoting/quoted/sealing.py
STANDING = marked({
    "held": "The shop has signed this quote and holds its price until {day}.",
    "expired": "The shop has signed this quote, but held its price only until {day}. What counts is today's.",
    "withdrawn": "The shop has withdrawn this quote: it does not count any more. Please ask the shop.",
    "estimate": "This is an estimate, not a quote that the shop has signed. What counts is what it comes to today.",
    "unverified": "This browser cannot tell whether the shop signed this quote. It says that it holds until {day}.",
    "altered": "This quote was changed after the shop signed it. It does not count: please ask the shop for it again.",
    "unknown-key": "This quote was not signed by this shop. It does not count: please ask the shop for it again.",
    "recalled-key": "This quote was signed with a key that the shop has called back. Please ask the shop for it again.",
    "late-key": "This quote was signed with a key that was out of use on its day. Please ask the shop for it again.",
    "nothing": "There is no quote in this address. Open the whole link that you were sent.",
    "no-quote": "This is not the link of a quote. Open the whole link that you were sent.",
    "newer": "This quote was made in a newer way than this page knows. Please ask the shop.",
    "damaged": "This link was cut short or changed on its way. Please ask for it again, or paste it below.",
    "old-browser": "This browser is too old to open a quote. Please try another one.",
    "fault": "We cannot show this quote here. Please ask us.",
})  # fmt: skip
PARTS = marked({
    "title": "Quote {number}",
    "title-estimate": "Estimate",
    "title-none": "Your quote",
    "issued": "Issued",
    "holds-until": "Price held until",
    "price-list": "Price list",
    "choose": "{count} alternatives, of which you take one:",
    "frame-and-lens": "Frame and lens",
    "thickest": "Thickest edge",
    "mm": "{mm} mm",
    "today": "(today {amount})",
    "alternative": "Alternative {letter}",
    "first-pair": "First pair",
    "second-pair": "Second pair",
    "both": "Both pairs: {amount}",
    "front": "Front of {frame}, drawn to scale",
    "right": in_context("eye", "R"),
    "left": in_context("eye", "L"),
    "sphere": in_context("no cylinder", "DS"),
    "no-lens": "not to be glazed",
    "add": "add {power}",
    "prism-in": "prism {amount} in",
    "prism-out": "prism {amount} out",
    "prism-up": "prism {amount} up",
    "prism-down": "prism {amount} down",
    "pd": "PD {text}",
    "no-pd": "PD not given",
    "pd-near": "{pd}, near {near}",
    "pd-estimated": "PD {text} mm, estimated",
    "heights": "Heights {text} mm",
    "heights-estimated": "Heights {text} mm, estimated",
    "tilt": "Tilt as worn {angle}°",
    "wrap": "Face-form angle {angle}°",
    "figures": "thickest edge {edge} mm {at}, center {center} mm, {grams} g",
    "weight": "lenses {lenses} g",
    "weight-framed": "lenses {lenses} g, with the frame {whole} g",
    "estimated": "Estimated: {what}.",
    "verdict-fits": "fits",
    "verdict-caution": "fits, with a caution",
    "verdict-no": "does not fit",
    "what": "What",
    "then": "In the quote",
    "now": in_context("a price", "Today"),
    "total": "Total",
    "listed": "(price list: {amount})",
    "tax-inside": "of which tax {amount}",
    "no-price": "There is no price for this power. Please ask us.",
    "since": "What has changed since",
    "same": "Nothing: today it comes to the same.",
    "other-list": "The price list is {version} now; the quote is from {old}.",
    "other-total": "Today it comes to {now} instead of {then}.",
    "changed": "What the shop changed for you is reckoned at the price list there.",
    "gone": "The shop does not have {what} any more; shown is the quote as it was issued.",
    "misfit": "By today's rules {what} would not be offered like this; shown is the quote as it was issued.",
    "no-today": "What it comes to today cannot be worked out here; shown is the quote as it was issued.",
    "note": "Please note",
    "ask": "Ask the shop",
    "copy": "Copy the link",
    "copied": "Copied. Whoever opens it sees your prescription.",
    "share": in_context("a link", "Share"),
    "print": "Print",
    "letter-about": "Quote {number}",
    "letter-estimate": "An estimate from your site",
    "letter-words": "I have a question about this:",
})  # fmt: skip

# What was wished beyond the lens, and whom it is for, by the names of quoting/prescription/wishes.py
WISHED = marked({
    "wished": "Wished: {what}",
    "wish-tint": "a tint of {depth} %",
    "wish-tint_gradient": "a tint of {depth} %, fading downward",
    "wish-mirror": "a mirror coating",
    "wish-blue_filter": "a blue filter",
    "wish-slab_off": "slab-off",
    "wish-rush": "a rush order",
    "wish-sport": "for sport",
    "wish-one_eyed": "for somebody with one good eye",
    "wish-driving": "for driving by day",
    "wish-night_driving": "for driving at night",
    "wish-child": "for somebody under 18",
})  # fmt: skip

# The tint of a pair; what the recipe says, and the sentences about driving, are those of the tint book
TINTED = marked({
    "tint-book": "Tint {name} (order code {code}): {recipe}",
    "tint-named": "Tint {name}: {recipe}",
    "tint-own": "Tint mixed for you: {recipe}",
    "tint-short": "tint {name}",
    "tint-short-own": "tint mixed for you",
    "tint-mirror": "Mirror: {name}",
    "tint-light": "With it the lens passes {percent} % of the light: filter category {category}",
    "tint-light-5": "With it the lens passes {percent} % of the light: darker than any filter category",
    "tint-fading": "With it the lens passes {top} % of the light at the top, {middle} % in the middle, {bottom} % at "
    "the bottom: filter category {category} where it is darkest",
    "tint-fading-5": "With it the lens passes {top} % of the light at the top, {middle} % in the middle, {bottom} % at "
    "the bottom: darker than any filter category where it is darkest",
    "tint-dark": "Darkened at {degrees} °C it passes {percent} % of the light where it is darkest: filter category "
    "{category}",
    "tint-dark-5": "Darkened at {degrees} °C it passes {percent} % of the light where it is darkest: darker than any "
    "filter category",
    "tint-driving-1": "Not for driving: too little of some color comes through.",
    "tint-gone": "The tint book does not have {name} any more; shown is the mix as it was issued, and it can be made.",
    "tint-other": "{name} is mixed in another way today; shown is the mix as it was issued, and it can be made.",
})  # fmt: skip
TINTED |= {
    "tint-driving-0": SENTENCES["day-never"],
    "tint-driving-2": SENTENCES["night-never"],
    "tint-driving-3": SENTENCES["night-fine"],
    "tint-child": SENTENCES["child"],
    "tint-recipe": PAGE["recipe"],
    "tint-recipe-fading": PAGE["recipe-fading"],
}

QUOTE = {**STANDING, **PARTS, **WISHED}
