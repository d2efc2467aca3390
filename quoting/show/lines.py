"""What the lines of a bill say."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.catalog.shop import Catalog, Region
from quoting.kernel.records import Line
from quoting.money import written
from quoting.offers import Choice

MOUNTINGS = {
    "full-rim-plastic": "full-rim plastic",
    "full-rim-metal": "full-rim metal",
    "semi-rimless": "semi-rimless",
    "drilled": "drilled rimless",
}
TAXED = {"frame": "the frame", "lenses": "the lenses", "shipping": "shipping"}
SIDES = {"R": "Right lens", "L": "Left lens"}
EYES = {"R": ", right eye", "L": ", left eye", "B": ""}


def frame_text(choice: Choice) -> str:
    """Frame, size and colorway, with what a sun version means."""
    text = f"{choice.frame.maker} {choice.frame.name} {choice.size.label}, {choice.colorway.name}"
    if choice.colorway.version == "sun":
        return f"{text} (sun version; its original lenses come in the parcel)"
    return text


def rate_text(basis_points: int) -> str:
    """A rate in percent without needless zeros.

    >>> rate_text(825), rate_text(2100)
    ('8.25 %', '21 %')
    """
    return f"{written(basis_points).rstrip('0').rstrip('.')} %"


def tax_rate(region: Region, kind: str) -> int:
    """The region's rate for a kind of line."""
    return {"frame": region.tax_frame, "lenses": region.tax_lenses, "shipping": region.tax_shipping}[kind]


def line_text(line: Line, choice: Choice, catalog: Catalog, region: Region) -> str:
    """One line of the bill in words."""
    prices = catalog.price_list
    lens = f"{choice.package.maker} {choice.package.name}"
    if line["code"] == "frame":
        return frame_text(choice)
    if line["code"] == "lenses":
        return f"Pair of lenses: {lens}"
    if line["code"] == "lens":
        return f"{SIDES[line['eye']]}: {lens}"
    if line["code"] == "surcharge":
        name = next(one.text for one in prices.surcharges if one.id == line["id"])
        return f"{name} (2 lenses)" if line["count"] == 2 else f"{name}{EYES[line['eye']]}"
    if line["code"] == "discount":
        return next(one.text for one in prices.discounts if one.id == line["id"])
    if line["code"] == "shipping":
        return f"Shipping, {region.name}" if line["cents"] else f"Shipping, {region.name}: free"
    return f"Tax on {TAXED[line['id']]}, {rate_text(tax_rate(region, line['id']))}"
