"""What is left of each price: worked out by hand, and against arithmetic that is not ours."""

import shutil
from dataclasses import replace
from datetime import date
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.catalog.load import load
from quoting.catalog.model import PriceBand
from quoting.findings import Mark, errors
from quoting.private.margins import Books, parts
from quoting.private.model import BandCost, Cost, Floor
from quoting.private.read import read_costs
from quoting.private.till import MOST_CENTS, Till
from tests.private.conftest import WHARF

DAY, OFFER_DAY = date(2026, 2, 1), date(2026, 4, 1)
MARK = Mark("", 1, 1)
CATALOG = load(WHARF, DAY)[0]
COSTS = read_costs(WHARF, CATALOG)[0]
HERE, AWAY = CATALOG.price_list.regions


def books(region=HERE, day=DAY, offers=False, costs=COSTS, catalog=CATALOG):
    return Books(catalog, costs, Till.of(catalog, region, day, offers))


def by_id(margins):
    return {(one.id, one.colorway or one.low, one.sizes): one for one in margins}


def test_worked_out_by_hand():
    """29.00 holds 13.5 % tax: 29.00 / 1.135 = 25.5507, so 25.55 is left; of 165.00 with 23 %: 134.1463, so 134.15."""
    found = by_id(books().margins())
    lens = found["plain-150", -2.0, ()]
    assert (lens.low, lens.high, lens.price, lens.net, lens.cost.cents, lens.cents) == (-2, 1, 2900, 2555, 1247, 1308)
    assert lens.percent == pytest.approx(51.19, abs=0.005)
    assert not lens.under_floor
    frame = found["bollard", "rope", ("53-18",)]
    assert (frame.price, frame.net, frame.cost.cents, frame.cents) == (16500, 13415, 7147, 6268)
    assert frame.under_floor
    assert not frame.at_loss
    assert found["cleat", "brass", ("48-19",)].at_loss
    dusk = found["dusk-150", -6.0, ()]  # material 7.43, hard coat 3.19, photochromic 17.89
    assert dusk.cost.cents == 743 + 319 + 1789


def test_a_band_of_one_price_is_told_in_parts_of_one_cost():
    rows = [(one.low, one.high, one.price, one.cost.cents) for one in books().margins() if one.id == "plain-150"]
    assert rows == [
        (-6.0, -4.25, 3900, 2671),
        (-4.0, -2.25, 3900, 1247),
        (-2.0, 1.0, 2900, 1247),
        (1.25, 2.0, 2900, 1459),
        (2.25, 4.0, 3500, 1459),
    ]


def test_what_is_not_known_is_told_and_never_taken_for_less():
    """A lens that goes by its material needs the cost of all that comes on it."""
    found = {one.id: one for one in books().margins()}
    assert (found["glare-150"].cost, found["glare-150"].missing) == (None, ("polarized",))
    assert (found["thin-160"].cost, found["thin-160"].missing) == (None, ("package",))
    assert (found["tint"].cost, found["tint"].missing) == (None, ("option",))
    for one in books().margins():
        if one.cost is None:
            assert (one.cents, one.percent, one.under_floor, one.at_loss) == (None, None, False, False)


def test_a_packages_own_cost_goes_before_that_of_its_material():
    found = {one.id: one for one in books().margins()}
    own = replace(COSTS, packages={**COSTS.packages, "dusk-150": (BandCost(-40.0, 40.0, Cost(2000, MARK)),)})
    again = {one.id: one for one in books(costs=own).margins()}
    assert (found["dusk-150"].cost.cents, again["dusk-150"].cost.cents) == (2851, 2000)


def test_prices_without_tax_are_left_whole_and_so_is_a_region_without_tax():
    bare = replace(CATALOG, price_list=replace(CATALOG.price_list, tax_included=False))
    assert all(one.net == one.price for one in books(catalog=bare).margins())
    assert all(one.net == one.price for one in books(region=AWAY).margins())


@given(st.integers(0, MOST_CENTS), st.integers(0, 100_00))
def test_the_tax_inside_a_price_is_that_of_plain_decimal_arithmetic(cents, rate):
    """net · (1 + rate) = price; the tax is rounded half up to the cent, as a bill of that one piece rounds it."""
    till = Till(replace(HERE, tax_frame=rate), True, None)
    tax = Decimal(cents) * rate / (10_000 + rate)
    assert till.net("frame", cents) == cents - int(tax.quantize(Decimal(1), ROUND_HALF_UP))


def test_offers_that_everybody_gets_are_taken_off_where_asked():
    """10 % off lenses in spring: a pair at 58.00 costs 52.20, one lens 26.10, of which 3.10 are tax (13.5 %)."""
    plain = by_id(books(day=OFFER_DAY).margins())
    found = by_id(books(day=OFFER_DAY, offers=True).margins())
    key = ("plain-150", -2.0, ())
    assert (plain[key].net, found[key].price, found[key].net) == (2555, 2900, 2610 - 310)
    frame = ("cleat", "brass", ("48-19",))
    assert found[frame].net == plain[frame].net
    assert by_id(books(offers=True).margins())[key].net == 2555  # in February there is none


