"""Fits and quotes as plain text for terminals and mails."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from quoting.catalog.model import Package
from quoting.catalog.shop import Catalog, Shop
from quoting.kernel.records import Lens, Reason, Span
from quoting.offers import Ask, Choice, Offer, Offers
from quoting.prescription.model import Distances, Prescription
from quoting.show.amounts import eye, mm, money
from quoting.show.cautions import on_paper
from quoting.show.lines import MOUNTINGS, line_text
from quoting.show.reasons import customer, exact, told_once
from quoting.show.spans import range_text
from quoting.show.versions import color_text, quoted_version_lines, version_lines
from quoting.show.weights import pair_weight, weight_text

ORDER = {"fits": 0, "caution": 1, "no": 2}
FAULTS = {
    "not-made": "not made in this power",
    "needs-add": "not worked out without its addition",
    "cannot-be-ground": "no lens of this power reaches the whole frame",
    "impossible": "not worked out, because a number cannot be right",
}
ESTIMATES = {
    "pd": "the pupillary distance is the shop's default, not measured",
    "height": "the pupil height is estimated from the frame, not measured",
    "outline": "the outline is estimated from A, B and ED, not traced",
}


@dataclass(frozen=True, slots=True)
class Paper:
    """What a quote carries beside its offer."""

    number: str
    issued: date
    expires: date
    link: str


def pd_text(pd: Distances) -> str:
    """A pupillary distance as it was given.

    >>> pd_text(Distances(binocular=64, near=61)), pd_text(Distances(right=31.5, left=32)), pd_text(Distances(near=61))
    ('PD 64, near 61', 'PD 31.5/32', 'PD not given, near 61')
    """
    near = f", near {pd.near:g}" if pd.near is not None else ""
    if pd.right is not None and pd.left is not None:
        return f"PD {pd.right:g}/{pd.left:g}{near}"
    return f"PD {pd.binocular:g}{near}" if pd.binocular is not None else f"PD not given{near}"


def rx_lines(rx: Prescription) -> list[str]:
    """The prescription, right eye first."""
    rows = [("R", rx.right), ("L", rx.left)]
    return [f"{side}  {eye(one) if one else 'not to be glazed'}" for side, one in rows] + [pd_text(rx.pd)]


def frame_line(choice: Choice) -> str:
    """Frame, size, colorway and box on one line."""
    frame, size = choice.frame, choice.size
    return (
        f"{frame.maker} {frame.name} {size.label}, {color_text(choice.colorway)}, {MOUNTINGS[frame.mounting]}; "
        f"A {size.a:g} B {size.b:g} DBL {size.dbl:g} ED {size.ed:g}"
    )


def lens_name(package: Package) -> str:
    """Maker, name and what the lens is made of."""
    made_of = f"{package.design.name}, {package.material.name}, {package.light}, {package.coating}"
    return f"{package.maker} {package.name}: {made_of}"


def lens_line(side: str, lens: Lens) -> str:
    """One lens on one line."""
    if lens["fault"]:
        return f"{side}  {FAULTS[lens['fault']]}"
    return (
        f"{side}  edge {mm(lens['edge_min'])} mm {lens['edge_min_at']} "
        f"to {mm(lens['edge_max'])} mm {lens['edge_max_at']}, "
        f"center {mm(lens['center'])} mm, {lens['weight']:.1f} g, base {lens['base_curve']:g}, "
        f"blank {lens['blank_exact']:.1f} mm"
    )


def lens_lines(offer: Offer) -> list[str]:
    """Both lenses, one line each."""
    sides = [side for side, made in (("R", offer.has_right), ("L", offer.has_left)) if made]
    return [lens_line(side, lens) for side, lens in zip(sides, offer.lenses(), strict=True)]


def note_lines(offer: Offer, ask: Ask, offers: Offers) -> list[str]:
    """What was not measured, and which named discounts are not in the bill."""
    notes = [ESTIMATES[name] for name in offer.estimated]
    texts = {one.id: one.text for one in offers.catalog.price_list.discounts}
    given = [texts[line["id"]] for line in offer.bill["lines"] if line["code"] == "discount"]
    for name in offer.not_given(ask):
        better = f"it does not combine with {' and '.join(given)}, which takes more off"
        why = better if given else "it is not in force"
        notes.append(f"{texts[name]} is not taken off: {why}")
    return notes


def total_text(offer: Offer, shop: Shop) -> str:
    """The total, or that there is none."""
    return money(offer.bill["total_cents"], shop.currency, shop.locale) if offer.bill["priced"] else "no price"


def ranked(found: list[Offer]) -> list[Offer]:
    """What fits first, the cheapest first within a verdict; the order never changes with the name of a file."""
    return sorted(found, key=lambda one: (ORDER[one.fit["verdict"]], one.bill["total_cents"], one.choice.package.id))


def fit_block(offer: Offer, shop: Shop, spans: Iterable[Span] | None = None) -> list[str]:
    """One package in the answer to ``fit``, with the range that fits where it was asked for."""
    package, verdict = offer.choice.package, offer.fit["verdict"]
    price = f"  {total_text(offer, shop)}" if verdict != "no" or offer.bill["priced"] else ""
    rows = [f"{verdict.upper():8}{package.name} [{package.id}]{price}"]
    if any(not lens["fault"] for lens in offer.lenses()):
        rows += [f"        {row}" for row in lens_lines(offer)]
    if (lenses := pair_weight(offer)) is not None:
        rows.append(f"        lenses together {lenses:.1f} g")
    rows += [f"        {'!' if one['verdict'] == 'no' else '~'} {customer(one, package)}" for one in reasons_of(offer)]
    return rows if spans is None else [*rows, f"        fits: {range_text(spans)}"]


def reasons_of(offer: Offer) -> list[Reason]:
    """The reasons as people are told them."""
    return told_once(offer.fit["reasons"])


def fit_text(found: list[Offer], ask: Ask, offers: Offers, with_ranges: bool = False) -> str:
    """The answer to ``fit``: every package, the ones that fit first."""
    shop = offers.catalog.shop
    first = found[0].choice
    rows = [frame_line(first), *(f"{one}." for one in version_lines(first.frame, first.colorway, shop))]
    rows += [*rx_lines(ask.rx), ""]
    for offer in ranked(found):
        rows += fit_block(offer, shop, offers.range(offer.choice, ask) if with_ranges else None)
    counts = {verdict: sum(one.fit["verdict"] == verdict for one in found) for verdict in ORDER}
    rows += ["", f"{counts['fits']} fit, {counts['caution']} with a caution, {counts['no']} do not."]
    rows += [f"Note: {row}." for row in note_lines(ranked(found)[0], ask, offers)]
    return "\n".join(rows)


def bill_lines(offer: Offer, ask: Ask, catalog: Catalog, offers: Offers) -> list[str]:
    """The bill, amounts right-aligned; one line where there is no price."""
    if not offer.bill["priced"]:
        return [f"Total: {total_text(offer, catalog.shop)}"]
    shop, region = catalog.shop, offers.region(ask.region)
    rows = [
        (line_text(line, offer.choice, catalog, region), money(line["cents"], shop.currency, shop.locale))
        for line in offer.bill["lines"]
    ]
    rows.append(("Total", total_text(offer, shop)))
    wide = max(len(text) for text, _ in rows)
    high = max(len(amount) for _, amount in rows)
    lines = [f"{text:{wide}}  {amount:>{high}}" for text, amount in rows]
    lines.insert(-1, "-" * (wide + high + 2))
    if offer.bill["tax_included_cents"]:
        lines.append(f"of which tax {money(offer.bill['tax_included_cents'], shop.currency, shop.locale)}")
    return [*lines, "Each share is rounded half up to the cent, line by line."]


def quote_text(offer: Offer, ask: Ask, offers: Offers, paper: Paper) -> str:
    """A whole quote."""
    catalog, package = offers.catalog, offer.choice.package
    shop, prices = catalog.shop, catalog.price_list
    rows = [
        f"{shop.name}: quote {paper.number}",
        f"issued {paper.issued}, valid until {paper.expires}, price list {prices.version}",
        "",
        *rx_lines(ask.rx),
        frame_line(offer.choice),
        lens_name(package),
        "",
        f"Verdict: {offer.fit['verdict']}",
        *(f"  {customer(one, package)}\n  ({exact(one, package)})" for one in reasons_of(offer)),
        *lens_lines(offer),
        *weight_text(offer),
        "",
        *bill_lines(offer, ask, catalog, offers),
        "",
        *(f"Note: {row}." for row in (*quoted_version_lines(offer, ask, offers), *note_lines(offer, ask, offers))),
        *on_paper(shop, offer, ask),
        f"Page: {paper.link}",
    ]
    return "\n".join(rows)


def summary(catalog: Catalog) -> str:
    """What the catalog holds, in one line."""
    colors = sum(len(frame.colorways) for frame in catalog.frames.values())
    frames = f"{len(catalog.frames)} frames in {colors} colorways"
    lenses = f"{len(catalog.packages)} lens packages, {len(catalog.materials)} materials"
    later = [one for one in catalog.price_lists if one.effective > catalog.price_list.effective]
    lists = ", ".join([catalog.price_list.version, *(f"{one.version} from {one.effective} on" for one in later)])
    return f"{catalog.shop.name}: {frames}; {lenses}; price list {lists}."
