"""The shop itself: who we are, what our bench can mount, and the figures used until someone has measured."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import cast

from quoting.catalog import checks, steps
from quoting.catalog.model import MOUNTINGS, Mounting
from quoting.catalog.read_redirects import read_redirects
from quoting.catalog.shop import ABOUT, About, Band, Defaults, Limits, MountingLimits, Shop
from quoting.kernel.rules import IMBALANCE, READING_DROP_MM
from quoting.nodes import Record

# Of tolerances: where a shop does not say, that of the United States there, the international one elsewhere
STANDARDS = ("ansi", "iso")
EMAIL = r"[^\s@<>\"]+@[^\s@<>\"]+\.[^\s@<>\"]+"
URL = r"https?://[^\s/\"<>]+(?:/[^\s\"<>]*)?"
# What each mounting usually holds (practice): a plastic rim hides a thick edge, a metal rim little of it; a groove and
# a hole want a strong edge.  `rim` is how wide it is drawn: nothing runs around a drilled lens.
USUAL = {
    "full-rim-plastic": {"min_edge": "1.0", "edge_caution": "8.0", "edge_no": "11.0", "rim": "3.5"},
    "full-rim-metal": {"min_edge": "1.0", "edge_caution": "5.0", "edge_no": "7.0", "rim": "1.4"},
    "semi-rimless": {"min_edge": "2.0", "edge_caution": "6.0", "edge_no": "8.0", "rim": "1.6"},
    "drilled": {"min_edge": "2.0", "edge_caution": "6.0", "edge_no": "8.0", "rim": "0.0"},
}


def _braced(values: Mapping[str, str]) -> str:
    return "{" + ", ".join(f"{name}: {value}" for name, value in values.items()) + "}"


USUAL_MOUNTINGS = {name: _braced(limits) for name, limits in USUAL.items()}


def read_shop(root: Record) -> Shop | None:
    """The shop of shop.yaml, or None where any of it cannot be relied on."""
    shop = root.record("shop", "`shop`", example="{name: Fellmark Spectacles, ...}")
    quotes = root.record("quotes", "`quotes`", example="{valid_days: 30, prescription_months: 24}")
    made = Shop(
        name=shop.text("name", most=80, example="Fellmark Spectacles"),
        tagline=shop.text("tagline", most=160, example="Frames and lenses on the market square"),
        address=shop.texts("address", most=80, example="12 Mill Lane"),
        email=shop.form("email", EMAIL, "an e-mail address", "hello@example.org"),
        phone=shop.text("phone", most=40, example='"(555) 555-0123"'),
        currency=shop.form("currency", "[A-Z]{3}", "three capital letters (ISO 4217)", "EUR"),
        locale=shop.form("locale", "[a-z]{2,3}_[A-Z]{2}", "language_COUNTRY", "en_US"),
        languages=shop.texts("languages", default=(), most=20, example="en, es"),
        url=shop.form("url", URL, "an address that begins with https://", "https://shop.example.org", default=""),
        quote_days=quotes.whole("valid_days", 1, 366, example="30"),
        prescription_months=quotes.whole("prescription_months", 1, 120, example="24"),
        mountings=read_mountings(root.record("mountings", "`mountings`", example=_braced(USUAL_MOUNTINGS))),
        limits=read_limits(root.record("limits", "`limits`", example="{edging_allowance: 2.0, ...}")),
        defaults=read_measurements(root.record("measurements", "`measurements`", example="{pd: 63, ...}")),
        bands=read_bands(root),
        cautions=root.texts("cautions", prose=True, example="An estimate until a licensed optician has checked it."),
        cautions_for=read_cautions(root.record("cautions_for", "`cautions_for`", needed=False)),
        standard=quotes.choice("standard", STANDARDS, default=""),
        mark=shop.mark("name"),
        redirects=read_redirects(root),
    )
    checks.locale(shop, made.locale)
    checks.languages(shop, made.languages)
    checks.currency(shop, made.currency, made.locale)
    shop.close()
    quotes.close()
    usual = "ansi" if made.locale.endswith("_US") else "iso"
    return root.made(replace(made, standard=made.standard or usual))


def read_cautions(record: Record) -> dict[About, tuple[str, ...]]:
    """The shop's own sentences about one thing; what is left out is said in ours."""
    found = {about: record.texts(about, default=(), prose=True, example="Mind steps.") for about in ABOUT}
    record.close()
    return {about: sentences for about, sentences in found.items() if sentences}


