"""The order of a board, its cells as HTML, and the sentences that a kind of lens brings with it."""

import re

import pytest
from bs4 import BeautifulSoup

from quoting.band import band_prescription
from quoting.catalog.load import load
from quoting.catalog.model import KINDS
from quoting.offers import Ask, Choice, Offers
from quoting.places import shared
from quoting.show.brief import BRIEF, ELSEWHERE, MEANINGS, brief
from quoting.show.reasons import WORDS
from quoting.site import board
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
    assert made.fitting == sum(any(cell.fits for cell in row.cells) for row in made.rows())


def test_a_wrap_frame_takes_other_lenses_than_a_flat_one(catalog):
    offers = Offers(catalog, DAY)
    fitting = []
    for frame in (catalog.frames["cottering"], catalog.frames["padstrow"]):
        rows = board.board_of(offers, frame, frame.sizes[0]).rows()
        fitting.append({row.package.id for row in rows if row.fits})
    assert fitting[1] < fitting[0]


def test_every_kind_has_a_place_and_a_name():
    assert set(board.KINDS) == set(KINDS)


def test_text_in_a_cell_stays_text():
    hostile = '<b onclick="x">&'
    cell = BeautifulSoup(cell_html(Cell("no", notes=(hostile, hostile))), "html.parser").td
    assert cell.find_all("b") == []
    assert [note.get_text() for note in cell.select(".why")] == [hostile, hostile]
    assert cell.attrs.keys() == {"class"}


def test_a_lens_that_fits_but_has_no_price_says_ask_us():
    cell = BeautifulSoup(cell_html(Cell("fits", "", "edge 3.4")), "html.parser").td
    assert cell.select_one(".price").get_text() == "ask us"


def test_equal_cells_are_made_once():
    one, other = Cell("fits", "$1.00", "edge 3.4"), Cell("fits", "$1.00", "edge 3.4")
    assert cell_html(one) is cell_html(other)
    assert cells_html((one, other)) == cell_html(one) * 2


def test_every_short_reason_has_a_meaning_in_a_whole_sentence():
    assert MEANINGS.keys() == BRIEF.keys() == WORDS.keys()
    for meaning in [*MEANINGS.values(), *(said for _, said in ELSEWHERE.values())]:
        assert meaning[0].isupper()
        assert meaning[-1] == "."
        assert "{" not in meaning


def test_two_numbers_that_read_the_same_get_another_decimal(catalog):
    package = next(iter(catalog.packages.values()))
    reason = {"code": "edge-too-thin", "verdict": "no", "eye": "B", "needed": 2.0, "given": 1.98}
    assert brief(reason, package) == "edge 1.98, needs 2.00"
    assert brief({**reason, "given": 1.9}, package) == "edge 1.9, needs 2.0"


# The other ends of the bands, on the small shop: rim numbers are the engine's, which ends and which words the rules'


@pytest.fixture
def cells(corner, rewrite):
    """The cells of a frame of the small shop, by package and band, after its files were changed."""

    def make(frame, *changes):
        for change in changes:
            rewrite(*change)
        catalog = load(corner)[0]
        chosen = catalog.frames[frame]
        made = board.board_of(Offers(catalog, DAY), chosen, chosen.sizes[0])
        return {row.package.id: row for row in made.rows()}

    return make


BANDS = ("shop.yaml", "{from: -4.00, to: +2.00}", "{from: -4.00, to: -2.25}\n  - {from: -2.00, to: +2.00}")
MINUS, AROUND_PLANO = 1, 2


def test_a_finished_lens_too_thin_at_the_plus_end_is_a_caution_with_both_numbers(cells):
    thin = ("lenses/pennock.yaml", "{from: +0.25, to: +2.00, center: 3.2}", "{from: +0.25, to: +2.00, center: 2.4}")
    row = cells("alder", BANDS, thin)["plain-150"]
    cell = row.cells[AROUND_PLANO]
    assert (cell.verdict, cell.price, cell.fits) == ("caution", "$40.00", True)
    (note,) = cell.notes
    assert re.fullmatch(r"not at \+2\.00: edge 0\.\d, needs 1\.0", note)
    assert cell.codes == ("edge-too-thin", "not-at")
    assert row.cells[MINUS].verdict == "fits"


def test_a_finished_lens_too_thin_between_the_ends_is_told_at_that_power(cells):
    steps = (
        "lenses/pennock.yaml",
        "{from: +0.25, to: +2.00, center: 3.2}",
        "{from: +0.25, to: +1.50, center: 1.6}\n      - {from: +1.75, to: +2.00, center: 3.2}",
    )
    cell = cells("alder", BANDS, steps)["plain-150"].cells[AROUND_PLANO]
    assert cell.verdict == "caution"
    assert cell.notes[0].startswith("not at +1.50: edge ")


def test_a_power_at_the_other_end_that_is_not_made_is_told(cells):
    cell = cells("alder", BANDS, ("lenses/pennock.yaml", "+2.00, cylinder: 2.00", "+1.00, cylinder: 2.00"))
    assert cell["plain-150"].cells[AROUND_PLANO].notes == ("not at +2.00: made to +1.00",)


