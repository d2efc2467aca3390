"""The order of a board, its cells as HTML, and the sentences that a kind of lens brings with it."""

from typing import get_args

import pytest
from bs4 import BeautifulSoup

from quoting.catalog.load import load
from quoting.catalog.model import KINDS, Light
from quoting.offers import Offers
from quoting.places import shared
from quoting.site import board, cautions
from quoting.site.cells import Cell, cell_html, cells_html
from tests.site.conftest import DAY


@pytest.fixture(scope="module")
def catalog():
    return load(shared("demo_catalog"))[0]


@pytest.mark.parametrize("frame", ["cottering", "padstrow"])
def test_designs_stand_by_kind_and_those_that_fit_nowhere_last_of_their_kind(catalog, frame):
    chosen = catalog.frames[frame]
    made = board.board_of(Offers(catalog, DAY), chosen, chosen.sizes[0])
    order = list(board.KINDS)
    kinds = [order.index(group.design.kind) for group in made.groups]
    assert kinds == sorted(kinds)
    for kind in set(kinds):
        fitting = [any(row.fits for row in one.rows) for one in made.groups if order.index(one.design.kind) == kind]
        assert fitting == sorted(fitting, reverse=True)
    assert {row.package.id for row in made.rows()} == catalog.packages.keys()
    assert made.packages == len(catalog.packages)
    assert made.fitting == sum(any(cell.verdict != "no" for cell in row.cells) for row in made.rows())


def test_a_wrap_frame_takes_other_lenses_than_a_flat_one(catalog):
    offers = Offers(catalog, DAY)
    fitting = []
    for frame in (catalog.frames["cottering"], catalog.frames["padstrow"]):
        rows = board.board_of(offers, frame, frame.sizes[0]).rows()
        fitting.append({row.package.id for row in rows if row.fits})
    assert fitting[1] < fitting[0]


def test_every_kind_has_a_place_and_a_name():
    assert set(board.KINDS) == set(KINDS) == set(cautions.KIND)
    assert set(cautions.LIGHT) == set(get_args(Light))


def test_lenses_that_are_not_for_night_driving_or_children_say_so(catalog):
    for package in catalog.packages.values():
        told = " ".join(cautions.matters(package))
        assert ("night" in told) == (package.light != "clear")
        assert ("anyone under 18" in told) == (not package.material.impact_resistant)
        assert ("measured in the frame" in told) == (package.design.kind in ("progressive", "bifocal"))


def test_text_in_a_cell_stays_text():
    hostile = '<b onclick="x">&'
    cell = BeautifulSoup(cell_html(Cell("no", "", "", hostile, (hostile, hostile))), "html.parser").td
    assert cell.find_all("b") == []
    assert cell.select_one(".why").get_text() == hostile
    assert cell["title"] == f"{hostile} {hostile}"


def test_a_lens_that_fits_but_has_no_price_says_ask_us():
    cell = BeautifulSoup(cell_html(Cell("fits", "", "3.4", "", ())), "html.parser").td
    assert cell.select_one(".price").get_text() == "ask us"


def test_equal_cells_are_made_once():
    one, other = Cell("fits", "$1.00", "3.4", "", ()), Cell("fits", "$1.00", "3.4", "", ())
    assert cell_html(one) is cell_html(other)
    assert cells_html((one, other)) == cell_html(one) * 2
