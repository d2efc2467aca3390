"""JSON-LD of frames, lenses and articles.

Properties and the types of their values: schema.org, Product, AggregateOffer, Offer, Article (vocabulary 28, from
memory); price as a number with a point and without a sign, priceCurrency in ISO 4217: schema.org/price.
"""

import json
import re

import pytest

from quoting.catalog.load import load
from quoting.places import shared

PROPERTIES = {
    "Product": {"name", "description", "brand", "category", "material", "size", "offers"},
    "AggregateOffer": {"priceCurrency", "lowPrice", "highPrice", "offerCount", "seller", "offers"},
    "Offer": {"name", "price", "priceCurrency", "availability"},
    "Article": {"headline", "description", "datePublished", "author"},
    "Organization": {"name"},
    "Brand": {"name"},
}
AVAILABLE = {"https://schema.org/InStock", "https://schema.org/BackOrder", "https://schema.org/OutOfStock"}


def nodes(value):
    if isinstance(value, dict):
        yield value
        for one in value.values():
            yield from nodes(one)
    elif isinstance(value, list):
        for one in value:
            yield from nodes(one)


@pytest.fixture(scope="module")
def blocks(pages):
    found = {page: soup.find_all("script", type="application/ld+json") for page, soup in pages.items()}
    return {page: json.loads(scripts[0].string) for page, scripts in found.items() if scripts}


def test_every_frame_lens_and_article_says_what_it_is(blocks, pages):
    told = {page for page in pages if re.fullmatch(r"(frames|lenses|combinations|guides)/[^/]+/index\.html", page)}
    assert blocks.keys() == told


def test_types_have_no_property_that_schema_org_does_not_give_them(blocks):
    for page, block in blocks.items():
        assert block["@context"] == "https://schema.org"
        for node in nodes(block):
            assert node.keys() - {"@type", "@context"} <= PROPERTIES[node["@type"]], page
            for name in ("price", "lowPrice", "highPrice"):
                assert name not in node or re.fullmatch(r"\d+\.\d\d", node[name])
            assert node.get("availability", "https://schema.org/InStock") in AVAILABLE


def test_a_frames_offers_are_its_colorways(blocks):
    catalog, _ = load(shared("demo_catalog"))
    for frame in catalog.frames.values():
        offers = blocks[f"frames/{frame.id}/index.html"]["offers"]
        cents = [color.price_cents for color in frame.colorways]
        assert [round(float(one["price"]) * 100) for one in offers["offers"]] == cents
        assert (offers["offerCount"], float(offers["lowPrice"]) * 100) == (len(cents), min(cents))
        assert float(offers["highPrice"]) * 100 == max(cents)