def test_a_caution_at_the_other_end_is_a_caution(cells):
    """Base curves by Vogel's rule: -2.00 wants 5, +2.00 wants 8; the frame has 4 and the shop accepts 2 D."""
    cell = cells("alder", BANDS)["thin-160"].cells[AROUND_PLANO]
    assert (cell.verdict, cell.notes) == ("caution", ("at +2.00: steeper than frame",))


def test_where_only_weaker_powers_fit_the_cell_says_no_and_that_and_counts(cells):
    limits = ("shop.yaml", "edge_caution: 8.0, edge_no: 11.0", "edge_caution: 3.4, edge_no: 4.0")
    row = cells("alder", BANDS, limits)["thin-160"]
    cell = row.cells[MINUS]
    assert (cell.verdict, cell.partly, cell.fits, cell.price) == ("no", True, True, "")
    assert re.fullmatch(r"edge \d\.\d+, takes <4\.0+", cell.notes[0])
    assert cell.notes[1:] == ("weaker may fit",)
    assert row.fits == sum(one.fits for one in row.cells) > sum(one.verdict != "no" for one in row.cells)
    html = BeautifulSoup(cell_html(cell), "html.parser").td
    assert html["class"] == ["no", "partly"]
    assert html.select_one(".price") is None


def test_the_end_across_plano_is_not_called_weaker(cells):
    limits = ("shop.yaml", "edge_caution: 8.0, edge_no: 11.0", "edge_caution: 3.0, edge_no: 3.0")
    assert "+2.00 may fit" in cells("alder", BANDS, limits)["thin-160"].cells[AROUND_PLANO].notes


def test_a_power_beyond_what_is_made_asks_no_other_end(catalog):
    weaker = []

    class Strict(Offers):
        def fit_at(self, choice, power):
            strongest = {band.other: band.strongest for band in catalog.shop.bands}.get(power, power)
            if strongest != power:
                fit = super().fit_at(choice, strongest)
                assert "not-made" not in (fit["right"]["fault"], fit["left"]["fault"])
                assert choice.package.material.drillable or choice.frame.mounting != "drilled"
                weaker.append(power)
            return super().fit_at(choice, power)

    for name in ("cottering", "moorvane"):
        frame = catalog.frames[name]
        made = board.board_of(Strict(catalog, DAY), frame, frame.sizes[0])
        beyond = [cell for row in made.rows() for cell in row.cells if cell.codes[:1] == ("power-too-minus",)]
        assert beyond
        assert all(len(cell.notes) == 1 and not cell.fits for cell in beyond)
    assert weaker


def test_what_holds_for_every_power_is_told_before_what_holds_for_one(catalog):
    frame = catalog.frames["moorvane"]
    assert frame.mounting == "drilled"
    for row in board.board_of(Offers(catalog, DAY), frame, frame.sizes[0]).rows():
        if not row.package.material.drillable:
            assert {cell.notes for cell in row.cells} == {("not for drilling",)}


@pytest.mark.parametrize("name", ["eskerby", "lissoway"])
def test_no_cell_says_fits_where_the_engine_refuses_a_power_of_its_column(catalog, name):
    """Every quarter diopter of every column is asked."""
    offers, frame = Offers(catalog, DAY), catalog.frames[name]
    told = 0
    for row in board.board_of(offers, frame, frame.sizes[0]).rows():
        choice = Choice(frame, frame.sizes[0], frame.colorways[0], row.package)
        for cell, band in zip(row.cells, catalog.shop.bands, strict=True):
            if cell.verdict == "no":
                continue
            powers = [band.low + step / 4 for step in range(round((band.high - band.low) * 4) + 1)]
            asks = [Ask(band_prescription(row.package, power)) for power in powers]
            verdicts = {offers.offer(choice, ask).fit["verdict"] for ask in asks}
            assert (cell.verdict == "fits") == (verdicts == {"fits"})
            assert any(note.startswith("not at ") for note in cell.notes) == ("no" in verdicts)
            told += "no" in verdicts
    assert told


def test_the_center_is_shown_where_it_is_thicker_than_the_edge(catalog):
    offers, frame = Offers(catalog, DAY), catalog.frames["cottering"]
    choice = Choice(frame, frame.sizes[0], frame.colorways[0], catalog.packages["flat-160-ar"])
    seen = set()
    row = board.row_of(offers, frame, frame.sizes[0], choice.package)
    for band, cell in zip(catalog.shop.bands, row.cells, strict=True):
        lens = offers.cell(choice, band).fit["right"]
        if cell.verdict != "no":
            thick = lens["center"] > lens["edge_max"]
            more = f", center {lens['center']:.1f}" if thick else ""
            assert cell.thickness == f"edge {lens['edge_max']:.1f}{more}"
            seen.add((thick, band.strongest > 0))
    assert seen == {(True, True), (False, False)}
