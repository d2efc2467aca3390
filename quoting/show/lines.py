"""What the lines of a bill say."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.catalog.shop import Catalog, Region
from quoting.kernel.records import Line
from quoting.languages import _, decimals, marked
from quoting.money import written
from quoting.offers import Choice

# A line's words by its key, see `line_key`.  The page writes its lines with the same ones.
LINE_TEXTS = marked({
    "frame": "{frame}",
    "frame sun": "{frame} (sun version; its original lenses come in the parcel)",
    "lenses": "Pair of lenses: {lens}",
    "lens R": "Right lens: {lens}",
    "lens L": "Left lens: {lens}",
    "surcharge": "{name}",
    "surcharge 2": "{name} (2 lenses)",
    "surcharge R": "{name}, right eye",
    "surcharge L": "{name}, left eye",
    "discount": "{name}",
    "shipping": "Shipping, {region}",
    "shipping free": "Shipping, {region}: free",
    "tax frame": "Tax on the frame, {rate}",
    "tax lenses": "Tax on the lenses, {rate}",
    "tax shipping": "Tax on shipping, {rate}",
})  # fmt: skip


def frame_text(choice: Choice) -> str:
    """Frame, size and colorway."""
    return f"{choice.frame.maker} {choice.frame.name} {decimals(choice.size.label)}, {choice.colorway.name}"


def rate_text(basis_points: int) -> str:
    """A rate in percent without needless zeros.

    >>> rate_text(825), rate_text(2100)
    ('8.25 %', '21 %')
    """
    return decimals(f"{written(basis_points).rstrip('0').rstrip('.')} %")


def tax_rate(region: Region, kind: str) -> int:
    """The region's rate for a kind of line."""
    return {"frame": region.tax_frame, "lenses": region.tax_lenses, "shipping": region.tax_shipping}[kind]


def line_key(line: Line, sun: bool) -> str:
    """Which of the texts a line has; ``sun``: the frame's colorway is a sun version."""
    code = line["code"]
    if code == "frame":
        return "frame sun" if sun else code
    if code == "lens":
        return f"lens {line['eye']}"
    if code == "surcharge":
        return "surcharge 2" if line["count"] == 2 else f"surcharge {line['eye']}".removesuffix(" B")
    if code == "shipping":
        return code if line["cents"] else "shipping free"
    return f"tax {line['id']}" if code == "tax" else code


def line_words(line: Line, catalog: Catalog, region: Region) -> str:
    """What a line names that is neither frame nor lens: a surcharge, a discount, a region, a rate; else nothing."""
    code, prices = line["code"], catalog.price_list
    if code == "shipping":
        return region.name
    if code == "tax":
        return rate_text(tax_rate(region, line["id"]))
    named = prices.discounts if code == "discount" else prices.surcharges
    return {one.id: one.text for one in named}.get(line["id"], "")


def line_filled(key: str, words: str, frame: str, lens: str) -> str:
    """The text of a line by its key, with what it names."""
    return _(LINE_TEXTS[key]).format(frame=frame, lens=lens, name=words, region=words, rate=words)


def line_text(line: Line, choice: Choice, catalog: Catalog, region: Region) -> str:
    """One line of the bill in words."""
    key = line_key(line, choice.colorway.sun)
    lens = f"{choice.package.maker} {choice.package.name}"
    return line_filled(key, line_words(line, catalog, region), frame_text(choice), lens)
