"""Fits and quotes as plain text for terminals and mails."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from quoting.catalog.model import Package
from quoting.catalog.shop import Catalog, Shop
from quoting.kernel.records import Lens, Reason, Span
from quoting.languages import _, decimals, in_context, marked
from quoting.offers import Ask, Choice, Offer, Offers
from quoting.prescription.model import Distances, Prescription
from quoting.remedies import remedies
from quoting.show.amounts import day, eye, mm, money, plain
from quoting.show.cautions import on_paper
from quoting.show.lines import line_text
from quoting.show.reasons import customer, exact, told_once
from quoting.show.remedies import remedy_text
from quoting.show.spans import range_text
from quoting.show.terms import light, mounting, place, verdict
from quoting.show.tint_lines import ask_lines
from quoting.show.versions import color_text, quoted_version_lines, version_lines
from quoting.show.weights import pair_weight, weight_text

MADE = marked(
    "edge {least} mm {least_at} to {most} mm {most_at}, center {center} mm, {weight} g, base {base}, blank {blank} mm"
)
# The two eyes as the rows of a quote begin
SHORT = marked({"R": in_context("eye", "R"), "L": in_context("eye", "L")})
ORDER = {"fits": 0, "caution": 1, "no": 2}
FAULTS = marked({
    "not-made": "not made in this power",
    "needs-add": "not worked out without its addition",
    "cannot-be-ground": "no lens of this power reaches the whole frame",
    "impossible": "not worked out, because a number cannot be right",
})  # fmt: skip
ESTIMATES = marked({
    "pd": "the pupillary distance is the shop's default, not measured",
    "height": "the pupil height is estimated from the frame, not measured",
    "outline": "the outline is estimated from A, B and ED, not traced",
})  # fmt: skip


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
    if pd.right is not None and pd.left is not None:
        far = _("PD {text}").format(text=f"{plain(pd.right)}/{plain(pd.left)}")
    else:
        far = _("PD not given") if pd.binocular is None else _("PD {text}").format(text=plain(pd.binocular))
    return far if pd.near is None else _("{pd}, near {near}").format(pd=far, near=plain(pd.near))


def rx_lines(rx: Prescription) -> list[str]:
    """The prescription, right eye first."""
    rows = [(_(SHORT["R"]), rx.right), (_(SHORT["L"]), rx.left)]
    return [f"{side}  {eye(one) if one else _('not to be glazed')}" for side, one in rows] + [pd_text(rx.pd)]


def frame_line(choice: Choice) -> str:
    """Frame, size, colorway and box on one line."""
    frame, size = choice.frame, choice.size
    color = color_text(choice.colorway)
    return (
        f"{frame.maker} {frame.name} {decimals(size.label)}, {color}, {mounting(frame.mounting)}; "
        f"A {plain(size.a)} B {plain(size.b)} DBL {plain(size.dbl)} ED {plain(size.ed)}"
    )


def lens_name(package: Package) -> str:
    """Maker, name and what the lens is made of."""
    made_of = f"{package.design.name}, {package.material.name}, {light(package.light)}, {package.coating}"
    return f"{package.maker} {package.name}: {made_of}"


def lens_line(side: str, lens: Lens) -> str:
    """One lens on one line."""
    if lens["fault"]:
        return f"{_(SHORT[side])}  {_(FAULTS[lens['fault']])}"
    made = _(MADE).format(
        least=mm(lens["edge_min"]),
        least_at=place(lens["edge_min_at"]),
        most=mm(lens["edge_max"]),
        most_at=place(lens["edge_max_at"]),
        center=mm(lens["center"]),
        weight=mm(lens["weight"]),
        base=plain(lens["base_curve"]),
        blank=mm(lens["blank_exact"]),
    )
    return f"{_(SHORT[side])}  {made}"


def lens_lines(offer: Offer) -> list[str]:
    """Both lenses, one line each."""
    sides = [side for side, made in (("R", offer.has_right), ("L", offer.has_left)) if made]
    return [lens_line(side, lens) for side, lens in zip(sides, offer.lenses(), strict=True)]


def note_lines(offer: Offer, ask: Ask, offers: Offers) -> list[str]:
    """What was not measured, and which named discounts are not in the bill."""
    notes = [_(ESTIMATES[name]) for name in offer.estimated]
    texts = {one.id: one.text for one in offers.catalog.price_list.discounts}
    given = [texts[line["id"]] for line in offer.bill["lines"] if line["code"] == "discount"]
    for name in offer.not_given(ask):
        if given:
            said = _("{discount} is not taken off: it does not combine with {others}, which takes more off")
        else:
            said = _("{discount} is not taken off: it is not in force")
        notes.append(said.format(discount=texts[name], others=_(" and ").join(given)))
    return notes


def total_text(offer: Offer, shop: Shop) -> str:
    """The total, or that there is none."""
    return money(offer.bill["total_cents"], shop.currency, shop.locale) if offer.bill["priced"] else _("no price")


def ranked(found: list[Offer]) -> list[Offer]:
    """What fits first, the cheapest first within a verdict; the order never changes with the name of a file."""
    return sorted(found, key=lambda one: (ORDER[one.fit["verdict"]], one.bill["total_cents"], one.choice.package.id))


def fit_block(
    offer: Offer, shop: Shop, help_lines: Iterable[str] = (), spans: Iterable[Span] | None = None
) -> list[str]:
    """One package in the answer to ``fit``: what would make it fit, and where it was asked for the range that fits."""
    package, verdict = offer.choice.package, offer.fit["verdict"]
    price = f"  {total_text(offer, shop)}" if verdict != "no" or offer.bill["priced"] else ""
    rows = [f"{verdict.upper():8}{package.name} [{package.id}]{price}"]
    if any(not lens["fault"] for lens in offer.lenses()):
        rows += [f"        {row}" for row in lens_lines(offer)]
    if (lenses := pair_weight(offer)) is not None:
        rows.append(f"        lenses together {lenses:.1f} g")
    rows += [f"        {'!' if one['verdict'] == 'no' else '~'} {customer(one, package)}" for one in reasons_of(offer)]
    rows += [f"        → {row}" for row in help_lines]
    return rows if spans is None else [*rows, f"        fits: {range_text(spans)}"]


def reasons_of(offer: Offer) -> list[Reason]:
    """The reasons as people are told them."""
    return told_once(offer.fit["reasons"])


def help_lines(offer: Offer, ask: Ask, offers: Offers) -> list[str]:
    """What would make it fit; changes that leave other reasons only where nothing better is known."""
    found = remedies(offers, offer, ask)
    better = [one for one in found if one.verdict != "no"]
    return [remedy_text(one) for one in (better or found)]


def fit_text(found: list[Offer], ask: Ask, offers: Offers, with_ranges: bool = False) -> str:
    """The answer to ``fit``: every package, the ones that fit first."""
    shop = offers.catalog.shop
    first = found[0].choice
    rows = [frame_line(first), *(f"{one}." for one in version_lines(first.frame, first.colorway, shop))]
    rows += [*rx_lines(ask.rx), ""]
    for offer in ranked(found):
        spans = offers.range(offer.choice, ask) if with_ranges else None
        rows += fit_block(offer, shop, help_lines(offer, ask, offers), spans)
    counts = {verdict: sum(one.fit["verdict"] == verdict for one in found) for verdict in ORDER}
    rows += ["", f"{counts['fits']} fit, {counts['caution']} with a caution, {counts['no']} do not."]
    rows += [f"Note: {row}." for row in note_lines(ranked(found)[0], ask, offers)]
    return "\n".join(rows)


def bill_lines(offer: Offer, ask: Ask, catalog: Catalog, offers: Offers) -> list[str]:
    """The bill, amounts right-aligned; one line where there is no price."""
    if not offer.bill["priced"]:
        return [_("Total: {amount}").format(amount=total_text(offer, catalog.shop))]
    shop, region = catalog.shop, offers.region(ask.region)
    rows = [
        (line_text(line, offer.choice, catalog, region), money(line["cents"], shop.currency, shop.locale))
        for line in offer.bill["lines"]
    ]
    rows.append((_("Total"), total_text(offer, shop)))
    wide = max(len(text) for text, _ in rows)
    high = max(len(amount) for _, amount in rows)
    lines = [f"{text:{wide}}  {amount:>{high}}" for text, amount in rows]
    lines.insert(-1, "-" * (wide + high + 2))
    if offer.bill["tax_included_cents"]:
        inside = money(offer.bill["tax_included_cents"], shop.currency, shop.locale)
        lines.append(_("of which tax {amount}").format(amount=inside))
    return [*lines, _("Each share is rounded half up to the cent, line by line.")]


def quote_text(offer: Offer, ask: Ask, offers: Offers, paper: Paper) -> str:
    """A whole quote."""
    catalog, package = offers.catalog, offer.choice.package
    shop, prices = catalog.shop, catalog.price_list
    valid = _("issued {issued}, valid until {expires}, price list {list}")
    rows = [
        _("{shop}: quote {number}").format(shop=shop.name, number=paper.number),
        valid.format(issued=day(paper.issued), expires=day(paper.expires), list=prices.version),
        "",
        *rx_lines(ask.rx),
        frame_line(offer.choice),
        lens_name(package),
        *ask_lines(ask, package, catalog),
        "",
        _("Verdict: {verdict}").format(verdict=verdict(offer.fit["verdict"])),
        *(f"  {customer(one, package)}\n  ({exact(one, package)})" for one in reasons_of(offer)),
        *(f"  → {row}" for row in help_lines(offer, ask, offers)),
        *lens_lines(offer),
        *weight_text(offer),
        "",
        *bill_lines(offer, ask, catalog, offers),
        "",
        *(_("Note: {note}.").format(note=row) for row in quoted_version_lines(offer, ask, offers)),
        *(_("Note: {note}.").format(note=row) for row in note_lines(offer, ask, offers)),
        *on_paper(shop, offer, ask),
        _("Page: {link}").format(link=paper.link),
    ]
    return "\n".join(rows)


def counted(count: int, noun: str) -> str:
    """One or several of something.

    >>> counted(1, "frame"), counted(2, "frame")
    ('1 frame', '2 frames')
    """
    return f"{count} {noun}{'' if count == 1 else 's'}"


def summary(catalog: Catalog) -> str:
    """What the catalog holds, in one line."""
    colors = sum(len(frame.colorways) for frame in catalog.frames.values())
    frames = f"{counted(len(catalog.frames), 'frame')} in {counted(colors, 'colorway')}"
    lenses = f"{counted(len(catalog.packages), 'lens package')}, {counted(len(catalog.materials), 'material')}"
    later = [one for one in catalog.price_lists if one.effective > catalog.price_list.effective]
    lists = ", ".join([catalog.price_list.version, *(f"{one.version} from {one.effective} on" for one in later)])
    return f"{catalog.shop.name}: {frames}; {lenses}; price list {lists}."
