"""What must be read at the point where it matters: sentences that follow from what a lens is and who is to wear it.

What a shop writes under ``cautions_for`` goes before the sentences here, word by word; what it writes under
``cautions`` stands on every page with a price.  Common practice of the trade; what is allowed where, local law says.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.catalog.model import Package
from quoting.catalog.shop import ABOUT, About, Shop
from quoting.languages import _, marked
from quoting.offers import Ask, Offer

# (practice) from this power on a plus lens makes things look so much larger that steps and distances deceive at first
STRONG_PLUS_D = 4.0

USUAL: dict[About, tuple[str, ...]] = marked({
    "quote": (
        "We need a prescription that is valid on the day you order.",
        "A PD or height you measured yourself is provisional; we confirm it before anything is cut.",
        "If your sight changes suddenly, see an eye doctor first.",
        "These are ordinary spectacles, not industrial safety eyewear.",
    ),
    "anti-fatigue": ("The boost low down takes some days to get used to, and does not replace a reading addition.",),
    "progressive": (
        "It needs the PD of each eye and both heights measured in the frame you will wear.",
        "A first progressive, or another design, can take some days to get used to. Mind steps.",
    ),
    "bifocal": (
        "It needs the PD of each eye and the height of the segment measured in the frame you will wear.",
        "The line and the jump of the image can take some days to get used to. Mind steps.",
    ),
    "photochromic": (
        "It darkens less in heat and little behind a windshield, takes a minute or so to darken and longer to clear.",
        "While it is dark it is not for driving at night or twilight.",
    ),
    "polarized": ("A sun lens: not for driving at night or twilight. Some displays look dark through it.",),
    "tinted": ("A tinted lens is not for driving at night or twilight, and a very dark one not for driving at all.",),
    "strong-plus": ("A strong plus lens makes things look larger and nearer. Mind steps and distances at first.",),
    "not-impact-resistant": ("Not impact-resistant: not for anyone under 18, anyone with one good eye, or sport.",),
    "impact-resistant": ("Impact-resistant is not unbreakable.",),
})

# What of it is over once a pair is made
FOR_THE_ORDER = (USUAL["progressive"][0], USUAL["bifocal"][0])


def about(package: Package) -> list[About]:
    """What can be said of a lens whoever wears it."""
    is_so: dict[About, bool] = {
        "anti-fatigue": package.design.kind == "anti-fatigue",
        "progressive": package.design.kind == "progressive",
        "bifocal": package.design.kind == "bifocal",
        "photochromic": package.light == "photochromic",
        "polarized": package.light == "polarized",
        "not-impact-resistant": not package.material.impact_resistant,
        "impact-resistant": package.material.impact_resistant,
    }
    return [word for word in ABOUT if is_so.get(word, False)]


def about_offer(offer: Offer, ask: Ask) -> list[About]:
    """The same of a lens for one customer, and what goes with every quote."""
    found = {"quote", *about(offer.choice.package)}
    if ask.wishes.tint_depth > 0:
        found.add("tinted")
    if any(lens["strongest"] >= STRONG_PLUS_D for lens in offer.lenses()):
        found.add("strong-plus")
    return [word for word in ABOUT if word in found]


def sentences(shop: Shop, word: About) -> tuple[str, ...]:
    """What is said about one thing: the shop's own sentences, or the usual ones."""
    return shop.cautions_for.get(word) or tuple(_(sentence) for sentence in USUAL[word])


def matters(shop: Shop, package: Package) -> list[str]:
    """All sentences about a lens, whoever wears it."""
    return [sentence for word in about(package) for sentence in sentences(shop, word)]


def matters_here(shop: Shop, offer: Offer, ask: Ask) -> list[str]:
    """All sentences about a lens for one customer."""
    return [sentence for word in about_offer(offer, ask) for sentence in sentences(shop, word)]


def on_paper(shop: Shop, offer: Offer, ask: Ask) -> list[str]:
    """What stands on a printed quote: what the shop says of every quote, and what matters of this lens."""
    return [*shop.cautions, *matters_here(shop, offer, ask)]