@given(
    st.integers(0, 60_000),
    st.integers(0, 99_00),
    st.integers(0, 20_000),
    st.sampled_from(["lens", "frame"]),
    st.booleans(),
    st.sampled_from([HERE, AWAY]),
)
def test_the_least_price_keeps_the_floor_and_a_cent_less_does_not(cost, points, amount, kind, offers, region):
    till, floor = Till.of(CATALOG, region, OFFER_DAY, offers), Floor(points, amount)
    least = till.least(kind, cost, floor)
    needed = max(Fraction(cost * 10_000, 10_000 - points), cost + amount)
    if least is None:
        assert needed > MOST_CENTS * Fraction(7, 10)  # tax and offers take less than the rest
        return
    assert floor.kept_by(till.net(kind, least), cost)
    assert till.net(kind, least) >= needed
    assert least == 0 or not floor.kept_by(till.net(kind, least - 1), cost)


def test_a_floor_is_kept_to_the_cent():
    floor = Floor(4000, 500)
    assert floor.kept_by(2000, 1200)
    assert not floor.kept_by(2000, 1201)  # 39.95 %
    assert not floor.kept_by(1000, 501)  # 4.99
    assert Floor(0, 0).kept_by(0, 0)
    assert not Floor(0, 0).kept_by(0, 1)


quarters = st.integers(-160, 160).map(lambda n: n / 4)


@given(
    quarters,
    st.integers(0, 80),
    st.lists(st.tuples(st.integers(0, 12), st.integers(1, 20), st.integers(0, 3)), max_size=8),
)
def test_parts_hold_each_power_of_the_band_once_at_its_own_cost(low, width, drawn):
    """Rows in any order of widths, with gaps and without, that may begin before the band and end behind it."""
    rows, at = [], low - 5.0
    for gap, steps, cents in drawn:
        at += gap / 4
        rows.append(BandCost(at, at + (steps - 1) / 4, Cost(cents, MARK)))
        at += steps / 4
    band = PriceBand(low, low + width / 4, 100, MARK)
    found = list(parts(band, tuple(rows)))
    powers = [low + n / 4 for n in range(width + 1)]
    for power in powers:
        here = [cost for first, last, cost in found if first <= power <= last]
        meant = [row.cost for row in rows if row.low <= power <= row.high]
        assert here == (meant or [None])
    assert [first for first, *_ in found] == sorted({first for first, *_ in found})
    assert (found[0][0], found[-1][1]) == (band.low, band.high)


def test_a_price_of_nothing(costs_of, wharf):
    """No percentage can be told of it, and its cost is a loss."""
    path = wharf / "frames/tidewell.yaml"
    path.write_text(path.read_text(encoding="utf-8").replace("price: 89.00", "price: 0"), encoding="utf-8")
    costs, findings = costs_of("frames: {cleat: {tin: 12, brass: 12}}\nfloor: {percent: 10}\n")
    assert errors(findings) == []
    catalog = load(wharf, DAY)[0]
    (one,) = [one for one in books(costs=costs, catalog=catalog).margins() if one.colorway == "tin"]
    assert (one.net, one.cents, one.percent, one.at_loss, one.under_floor) == (0, -1200, None, True, True)


def test_a_lens_that_is_more_than_single_vision_needs_the_cost_of_its_design(corner_books):
    """Else a progressive would be taken for a single vision lens of its material, which costs far less."""
    text = "materials: {r160: 9.00}\noptions: {hard coat and anti-reflective: 5.00"
    found = corner_books(text + "}\n")
    assert (found["thin-160"].cost.cents, found["flow-160"].cost) == (1400, None)
    assert found["flow-160"].missing == ("progressive",)
    assert corner_books(text + ", progressive: 30.00}\n")["flow-160"].cost.cents == 4400
    assert corner_books(text + ", progressive: 30.00, prog: 33.00}\n")["flow-160"].cost.cents == 4700


@pytest.fixture
def corner_books(tmp_path):
    """Margins of the corner shop by the ids of lenses, at costs that are written for it."""

    def margins(text):
        shop = shutil.copytree(WHARF.parent / "corner", tmp_path / "corner", dirs_exist_ok=True)
        (shop / "private").mkdir(exist_ok=True)
        (shop / "private/costs.yaml").write_text(text, encoding="utf-8")
        catalog = load(shop, DAY)[0]
        costs, findings = read_costs(shop, catalog)
        assert findings == []
        till = Till.of(catalog, catalog.price_list.regions[0], DAY)
        return {one.id: one for one in Books(catalog, costs, till).margins()}

    return margins