def read_mountings(record: Record) -> dict[Mounting, MountingLimits]:
    """What each mounting holds; all four are there."""
    limits: dict[Mounting, MountingLimits] = {}
    for name in MOUNTINGS:
        usual = USUAL[name]
        part = record.record(name, "this mounting", example=USUAL_MOUNTINGS[name])
        limits[cast(Mounting, name)] = made = MountingLimits(
            min_edge=part.length("min_edge", 0.3, 5, example=usual["min_edge"]),
            edge_caution=part.length("edge_caution", 1, 30, example=usual["edge_caution"]),
            edge_no=part.length("edge_no", 1, 40, example=usual["edge_no"]),
            rim=part.length("rim", 0, 15, example=usual["rim"]),
            mark=part.mark(),
        )
        checks.edges(part, made)
        part.close()
    record.close()
    return limits


def read_limits(record: Record) -> Limits:
    """The shop's own limits."""
    limits = Limits(
        edging_allowance=record.length("edging_allowance", 0, 10, example="2.0"),
        curve_difference=record.number("curve_difference", 0, 10, example="2.0"),
        wrap_angle=record.angle("wrap_angle", 0, 40, example="15"),
        wrap_curve=record.number("wrap_curve", 0, 12, example="7.0"),
        pow_tilt=record.angle("pow_tilt", 0, 30, example="12"),
        pow_wrap=record.angle("pow_wrap", 0, 40, example="10"),
        curve_factor=record.number("curve_factor", 1, 10, default=2.0, example="2.0"),
        boost_add=record.power("boost_add", 0.25, 6, default=1.25, example="1.25"),
        reading_drop=record.length("reading_drop", 0, 20, default=READING_DROP_MM, example="10"),
        reading_imbalance=record.number("reading_imbalance", 0.25, 10, default=IMBALANCE, example="1.5"),
        image_difference=record.number("image_difference", 0.5, 20, default=3.0, example="3.0"),
        gradient_height=record.length("gradient_height", 0, 60, default=28.0, example="28"),
        driving_least=record.number("driving_least", 0, 100, default=8.0, example="8"),
        night_least=record.number("night_least", 0, 100, default=75.0, example="75"),
    )
    record.close()
    return limits


def read_measurements(record: Record) -> Defaults:
    """What stands in for measurements; the limits are wider than any that were published.

    Distances between pupils: Dodgson 2004 gives 52 to 78 for adults.
    """
    defaults = Defaults(
        pd=record.length("pd", 45, 80, example="63"),
        child_pd=record.length("child_pd", 35, 70, example="54"),
        pupil_above_center=record.length("pupil_above_center", -5, 15, example="4"),
        vertex=record.length("vertex", 5, 25, example="13"),
        working_distance=record.length("working_distance", 200, 1000, example="400"),
    )
    record.close()
    return defaults


def read_bands(root: Record) -> tuple[Band, ...]:
    """The columns of the lens board, from the lowest power up."""
    spans = []
    for record in root.records("bands", "this band", example="{from: -2.00, to: +2.00}"):
        spans.append(steps.read_span(record))
        record.close()
    if steps.readable(root, "bands", spans):
        steps.contiguous("bands", spans)
    bands = [Band(span.low, span.high, span.record.mark()) for span in spans]
    return tuple(sorted(bands, key=lambda band: band.low))
