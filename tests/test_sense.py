"""The engine finds what goes with nothing, asks no longer than to the first fit, and says where it gave up."""

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from quoting.catalog.load import load
from quoting.offers import Offers
from quoting.places import shared
from quoting.sense import Searching, alone, powers
from tests.errors.gallery import WHOLE

DAY = date(2026, 10, 1)


@pytest.fixture(scope="module")
def offers():
    return Offers(load(WHOLE, DAY)[0], DAY)


def test_where_everything_fits_something_each_is_asked_for_once(offers):
    search = Searching(offers, 100)
    assert [*search.packages_alone(), *search.sizes_alone()] == []
    assert search.left == 100 - len(search.packages) - len(search.sizes)


def test_powers_are_tried_from_the_weakest_and_only_those_the_package_has(offers):
    package = offers.catalog.packages["plain-150"]
    tried = powers(offers, package)
    assert tried[0] == 0
    assert [abs(one) for one in tried] == sorted(abs(one) for one in tried)
    assert {min(tried), max(tried)} == {-6.0, 4.0}


def test_a_package_that_is_made_without_weak_powers_is_tried_at_those_it_has(offers):
    package = offers.catalog.packages["plain-150"]
    (part,) = package.ranges
    strong = replace(package, ranges=(replace(part, low=-6.0, high=-4.0),))
    assert powers(offers, strong) == [-6.0]


@pytest.mark.parametrize(("most", "told"), [(3, []), (2, ["not-all-tried"]), (1, ["not-all-tried"])])
def test_where_the_engine_is_not_asked_for_all_that_is_said(offers, most, told):
    assert [finding.code for finding in alone(offers, most)] == told


def test_in_the_demo_shop_everything_goes_with_something():
    folder: Path = shared("demo_catalog")
    assert alone(Offers(load(folder, DAY)[0], DAY)) == []
