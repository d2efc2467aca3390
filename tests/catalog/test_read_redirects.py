"""Pages that moved: every way to write a place means the same page, and nobody is led in a circle."""

import pytest

from quoting.catalog.load import load
from tests.catalog.mangling import FILES, shop

SHOP = FILES["shop.yaml"].decode().partition("redirects:\n")[0]


def read(*lines):
    with shop(shop=SHOP + "redirects:\n" + "".join(f"  {line}\n" for line in lines)) as folder:
        catalog, findings = load(folder)
        return catalog, [finding.code for finding in findings], [finding.mark.column for finding in findings]


@pytest.mark.parametrize("old", ["frames/kestrel", "/frames/kestrel/", "frames/kestrel/index.html"])
def test_a_place_may_be_written_as_in_the_address_or_as_a_file(old):
    catalog, codes, _ = read(f"{old}: frames")
    assert codes == []
    assert [(one.old, one.new) for one in catalog.shop.redirects] == [
        ("frames/kestrel/index.html", "frames/index.html")
    ]


def test_a_shop_without_any_has_none():
    with shop() as folder:
        assert load(folder)[0].shop.redirects == ()


@pytest.mark.parametrize("place", ["../up", "frames/../x", ".hidden", "https://elsewhere.example.org/", "two words"])
def test_what_is_no_place_in_the_site_is_refused_on_either_side(place):
    assert read(f'frames/kestrel: "{place}"')[1] == ["wrong-form"]
    assert read(f'"{place}": frames')[1] == ["wrong-form"]


def test_a_circle_is_told_at_each_of_its_lines_and_what_leads_into_it_is_not():
    _, codes, _ = read("a: b", "b: c", "c: b")
    assert codes == ["redirect-circle", "redirect-circle"]
    assert read("a: a")[1] == ["redirect-circle"]


def test_one_page_written_twice_is_told():
    assert read("a: frames", "a/: lenses")[1:] == (["duplicate-id"], [3])  # at the name of the second
