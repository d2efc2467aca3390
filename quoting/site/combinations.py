"""Articles that name a frame, a colorway and a package: what they name is looked up and computed here.

A combination's metadata: Frame, Size, Colorway, Package, and Rx, the prescription of an invented example; what its lens
wears (`quoting.site.combination_lens`), and Film, where there is one (`quoting.site.film`).
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import json
from dataclasses import asdict, dataclass
from pathlib import Path

from quoting.choosing import UnknownError, choice_of, pick
from quoting.findings import Finding, errors
from quoting.languages import _, speaking, tongue
from quoting.light.lens_worn import LensWorn
from quoting.offers import Ask, Offer, Offers
from quoting.prescription.text import read_slip
from quoting.show.cautions import matters_here
from quoting.show.reasons import customer, told_once
from quoting.show.text import ESTIMATES
from quoting.site.combination_lens import lens_of, wishes_of
from quoting.site.film import Film, film_of
from quoting.site.source import mark_of

KEYS = ("frame", "size", "colorway", "package", "rx")


@dataclass(frozen=True, slots=True)
class Combination:
    """A combination with its example customer and the engine's answer."""

    offer: Offer
    ask: Ask
    lens: LensWorn  # in which its front is drawn
    cautions: tuple[str, ...] = ()  # about this lens for this customer
    film: Film | None = None

    @property
    def sentences(self) -> list[str]:
        """What speaks against it, as the customer is told it."""
        return [customer(reason, self.offer.choice.package) for reason in told_once(self.offer.fit["reasons"])]

    @property
    def wishes(self) -> str:
        """What its lens is to have beside what it is, as the page's engine reads it; "" for nothing."""
        said = {name: value for name, value in asdict(self.ask.wishes).items() if value}
        return json.dumps(said) if said else ""

    @property
    def estimates(self) -> list[str]:
        """What was not measured."""
        return [_(ESTIMATES[name]) for name in self.offer.estimated]


def combination_of(offers: Offers, source: Path, words: dict[str, str]) -> tuple[Combination | None, list[Finding]]:
    """The combination that an article's metadata name, or everything that keeps it from being one."""
    missing = [key for key in KEYS if not words.get(key)]
    if missing:
        hint = "write, say, `Frame: kestrel`, `Size: 52-18`, `Colorway: black`, `Package: thin-160`, `Rx: OD -2.00 DS`"
        return None, [
            Finding(mark_of(source, key), "combination-incomplete", f"a combination needs `{key.capitalize()}:`", hint)
            for key in missing
        ]
    reading = read_slip(words["rx"], name=str(source), today=offers.day)
    if reading.prescription is None or errors(reading.findings):
        told = "; ".join(finding.message for finding in errors(reading.findings))
        hint = "write it as on a slip, such as `Rx: OD -2.00 -0.50 x 90 / OS -2.25 DS / PD 63`"
        said = f"the prescription cannot be read: {told}"
        return None, [Finding(mark_of(source, "rx"), "combination-rx", said, hint)]
    try:
        package = pick("package", offers.catalog.packages, words["package"])
        choice = choice_of(offers.catalog, words["frame"], words["size"], words["colorway"], package)
    except UnknownError as unknown:
        key = next((key for key in KEYS if f"no {key}" in str(unknown)), "frame")
        hint = "ids are those of the shop's files"
        return None, [Finding(mark_of(source, key), "combination-unknown", str(unknown), hint)]
    with speaking(tongue("en_US")):  # to the owner, whatever the page speaks
        lens, wrong = lens_of(offers.catalog, package, source, words)
    if lens is None:
        return None, wrong
    ask = Ask(reading.prescription, wishes=wishes_of(lens))
    offer = offers.offer(choice, ask)
    film, faults = film_of(source, words.get("film", ""))
    made = Combination(offer, ask, lens, tuple(matters_here(offers.catalog.shop, offer, ask)), film)
    with speaking(tongue("en_US")):
        return made, faults + doubts(made, source)


def doubts(made: Combination, source: Path) -> list[Finding]:
    """What an owner should look at again before an article is public."""
    found = []
    if made.offer.fit["verdict"] == "no":
        said = f"this lens does not fit: {' '.join(made.sentences)}"
        found.append(("package", "combination-does-not-fit", said, "show another package, size or prescription"))
    if made.offer.choice.colorway.stock == "sold-out":
        said = f"{made.offer.choice.frame.name} in {made.offer.choice.colorway.name} is sold out"
        found.append(("colorway", "combination-sold-out", said, "show another colorway"))
    return [Finding(mark_of(source, key), code, said, hint, "warning") for key, code, said, hint in found]
