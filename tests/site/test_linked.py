"""JSON-LD of frames, lenses and articles, held to the words of schema.org as schema_org.yaml beside this has them."""

import json
import re
from datetime import date
from pathlib import Path

import pytest
import yaml

from quoting.catalog.load import load
from quoting.places import shared

VOCABULARY = yaml.safe_load(Path(__file__).with_name("schema_org.yaml").read_text(encoding="utf-8"))
# What a value of each data type looks like as JSON
DATA = {
    "Text": lambda value: isinstance(value, str) and value.strip() == value != "",
    "URL": lambda value: re.fullmatch(r"https?://[^\s\"<>]+", value),
    "Price": lambda value: re.fullmatch(r"\d+\.\d\d", value),
    "Currency": lambda value: re.fullmatch("[A-Z]{3}", value),
    "Integer": lambda value: type(value) is int,
    "Date": lambda value: date.fromisoformat(value).isoformat() == value,
    "ItemAvailability": lambda value: (
        value.removeprefix("https://schema.org/") in VOCABULARY["ItemAvailability"]["members"]
    ),
}


def faults(node, kinds):
    """What of a value is not as the vocabulary has it."""
    kinds = kinds if isinstance(kinds, list) else [kinds]
    if isinstance(node, list):
        return [fault for one in node for fault in faults(one, kinds)] if node else ["an empty list"]
    if kinds[0] in DATA:
        return [] if DATA[kinds[0]](node) else [f"{node!r} is no {kinds[0]}"]
    if node.get("@type") not in kinds:
        return [f"{node.get('@type')} stands where {kinds} belongs"]
    known = VOCABULARY[node["@type"]]
    found = [f"{node['@type']} has no {name}" for name in known["required"] if name not in node]
    for name, value in node.items():
        if name.startswith("@"):
            continue
        expected = known["properties"].get(name)
        found += faults(value, expected) if expected else [f"{node['@type']} knows no {name}"]
    return found


@pytest.fixture(scope="module")
def blocks(pages):
    found = {page: soup.find_all("script", type="application/ld+json") for page, soup in pages.items()}
    return {page: json.loads(scripts[0].string) for page, scripts in found.items() if scripts}


@pytest.fixture(scope="module")
def catalog():
    return load(shared("demo_catalog"))[0]


def test_every_frame_lens_and_article_says_what_it_is(blocks, pages):
    told = {page for page in pages if re.fullmatch(r"(frames|lenses|combinations|guides)/[^/]+/index\.html", page)}
    assert blocks.keys() == told


def test_all_of_it_is_in_the_words_of_schema_org(blocks):
    for page, block in blocks.items():
        assert block["@context"] == "https://schema.org"
        assert faults(block, ["Product", "Article"]) == [], page


@pytest.mark.parametrize(
    ("value", "fault"),
    [
        ({"@type": "Product", "name": "Kestrel"}, "Product has no offers"),
        ({"@type": "Brand", "name": ""}, "'' is no Text"),
        ({"@type": "Offer", "price": "12,90", "priceCurrency": "USD"}, "'12,90' is no Price"),
        ({"@type": "Offer", "price": "12.90", "priceCurrency": "$"}, "'$' is no Currency"),
        (
            {"@type": "Offer", "price": "12.90", "priceCurrency": "USD", "availability": "soon"},
            "'soon' is no ItemAvailability",
        ),
        ({"@type": "Brand", "name": "Hallow", "logo": "x"}, "Brand knows no logo"),
        ({"@type": "Person", "name": "Hallow"}, "Person stands where ['Product', 'Brand', 'Offer'] belongs"),
    ],
)  # fmt: skip
def test_what_is_not_in_its_words_is_seen(value, fault):
    assert faults(value, ["Product", "Brand", "Offer"]) == [fault]


def test_a_frames_offers_are_its_colorways(blocks, catalog):
    for frame in catalog.frames.values():
        offers = blocks[f"frames/{frame.id}/index.html"]["offers"]
        cents = [color.price_cents for color in frame.colorways]
        assert [round(float(one["price"]) * 100) for one in offers["offers"]] == cents
        assert (offers["offerCount"], float(offers["lowPrice"]) * 100) == (len(cents), min(cents))
        assert float(offers["highPrice"]) * 100 == max(cents)
        sold = [one["availability"].rpartition("/")[2] for one in offers["offers"]]
        names = {"in-stock": "InStock", "to-order": "BackOrder", "sold-out": "OutOfStock"}
        assert sold == [names[color.stock] for color in frame.colorways]


def test_a_lenss_prices_are_those_of_a_pair(blocks, catalog):
    for package in catalog.packages.values():
        offers = blocks[f"lenses/{package.id}/index.html"]["offers"]
        cents = [2 * band.lens_cents for band in package.prices]
        assert (float(offers["lowPrice"]) * 100, float(offers["highPrice"]) * 100) == (min(cents), max(cents))


def test_each_says_where_it_stands(blocks, catalog):
    for page, block in blocks.items():
        assert block["url"] == f"{catalog.shop.url}/{page}"
